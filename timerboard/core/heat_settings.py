"""The 'set the oven' jobs of a plan: to what, from when, and for which step.

Steps that follow one another in a heated place share a setting as long as one temperature suits them all. A new one
begins when a step comes that it does not suit; what is still inside then must suit the new one too.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from .lenience import is_fact
from .plan import HeatSetting, Placed, PlaceRoom, Problem, Task
from .values import Seconds


@dataclass(frozen=True, slots=True)
class _Inside:
    """A step in a heated place, and the temperatures that suit it."""

    task: Task
    start: Seconds
    end: Seconds
    low_c: float
    high_c: float


def heat_settings(problem: Problem, placed: Iterable[Placed]) -> tuple[HeatSetting, ...]:
    """Every setting that is still to be made, in order of time."""
    there = {p.id: p for p in placed}
    found = [s for place in problem.places if place.heated for s in _of_place(problem, place, there)]
    return tuple(sorted(found, key=lambda s: (s.at, s.place)))


def _of_place(problem: Problem, place: PlaceRoom, there: dict[str, Placed]) -> list[HeatSetting]:
    settings: list[HeatSetting] = []
    held, before = place.now_c, list[_Inside]()
    for newcomer, group in _groups(_inside(problem, place, there)):
        heat_c = _shared(group, held)
        if heat_c != held and not is_fact(newcomer.task):
            free = max((i.end for i in before if not i.low_c <= heat_c <= i.high_c), default=None)
            settings.append(_setting(problem, place, newcomer, (held, heat_c), free))
        held, before = heat_c, group
    return settings


def _inside(problem: Problem, place: PlaceRoom, there: dict[str, Placed]) -> list[_Inside]:
    """What is or will be in a place at a temperature of its own, in order of time."""
    tasks = (t for t in problem.tasks if t.id in there and t.ended is None and t.heat_c is not None)
    inside = [
        _Inside(t, there[t.id].start, there[t.id].end, (t.heat_c or 0) - t.within_c, (t.heat_c or 0) + t.within_c)
        for t in tasks
        if any(name == place.name for name, _ in t.uses)
    ]
    return sorted(inside, key=lambda i: (i.start, i.end, i.task.id))


def _groups(inside: list[_Inside]) -> list[tuple[_Inside, list[_Inside]]]:
    """Runs of steps that one temperature suits, each with the step that began it.

    A run begins with what is still inside when a step comes that the run before does not suit.
    """
    groups: list[tuple[_Inside, list[_Inside]]] = []
    for step in inside:
        group = groups[-1][1] if groups else []
        if group and _suits([*group, step]):
            group.append(step)
        else:
            groups.append((step, [*(i for i in group if i.end > step.start), step]))
    return groups


def _suits(group: list[_Inside]) -> bool:
    return max(i.low_c for i in group) <= min(i.high_c for i in group)


def _shared(group: list[_Inside], held: float | None) -> float:
    """The temperature for a run: what the place holds already if that suits, else what the most exact step asks for."""
    low, high = max(i.low_c for i in group), min(i.high_c for i in group)
    if held is not None and low <= held <= high:
        return held
    asked = min(group, key=lambda i: i.task.within_c).task.heat_c or low
    return max(low, min(high, asked)) if low <= high else asked


def _setting(
    problem: Problem, place: PlaceRoom, newcomer: _Inside, change: tuple[float | None, float], free: Seconds | None
) -> HeatSetting:
    """Turned as late as the change allows, not while something else needs the old heat, and never in the past."""
    at = newcomer.start - place.change_s(*change)
    floors = [floor for floor in (free, problem.not_before) if floor is not None]
    closing = next((s.start for s in problem.closed if s.start <= at < s.end), None)
    if closing is not None and all(floor <= closing for floor in floors):
        at = closing  # nobody is there later: it is set before the kitchen closes
    return HeatSetting(
        id=f"{place.name} at {change[1]:g} C for {newcomer.task.id}",
        place=place.name,
        heat_c=change[1],
        at=min(newcomer.start, max([at, *floors])),
        ready=newcomer.start,
        for_step=newcomer.task.id,
    )
