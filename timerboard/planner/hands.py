"""Hands by time: no more pairs busy than there are, none in closed hours, and one person for one continuous job."""

from dataclasses import dataclass
from typing import Any

from timerboard.core.busy import most_pairs
from timerboard.core.lenience import is_fact
from timerboard.core.plan import Problem, Task

from .busy import Block, Piece, limit
from .variables import Expr, Model, Sketch


@dataclass(frozen=True)
class Job:
    """A stretch of work with no break: one person does it. `key` is "" for the task itself, else names the piece."""

    task: Task
    key: str
    start: Expr
    end: Expr
    interval: Any


def hands(model: Model) -> None:
    """Pairs of hands by time; when steps name a person, each person is one pair of their own."""
    jobs = jobs_of(model)
    pairs = most_pairs(model.problem)
    free = [j for j in jobs if not is_fact(j.task)]
    pieces = [Piece(j.interval, j.start, j.end, 1) for j in free]
    facts = [Block(*_fixed(model, j), 1) for j in jobs if is_fact(j.task)]
    limit(model, pieces, facts + absent(model), pairs, "hands")
    varies = len({h.pairs for h in model.problem.hands}) > 1
    if pairs > 1 and (varies or any(t.person is not None for t in model.problem.tasks)):
        _persons(model, jobs, pairs)


def jobs_of(model: Model) -> list[Job]:
    """Every continuous job of every task, and every cue that takes hands from somewhere else."""
    return [job for task in model.problem.tasks if task.ended is None for job in _of_task(model, task)]


def _of_task(model: Model, task: Task) -> list[Job]:
    span, length = model.spans[task.id], model.axis.length
    if task.throughout or task.attend:
        return [Job(task, "", span.start, span.end, span.interval)]
    out = []
    for n, piece in enumerate(task.hands):
        size, offset = length(piece.length_s), length(piece.offset_s)
        if size:
            out.append(
                _job(model, task, f"hands {n}", span.end - offset if piece.from_end else span.start + offset, size)
            )
    for slot in task.cues:
        if slot.work_s:
            out.append(_job(model, task, slot.id, model.cues[task.id, slot.id], length(slot.work_s)))
    return out


def _job(model: Model, task: Task, key: str, start: Expr, size: int) -> Job:
    interval = model.cp.new_fixed_size_interval_var(start, size, f"{task.id}: {key}")
    return Job(task, key, start, start + size, interval)


def begin_of(model: Model, job: Job, sketch: Sketch) -> int:
    """When a job begins in a plan."""
    task, length = job.task, model.axis.length
    if job.key == "":
        return sketch.start[task.id]
    if (task.id, job.key) in model.cues:
        return sketch.cue[task.id, job.key]
    piece = task.hands[int(job.key.removeprefix("hands "))]
    offset = length(piece.offset_s)
    return sketch.end[task.id] - offset if piece.from_end else sketch.start[task.id] + offset


def least_size(model: Model, job: Job) -> int:
    """The shortest a job can be: elastic steps may give hands for longer."""
    if job.key == "":
        return model.axis.length(job.task.least_s)
    slot = next((c for c in job.task.cues if c.id == job.key), None)
    seconds = slot.work_s if slot else job.task.hands[int(job.key.removeprefix("hands "))].length_s
    return model.axis.length(seconds)


def _fixed(model: Model, job: Job) -> tuple[int, int]:
    """A fact's job as fixed ticks; an end that is still open is taken at its latest."""
    fact, axis = job.task, model.axis
    began = fact.started or 0
    start, end = began, began + fact.most_s
    if (fact.id, job.key) in model.cues:
        slot = next(c for c in fact.cues if c.id == job.key)
        start, end = began + slot.offset_s, began + slot.offset_s + slot.work_s
    elif job.key:
        piece = fact.hands[int(job.key.removeprefix("hands "))]
        start = end - piece.offset_s if piece.from_end else began + piece.offset_s
        end = start + piece.length_s
    return axis.before(start), axis.point(end)


def absent(model: Model) -> list[Block]:
    """Stretches with fewer pairs than the most there ever are, closed hours with none at all."""
    problem, point = model.problem, model.axis.point
    pairs = most_pairs(problem)
    ends = [point(h.at) for h in problem.hands[1:]] + [model.high + 1]
    starts = [model.low - 1, *ends[:-1]]
    short = [
        Block(max(start, model.low - 1), min(end, model.high + 1), pairs - h.pairs)
        for h, start, end in zip(problem.hands, starts, ends, strict=True)
    ]
    return short + [Block(point(s.start), point(s.end), pairs) for s in problem.closed]


def _persons(model: Model, jobs: list[Job], pairs: int) -> None:
    """Each job to one person; a step's own person where it names one."""
    lines: list[list[Any]] = [[] for _ in range(pairs)]
    began = [_fixed(model, j) for j in jobs if is_fact(j.task)]
    crowded = any(sum(a <= at < b for a, b in began) > 1 for at, _ in began)
    for job in jobs:
        if is_fact(job.task) and crowded:
            continue
        if job.task.person is not None:
            lines[min(job.task.person, pairs) - 1].append(job.interval)
            continue
        chosen = [model.cp.new_bool_var(f"{job.task.id} {job.key} by {p + 1}") for p in range(pairs)]
        model.cp.add_exactly_one(chosen)
        model.chosen.setdefault(job.task.id, chosen)
        for line, yes in zip(lines, chosen, strict=True):
            line.append(_optional(model, job, yes))
    for person, line in enumerate(lines):
        away = [
            model.cp.new_fixed_size_interval_var(a, b - a, "away") for a, b in away_of(model.problem, model, person)
        ]
        model.cp.add_no_overlap(line + away)


def _optional(model: Model, job: Job, yes: Expr) -> Expr:
    name = f"{job.task.id} {job.key}"
    if job.key == "":
        return model.cp.new_optional_interval_var(job.start, model.spans[job.task.id].size, job.end, yes, name)
    return model.cp.new_optional_fixed_size_interval_var(job.start, least_size(model, job), yes, name)


def away_of(problem: Problem, model: Model, person: int) -> list[tuple[int, int]]:
    """When person number `person` (from 0) is not there: hands by time count persons from the first."""
    point = model.axis.point
    ends = [point(h.at) for h in problem.hands[1:]] + [model.high + 1]
    starts = [model.low - 1, *ends[:-1]]
    return [
        (max(a, model.low - 1), b)
        for h, a, b in zip(problem.hands, starts, ends, strict=True)
        if h.pairs <= person and b > a
    ]
