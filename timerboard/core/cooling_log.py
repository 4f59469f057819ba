"""After the meal: what was left, how it cooled, and whether the readings meet the two limits, for the record.

Limits: FDA Food Code 2022, 3-501.14(A): from 57 °C to 21 °C within 2 h, to 5 °C within 6 h in all. Leftovers out of
heat and cold at most 2 h, 1 h in a room above 32 °C: USDA FSIS, Leftovers and Food Safety.
"""

from dataclasses import dataclass

from .civil import clock_words
from .cook import Cook, Reading
from .food_clocks import FoodClock, dish_readings, food_clocks, put_away_at
from .menu import Dish
from .quantity_words import celsius_words, duration_words
from .safety_rules import FOLLOW, LIMITS
from .values import MS, Moment
from .words import dots, upper_first


@dataclass(frozen=True, slots=True)
class Stage:
    """One of the two limits: `took_s` None while no reading shows its end. `met` None: not known yet."""

    said: str
    took_s: int | None
    met: bool | None


@dataclass(frozen=True, slots=True)
class CoolingEntry:
    """How one dish cooled. `since` is its first reading under 57 °C."""

    dish: str
    since: Moment
    readings: tuple[Reading, ...]
    first: Stage
    whole: Stage

    @property
    def stages(self) -> tuple[Stage, Stage]:
        """Both limits."""
        return self.first, self.whole


def cooling_log(cook: Cook, now: Moment) -> tuple[CoolingEntry, ...]:
    """Every dish that was read under 57 °C after its heat, in the menu's order."""
    entries = (_entry(cook, dish, now) for dish in cook.menu.dishes)
    return tuple(entry for entry in entries if entry is not None)


def _entry(cook: Cook, dish: Dish, now: Moment) -> CoolingEntry | None:
    """From the last reading that was still hot on: what was read while it warmed up is not cooling."""
    readings = dish_readings(cook, dish)
    hot = [i for i, r in enumerate(readings) if r.celsius >= LIMITS["hot"].celsius - 0.01]
    cooling = readings[hot[-1] + 1 :] if hot else ()
    if not cooling:
        return None
    since = cooling[0].at
    first = _stage(cooling, since, now, LIMITS["cool_middle"].celsius + 0.2, "cool_first")
    whole = _stage(cooling, since, now, LIMITS["cold"].celsius + 0.01, "cool_all")
    return CoolingEntry(dish.name, since, cooling, first, whole)


def _stage(readings: tuple[Reading, ...], since: Moment, now: Moment, celsius: float, rule: str) -> Stage:
    limit = LIMITS[rule]
    at = next((r.at for r in readings if r.celsius <= celsius), None)
    asked = f"{limit.what} within {duration_words(limit.seconds)} ({limit.whose}, {limit.section})"
    if at is not None:
        took = (at - since) // MS
        return Stage(asked, took, took <= limit.seconds)
    return Stage(asked, None, False if now - since > limit.seconds * MS else None)


def record_lines(cook: Cook, now: Moment) -> tuple[str, ...]:
    """The log as lines for the printed record, then what still stands out; empty when there is nothing to say."""
    lines = [line for entry in cooling_log(cook, now) for line in _entry_lines(cook, entry)]
    lines += [_standing(cook, clock) for clock in food_clocks(cook, now)]
    lines += [_away(cook, dish) for dish in cook.menu.dishes if put_away_at(cook, dish) is not None]
    return (*lines, FOLLOW) if lines else ()


def entry_lines(cook: Cook, dish: Dish, now: Moment) -> list[str]:
    """The log of one dish for its drawer; empty while it does not cool."""
    entry = _entry(cook, dish, now)
    stages = entry.stages if entry is not None else ()
    return [f"{upper_first(stage.said)}: {_found(stage)}." for stage in stages]


def _entry_lines(cook: Cook, entry: CoolingEntry) -> list[str]:
    read = [f"{_clock(cook, r.at)} {celsius_words(r.celsius, cook.menu.units)}" for r in entry.readings]
    return [
        f"{entry.dish}: {', '.join(read)}",
        *(f"{entry.dish}: {stage.said}: {_found(stage)}" for stage in (entry.first, entry.whole)),
    ]


def _found(stage: Stage) -> str:
    if stage.took_s is None:
        return "no reading shows it" if stage.met is False else "not read yet"
    return dots(f"read after {duration_words(stage.took_s // 60 * 60)}", "met" if stage.met else "not met")


def _standing(cook: Cook, clock: FoodClock) -> str:
    return f"{clock.dish}: {clock.said} since {_clock(cook, clock.since)}, limit {_clock(cook, clock.limit)}"


def _away(cook: Cook, dish: Dish) -> str:
    return f"{dish.name}: put away {_clock(cook, put_away_at(cook, dish) or 0)}"


def _clock(cook: Cook, at: Moment) -> str:
    return clock_words(at + cook.offset_ms, cook.zone)
