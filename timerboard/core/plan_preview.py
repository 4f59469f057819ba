"""A plan as ribbons, before anybody cooks: a strip for each dish on one axis, the board's own shapes.

Moments are milliseconds on the axis of the plan, which is Unix time.
"""

from collections.abc import Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from .menu import Dish, Menu, Step
from .plan import Placed, Plan
from .quantity_words import celsius_words
from .values import MS, Moment, Seconds
from .view_ribbon import untangled
from .view_values import Axis, Part, RibbonPart, Strip, Tick
from .words import HOUR, MINUTE, lower_first

MOST_LABELS = 9
_STEPS = (10 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR, 3 * HOUR, 6 * HOUR, 12 * HOUR, 24 * HOUR)


def preview(menu: Menu, plan: Plan, zone: str) -> tuple[tuple[Strip, ...], Axis]:
    """A strip for each dish in the order written, and the axis they share, from the first start to the last meal."""
    ticks = {dish.name: _ticks(plan, dish) for dish in menu.dishes}
    strips = tuple(_strip(menu, plan, dish, ticks[dish.name]) for dish in menu.dishes)
    return strips, _axis(menu, plan, zone)


def hours_only(menu: Menu, plan: Plan, zone: str, hours: float) -> tuple[tuple[Strip, ...], Axis]:
    """The same with an axis that begins at most so many hours before the meal: what is done days ahead is cut off."""
    strips, axis = preview(menu, plan, zone)
    start = max(axis.start, round(axis.eat - hours * HOUR))
    return strips, Axis(start, axis.end, start, axis.eat, axis_labels(start, axis.end, zone))


def _strip(menu: Menu, plan: Plan, dish: Dish, ticks: tuple[Tick, ...]) -> Strip:
    parts = [part for step in dish.steps if (placed := plan.of(step.id)) for part in _parts(menu, step, placed)]
    return Strip(
        key=dish.name,
        name=dish.name,
        line=dish.course or "",
        countdown="",
        counts="",
        matter="",
        rank=None,
        juts=False,
        mark="",
        ribbon=tuple(untangled(sorted([*parts, *_hold(menu, plan, dish)], key=lambda part: (part.start, part.end)))),
        ticks=ticks,
        said=dish.name,
    )


def _parts(menu: Menu, step: Step, placed: Placed) -> Iterable[RibbonPart]:
    start, end = placed.start * MS, placed.end * MS
    words = lower_first(step.do)
    if step.heat_c is not None:
        words = f"{words} {celsius_words(step.heat_c, menu.units)}"
    low = start + min(step.span.low, placed.end - placed.start) * MS
    if step.elastic or step.span.certain or low >= end:
        return (RibbonPart(Part.PLANNED, start, end, words, step.id),)
    return (
        RibbonPart(Part.PLANNED, start, low, words, step.id),
        RibbonPart(Part.PLANNED_UNCERTAIN, low, end, "", step.id),
    )


def _hold(menu: Menu, plan: Plan, dish: Dish) -> tuple[RibbonPart, ...]:
    ends = [placed.end for step in dish.last_steps if (placed := plan.of(step))]
    eaten = plan.eat_at + menu.course_of(dish).eat_s
    if not ends or not menu.on_table(dish) or max(ends) >= eaten:
        return ()
    return (RibbonPart(Part.HOLD, max(ends) * MS, eaten * MS, f"hold, {dish.keep}" if dish.keep else "hold"),)


def _ticks(plan: Plan, dish: Dish) -> tuple[Tick, ...]:
    own = {step.id for step in dish.steps}
    return tuple(Tick(cue.at * MS) for cue in plan.cues if cue.step in own)


def _axis(menu: Menu, plan: Plan, zone: str) -> Axis:
    ends = [placed.end for placed in plan.placed]
    meals: list[Seconds] = [plan.eat_at + menu.course_of(dish).eat_s for dish in menu.dishes]
    start, end = plan.starts_at * MS, max([plan.eat_at, *ends, *meals]) * MS
    margin = max(5 * MINUTE, (end - start) // 60)
    start, end = start - margin, end + margin
    return Axis(start, end, start, plan.eat_at * MS, axis_labels(start, end, zone))


def axis_labels(start: Moment, end: Moment, zone: str) -> tuple[tuple[Moment, str], ...]:
    """Round civil times inside the axis, at most nine; with the day where it spans several."""
    step = next((s for s in _STEPS if (end - start) // s < MOST_LABELS), _STEPS[-1])
    place, shape = ZoneInfo(zone), "%a %H:%M" if end - start > 24 * HOUR else "%H:%M"
    found: list[tuple[Moment, str]] = []
    at = start
    while at <= end and len(found) < 3 * MOST_LABELS:
        shift = datetime.fromtimestamp(at // MS, place).utcoffset()
        civil = at + (round(shift.total_seconds()) * MS if shift else 0)
        at += (-civil) % step
        if at <= end:
            found.append((at, f"{datetime.fromtimestamp(at // MS, place):{shape}}"))
        at += MINUTE
    return tuple(found)
