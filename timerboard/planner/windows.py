"""How early and how late each step can lie by the recipes and the meal alone, whatever the kitchen has room for."""

from dataclasses import dataclass, replace

from timerboard.core.plan import Problem, Task
from timerboard.core.values import Seconds

NEVER = 1 << 50
"""Stands for 'nothing says so'."""


@dataclass
class Window:
    """Bounds on a step's start and end."""

    start_from: Seconds = -NEVER
    start_by: Seconds = NEVER
    end_from: Seconds = -NEVER
    end_by: Seconds = NEVER


def windows(problem: Problem) -> dict[str, Window]:
    """Bounds by relaxation of the difference constraints (Bellman and Ford)."""
    out = {t.id: Window() for t in problem.tasks}
    for task in problem.tasks:
        for floor in (problem.not_before, task.earliest):
            if floor is not None:
                out[task.id].start_from = max(out[task.id].start_from, floor)
        if task.started is not None:
            out[task.id].start_from = out[task.id].start_by = task.started
    for goal in problem.goals:
        for last in (i for i in goal.last if i in out):
            out[last].end_by = goal.ready_by if not problem.late_ok else NEVER
            if goal.ready_from is not None and len(goal.last) == 1:
                out[last].end_from = goal.ready_from
    for _ in range(len(out) + 2):  # a ring of waits and limits that contradict one another would go on for ever
        before = {i: replace(w) for i, w in out.items()}
        for task in problem.tasks:
            _tighten(out, task)
        if out == before:
            break
    return out


def _tighten(out: dict[str, Window], task: Task) -> None:
    own = out[task.id]
    own.end_from = max(own.end_from, own.start_from + task.least_s)
    own.end_by = min(own.end_by, own.start_by + task.most_s)
    own.start_from = max(own.start_from, own.end_from - task.most_s)
    own.start_by = min(own.start_by, own.end_by - task.least_s)
    for link in task.after:
        before = out.get(link.task)
        if before is None:
            continue
        own.start_from = max(own.start_from, before.end_from + link.wait_s)
        before.end_by = min(before.end_by, own.start_by - link.wait_s)
        most = link.within_s if link.within_s is not None else task.within_s if len(task.after) == 1 else None
        if most is not None:
            own.start_by = min(own.start_by, before.end_by + most)
            before.end_from = max(before.end_from, own.start_from - most)
