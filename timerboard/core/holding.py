"""Holding hot, holding cold, and coming up through the danger zone: what the rules are and what the readings show.

Hot holding at 57 °C or more, cold holding at 5 °C or less: FDA Food Code 2022, 3-501.16(A). The core of meat between
10 °C and 54 °C for 6 h at most: USDA FSIS GD-2021-14, come-up-time option. Readings speak only for their moments.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from .choices import food_kinds
from .cook import Cook, Reading, StepState
from .food_clocks import dish_readings
from .food_kind import MEATS, food_kind
from .food_places import Kept, kept
from .menu import Dish, Step
from .quantity_words import celsius_words, duration_words
from .safety_rules import LIMITS, LimitRule
from .values import MS, Moment

COME_UP_FROM_C, COME_UP_TO_C = 10.0, (130.0 - 32.0) / 1.8
HAIR_C = 0.01
USUAL_START_C = 5.0


@dataclass(frozen=True, slots=True)
class LimitVerdict:
    """One limit against the readings. `met` None: the readings do not tell yet."""

    rule: LimitRule
    met: bool | None
    said: str


def hot_holding(readings: Sequence[Reading], since: Moment, units: str = "C") -> LimitVerdict:
    """Whether every core reading from `since` on is at 57 °C or more."""
    return _holding(LIMITS["hot"], readings, since, units, least=True)


def cold_holding(readings: Sequence[Reading], since: Moment, units: str = "C") -> LimitVerdict:
    """Whether every core reading from `since` on is at 5 °C or less."""
    return _holding(LIMITS["cold"], readings, since, units, least=False)


def _holding(rule: LimitRule, readings: Sequence[Reading], since: Moment, units: str, *, least: bool) -> LimitVerdict:
    core = [r.celsius for r in readings if r.of == "core" and r.at >= since]
    way = "at or above" if least else "at or below"
    limit = celsius_words(round(rule.celsius, 1), units)
    asked = f"The rule for {rule.what} asks for {way} {limit} ({rule.whose}, {rule.section})."
    if not core:
        return LimitVerdict(rule, None, f"{asked} No reading is there yet.")
    worst = min(core) if least else max(core)
    met = worst >= rule.celsius - HAIR_C if least else worst <= rule.celsius + HAIR_C
    if met:
        return LimitVerdict(rule, True, f"{asked} The readings meet it.")
    return LimitVerdict(rule, False, f"{asked} {celsius_words(worst, units)} was read.")


def come_up(readings: Sequence[Reading], started: Moment, now: Moment, units: str = "C") -> LimitVerdict:
    """How long the core has been between 10 °C and 54 °C: from the last reading at or under 10 °C (from the start of
    the heat without one) to the first at or above 54 °C, or until now.
    """
    rule = LIMITS["come_up"]
    core = sorted((r for r in readings if r.of == "core"), key=lambda r: r.at)
    hot = next((r.at for r in core if r.celsius >= COME_UP_TO_C - HAIR_C), None)
    cold = [r.at for r in core if r.celsius <= COME_UP_FROM_C and (hot is None or r.at < hot)]
    since = max([started, *cold[-1:]])
    took = ((now if hot is None else hot) - since) // MS
    bounds = f"{celsius_words(COME_UP_FROM_C, units)} and {celsius_words(round(COME_UP_TO_C, 1), units)}"
    asked = f"The rule asks for at most {duration_words(rule.seconds)} with the core between {bounds}"
    asked = f"{asked} ({rule.whose}, {rule.section})."
    if took > rule.seconds:
        return LimitVerdict(rule, False, f"{asked} It has been {duration_words(took // 60 * 60)}.")
    if hot is None:
        return LimitVerdict(rule, None, f"{asked} It has been {duration_words(took // 60 * 60)} so far at most.")
    return LimitVerdict(rule, True, f"{asked} The readings meet it.")


COME_UP_SAID_S = 3 * 3600
"""The come-up is spoken of once it has lasted half its limit: a roast of an hour need not hear of it."""


def holding_lines(cook: Cook, dish: Dish, now: Moment) -> list[str]:
    """What a drawer says of holding and of coming up: only of what goes on, and only where it has been read."""
    readings, units = dish_readings(cook, dish), cook.menu.units
    lines: list[str] = []
    for step in dish.steps:
        life = cook.lives[step.id]
        if life.state is not StepState.RUNNING or life.started is None:
            continue
        if step.pull_at_c is not None and food_kind(dish, food_kinds(cook)) in MEATS:
            found = come_up(life.readings, life.started, now, units)
            if found.met is False or (found.met is None and now - life.started >= COME_UP_SAID_S * MS):
                lines.append(found.said)
        elif _holds(step) and any(r.at >= life.started for r in readings):
            how = cold_holding if kept(cook.menu, step) is Kept.COLD else hot_holding
            lines.append(how(readings, life.started, units).said)
    return lines


def _holds(step: Step) -> bool:
    """Whether a step keeps food rather than cooks it: its words say so, and no thermometer ends it."""
    words = step.do.lower()
    return step.pull_at_c is None and any(word in words for word in ("hold", "keep", "warm", "chill"))
