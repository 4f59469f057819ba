"""Dishes are called in to the table one by one when eating nears, so that none is left in the fridge.

A course is called in once everything of it that is still in the kitchen is ready; a dish that has stood for as long as
it may is called in alone. Over a window (a buffet) each dish comes as it gets ready. What holds longest comes first and
what cannot wait comes last. A dish that was brought in is not called again, whatever happens to the meal; one that is
added late is called in when it is ready, also when all the others are on the table.
"""

from collections.abc import Collection, Iterator, Mapping

from .alarm_values import Alarm, Kind, Rank
from .cook import Cook
from .events import DishAdded
from .food_clocks import put_away_at
from .menu import Course, Dish, Menu
from .values import MS, Moment
from .words import lower_first, plural, the

BEFORE_MS = 120 * MS
"""The first dish is called in this long before its course is eaten."""

EACH_MS = 30 * MS
"""Every further dish of a course makes that longer: somebody has to carry it."""

MOST_BEFORE_MS = 360 * MS


def serve_calls(cook: Cook, now: Moment, *, spoilt: Collection[str] = ()) -> Iterator[Alarm]:
    """The dish of each course that is to be brought in next. `spoilt`: dishes that must not be served."""
    for course in _courses(cook.menu):
        dishes = [d for d in cook.menu.dishes if at_table(cook, d) and cook.menu.course_of(d).name == course.name]
        dishes = [d for d in dishes if d.name not in spoilt and not _gone(cook, d, course)]
        yield from _of_course(cook, course, dishes)


def served_id(dish: str) -> str:
    """The name of a dish's call: hearing it means that the dish is on the table."""
    return f"{Kind.SERVE}||{dish}|0"


def served_dish(alarm: str) -> str:
    """The dish that a call's name is about; '' for every other alarm."""
    kind, _, rest = alarm.partition("||")
    return rest.removesuffix("|0") if kind == Kind.SERVE else ""


def is_served(cook: Cook, dish: Dish) -> bool:
    """True once somebody said that the dish is on the table, for as long as it is ready."""
    return served_id(dish.name) in cook.heard and ready_since(cook, dish) is not None


def at_table(cook: Cook, dish: Dish) -> bool:
    """True for what is counted at the table and was not struck off."""
    return cook.menu.on_table(dish) and dish.name not in cook.dropped


def ready_since(cook: Cook, dish: Dish) -> Moment | None:
    """When the dish became ready; None before that."""
    ends = [cook.lives[step].ended for step in dish.last_steps]
    return max((e for e in ends if e is not None), default=None) if all(e is not None for e in ends) else None


def _gone(cook: Cook, dish: Dish, course: Course) -> bool:
    """Put away once its time had come (too long in the warm, or no more wanted): nobody is asked to bring it in. What
    was heated again and is ready since then is there to be served.
    """
    away = put_away_at(cook, dish)
    over = max(cook.eat_at + course.eat_s * MS, ready_since(cook, dish) or 0)
    return away is not None and away >= over and served_id(dish.name) not in cook.heard


def _courses(menu: Menu) -> Iterator[Course]:
    named = {course.name for course in menu.courses}
    yield from menu.courses
    if any(dish.course not in named for dish in menu.dishes):
        yield Course(name="")


def _of_course(cook: Cook, course: Course, dishes: list[Dish]) -> Iterator[Alarm]:
    heard = {dish.name: cook.heard.get(served_id(dish.name)) for dish in dishes}
    left = [dish for dish in dishes if heard[dish.name] is None]
    ready = {dish.name: moment for dish in left if (moment := ready_since(cook, dish)) is not None}
    if not ready:
        return
    served = [moment for moment in heard.values() if moment is not None]
    begin = cook.eat_at + course.eat_s * MS - min(MOST_BEFORE_MS, BEFORE_MS + EACH_MS * (len(dishes) - 1))
    whole = max(ready.values()) if served or not _waited_for(cook, left, ready) else None
    calls = [
        (max([begin, _alone(cook, course, dish, ready[dish.name], whole)]), dish) for dish in left if dish.name in ready
    ]
    since, dish = min(calls, key=lambda call: (call[0], -call[1].hold_s))
    yield _call(cook, course, dish, max([since, *served]), len(left) - 1, len(dishes) == 1)


def _alone(cook: Cook, course: Course, dish: Dish, ready: Moment, whole: Moment | None) -> Moment:
    """When a dish is called in: with the others, or alone over a window, or when it has stood as long as it may."""
    if course.until_s is not None:
        return ready
    held = max(ready + dish.hold_s * MS, cook.eat_at + course.eat_s * MS)
    return held if whole is None else min(whole, held)


def _waited_for(cook: Cook, left: list[Dish], ready: Mapping[str, Moment]) -> bool:
    """True when something is not ready that was there from the start: what is added late keeps nobody waiting."""
    late: set[str] | None = None
    for dish in left:
        if dish.name in ready:
            continue
        if late is None:
            late = {noted.event.dish.name for noted in cook.record if isinstance(noted.event, DishAdded)}
        if dish.name not in late:
            return True
    return False


def _call(cook: Cook, course: Course, dish: Dish, since: Moment, more: int, alone: bool) -> Alarm:  # noqa: PLR0917
    """'Bring in the rolls · warming drawer'; a course of one dish is served by its own name."""
    where, keep = where_it_stands(cook.menu, dish)
    name = f"the {lower_first(course.name)}" if course.name else "the meal"
    words = [lower_first(dish.name)] if alone else []
    words += [keep] if keep else []
    words += [f"{plural(more, 'dish')} after it"] if more else []
    return Alarm(
        id=served_id(dish.name),
        kind=Kind.SERVE,
        rank=Rank.DUE,
        since=since,
        dish=dish.name,
        step=None,
        cue=dish.name,
        verb="Serve" if alone else "Bring in",
        food=name if alone else the(dish.name),
        where=where,
        detail=" · ".join(words),
        spoils_at=cook.eat_at + course.eat_s * MS,
    )


def where_it_stands(menu: Menu, dish: Dish) -> tuple[str, str]:
    """The place of its last step, and how it is kept ready; no place where the words say one."""
    last = [step for step in dish.steps if step.id in dish.last_steps]
    keep = dish.keep or next((step.keep for step in reversed(last) if step.keep), "")
    used = [use.place for step in reversed(last) for use in step.uses]
    named = any(lower_first(place.name) in keep.lower() for place in menu.places)
    return ("" if named or not used else used[0]), lower_first(keep)
