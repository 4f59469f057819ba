"""Why there is no plan: the fewest dishes and rules that cannot be kept together, said so that a cook can act.

A deletion filter (Chinneck and Dravnieks 1991, ORSA J. Comput. 3: 157-168): take away one dish, then one rule, after
another; what can be missed without a plan coming of it had no part in the trouble.
"""

from collections.abc import Callable, Sequence
from time import perf_counter
from typing import TypeVar

from timerboard.core.plan import NoPlan, Problem

from .reasons import said
from .relax import Rule, only, rules_of
from .rules import post_rules
from .solve import Effort, Found, run
from .variables import model_of
from .ways_out import ways_out

T = TypeVar("T")

REASONS_S = 0.9
"""Of the two seconds a cook waits for reasons, what the search for them may take."""

ONE_TRY_S = 0.25
"""How long one eased question is tried; no answer by then counts as 'there is a plan', which keeps the rule."""

WAYS_S = 0.9
"""What the search for ways out may take."""


def why_not(problem: Problem, faults: Sequence[str] = (), stop: Callable[[], bool] | None = None) -> NoPlan:
    """Reasons for a question that has no plan, and what would make one possible, tried. Takes about two seconds."""
    if faults:
        return NoPlan(reasons=tuple(faults))
    until = perf_counter() + REASONS_S
    small, rules = smallest(problem, until, stop)
    reasons = said(small, rules)
    return NoPlan(reasons=reasons, ways_out=ways_out(problem, small, rules, perf_counter() + WAYS_S, stop))


def possible(problem: Problem, until: float, stop: Callable[[], bool] | None = None) -> Found:
    """Whether there is any plan at all, within a short while."""
    model = model_of(problem)
    post_rules(model)
    return run(model, Effort(min(until, perf_counter() + ONE_TRY_S), 1, stop))


def smallest(problem: Problem, until: float, stop: Callable[[], bool] | None = None) -> tuple[Problem, list[Rule]]:
    """The fewest dishes that do not go together, and the rules that keep them from it."""

    def hopeless(candidate: Problem) -> bool:
        if perf_counter() >= until or (stop is not None and stop()):
            return False
        found = possible(candidate, until, stop)
        return found.sketch is None and found.proven

    kept = _fewest(list(dict.fromkeys(t.dish for t in problem.tasks)), lambda dishes: hopeless(only(problem, dishes)))
    small = only(problem, kept)
    rules = rules_of(small)
    needed = _fewest(rules, lambda some: hopeless(_without(small, [r for r in rules if r not in some])))
    return small, needed


def _fewest(items: list[T], hopeless: Callable[[list[T]], bool]) -> list[T]:
    """Items without which there would be a plan: tried away in halves first, then one by one."""
    size = max(1, len(items) // 2)
    while size:
        at = 0
        while at < len(items):
            rest = items[:at] + items[at + size :]
            if hopeless(rest):
                items = rest
            else:
                at += size
        size //= 2
    return items


def _without(problem: Problem, rules: list[Rule]) -> Problem:
    for rule in rules:
        problem = rule.without(problem)
    return problem
