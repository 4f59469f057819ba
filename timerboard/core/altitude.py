"""Boiling point of water from height or pressure, and what height does to boiled steps.

Pressure: US Standard Atmosphere 1976 (the same as ICAO's up to 11 km): p = 101325 Pa (1 - 2.25577e-5 h)^5.25588.
Boiling point: IAPWS-IF97 (R7-97), region 4, backward equation 31: exact to its printed digits from 273.15 to 647 K.
Safe core temperatures do not change with height (FSIS, high altitude advice).
"""

import math
import re
from collections.abc import Callable

from .menu import Batches, Cue, Menu, Step
from .values import Seconds, Span

SEA_LEVEL_PA = 101_325.0
EARTH_M = 6_356_766.0
HIGHEST_M = 6000.0
LOWEST_M = -430.0
FOOT_M = 0.3048

_N = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip
"""IF97 table 34: n1 to n10."""

LONGER_PER_C = 0.07
"""The stated rule: a boiled step takes 7 % longer for each degree that water boils lower. The middle of the 4 to 11 %
per 1000 ft (about 1 °C) that extension leaflets give for vegetables; common practice, from memory."""

BOILING = re.compile(r"\b(?:par-?)?(?:boil|simmer|poach|blanch|steam|stew|braise)(?:s|ed|ing)?\b")
HOT_OVEN_WORDS = ("oven",)


def pressure_pa(height_m: float) -> float:
    """Standard air pressure at a height. Raises ValueError beyond where people cook (-430 to 6000 m)."""
    if not LOWEST_M <= height_m <= HIGHEST_M:
        raise ValueError(f"a height lies between {LOWEST_M:g} and {HIGHEST_M:g} m")
    level = EARTH_M * height_m / (EARTH_M + height_m)  # geopotential height
    return SEA_LEVEL_PA * math.pow(1.0 - 2.25577e-5 * level, 5.25588)


def boiling_c(pressure: float) -> float:
    """Boiling point in °C at a pressure in Pa. Raises ValueError outside IF97's region 4 (611.213 Pa to 22.064 MPa)."""
    if not 611.213 <= pressure <= 22.064e6:
        raise ValueError("water boils between 611 Pa and 22 MPa")
    beta = math.pow(pressure / 1e6, 0.25)
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - math.sqrt(f * f - 4 * e * g))
    kelvin = (_N[9] + d - math.sqrt((_N[9] + d) ** 2 - 4 * (_N[8] + _N[9] * d))) / 2
    return kelvin - 273.15


def boiling_at_c(height_m: float) -> float:
    """Boiling point in °C at a height in a standard atmosphere."""
    return boiling_c(pressure_pa(height_m))


def longer(boils_at_c: float) -> float:
    """How many times longer a boiled step takes where water boils at `boils_at_c`; never shorter."""
    return 1.0 + LONGER_PER_C * max(0.0, boiling_c(SEA_LEVEL_PA) - boils_at_c)


def is_boiled(step: Step) -> bool:
    """Whether a step's time hangs on boiling water: its words say so, no oven heats it, no thermometer ends it."""
    in_oven = any(word in use.place.lower() for use in step.uses for word in HOT_OVEN_WORDS)
    return step.pull_at_c is None and not in_oven and BOILING.search(step.do.lower()) is not None


def at_height(menu: Menu, boils_at_c: float) -> Menu:
    """The menu with its boiled steps longer by the stated rule; the very same one at sea level."""
    times = longer(boils_at_c)
    return menu if times == 1.0 else step_by_step(menu, lambda step: boiled_longer(step, times))


def boiled_longer(written: Step, times: float) -> Step:
    """A step as it is cooked where what boils takes `times` as long. The one place in which height is applied."""
    return longer_step(written, times) if times != 1.0 and is_boiled(written) else written


def step_by_step(menu: Menu, change: Callable[[Step], Step]) -> Menu:
    """The menu with every step changed. Built anew and not copied: a copy would keep the old menu's known steps."""
    dishes = tuple(
        dish.model_copy(update={"steps": tuple(change(step) for step in dish.steps)}) for dish in menu.dishes
    )
    fields = {name: getattr(menu, name) for name in Menu.model_fields}
    return Menu(**{**fields, "dishes": dishes})


def longer_step(step: Step, times: float) -> Step:
    """A step that takes `times` as long, load by load where it has several."""
    changes: dict[str, object] = {"span": _span(step.span, times), "cues": tuple(_cue(c, times) for c in step.cues)}
    if step.batches is not None:
        each, recover = _span(step.batches.each, times), step.batches.recover
        count = step.batches.count
        changes["batches"] = Batches(count=count, each=each, recover=recover)
        changes["span"] = Span(
            low=count * each.low + (count - 1) * recover.low,
            likely=count * each.likely + (count - 1) * recover.likely,
            high=count * each.high + (count - 1) * recover.high,
        )
    return step.model_copy(update=changes)


def _span(span: Span, times: float) -> Span:
    return Span(low=_round(span.low, times), likely=_round(span.likely, times), high=_round(span.high, times))


def _round(written: Seconds, times: float) -> Seconds:
    """To half a minute (short ones to five seconds), as cooks write lengths: the rule knows no seconds."""
    longer_s = written * times
    grid = GRID_S if longer_s >= SHORT_S else SHORT_GRID_S
    return max(written, round(longer_s / grid) * grid)


GRID_S, SHORT_GRID_S, SHORT_S = 30, 5, 300


def _cue(cue: Cue, times: float) -> Cue:
    """A cue at a set time moves with the step; one that repeats keeps its interval: a pot is stirred as often."""
    return cue if cue.at_s is None else cue.model_copy(update={"at_s": _round(cue.at_s, times)})
