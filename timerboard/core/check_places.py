"""Does a plan fit its places? Room, one temperature at a time, shut doors, and live heat in closed hours."""

from collections.abc import Iterator, Mapping
from itertools import combinations

from .check_words import degrees, when
from .lenience import is_fact
from .plan import Placed, PlacedCue, PlaceRoom, Problem, Task
from .quantity_words import duration_words
from .values import Seconds


def broken_places(problem: Problem, placed: Mapping[str, Placed], cues: tuple[PlacedCue, ...]) -> Iterator[str]:
    """A sentence for every rule about places that is broken. Facts among themselves are never blamed."""
    for place in problem.places:
        on = [t for t in problem.tasks if t.id in placed and any(name == place.name for name, _ in t.uses)]
        yield from _room(problem, place, on, placed)
        yield from _temperature(problem, place, on, placed)
    yield from _doors(problem, placed, cues)
    yield from _closed(problem, placed)


def parts_of(task: Task, place: str) -> int:
    """Parts of the room of a place that a task takes."""
    return sum(parts for name, parts in task.uses if name == place)


def agree(one: Task, other: Task) -> bool:
    """True when some temperature suits both; a task that asks for none agrees with all."""
    if one.heat_c is None or other.heat_c is None:
        return True
    return abs(one.heat_c - other.heat_c) <= one.within_c + other.within_c


def _room(problem: Problem, place: PlaceRoom, on: list[Task], placed: Mapping[str, Placed]) -> Iterator[str]:
    """At every start, what is in the place then must fit."""
    if place.room is None:
        return
    for at in sorted({placed[t.id].start for t in on}):
        inside = [t for t in on if placed[t.id].start <= at < placed[t.id].end]
        taken = sum(parts_of(t, place.name) for t in inside)
        if taken > place.room and not all(is_fact(t) for t in inside):
            names = " and ".join(t.id for t in inside)
            yield f"{names} need {taken} parts of the {place.name} {when(problem, at)}: it has {place.room}"


def _temperature(problem: Problem, place: PlaceRoom, on: list[Task], placed: Mapping[str, Placed]) -> Iterator[str]:
    if not place.heated:
        return
    hot = sorted((t for t in on if t.heat_c is not None), key=lambda t: placed[t.id].start)
    for first, second in combinations(hot, 2):
        if not agree(first, second) and not (is_fact(first) and is_fact(second)):
            yield from _apart(problem, place, first, second, placed)
    running = [t for t in hot if is_fact(t) and t.ended is None]
    for task in hot:
        if not is_fact(task) and not any(agree(task, other) for other in running):
            yield from _hot_in_time(problem, place, task, placed[task.id].start)


def _apart(
    problem: Problem, place: PlaceRoom, first: Task, second: Task, placed: Mapping[str, Placed]
) -> Iterator[str]:
    """Two temperatures that do not agree: one after the other, with time to change between them."""
    gap = placed[second.id].start - placed[first.id].end
    need = place.change_s(first.heat_c, second.heat_c or 0.0)
    wants = f"{first.id} wants {degrees(first.heat_c or 0)} and {second.id} {degrees(second.heat_c or 0)}"
    if gap < 0:
        yield f"{wants} in the {place.name} at once, {when(problem, placed[second.id].start)}"
    elif gap < need:
        yield f"{wants}: the {place.name} needs {duration_words(need)} between them and gets {duration_words(gap)}"


def _hot_in_time(problem: Problem, place: PlaceRoom, task: Task, start: Seconds) -> Iterator[str]:
    """From what the place holds now there must be time to heat it."""
    need = heating_s(place, task)
    if problem.not_before is not None and start < problem.not_before + need:
        yield f"the {place.name} cannot be at {degrees(task.heat_c or 0)} for {task.id} {when(problem, start)}"


def heating_s(place: PlaceRoom, task: Task) -> Seconds:
    """Seconds from `Problem.not_before` until a place suits a task, when nothing else is done with it."""
    if task.heat_c is None or not place.heated:
        return 0
    if place.now_c is not None and abs(place.now_c - task.heat_c) <= task.within_c:
        return 0
    return place.change_s(place.now_c, task.heat_c)


def _doors(problem: Problem, placed: Mapping[str, Placed], cues: tuple[PlacedCue, ...]) -> Iterator[str]:
    """While a door is kept shut nothing of another dish opens it: no start, no end, no cue."""
    openings = [o for t in problem.tasks if t.id in placed for o in _openings(t, placed[t.id], cues)]
    for shut in (t for t in problem.tasks if t.shut_s and t.id in placed):
        start, names = placed[shut.id].start, {name for name, _ in shut.uses}
        for task, at, what, opened in openings:
            if task.dish == shut.dish or (is_fact(task) and is_fact(shut)) or not names & opened:
                continue
            if start < at < start + shut.shut_s:
                yield f"{what} opens a door {when(problem, at)} that {shut.id} keeps shut"


def _openings(
    task: Task, placed: Placed, cues: tuple[PlacedCue, ...]
) -> Iterator[tuple[Task, Seconds, str, frozenset[str]]]:
    uses = frozenset(name for name, _ in task.uses)
    yield task, placed.start, f"the start of {task.id}", uses
    yield task, placed.end, f"the end of {task.id}", uses
    opens = {slot.id: frozenset(slot.opens) for slot in task.cues}
    for cue in cues:
        if cue.step == task.id:
            yield task, cue.at, f"{cue.cue} ({task.id})", opens.get(cue.id, frozenset())


def _closed(problem: Problem, placed: Mapping[str, Placed]) -> Iterator[str]:
    for task in (t for t in problem.tasks if t.live_heat and not is_fact(t) and t.id in placed):
        there = placed[task.id]
        for hours in problem.closed:
            if there.start < hours.end and hours.start < there.end:
                yield f"{task.id} burns in closed hours, {when(problem, max(there.start, hours.start))}"
