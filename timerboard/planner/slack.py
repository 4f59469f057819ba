"""How much later each step may start.

The critical path method's backward pass (Kelley and Walker 1959) on the plan's order: late start less planned start,
when what follows is allowed to slip as well. Elastic steps give way first: they count at their shortest.
"""

from timerboard.core.lenience import is_fact, shift_s
from timerboard.core.plan import Placed, Plan, Problem, Task
from timerboard.core.values import Seconds

from .order import Arc, Order, order_of

NEVER = 1 << 60
"""A limit that is none."""


def with_slack(problem: Problem, plan: Plan) -> Plan:
    """The plan with `slack_s` of every step: 0 for what has begun and for what holds up the meal."""
    starts, _ = late_times(problem, plan, order_of(problem, plan))
    tasks = {t.id: t for t in problem.tasks}
    placed = tuple(p.model_copy(update={"slack_s": _slack(tasks[p.id], p, starts[p.id], plan)}) for p in plan.placed)
    return plan.model_copy(update={"placed": placed})


def _slack(task: Task, own: Placed, late: Seconds, plan: Plan) -> Seconds:
    """Not longer after what it follows than `within` allows, as long as that ends when planned."""
    if is_fact(task):
        return 0
    limits = [late]
    before = {link.task: plan.by_id[link.task].end for link in task.after if link.task in plan.by_id}
    limits += [before[a.task] + a.within_s for a in task.after if a.within_s is not None and a.task in before]
    if task.within_s is not None and before:
        limits.append(max(before.values()) + task.within_s)
    return max(0, min(limits) - own.start)


def late_times(problem: Problem, plan: Plan, order: Order) -> tuple[dict[str, Seconds], dict[str, Seconds]]:
    """Latest start and end of every step that keep the order, the goals and the limits."""
    ends = {t.id: NEVER for t in problem.tasks}
    starts = dict(ends)
    shift = shift_s(problem, plan.eat_at, plan.late_s)
    for goal in problem.goals:
        for last in goal.last:
            ends[last] = min(ends[last], goal.ready_by + shift)
    for limit in order.limits:
        side = ends if limit.point.at_end else starts
        side[limit.point.task] = min(side[limit.point.task], limit.at - limit.point.plus)
    _pull(problem, plan, order, starts, ends)
    meal = plan.eat_at + plan.late_s
    return {k: v if v < NEVER else meal for k, v in starts.items()}, ends


def _pull(problem: Problem, plan: Plan, order: Order, starts: dict[str, Seconds], ends: dict[str, Seconds]) -> None:
    """Backwards through the plan until nothing moves; one round is enough unless moments coincide."""
    leaving: dict[str, list[Arc]] = {t.id: [] for t in problem.tasks}
    for arc in order.arcs:
        leaving[arc.before.task].append(arc)
    tasks = sorted(problem.tasks, key=lambda t: (plan.by_id[t.id].start, plan.by_id[t.id].end), reverse=True)
    moved, rounds = True, 0
    while moved and rounds <= len(tasks):
        moved, rounds = False, rounds + 1
        for task in tasks:
            moved |= _pull_one(task, leaving[task.id], starts, ends)


def _pull_one(task: Task, leaving: list[Arc], starts: dict[str, Seconds], ends: dict[str, Seconds]) -> bool:
    start, end = starts[task.id], ends[task.id]
    for arc in leaving:
        limit = (ends if arc.after.at_end else starts)[arc.after.task] - arc.lag
        if arc.before.at_end:
            end = min(end, limit)
        else:
            start = min(start, limit)
    start = min(start, end - task.least_s)
    end = min(end, start + task.most_s)
    changed = (start, end) != (starts[task.id], ends[task.id])
    starts[task.id], ends[task.id] = start, end
    return changed
