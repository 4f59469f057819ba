"""A meal caught in the middle: what a plan had begun by then is a fact, and one step takes longer than planned."""

from timerboard.core.plan import Plan, Problem


def half_cooked(problem: Problem, plan: Plan, share: float = 0.5, longer_s: int = 600) -> Problem:
    """The same question when `share` of the plan's time has gone and one running step needs `longer_s` more."""
    now = plan.starts_at + int(plan.span_s * share)
    running = next((p for p in plan.placed if p.start < now - 60 < p.end), None)
    tasks = []
    for task in problem.tasks:
        placed, slow = plan.by_id[task.id], running is not None and running.id == task.id
        took = placed.end - placed.start
        if placed.end <= now and not slow:
            facts = {"started": placed.start, "ended": placed.end, "cues": (), "hands": (), "after": ()}
            tasks.append(task.model_copy(update={**facts, "within_s": None, "least_s": took, "most_s": took}))
        elif placed.start <= now:
            length = max(took, now - placed.start) + (longer_s if slow else 0)
            cues = tuple(c for c in task.cues if placed.start + c.offset_s > now)
            begun = {"started": placed.start, "least_s": length, "most_s": length, "after": (), "within_s": None}
            tasks.append(task.model_copy(update={**begun, "cues": cues}))
        else:
            tasks.append(task)
    return problem.model_copy(update={"tasks": tuple(tasks), "not_before": now, "late_ok": True})
