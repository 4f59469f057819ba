"""The prep list: what can be cut, mixed and put by before the heat is on, by day and by component.

One line for each component, with a box to tick (the form that quantity kitchens share: common practice, no source).
"""

from collections.abc import Iterable

from .civil import clock_words, day_clock_words
from .list_values import ListGroup, ListLine, ListPage
from .menu import Menu, Step
from .plan import Placed, Plan
from .quantity_words import duration_words, span_words
from .survey import Survey
from .values import MS, Seconds

DAY_S = 86_400


def prep_list(menu: Menu, plan: Plan, zone: str) -> ListPage:
    """Jobs for hands without heat, and whatever is begun on an earlier day, as the plan has them."""
    hearths = Survey(menu).hearths
    cooked = _cooked(menu, hearths)
    meal_day = _day(plan.eat_at, zone)
    jobs = [
        (placed, step)
        for placed in sorted(plan.placed, key=lambda p: (p.start, p.id))
        if (step := menu.steps.get(placed.id)) is not None
        and (
            (step.id not in cooked and not _hot(menu, step, hearths) and step.work.throughout)
            or _day(placed.start, zone) != meal_day
        )
    ]
    groups: dict[tuple[str, str], list[ListLine]] = {}
    for placed, step in jobs:
        day = day_clock_words(placed.start * MS, zone, plan.eat_at * MS).rpartition(" ")[0]
        groups.setdefault((day or "The day of the meal", step.dish), []).append(_line(placed, step, zone))
    ordered = _by_day(groups)
    return ListPage("Preparation", tuple(ordered), "One line for each component; tick it when it is done.")


def _day(at: Seconds, zone: str) -> str:
    return day_clock_words(at * MS, zone, (at + 400 * DAY_S) * MS).rpartition(" ")[0]


def _hot(menu: Menu, step: Step, hearths: frozenset[str]) -> bool:
    """In an oven, on a hob, or with a heat of its own."""
    oven = any((place := menu.place(use.place)) is not None and place.heat is not None for use in step.uses)
    return oven or step.hazard is not None or step.heat_c is not None or any(use.place in hearths for use in step.uses)


def _cooked(menu: Menu, hearths: frozenset[str]) -> set[str]:
    """Steps that come after heat: to carve or to dress what is cooked is no preparation. Links never close a circle."""
    cooked: set[str] = set()
    grows = True
    while grows:
        before = len(cooked)
        for step in menu.steps.values():
            earlier = (menu.steps[link.step] for link in step.links if link.step in menu.steps)
            if any(one.id in cooked or _hot(menu, one, hearths) for one in earlier):
                cooked.add(step.id)
        grows = len(cooked) > before
    return cooked


def _line(placed: Placed, step: Step, zone: str) -> ListLine:
    took = span_words(step.span.low, step.span.high) if step.elastic else duration_words(placed.end - placed.start)
    waits = f"then {step.keep}" if step.keep else ""
    return ListLine(step.do, clock_words(placed.start * MS, zone), ", ".join(part for part in (took, waits) if part))


def _by_day(groups: dict[tuple[str, str], list[ListLine]]) -> Iterable[ListGroup]:
    """Groups in the order of their first job, days kept together."""
    days = list(dict.fromkeys(day for day, _ in groups))
    several = len(days) > 1
    for day in days:
        for (of, dish), lines in groups.items():
            if of == day:
                yield ListGroup(f"{day}: {dish}" if several else dish, tuple(lines))
