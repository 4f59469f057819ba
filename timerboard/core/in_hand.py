"""Time in hand: a plan aims to have everything ready a few minutes before it is eaten, where waiting costs nothing.

Who cooks for others is ready before the announced time: 15 min at a private party, by common practice (no source).
Here each dish gives at most the first quarter of its hold, the part in which it loses nothing, so that a souffle still
comes straight from the oven. Measured on the sample menus: `python -m tests.bench.bench_in_hand`.
"""

from .plan import Goal, Problem
from .values import Seconds

FREE_SHARE = 4
"""A dish is at its best within the first quarter of its hold; the aim for short holds counts the same quarter."""


def early_s(goal: Goal, wish_s: Seconds) -> Seconds:
    """How much earlier than it is eaten a dish may be ready at no loss, up to what is wished for.

    0 for what is not counted at the table: what it goes into is early already.
    """
    return 0 if goal.ready_from is None else min(wish_s, goal.hold_s // FREE_SHARE)


def with_time_in_hand(problem: Problem) -> Problem:
    """The question whose plans keep that time in hand; the same question where nothing is wished for or can be had.

    A plan of it that is not late keeps every rule of `problem` itself.
    """
    goals = tuple(_earlier(goal, problem.in_hand_s) for goal in problem.goals)
    if goals == problem.goals or problem.soonest:
        return problem
    return problem.model_copy(update={"goals": goals, "in_hand_s": 0})


def _earlier(goal: Goal, wish_s: Seconds) -> Goal:
    by = early_s(goal, wish_s)
    return goal if not by else goal.model_copy(update={"ready_by": goal.ready_by - by})
