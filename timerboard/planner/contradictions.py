"""Faults that need no search: something in the menu contradicts itself or the kitchen."""

from collections.abc import Iterator
from itertools import pairwise

from timerboard.core.busy import busy_of, most_pairs
from timerboard.core.lenience import is_fact
from timerboard.core.plan import Placed, Problem, Task
from timerboard.core.quantity_words import celsius_words, duration_words
from timerboard.core.values import Seconds
from timerboard.core.words import plural

from .variables import followers


def contradictions(problem: Problem) -> tuple[str, ...]:
    """A sentence for each; empty when there is none. A cycle is told alone: it must be cut first."""
    ring = cycle(problem)
    if ring:
        return (f"These wait for one another in a ring: {' → '.join([*ring, ring[0]])}. One link must go.",)
    free = [t for t in problem.tasks if not is_fact(t)]
    return tuple(said for task in free for said in _of_task(problem, task))


def cycle(problem: Problem) -> list[str]:
    """The steps of one ring of links, each followed by the one that waits for it; empty when there is none."""
    follows = followers(problem)
    first = next((t.id for t in problem.tasks if t.id in follows[t.id]), None)
    if first is None:
        return []
    after = {t.id: [a.task for a in t.after] for t in problem.tasks}
    ring, at = [first], first
    while True:
        at = next(b for b in after[at] if b == first or (first in follows[b] and b in follows[first]))
        if at in ring:
            return list(reversed(ring[ring.index(at) :]))
        ring.append(at)


def _of_task(problem: Problem, task: Task) -> Iterator[str]:
    yield from _too_big(problem, task)
    yield from _too_hot(problem, task)
    yield from _gaps(task)
    if task.hands or task.throughout or task.attend:
        yield from _nobody(problem, task)


def _too_big(problem: Problem, task: Task) -> Iterator[str]:
    for place in problem.places:
        parts = sum(n for name, n in task.uses if name == place.name)
        if place.room is not None and parts > place.room:
            yield f"{task.id} needs {plural(parts, 'part')} of the {place.name}, which has {place.room}."


def _too_hot(problem: Problem, task: Task) -> Iterator[str]:
    for place in problem.places:
        heat = task.heat_c
        if not place.heated or heat is None or all(name != place.name for name, _ in task.uses):
            continue
        if heat - task.within_c > place.high_c or heat + task.within_c < place.low_c:
            range_ = f"{celsius_words(place.low_c, problem.units)} to {celsius_words(place.high_c, problem.units)}"
            yield f"{task.id} wants {celsius_words(heat, problem.units)}: the {place.name} holds {range_}."


def _gaps(task: Task) -> Iterator[str]:
    shared = task.within_s if len(task.after) == 1 else None  # of several the latest may be another
    for link in task.after:
        most = link.within_s if link.within_s is not None else shared
        if most is not None and link.wait_s > most:
            yield (
                f"{task.id} must wait {duration_words(link.wait_s)} after {link.task} "
                f"and start within {duration_words(most)} of it: it cannot do both."
            )


def _nobody(problem: Problem, task: Task) -> Iterator[str]:
    people = most_pairs(problem)
    if people == 0:
        yield f"{task.id} needs hands, and there are none."
    elif task.person is not None and task.person > people:
        yield f"{task.id} is for person {task.person}: only {people} cook{'s' if people == 1 else ''}."
    elif (longest := _longest_job(task)) > (open_s := _longest_open(problem)):
        yield (
            f"{task.id} keeps hands busy for {duration_words(longest)} without a break: "
            f"the longest time between closed hours is {duration_words(open_s)}."
        )


def _longest_job(task: Task) -> Seconds:
    whole = Placed(id=task.id, start=0, end=task.least_s)
    jobs = busy_of(task, whole, {c.id: c.offset_s for c in task.cues})
    longest = max((b.end - b.start for b in jobs), default=0)
    return max(longest, task.least_s) if task.live_heat else longest


def _longest_open(problem: Problem) -> Seconds:
    """The longest stretch between closed hours; what lies outside all of them is only known to be longer."""
    closed = sorted(problem.closed, key=lambda s: s.start)
    gaps = [b.start - a.end for a, b in pairwise(closed)]
    return max(gaps) if len(gaps) > 1 else 1 << 40
