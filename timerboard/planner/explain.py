"""Why there is no plan: the fewest dishes and rules that cannot be kept together, said so that a cook can act.

A deletion filter (Chinneck and Dravnieks 1991, ORSA J. Comput. 3: 157-168): take away one dish, then one rule, after
another; what can be missed without a plan coming of it had no part in the trouble.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from time import perf_counter
from typing import TypeVar

from timerboard.core.plan import NoPlan, Problem, WayOut
from timerboard.core.words import lower_first, sentence_list, the

from .greedy import first_plan
from .reasons import said
from .relax import Rule, may_bind, only, rules_of
from .rules import post_rules
from .solve import Effort, Found, run
from .variables import model_of
from .ways_out import ways_out

T = TypeVar("T")

ANSWER_S = 1.8
"""Of the two seconds a cook waits for reasons, what all of it may take."""

REASONS_S = 0.8
"""... and what of it the search for reasons."""

ONE_TRY_S = 0.25
"""How long one eased question is tried; no answer by then counts as 'there is a plan', which keeps the rule."""

MOST_TROUBLES = 3
"""Troubles told at once that have nothing to do with one another."""


@dataclass(frozen=True)
class Trouble:
    """The fewest dishes that do not go together, and the rules that keep them from it."""

    small: Problem
    rules: list[Rule]

    @property
    def dishes(self) -> set[str]:
        """Their names."""
        return {t.dish for t in self.small.tasks}


def why_not(problem: Problem, faults: Sequence[str] = (), stop: Callable[[], bool] | None = None) -> NoPlan:
    """Reasons for a question that has no plan, and what would make one possible, tried. Takes two seconds at most.

    Dishes in separate troubles are told one after another; a way out of one of several is tried without the others.
    """
    if faults:
        return NoPlan(reasons=tuple(faults))
    began = perf_counter()
    until = began + ANSWER_S
    found = troubles(problem, began + REASONS_S, stop)
    reasons = tuple(dict.fromkeys(line for trouble in found for line in said(trouble.small, trouble.rules)))
    if len(found) == 1:
        return NoPlan(reasons=reasons, ways_out=ways_out(problem, found[0].small, found[0].rules, until, stop))
    ways: list[WayOut] = []
    for n, trouble in enumerate(found):
        others = {dish for other in found if other is not trouble for dish in other.dishes}
        alone = only(problem, [t.dish for t in problem.tasks if t.dish not in others])
        share = perf_counter() + (until - perf_counter()) / (len(found) - n)
        for way in ways_out(alone, trouble.small, trouble.rules, share, stop)[:2]:
            ways.append(way.model_copy(update={"said": f"For {_names(trouble)}: {lower_first(way.said)}"}))
    return NoPlan(reasons=reasons, ways_out=tuple(ways))


def _names(trouble: Trouble) -> str:
    return sentence_list([the(dish) for dish in dict.fromkeys(t.dish for t in trouble.small.tasks)])


def troubles(problem: Problem, until: float, stop: Callable[[], bool] | None = None) -> list[Trouble]:
    """Each trouble that has no dish with another in common, within a time; at least one."""
    found = [smallest(problem, until, stop)]
    rest = problem
    while len(found) < MOST_TROUBLES:
        rest = only(rest, {t.dish for t in rest.tasks} - found[-1].dishes)
        if not rest.tasks or not _hopeless(rest, until, stop):
            break
        found.append(smallest(rest, until, stop))
    return found


def possible(problem: Problem, until: float, stop: Callable[[], bool] | None = None) -> Found:
    """Whether there is any plan at all, within a short while."""
    model = model_of(problem)
    post_rules(model)
    return run(model, Effort(min(until, perf_counter() + ONE_TRY_S), 1, stop))


def _hopeless(problem: Problem, until: float, stop: Callable[[], bool] | None = None) -> bool:
    """True when there is surely no plan. A greedy one settles it soonest."""
    if perf_counter() >= until or (stop is not None and stop()) or first_plan(problem) is not None:
        return False
    found = possible(problem, until, stop)
    return found.sketch is None and found.proven


def smallest(problem: Problem, until: float, stop: Callable[[], bool] | None = None) -> Trouble:
    """The fewest dishes that do not go together, and the rules that keep them from it.

    When time runs out, of rules that were not tried only those are told that no tried one stands for.
    """

    def hopeless(candidate: Problem) -> bool:
        return _hopeless(candidate, until, stop)

    dishes = list(dict.fromkeys(t.dish for t in problem.tasks))
    small = only(problem, _fewest(dishes, lambda some: hopeless(only(problem, some)), until)[0])
    rules = [rule for rule in rules_of(small) if may_bind(small, rule)]
    needed, tried = _fewest(rules, lambda some: hopeless(_without(small, [r for r in rules if r not in some])), until)
    return Trouble(small, needed[:tried] or needed)


def _fewest(items: list[T], hopeless: Callable[[list[T]], bool], until: float) -> tuple[list[T], int]:
    """Items without which there would be a plan: tried away in halves first, then one by one.

    Also how many of them, from the first on, were tried one by one before time ran out.
    """
    size = max(1, len(items) // 2)
    at = 0
    while size:
        at = 0
        while at < len(items) and perf_counter() < until:
            rest = items[:at] + items[at + size :]
            if hopeless(rest):
                items = rest
            else:
                at += size
        if size == 1 or perf_counter() >= until:
            break
        size //= 2
    return items, at if size == 1 else 0


def _without(problem: Problem, rules: list[Rule]) -> Problem:
    for rule in rules:
        problem = rule.without(problem)
    return problem
