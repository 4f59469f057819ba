"""After the meal: what was eaten and still stands out, and the one call to put it away.

Leftovers go into the cold within two hours, one in a hot room (USDA FSIS, Leftovers and Food Safety); each food's own
clock and its two dangers are in `food_clocks.py` and `safety_alarms.py`. This call comes before them, while people
still sit: half an hour before the nearest limit, though not sooner than half an hour after a course was eaten (common
practice, no source). Answering it answers for all that it names.
"""

from collections.abc import Iterator

from .alarm_values import Alarm, Kind, Rank
from .cook import Cook
from .food_clocks import ClockKind, FoodClock, food_clocks
from .menu import Dish
from .safety_alarms import WARN_MS, limit_words
from .values import MS, Moment
from .words import lower_first, sentence_list, the

AT_TABLE_MS = 30 * 60 * MS
BEFORE_LIMIT_MS = 30 * 60 * MS
COOKING = frozenset({ClockKind.THAWING})
"""Clocks of food that is yet to be cooked."""


def leftovers(cook: Cook, now: Moment, clocks: tuple[FoodClock, ...] | None = None) -> tuple[FoodClock, ...]:
    """One clock for each dish that was eaten by `now` and still stands out, the nearest limit first."""
    found: dict[str, FoodClock] = {}
    for clock in food_clocks(cook, now) if clocks is None else clocks:
        eaten = _eaten(cook, clock)
        if eaten is not None and eaten <= now and clock.since <= now:
            found.setdefault(clock.dish, clock)
    return tuple(found.values())


def away_calls(cook: Cook, now: Moment, clocks: tuple[FoodClock, ...]) -> Iterator[Alarm]:
    """'Put away what is left', for everything that was eaten and stands out when it calls. Food whose own danger calls
    is left to that. `clocks`: every one, also those to come.
    """
    due = {clock.dish: at for clock in clocks if (at := _asked_at(cook, clock)) is not None}
    if not due:
        return
    since = min(due.values())
    out = leftovers(cook, max(now, since), clocks)
    quiet = [clock for clock in out if clock.limit - WARN_MS > now]
    if quiet:
        yield _call(cook, since, out, quiet[0])


def _asked_at(cook: Cook, clock: FoodClock) -> Moment | None:
    """When a dish's leftovers are to be spoken of; None where its danger would come first."""
    eaten = _eaten(cook, clock)
    if eaten is None:
        return None
    at = max(eaten + AT_TABLE_MS, clock.limit - BEFORE_LIMIT_MS)
    return at if at < clock.limit - WARN_MS else None


def _eaten(cook: Cook, clock: FoodClock) -> Moment | None:
    """When its course (a window: its end) is over and it was ready; None for food that is still to be cooked."""
    dish = cook.menu.dish(clock.dish)
    if dish is None or clock.kind in COOKING or _goes_on(cook, dish):
        return None
    course = cook.menu.course_of(dish)
    over = cook.eat_at + (course.eat_s if course.until_s is None else course.until_s) * MS
    return max([over, *(end for step in dish.steps if (end := cook.lives[step.id].ended) is not None)])


def _goes_on(cook: Cook, dish: Dish) -> bool:
    return any(cook.lives[step.id].ended is None for step in dish.steps)


def _call(cook: Cook, since: Moment, out: tuple[FoodClock, ...], first: FoodClock) -> Alarm:
    names = sentence_list([lower_first(clock.dish) for clock in out])
    return Alarm(
        id=f"{Kind.AWAY}|||{since}",
        kind=Kind.AWAY,
        rank=Rank.DUE,
        since=since,
        dish="",
        step=None,
        cue=None,
        verb="Put away",
        food=the(out[0].dish) if len(out) == 1 else "what is left",
        where="",
        detail=f"by {limit_words(cook, first)}" + ("" if len(out) == 1 else f": {names}"),
        spoils_at=first.limit,
    )
