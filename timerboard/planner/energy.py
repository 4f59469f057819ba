"""Work that must fit before the meal: bounds on the first start that a cumulative alone finds too late.

If hands must do W seconds of work of which all is followed by at least q seconds of other steps, and at most C pairs
work at once, the first start lies at least W / C + q before the end; likewise for a place's room, whose steps also
have something before them. (The one-machine bound of Carlier 1982, Eur. J. Oper. Res. 11: 42-47, with energy over C.)
"""

from collections.abc import Mapping
from dataclasses import dataclass

from timerboard.core.busy import most_pairs
from timerboard.core.lenience import is_fact
from timerboard.core.plan import Problem, Task

from .hands import Job, jobs_of, least_size
from .variables import Model


@dataclass(frozen=True)
class Load:
    """Energy (ticks times parts) with the least time before and after it."""

    head: int
    tail: int
    energy: int


def least_span(model: Model) -> int:
    """Ticks that must lie between the first start and the last end of all that has not begun, whatever the plan."""
    heads, tails = _heads(model), _tails(model)
    free = [t for t in model.problem.tasks if not is_fact(t)]
    chain = max((heads[t.id] + model.axis.length(t.least_s) + tails[t.id] for t in free), default=0)
    work = [_of_job(model, j, heads, tails) for j in jobs_of(model) if not is_fact(j.task)]
    bounds = [chain, _energy(work, max(1, most_pairs(model.problem)))]
    for place in model.problem.places:
        if place.room:
            bounds.append(_energy(_of_place(model, free, place.name, heads, tails), place.room))
    return max(bounds)


def before_last_hour(model: Model, hour: int, room: int) -> int:
    """Ticks of hands' work that must lie before the last hour when the hour takes no more than `room` of it."""
    heads, tails = _heads(model), _tails(model)
    loads = [_of_job(model, j, heads, tails) for j in jobs_of(model) if not is_fact(j.task)]
    capacity, best, total = max(1, most_pairs(model.problem)), 0, 0
    for load in sorted(loads, key=lambda x: -x.tail):
        total += load.energy
        best = max(best, total - min(room, capacity * max(0, hour - load.tail)))
    return best


def _of_place(
    model: Model, free: list[Task], place: str, heads: Mapping[str, int], tails: Mapping[str, int]
) -> list[Load]:
    parts = {t.id: sum(n for p, n in t.uses if p == place) for t in free}
    length = model.axis.length
    return [Load(heads[t.id], tails[t.id], parts[t.id] * length(t.least_s)) for t in free if parts[t.id]]


def _energy(loads: list[Load], capacity: int) -> int:
    best = 0
    for head in {load.head for load in loads}:
        total = 0
        for load in sorted((x for x in loads if x.head >= head), key=lambda x: -x.tail):
            total += load.energy
            best = max(best, head + -(-total // capacity) + load.tail)
    return best


def _of_job(model: Model, job: Job, heads: Mapping[str, int], tails: Mapping[str, int]) -> Load:
    task, size = job.task, least_size(model, job)
    before, after = _inside(model, job)
    return Load(heads[task.id] + before, tails[task.id] + after, size)


def _inside(model: Model, job: Job) -> tuple[int, int]:
    """Least time of the task's own before and after one of its jobs."""
    task, length = job.task, model.axis.length
    least, size = length(task.least_s), least_size(model, job)
    if job.key == "":
        return 0, 0
    slot = next((c for c in task.cues if c.id == job.key), None)
    if slot is not None:
        latest = length(slot.offset_s) + length(slot.play_s) + size
        return max(0, length(slot.offset_s) - length(slot.play_s)), max(0, least - latest)
    piece = task.hands[int(job.key.removeprefix("hands "))]
    offset = length(piece.offset_s)
    return (
        (max(0, least - offset), max(0, offset - size)) if piece.from_end else (offset, max(0, least - offset - size))
    )


def _tails(model: Model) -> dict[str, int]:
    return _longest(model.problem, model, backwards=True)


def _heads(model: Model) -> dict[str, int]:
    return _longest(model.problem, model, backwards=False)


def _longest(problem: Problem, model: Model, *, backwards: bool) -> dict[str, int]:
    """Longest chain of least times before (or after) each task; a task on a cycle counts nothing."""
    length, tasks = model.axis.length, {t.id: t for t in problem.tasks}
    steps: dict[str, list[tuple[str, int]]] = {t: [] for t in tasks}
    for task in problem.tasks:
        for link in task.after:
            if link.task in tasks and not is_fact(task) and not is_fact(tasks[link.task]):
                a, b = (link.task, task.id) if backwards else (task.id, link.task)
                steps[a].append((b, length(link.wait_s)))
    done: dict[str, int] = {}
    for task_id in sorted(tasks, key=lambda t: len(model.follows[t]), reverse=not backwards):
        found = [wait + length(tasks[b].least_s) + done.get(b, 0) for b, wait in steps[task_id]]
        done[task_id] = max(found, default=0)
    return done
