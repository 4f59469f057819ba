"""What a plan made while cooking is forgiven, so that there is always one.

A cook who asks 'what now?' must get an answer. Two rules can be broken by facts alone: a pan that has ended may find no
hands within its two minutes, and a dish that is on its way may be ready too early for a meal that got late. Both stay
aims (a planner keeps them when it can, and breaks them by as little as it can), but only for what has begun. Everything
that has not begun keeps every rule: it can always be begun later.
"""

from .plan import Goal, Problem, Task
from .values import Seconds


def is_fact(task: Task) -> bool:
    """True for what the cook has begun: it is not the planner's to move."""
    return task.started is not None


def within_binds(problem: Problem, before: Task) -> bool:
    """Whether a most-time (`within`) after `before` is a rule; else it is an aim."""
    return not (problem.late_ok and is_fact(before))


def hold_binds(problem: Problem, goal: Goal) -> bool:
    """Whether `ready_from` of a goal is a rule; else it is an aim: a task of that dish has begun."""
    if goal.ready_from is None:
        return False
    return not (problem.late_ok and any(is_fact(t) for t in problem.tasks if t.dish == goal.dish))


def shift_s(problem: Problem, eat_at: Seconds, late_s: Seconds) -> Seconds:
    """How much later than asked a plan lets everything that hangs on the meal be: goals and make-ahead limits.

    `Plan.eat_at` is the moment asked for and `late_s` comes on top (only with `late_ok`); with `soonest` the plan
    chooses `eat_at` itself. Hands and closed hours stay where they are on the axis.
    """
    return eat_at - problem.eat_at if problem.soonest else late_s
