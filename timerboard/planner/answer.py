"""The planner's one door: a Problem in, the best Plan that was found in the time out, or why there is none."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import ceil
from time import perf_counter

from timerboard.core.check_plan import broken_rules
from timerboard.core.heat_settings import heat_settings
from timerboard.core.plan import NoPlan, Plan, Problem, Status
from timerboard.core.quantity_words import duration_words

from .contradictions import contradictions
from .energy import least_span
from .explain import hopeless_at_once, why_not
from .greedy import first_plan
from .leap import leap
from .objective import Stage, stages
from .result import bound_of, plan_of, standing_of
from .rules import post_rules
from .slack import with_slack
from .slipped import slipped
from .solve import Effort, Found, run
from .variables import Model, Sketch, model_of, sketch_of
from .windows import NEVER

LEAST_S = 0.03
"""Neatness takes as long as all aims took, but at least this."""


ABOUT = 1.25
"""Plans begin about when the one at hand does when they begin at most a quarter further ahead of the meal."""

AT_A_GUESS = 1.6
"""... or, with no plan at hand, at most so many times the least that they must."""

MENDED_S = 0.5
"""A plan being cooked is either mended soon, or a new first plan is sooner."""

PROVABLE = 90
"""Steps up to which proofs are worth looking for within ten seconds (measured: 60 steps mostly, 120 never)."""


AFTER_HOLDS = {"oven changes", "hands", "latest first start"}
"""Aims that one plan may be best by all at once."""

NEAR_SHARE = 0.4
"""Of the time for any plan at all, what goes to plans that begin near the meal: there are fewer, and found sooner."""


class PlannerBug(Exception):
    """A plan that breaks a rule, by the checker that knows no solver. It is never handed out."""


@dataclass
class _Search:
    """One question being answered: the best so far, and whether every aim up to here was proven."""

    problem: Problem
    model: Model
    effort: Effort
    progress: Callable[[Plan], None] | None
    cooking: bool = False  # a plan is at hand that something of has begun
    start_from: int | None = None
    aims: list[Stage] = field(default_factory=list)
    best: Sketch | None = None
    settled: list[Stage] = field(default_factory=list)  # aims that were proven, one after another
    open: Stage | None = None  # the first that was not, and what nothing can be below by it
    bound: int = 0
    meal_bound: int | None = None
    told_at: float = 0.0
    began: float = field(default_factory=perf_counter)

    def cost(self, sketch: Sketch, aim: Stage) -> tuple[int, ...]:
        """What a plan costs by an aim and all that come after it."""
        at = next(n for n, own in enumerate(self.aims) if own is aim)
        return tuple(a.of(self.model, sketch) for a in self.aims[at:])

    def judge(self, aim: Stage, found: Found) -> None:
        """Notes whether an aim was proven; after one that was not, the bounds of others say nothing of all plans."""
        if not aim.aim or self.open is not None:
            return
        if found.proven:
            self.settled.append(aim)
            return
        self.open = aim
        bounds = [aim.floor] if aim.floor is not None else []
        self.bound = max([-NEVER, *bounds, *([ceil(found.bound - 1e-6)] if abs(found.bound) < NEVER else [])])

    def is_last(self, aim: Stage) -> bool:
        """True for the last aim that a cook asked for: no time need be left for more."""
        return aim is next((own for own in reversed(self.aims) if own.aim), None)

    def tell(self, sketch: Sketch) -> None:
        """Passes a better plan on, at most ten a second."""
        now = perf_counter()
        if self.progress is not None and now - self.told_at >= 0.1:
            self.told_at = now
            self.progress(plan_of(self.model, sketch))


def answer(
    problem: Problem,
    *,
    limit_s: float = 10.0,
    workers: int = 2,
    hint: Plan | None = None,
    progress: Callable[[Plan], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Plan | NoPlan:
    """The best plan found within `limit_s` seconds of wall time, `OPTIMAL` only when every aim was proven.

    `hint` is a plan at hand; when something has begun, the answer stays as near to it as the aims before allow.
    `progress` gets better plans on the way, `stop` is asked about 30 times a second. Raises PlannerBug, never a
    solver's error.
    """
    began = perf_counter()
    effort = Effort(began + limit_s, workers, stop)
    if faults := contradictions(problem):
        return why_not(problem, faults)
    near = hint if any(t.started is not None for t in problem.tasks) else None
    first = hint if hint is not None and _keeps(problem, hint) else None
    search = _mended(problem, effort, progress, near, began) if first is None and near is not None else None
    if search is None:
        first = first or first_plan(problem)
        if first is None and hopeless_at_once(problem, effort.until, stop):
            return why_not(problem, stop=stop, began=began)
        if first is not None and progress is not None:
            progress(first)
        search = _asked(problem, effort, progress, near, began)
    return _searched(search, first)


def _asked(
    problem: Problem, effort: Effort, progress: Callable[[Plan], None] | None, near: Plan | None, began: float
) -> _Search:
    search = _Search(problem, model_of(problem), effort, progress, near is not None, began=began)
    post_rules(search.model)
    search.aims = stages(search.model, near)
    return search


def _mended(
    problem: Problem, effort: Effort, progress: Callable[[Plan], None] | None, near: Plan, began: float
) -> _Search | None:
    """A search that begins at what the solver makes of the plan being cooked; None when it makes nothing soon."""
    old = slipped(problem, near)
    if old is None or effort.over:
        return None
    search = _asked(problem, effort, progress, near, began)
    sketch = sketch_of(search.model, old)
    if sketch is None or not search.aims:
        return None
    aim = search.aims[0]
    search.model.hint(sketch)
    search.model.cp.minimize(aim.cost)
    share = _share(search, aim)
    found = run(search.model, replace(share, until=min(share.until, perf_counter() + MENDED_S)), search.tell)
    if found.sketch is None:
        return None
    search.best = found.sketch
    if found.proven:
        search.aims[0] = replace(aim, floor=aim.of(search.model, found.sketch))
    return search


def _keeps(problem: Problem, plan: Plan) -> bool:
    known = {p.id for p in plan.placed}
    return all(t.id in known for t in problem.tasks) and not broken_rules(problem, plan)


def _searched(search: _Search, first: Plan | None) -> Plan | NoPlan:
    if first is not None:
        search.best = sketch_of(search.model, first)
    if search.best is not None:
        search.start_from = round(ABOUT * min(search.best.start.values(), default=0))
    elif search.model.first is not None:
        search.start_from = -round(AT_A_GUESS * least_span(search.model))
    if search.best is None:
        found = _any_plan(search)
        search.best = found.sketch
        if found.sketch is None:
            return _nothing(search, found)
    for n in range(len(search.aims)):
        if search.aims[n].name in AFTER_HOLDS and search.aims[n - 1].name not in AFTER_HOLDS:
            _leap(search, n)
        _stage(search, search.aims[n])
    return _finished(search)


def _leap(search: _Search, n: int) -> None:
    """All that is left to aim for at once, where bounds say what the best could be."""
    aims = [aim for aim in search.aims[n:] if aim.aim]
    if len(search.problem.tasks) > PROVABLE or (found := leap(search.model, aims, search.effort)) is None:
        return
    search.aims[n : n + len(aims)], search.best = found
    search.tell(search.best)


def _any_plan(search: _Search) -> Found:
    """Any plan at all, where the greedy search found none: near the meal first, then anywhere, in all of the time.

    Without an aim: a plan that keeps every rule is worth more than a good one that is not found.
    """
    model, effort = search.model, search.effort
    if model.first is not None and search.start_from is not None:
        share = replace(effort, until=perf_counter() + NEAR_SHARE * effort.left_s)
        near = run(model.starting_from(search.start_from), share)
        if near.sketch is not None:
            return near
    return run(model, effort)


def _stage(search: _Search, aim: Stage) -> None:
    """One aim: as good as time allows, then held for the aims after it."""
    model, best = search.model, search.best
    if best is not None and aim.floor is not None and aim.of(model, best) <= aim.floor:
        model.cp.add(aim.cost <= aim.floor)
        if aim.name == "on time":
            search.meal_bound = aim.floor
        search.judge(aim, Found(best, aim.floor, proven=True))
        return
    if best is not None and search.effort.over:  # not even time to ask
        search.judge(aim, Found(best, -NEVER, proven=False))
        return
    if best is not None:
        model.hint(best)
    model.cp.minimize(aim.cost)
    found = _run(search, aim)
    if found.sketch is not None and (best is None or search.cost(found.sketch, aim) <= search.cost(best, aim)):
        search.best = found.sketch
    search.judge(aim, found)
    if aim.name == "on time":
        search.meal_bound = round(found.bound)
    if search.best is not None:
        model.cp.add(aim.cost <= aim.of(model, search.best))


def _run(search: _Search, aim: Stage) -> Found:
    """An aim before the first start is first looked for among plans that begin about when the plan at hand does.

    What is as good as can be there is so anywhere; and a solver left alone starts the salad three days ahead. Menus
    too big for proofs are left at that.
    """
    model, limit = search.model, search.start_from
    big = len(search.problem.tasks) > PROVABLE
    if model.first is None or limit is None or not (aim.name in {"oven changes", "hands"} or (big and aim.aim)):
        return run(model, _share(search, aim), search.tell)
    found = run(model.starting_from(limit), _share(search, aim), search.tell)
    at_floor = found.sketch is not None and aim.floor is not None and aim.of(model, found.sketch) <= aim.floor
    if at_floor or (big and found.sketch is not None):  # what is known of plans near the meal is not known of all
        return replace(found, proven=at_floor, bound=aim.floor if aim.floor is not None else -NEVER)
    if found.sketch is not None:
        model.hint(found.sketch)
    anywhere = run(model, _share(search, aim), search.tell)
    if anywhere.sketch is None or (
        found.sketch is not None and aim.of(model, found.sketch) <= aim.of(model, anywhere.sketch)
    ):
        return replace(anywhere, sketch=found.sketch)
    return anywhere


def _share(search: _Search, aim: Stage) -> Effort:
    """A good half of what is left, so that later aims get their turn when an early one is hard; the last nearly all."""
    effort, spent_s = search.effort, perf_counter() - search.began
    seconds = (0.95 if search.is_last(aim) else 0.6) * effort.left_s
    if aim.at_most_s is not None:
        most_s = aim.at_most_s if aim.aim else max(LEAST_S, min(aim.at_most_s, spent_s))
        seconds = min(seconds, max(most_s, aim.until_s - spent_s))
    return Effort(perf_counter() + seconds, effort.workers, effort.stop, aim.search, presolve=not search.cooking)


def _nothing(search: _Search, found: Found) -> NoPlan:
    """'Cannot' only where it is proven; else that time was up."""
    if found.proven:
        return why_not(search.problem, stop=search.effort.stop, began=search.began)
    after = duration_words(max(1, round(perf_counter() - search.began)))
    return NoPlan(status=Status.UNKNOWN, reasons=(f"None was found in {after}; there may be one all the same.",))


def _finished(search: _Search) -> Plan:
    assert search.best is not None
    status = Status.OPTIMAL if search.open is None else Status.FEASIBLE
    bound = None
    if search.problem.soonest and search.meal_bound is not None:
        bound = bound_of(search.problem, search.model.axis.moment(search.meal_bound))
    plan = plan_of(search.model, search.best, status, bound)
    if search.open is not None:
        standing = standing_of(search.model, search.best, search.open, search.bound)
        settled = tuple(aim.name for aim in search.settled)
        plan = plan.model_copy(update={"standing": standing.model_copy(update={"proven": settled})})
    return _complete(search.problem, plan)


def _complete(problem: Problem, plan: Plan) -> Plan:
    """With the oven's settings and slack, checked by what knows no solver."""
    plan = plan.model_copy(update={"settings": heat_settings(problem, plan.placed)})
    plan = with_slack(problem, plan)
    if broken := broken_rules(problem, plan):
        raise PlannerBug("; ".join(broken))
    return plan
