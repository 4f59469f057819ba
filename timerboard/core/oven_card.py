"""The oven card: what each heated place is set to and when, what goes in, what comes out, and when it is turned off."""

from collections.abc import Iterable

from .civil import clock_words, day_clock_words
from .list_values import ListGroup, ListLine, ListPage
from .menu import Menu
from .plan import Placed, Plan
from .quantity_words import celsius_words
from .values import MS, Seconds
from .words import job_sentence, names, the, upper_first


def oven_card(menu: Menu, plan: Plan, zone: str) -> ListPage:
    """One group for each heated place that the plan uses."""
    groups = []
    for place in menu.places:
        if place.heat is not None and (lines := _lines(menu, plan, place.name, zone)):
            groups.append(ListGroup(upper_first(place.name), lines))
    return ListPage("Oven card", tuple(groups), "Look at a thermometer inside before the food goes in.")


def _lines(menu: Menu, plan: Plan, place: str, zone: str) -> tuple[ListLine, ...]:
    inside = [p for p in plan.placed if p.id in menu.steps and place in (u.place for u in menu.steps[p.id].uses)]
    if not inside:
        return ()
    events = [*_settings(menu, plan, place, zone), *_moves(menu, inside, zone, plan.eat_at)]
    last = max(p.end for p in inside)
    events.append((last, 2, ListLine("Turn it off", _when(last, zone, plan.eat_at))))
    return tuple(line for _, _, line in sorted(events, key=lambda e: (e[0], e[1])))


def _settings(menu: Menu, plan: Plan, place: str, zone: str) -> Iterable[tuple[Seconds, int, ListLine]]:
    for setting in plan.settings:
        if setting.place == place:
            heat = celsius_words(setting.heat_c, menu.units)
            hot = f"hot by {clock_words(setting.ready * MS, zone)}"
            yield setting.at, 1, ListLine(f"Set it to {heat}", _when(setting.at, zone, plan.eat_at), hot)


def _moves(menu: Menu, inside: list[Placed], zone: str, meal: Seconds) -> Iterable[tuple[Seconds, int, ListLine]]:
    for placed in inside:
        step = menu.steps[placed.id]
        sentence, _ = job_sentence(step.do, step.dish)
        out = f"out about {_when(placed.end, zone, placed.start)}" if not step.span.certain else (
            f"out at {_when(placed.end, zone, placed.start)}"
        )  # fmt: skip
        heat = celsius_words(step.heat_c, menu.units) if step.heat_c is not None else ""
        what = sentence if names(sentence, step.dish) else f"{sentence} ({the(step.dish)})"
        small = ", ".join(part for part in (heat, out, step.until and f"until {step.until}") if part)
        yield placed.start, 3, ListLine(f"In: {what[:1].lower()}{what[1:]}", _when(placed.start, zone, meal), small)


def _when(at: Seconds, zone: str, near: Seconds) -> str:
    return day_clock_words(at * MS, zone, near * MS)
