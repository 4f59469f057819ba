"""Are there hands for a plan? How many at once, whose, and none in closed hours."""

from collections.abc import Iterator, Mapping
from itertools import combinations

from .busy import Busy, all_busy, fewest_pairs, minded, most_pairs
from .check_words import when
from .lenience import is_fact
from .plan import Placed, PlacedCue, Problem, Task


def broken_hands(problem: Problem, placed: Mapping[str, Placed], cues: tuple[PlacedCue, ...]) -> Iterator[str]:
    """A sentence for every rule about hands that is broken. Facts among themselves are never blamed."""
    busy = all_busy(problem, placed, cues)
    yield from _too_many(problem, busy)
    yield from _closed(problem, busy)
    yield from _persons(problem, placed, busy)


def _too_many(problem: Problem, busy: list[Busy]) -> Iterator[str]:
    """Wherever the count may rise or the hands may get fewer, those at work must not outnumber the pairs."""
    moments = {b.start for b in busy} | {change.at for change in problem.hands}
    for at in sorted(moments):
        working = [b for b in busy if b.start <= at < b.end]
        pairs = fewest_pairs(problem, at, at + 1)
        if len(working) > pairs and not all(b.fact for b in working):
            names = " and ".join(b.what for b in working)
            yield f"{names}: {len(working)} pairs of hands {when(problem, at)}, there {_are(pairs)}"


def _are(pairs: int) -> str:
    return "is 1" if pairs == 1 else f"are {pairs}"


def _closed(problem: Problem, busy: list[Busy]) -> Iterator[str]:
    for b in busy:
        for hours in problem.closed:
            if not b.fact and b.start < hours.end and hours.start < b.end:
                yield f"{b.what} needs hands in closed hours, {when(problem, max(b.start, hours.start))}"


def jobs_of_person(task: Task, busy: list[Busy]) -> list[Busy]:
    """The stretches that bind the person of a task: all of a numbered or minded one, else the first it asks for.

    Small jobs of an unnumbered task (taking the tray out, basting) may be done by whoever is free.
    """
    own = [b for b in busy if b.task.id == task.id]
    return own if task.person is not None else [b for b in own if b.whole] or own[:1]


def _persons(problem: Problem, placed: Mapping[str, Placed], busy: list[Busy]) -> Iterator[str]:
    held: dict[int, list[Busy]] = {}
    for task in problem.tasks:
        if task.id not in placed or task.ended is not None:
            continue
        jobs, person = jobs_of_person(task, busy), placed[task.id].person
        if not jobs:
            continue
        if person is None or (task.person is not None and person != task.person):
            yield f"{task.id} is {_whose(task.person)}, the plan gives it to {_who(person)}"
            continue
        held.setdefault(person, []).extend(jobs)
        yield from _present(problem, task, person, jobs)
    for person, jobs in held.items():
        yield from _twice(problem, person, jobs)


def _present(problem: Problem, task: Task, person: int, jobs: list[Busy]) -> Iterator[str]:
    """Person n is there while there are n pairs of hands; small unnumbered jobs only need somebody to be there."""
    if is_fact(task):
        return
    if not 1 <= person <= most_pairs(problem):
        yield f"{task.id} is given to person {person}: {most_pairs(problem)} cook"
    elif (minded(task) or task.person is not None) and any(
        fewest_pairs(problem, b.start, b.end) < person for b in jobs
    ):
        yield f"person {person} is not there for all of {task.id}, {when(problem, jobs[0].start)}"


def _twice(problem: Problem, person: int, jobs: list[Busy]) -> Iterator[str]:
    for one, other in combinations(sorted(jobs, key=lambda b: b.start), 2):
        if one.task.id == other.task.id or (one.fact and other.fact):
            continue
        if other.start < one.end:
            yield f"person {person} has {one.what} and {other.what} at once, {when(problem, other.start)}"


def _whose(person: int | None) -> str:
    return "somebody's" if person is None else f"for person {person}"


def _who(person: int | None) -> str:
    return "nobody" if person is None else f"person {person}"
