"""The plan being cooked with the facts put in: no plan any more, but near to a good one. A solver starts from it.

What a list schedule makes of a meal half cooked is far from where the solver ends; the old plan is right but for what
the facts push, and the solver mends that within some milliseconds (measured: sooner and better than from a greedy plan,
and sooner than a linear program on the old plan's order, which the facts mostly break).
"""

from timerboard.core.plan import Placed, Plan, Problem, Task
from timerboard.core.values import Seconds


def slipped(problem: Problem, old: Plan) -> Plan | None:
    """Facts where they are, the rest where it was or from now on. None when `old` lacks a step. It may break rules."""
    if any(old.of(t.id) is None for t in problem.tasks):
        return None
    by: dict[str, Seconds] = {}
    placed = []
    for task in problem.tasks:
        own = old.by_id[task.id]
        start = _start(problem, task, own)
        by[task.id] = start - own.start
        placed.append(own.model_copy(update={"start": start, "end": _end(task, own, start)}))
    known = {(t.id, slot.id) for t in problem.tasks for slot in t.cues}
    cues = tuple(c.model_copy(update={"at": c.at + by[c.step]}) for c in old.cues if (c.step, c.id) in known)
    return old.model_copy(update={"placed": tuple(placed), "cues": cues})


def _start(problem: Problem, task: Task, own: Placed) -> Seconds:
    if task.started is not None:
        return task.started
    return own.start if problem.not_before is None else max(own.start, problem.not_before)


def _end(task: Task, own: Placed, start: Seconds) -> Seconds:
    if task.ended is not None:
        return task.ended
    length = own.end - own.start
    return start + max(task.least_s, min(length, task.most_s))
