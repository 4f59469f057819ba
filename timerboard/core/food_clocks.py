"""Clocks of food that stands in the danger zone. Nobody sets them: they follow from what people did.

A clock begins when the last heating (or chilling) step of a branch of a dish has ended, and ends when a later step
heats or chills it again, when it was put away (eaten, chilled or thrown out), or when a reading shows it cold.
A reading at or above 57 °C begins it anew: it was still hot then. One under 57 °C begins the two stages of cooling.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from .cook import Cook, Reading, StepState
from .food_kind import FoodKind, perishable
from .food_places import Kept, kept
from .menu import Dish, Step
from .safety_rules import LIMITS, LimitRule
from .values import MS, Moment

PUT_AWAY = "Put away"
"""The act that ends the clocks of a dish: a cue of that name, done on a step that has ended."""


class ClockKind(StrEnum):
    """Which clock runs."""

    LEFT_HEAT = "out of the heat"
    LEFT_COLD = "out of the cold"
    ON_TABLE = "on the table"
    COOL_FIRST = "cooling to 21 °C"
    COOL_ALL = "cooling to 5 °C"


@dataclass(frozen=True, slots=True)
class FoodClock:
    """One clock of a dish: since when, until when at most, and by which rule. `step` is where it began."""

    kind: ClockKind
    dish: str
    step: str
    since: Moment
    limit: Moment
    rule: LimitRule


def food_clocks(
    cook: Cook, now: Moment, *, room_c: float | None = None, kinds: Mapping[str, FoodKind] | None = None
) -> tuple[FoodClock, ...]:
    """Every clock that runs at `now`, the nearest limit first. `room_c`: the kitchen's temperature, where known."""
    found = (
        clock
        for dish in cook.menu.dishes
        if dish.name not in cook.dropped and perishable(dish, kinds)
        for clock in _of_dish(cook, dish, now, room_c)
    )
    return tuple(sorted(found, key=lambda c: (c.limit, c.dish)))


def _of_dish(cook: Cook, dish: Dish, now: Moment, room_c: float | None) -> Iterator[FoodClock]:
    away = put_away_at(cook, dish)
    readings = dish_readings(cook, dish)
    out = _out(cook, dish)
    if out is None:
        out = _served_cold(cook, dish, now)
    cooling_since = _under(readings, out[2] if out else 0)
    if away is not None:
        later = [r for r in readings if r.at > away]
        out, cooling_since = None, cooling_since if later else None
    if readings and readings[-1].celsius <= LIMITS["cold"].celsius + 0.01:
        return
    if out is not None:
        yield _out_clock(cook, dish, out, now, room_c)
    if cooling_since is not None:
        yield from _cooling(dish, cooling_since, readings)


_Out = tuple[ClockKind, str, Moment]


def _out(cook: Cook, dish: Dish) -> _Out | None:
    """The branch that has been out longest: what it left, the step it began with, since when."""
    found: list[_Out] = []
    for step in dish.steps:
        life, how = cook.lives[step.id], kept(cook.menu, step)
        if life.ended is None or how is Kept.OUT or _kept_since(cook, step):
            continue
        kind = ClockKind.LEFT_HEAT if how is Kept.HOT else ClockKind.LEFT_COLD
        found.append((kind, step.id, life.ended))
    return min(found, key=lambda o: o[2], default=None)


def _kept_since(cook: Cook, step: Step) -> bool:
    """Whether a later step has taken this food into heat or cold again (it then has a clock of its own)."""
    for other in _followers(cook, step):
        begun = cook.lives[other.id].state in (StepState.RUNNING, StepState.ENDED)
        if begun and (kept(cook.menu, other) is not Kept.OUT or _kept_since(cook, other)):
            return True
    return False


def _followers(cook: Cook, step: Step) -> list[Step]:
    """Steps of the dish that come after; those of other dishes where it is only a part of them."""
    after = [s for s in cook.menu.steps.values() if any(link.step == step.id for link in s.links)]
    own = [s for s in after if s.dish == step.dish]
    dish = cook.menu.dish(step.dish)
    return own or ([] if dish is None or cook.menu.on_table(dish) else after)


def _served_cold(cook: Cook, dish: Dish, now: Moment) -> _Out | None:
    """A dish that neither heat nor cold has kept: its clock begins when it is eaten, at the latest."""
    if any(kept(cook.menu, s) is not Kept.OUT for s in dish.steps) or not cook.menu.on_table(dish):
        return None
    last = [cook.lives[s] for s in dish.last_steps]
    eaten = cook.eat_at + cook.menu.course_of(dish).eat_s * MS
    if now < eaten or any(life.ended is None for life in last):
        return None
    return ClockKind.ON_TABLE, dish.last_steps[-1], eaten


def _out_clock(cook: Cook, dish: Dish, out: _Out, now: Moment, room_c: float | None) -> FoodClock:
    kind, step, since = out
    readings = dish_readings(cook, dish)
    hot = [r.at for r in readings if r.at >= since and r.celsius >= LIMITS["hot"].celsius - 0.01]
    hot_room = room_c is not None and room_c > LIMITS["hot_room"].celsius
    rule = LIMITS["out_hot_room" if hot_room else "out"]
    since = max([since, *hot])
    served = cook.eat_at + cook.menu.course_of(dish).eat_s * MS
    shown = ClockKind.ON_TABLE if now >= served and cook.menu.on_table(dish) else kind
    return FoodClock(shown, dish.name, step, since, since + rule.seconds * MS, rule)


def dish_readings(cook: Cook, dish: Dish) -> tuple[Reading, ...]:
    """Core readings of all its steps, in order of time."""
    found = [r for step in dish.steps for r in cook.lives[step.id].readings if r.of == "core"]
    return tuple(sorted(found, key=lambda r: r.at))


def put_away_at(cook: Cook, dish: Dish) -> Moment | None:
    """When somebody last said that it was put away, if no step has been opened again since."""
    logs = [cook.lives[step.id].cues.get(PUT_AWAY) for step in dish.steps]
    return max((log.last for log in logs if log is not None and log.last is not None), default=None)


def _under(readings: tuple[Reading, ...], since: Moment) -> Moment | None:
    """The first reading under 57 °C after the food had left the heat and after the last one at or above that."""
    under: Moment | None = None
    for reading in readings:
        if reading.celsius >= LIMITS["hot"].celsius - 0.01:
            under = None
        elif reading.at > since > 0 and under is None:
            under = reading.at
    return under


def _cooling(dish: Dish, since: Moment, readings: tuple[Reading, ...]) -> Iterator[FoodClock]:
    """The stage that is still open: the first until a reading at 21 °C or less, then the second."""
    reached = any(r.at >= since and r.celsius <= LIMITS["cool_middle"].celsius + 0.2 for r in readings)
    kind, rule = (ClockKind.COOL_ALL, LIMITS["cool_all"]) if reached else (ClockKind.COOL_FIRST, LIMITS["cool_first"])
    yield FoodClock(kind, dish.name, dish.last_steps[-1], since, since + rule.seconds * MS, rule)
