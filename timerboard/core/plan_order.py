"""The order that a plan fixed, as arcs between steps: what may slip pushes what comes after it.

A plan is a list of times; once the kitchen slips only its order is worth keeping. Each place's parts and each pair of
hands are handed from step to step as the plan had it (a resource flow network; Artigues, Michelon and Reusser 2003,
Eur. J. Oper. Res. 149: 249-267, describe the same for rescheduling with the order kept), and steps at temperatures
that do not agree follow one another with the time the place needs to change.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from .menu import Menu, Place, Step, Work
from .plan import Placed, Plan
from .readiness import room_of
from .values import MS


class Why(StrEnum):
    """What ties one step to another."""

    LINK = "link"  # the recipe
    PLACE = "place"  # room, or a temperature that does not agree
    HANDS = "hands"


@dataclass(frozen=True, slots=True)
class Arc:
    """`after` starts at least `lag_ms` after the end (or, `from_start`, the start) of `before`."""

    before: str
    after: str
    why: Why
    lag_ms: int = 0
    from_start: bool = False
    place: str = ""


def link_arcs(steps: Iterable[Step], alive: Callable[[str], bool]) -> list[Arc]:
    """The recipe's own order among steps that are still part of the cook."""
    return [
        Arc(
            link.step,
            step.id,
            Why.LINK,
            link.wait_s * MS,
        )
        for step in steps
        for link in step.links
        if alive(link.step)
    ]


def plan_arcs(menu: Menu, plan: Plan, alive: Callable[[str], bool]) -> list[Arc]:
    """The plan's order on every place and every pair of hands, among steps that are still part of the cook."""
    steps = menu.steps
    placed = sorted(
        (p for p in plan.placed if p.id in steps and alive(p.id)),
        key=lambda p: (p.start, p.end),
    )
    arcs: list[Arc] = []
    before = _ancestors(placed, steps)
    for place in menu.places:
        on = [(p, steps[p.id]) for p in placed if any(u.place == place.name for u in steps[p.id].uses)]
        if place.room is not None:
            arcs += _room_arcs(place, place.room, on, before)
        if place.heat is not None:
            arcs += _heat_arcs(place, on)
    return arcs + _hands_arcs(placed, steps)


def _ancestors(placed: list[Placed], steps: Mapping[str, Step]) -> dict[str, set[str]]:
    """Per step, in the plan's order, everything that the recipe puts before it."""
    found: dict[str, set[str]] = {}
    for p in placed:
        mine = {link.step for link in steps[p.id].links}
        found[p.id] = mine.union(*(found.get(step, ()) for step in mine))
    return found


def _room_arcs(place: Place, room: int, on: list[tuple[Placed, Step]], before: Mapping[str, set[str]]) -> list[Arc]:
    """Hands every part of a place on, so that the fewest starts slip for another's sake.

    It comes from what the recipe puts before anyway, else it is one that nobody had, else the one that is left first.
    """
    wanted = [(p, step, sum(u.parts for u in step.uses if u.place == place.name)) for p, step in on]
    if sum(parts for _, _, parts in wanted) <= room:
        return []  # room for all of them at once
    units: list[Unit] = [(0, None)] * room
    arcs: list[Arc] = []
    for placed, step, parts in wanted:
        units = _best_first(units, before[step.id], placed.start)
        givers = {giver for end, giver in units[:parts] if giver is not None and end <= placed.start}
        arcs += [Arc(giver, step.id, Why.PLACE, place=place.name) for giver in sorted(givers)]
        units[:parts] = [(placed.end, step.id)] * min(parts, room)
    return arcs


Unit: TypeAlias = tuple[int, str | None]
"""A part of a place: when it was left, and by which step."""


def _best_first(units: list[Unit], own: set[str], start: int) -> list[Unit]:
    return sorted(units, key=lambda unit: (unit[0] > start, unit[1] not in own, unit[0]))


def _heat_arcs(place: Place, on: list[tuple[Placed, Step]]) -> list[Arc]:
    """One temperature at a time: each step follows every earlier one whose temperature does not agree with its own."""
    room = room_of(place)
    hot = [(p, s, s.heat_c) for p, s in on if s.heat_c is not None]
    return [
        Arc(before.id, after.id, Why.PLACE, room.change_s(from_c, to_c) * MS, place=place.name)
        for at, (later, after, to_c) in enumerate(hot)
        for earlier, before, from_c in hot[:at]
        if earlier.end <= later.start and abs(from_c - to_c) > before.heat_within_c + after.heat_within_c
    ]


def _hands_arcs(placed: list[Placed], steps: dict[str, Step]) -> list[Arc]:
    """Hands that begin a step must have let go of what they began before it.

    The short work at the end of an unattended step binds nobody: when that end slips, hands are free in the meantime.
    """
    held: dict[int, tuple[Placed, Work]] = {}
    arcs: list[Arc] = []
    for p in placed:
        work = steps[p.id].work
        if p.person is None or not work.attended_start:
            continue
        before = held.get(p.person)
        if before is not None:
            arcs += _handed_on(*before, p)
        held[p.person] = (p, work)
    return arcs


def _handed_on(before: Placed, work: Work, after: Placed) -> list[Arc]:
    """From one start to the next of the same hands, unless the plan itself has them at once."""
    free = before.end if work.throughout else before.start + work.start_s
    if free > after.start:
        return []
    lag = 0 if work.throughout else work.start_s * MS
    return [Arc(before.id, after.id, Why.HANDS, lag, from_start=not work.throughout)]
