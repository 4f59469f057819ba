"""Why there is no plan: the fewest dishes and rules that cannot be kept together, said so that a cook can act.

A deletion filter (Chinneck and Dravnieks 1991, ORSA J. Comput. 3: 157-168): take away one dish, then one rule, after
another; what can be missed without a plan coming of it had no part in the trouble.
"""

from collections.abc import Callable, Sequence
from time import perf_counter
from typing import TypeVar

from timerboard.core.plan import NoPlan, Problem, WayOut
from timerboard.core.words import lower_first, sentence_list, the

from .greedy import first_plan
from .overload import overload
from .reasons import said
from .relax import Rule, Trouble, may_bind, only, rules_of
from .rules import post_rules
from .solve import Effort, Found, run
from .variables import model_of
from .ways_out import Stop, ways_out

T = TypeVar("T")

ANSWER_S = 1.6
"""Of the two seconds a cook waits for a reasoned 'no', what all of it may take with the proof; a last try overruns."""

LEAST_S = 0.5
"""What reasons and ways out may take in any case, however late the proof came."""

REASONS_SHARE = 0.45
"""What of it goes to reasons; the rest to ways out."""

FEW_IDEAS = 6
"""Greedy tries before the solver is asked whether an eased question has a plan."""

ONE_TRY_S = 0.25
"""How long one eased question is tried; no answer by then counts as 'there is a plan', which keeps the rule."""

DOOMED_S = 0.3
"""How long single dishes are looked at before the whole is."""

MOST_TROUBLES = 3
"""Troubles told at once that have nothing to do with one another."""


def why_not(problem: Problem, faults: Sequence[str] = (), stop: Stop = None, began: float | None = None) -> NoPlan:
    """Reasons for a question that has no plan, and what would make one possible, tried.

    All is said two seconds after `began` (on `perf_counter`; None: now), or soon after the proof that came later.
    Dishes in separate troubles are told one after another; a way out of one of several is tried without the others.
    """
    if faults:
        return NoPlan(reasons=tuple(faults))
    now = perf_counter()
    until = max((now if began is None else began) + ANSWER_S, now + LEAST_S)
    found = troubles(problem, now + REASONS_SHARE * (until - now), stop)
    reasons = tuple(dict.fromkeys(line for trouble in found for line in said(trouble)))
    if len(found) == 1:
        return NoPlan(reasons=reasons, ways_out=ways_out(problem, found[0], until, stop))
    ways: list[WayOut] = []
    for n, trouble in enumerate(found):
        others = {dish for other in found if other is not trouble for dish in other.dishes}
        alone = only(problem, [t.dish for t in problem.tasks if t.dish not in others])
        share = perf_counter() + (until - perf_counter()) / (len(found) - n)
        for way in ways_out(alone, trouble, share, stop)[:2]:
            ways.append(way.model_copy(update={"said": f"For {_names(trouble)}: {lower_first(way.said)}"}))
    return NoPlan(reasons=reasons, ways_out=tuple(ways))


def _names(trouble: Trouble) -> str:
    return sentence_list([the(dish) for dish in dict.fromkeys(t.dish for t in trouble.small.tasks)])


def troubles(problem: Problem, until: float, stop: Stop = None) -> list[Trouble]:
    """Each trouble that has no dish with another in common, within a time; at least one.

    A dish that cannot be made even by itself is told first: it takes no search to find.
    """
    found = [smallest(only(problem, [dish]), until, stop) for dish in doomed(problem, until, stop)[:MOST_TROUBLES]]
    if not found:
        found = [smallest(problem, until, stop)]
    rest = problem
    while len(found) < MOST_TROUBLES:
        rest = only(rest, {t.dish for t in rest.tasks} - {dish for one in found for dish in one.dishes})
        if not rest.tasks or not _hopeless(rest, until, stop):
            break
        found.append(smallest(rest, until, stop))
    return found


def hopeless_at_once(problem: Problem, until: float, stop: Stop = None) -> bool:
    """True where counting, or one dish alone, proves in a moment that there is no plan. False says nothing."""
    if overload(problem) is not None:
        return True
    return bool(doomed(problem, min(until, perf_counter() + DOOMED_S), stop))


def doomed(problem: Problem, until: float, stop: Stop = None) -> list[str]:
    """Dishes that cannot be made in this kitchen even with nothing else to cook."""
    dishes = dict.fromkeys(t.dish for t in problem.tasks)
    return [dish for dish in dishes if _hopeless(only(problem, [dish]), until, stop)]


def possible(problem: Problem, until: float, stop: Stop = None) -> Found:
    """Whether there is any plan at all, within a short while."""
    model = model_of(problem)
    post_rules(model)
    return run(model, Effort(min(until, perf_counter() + ONE_TRY_S), 1, stop))


def _hopeless(problem: Problem, until: float, stop: Stop = None) -> bool:
    """True when there is surely no plan. Counting settles most of it, and a greedy plan most of the rest."""
    if perf_counter() >= until or (stop is not None and stop()):
        return False
    if overload(problem) is not None:
        return True
    if first_plan(problem, ideas=FEW_IDEAS) is not None:
        return False
    found = possible(problem, until, stop)
    return found.sketch is None and found.proven


def smallest(problem: Problem, until: float, stop: Stop = None) -> Trouble:
    """The fewest dishes that do not go together, and the rules that keep them from it.

    Where work is too much for its time, that is what is told. When time runs out, of rules that were not tried only
    those are told that no tried one stands for.
    """
    over = overload(problem)
    if over is not None:
        small = only(problem, over.dishes)
        if (alone := overload(small)) is not None:
            over = alone
        else:  # links to other dishes are what makes it too much
            small = problem
        rules = [rule for rule in rules_of(small) if may_bind(small, rule)]
        return Trouble(small, _fewest(rules, lambda some: _is_too_much(small, rules, some), until)[0], over)

    def hopeless(candidate: Problem) -> bool:
        return _hopeless(candidate, until, stop)

    dishes = list(dict.fromkeys(t.dish for t in problem.tasks))
    small = only(problem, _fewest(dishes, lambda some: hopeless(only(problem, some)), until)[0])
    rules = [rule for rule in rules_of(small) if may_bind(small, rule)]
    needed, tried = _fewest(rules, lambda some: hopeless(_without(small, [r for r in rules if r not in some])), until)
    return Trouble(small, needed[:tried] or needed)


def _is_too_much(small: Problem, rules: list[Rule], kept: list[Rule]) -> bool:
    return overload(_without(small, [rule for rule in rules if rule not in kept])) is not None


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
