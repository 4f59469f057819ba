"""Plans that keep time in hand where they can (see `core/in_hand.py`), and plans without it where they cannot.

A tight menu is never refused, made late or worked on for longer than asked for the sake of a few minutes in hand.
"""

from collections.abc import Callable
from time import perf_counter

from timerboard.core.in_hand import with_time_in_hand
from timerboard.core.plan import NoPlan, Plan, Problem

from .greedy import first_plan
from .slack import with_slack


def first_plan_in_hand(problem: Problem) -> Plan | None:
    """`first_plan` with time in hand, else without."""
    early = with_time_in_hand(problem)
    found = first_plan(early) if early is not problem else None
    if found is None or found.late_s:
        return first_plan(problem)
    return with_slack(problem, found)


def answer_in_hand(
    problem: Problem,
    *,
    limit_s: float = 10.0,
    workers: int = 2,
    hint: Plan | None = None,
    progress: Callable[[Plan], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Plan | NoPlan:
    """`answer` with time in hand, else without; OPTIMAL is then said among the plans that keep it."""
    from .answer import answer  # the solver takes a second to load: a first plan is there before it

    until = perf_counter() + limit_s
    early = with_time_in_hand(problem)
    plan = first_plan(early) if early is not problem else None
    if plan is not None and not plan.late_s:
        found = answer(early, limit_s=limit_s, workers=workers, hint=hint or plan, progress=progress, stop=stop)
        if isinstance(found, Plan) and not found.late_s:
            return with_slack(problem, found)
    left_s = max(0.1, until - perf_counter())
    return answer(problem, limit_s=left_s, workers=workers, hint=hint, progress=progress, stop=stop)
