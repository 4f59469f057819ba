"""Who does what: people numbered from 1, one unbroken job each at a time.

An interval colouring: jobs in order of their start, each to the free person with the lowest number, numbered jobs
first. With enough hands at every moment that always succeeds when nobody is named (Kleinberg and Tardos, Algorithm
Design, section 4.1, interval partitioning); with names it may need to go back, which is tried within limits.
"""

from collections.abc import Iterable, Mapping

from .busy import Busy, all_busy, fewest_pairs, minded, most_pairs
from .check_hands import jobs_of_person
from .lenience import is_fact
from .plan import Placed, PlacedCue, Problem, Task

MOST_TRIES = 5_000
"""Steps back before giving up: far above what any kitchen needs, and still a few milliseconds."""

Jobs = list[Busy]


def with_persons(problem: Problem, placed: Iterable[Placed], cues: Iterable[PlacedCue]) -> tuple[Placed, ...] | None:
    """The same places in time with a person for every step that needs hands; None when nobody fits."""
    there = {p.id: p for p in placed}
    busy = all_busy(problem, there, cues)
    jobs = {t.id: own for t in problem.tasks if t.id in there and (own := jobs_of_person(t, busy))}
    who = _assign(problem, [t for t in problem.tasks if t.id in jobs], jobs)
    if who is None:
        return None
    return tuple(p.model_copy(update={"person": who.get(p.id)}) for p in there.values())


def _assign(problem: Problem, tasks: list[Task], jobs: Mapping[str, Jobs]) -> dict[str, int] | None:
    """A person for every task, the named ones fixed; depth first, lowest number first."""
    order = sorted(tasks, key=lambda t: (t.person is None, not is_fact(t), jobs[t.id][0].start, t.id))
    held: dict[int, Jobs] = {n: [] for n in range(1, max(1, most_pairs(problem), *(t.person or 1 for t in tasks)) + 1)}
    who: dict[str, int] = {}
    tried: list[list[int]] = []
    for _ in range(MOST_TRIES):
        if len(tried) == len(order) and all(t.id in who for t in order):
            return who
        if len(tried) == len(who):
            tried.append(_choices(problem, order[len(who)], jobs, held))
        if tried[-1]:
            task, person = order[len(tried) - 1], tried[-1].pop(0)
            who[task.id] = person
            held[person] += jobs[task.id]
        else:
            tried.pop()
            if not tried:
                return None
            _take_back(order[len(tried) - 1], who, held)
    return None


def _take_back(task: Task, who: dict[str, int], held: dict[int, Jobs]) -> None:
    person = who.pop(task.id)
    held[person] = [b for b in held[person] if b.task.id != task.id]


def _choices(problem: Problem, task: Task, jobs: Mapping[str, Jobs], held: Mapping[int, Jobs]) -> list[int]:
    """Who could do it, best first. What has begun is somebody's in any case."""
    own = jobs[task.id]
    people = [task.person] if task.person is not None else list(held)
    free = [n for n in people if _is_free(own, held[n]) and _is_there(problem, task, own, n)]
    return free or (people[:1] if is_fact(task) else [])


def _is_free(own: Jobs, others: Jobs) -> bool:
    return not any(
        a.start < b.end and b.start < a.end and a.task.id != b.task.id and not (a.fact and b.fact)
        for a in own
        for b in others
    )


def _is_there(problem: Problem, task: Task, own: Jobs, person: int) -> bool:
    if is_fact(task):
        return True
    if minded(task) or task.person is not None:
        return all(fewest_pairs(problem, b.start, b.end) >= person for b in own)
    return person <= most_pairs(problem)
