"""How fast the planner answers: `python -m tests.bench.bench_planner [menus | --short] [--hands=1] [--again]`. Six
minutes for 20 menus; `--hands=` leaves out the other pairs and the bigger menus, `--again` all but the question asked
while cooking.

Per menu: the first plan (greedy, told before the solver starts); the first plan that loses no more in holds than the
best and starts no further ahead than 1 % above the proven bound of the first start; the proof; and a question asked
while cooking, with one step ten minutes late. Medians, the 90th percentile and the most.
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from statistics import median, quantiles
from time import perf_counter

from tests.bench.menus import feast_value, menu_value
from tests.planner.half_cooked import half_cooked
from timerboard.core.menu import Menu
from timerboard.core.plan import Plan, Problem, Status
from timerboard.core.question import question
from timerboard.planner import answer as planner
from timerboard.planner.energy import least_span

EAT_AT = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC
LIMIT_S = 10.0


@dataclass
class Timing:
    """Seconds of one answer."""

    first: float = 0.0
    near: float = 0.0
    proven: float = 0.0
    optimal: bool = False
    stages: dict[str, float] = field(default_factory=dict)


def timed(problem: Problem, hint: Plan | None = None) -> tuple[Timing, Plan]:
    """Answers a problem and looks over the planner's shoulder: when was which plan known?"""
    began, timing, seen, kept = perf_counter(), Timing(), [], []
    stage, tell, mended = planner._stage, planner._Search.tell, planner._mended

    def told(search, sketch):
        seen.append((perf_counter() - began, sketch))
        tell(search, sketch)

    def mending(*asked):
        at = perf_counter()
        found = mended(*asked)
        timing.stages["mended"] = perf_counter() - at
        return found

    def staged(search, aim):
        if not kept:
            kept.append(search)
            seen.extend([(timing.first, search.best)] if search.best is not None else [])
        at = perf_counter()
        found = stage(search, aim)
        timing.stages[aim.name] = perf_counter() - at
        if aim.aim:
            timing.proven = perf_counter() - began
        return found

    def progress(_plan):
        timing.first = timing.first or perf_counter() - began

    planner._stage, planner._Search.tell, planner._mended = staged, told, mending
    plan = planner.answer(problem, limit_s=LIMIT_S, hint=hint, progress=progress)
    planner._stage, planner._Search.tell, planner._mended = stage, tell, mended
    timing.first, timing.optimal = timing.first or timing.proven, plan.status is Status.OPTIMAL
    timing.near = _near(problem, kept[0], seen, timing)
    return timing, plan


def _near(problem: Problem, search, seen, timing: Timing) -> float:
    """When the first plan was known that loses no more in holds (and is no later) than the answer.

    Before cooking it must also start no further ahead than 1 % above the answer's first start, where the answer is
    proven; where it is not, nothing was near.
    """
    before = [aim for aim in search.aims if aim.name in {"on time", "limits", "holds"}]
    best = [aim.of(search.model, search.best) for aim in before]
    ahead = -1.01 * min(search.best.start.values())
    cooking = any(t.started is not None for t in problem.tasks)
    for at, sketch in seen:
        if [aim.of(search.model, sketch) for aim in before] <= best and (
            cooking or -min(sketch.start.values()) <= ahead
        ):
            return at if timing.optimal or cooking else timing.proven
    return timing.proven


def row(name: str, timings: list[Timing]) -> str:
    """One line: median / 90th percentile / most, in milliseconds, and how many were proven."""

    def ms(values: list[float]) -> str:
        tenth = quantiles(values, n=10)[-1] if len(values) > 1 else values[0]
        return f"{1000 * median(values):6.0f} / {1000 * tenth:6.0f} / {1000 * max(values):6.0f}"

    proven = sum(t.optimal for t in timings)
    return (
        f"{name:24} first {ms([t.first for t in timings])}   within 1 % {ms([t.near for t in timings])}   "
        f"settled {ms([t.proven for t in timings])} ms   {proven} of {len(timings)} proven"
    )


def suppers(seeds: range, hands: int, name: str, *, only_again: bool) -> None:
    """The table of one set of menus: planned, planned again while cooking, and where the time goes."""
    timings, again = [], []
    for seed in seeds:
        problem = question(menu_value(seed, 12, hands), EAT_AT, "UTC")
        if only_again:
            plan = planner.answer(problem, limit_s=LIMIT_S / 4)
        else:
            timing, plan = timed(problem)
            timings.append(timing)
        again.append(timed(half_cooked(problem, plan), plan)[0])
    if timings:
        print(row(f"{name}, hands {hands}", timings), flush=True)
    print(row(f"   one step 10 min late, {hands}", again), flush=True)
    for kind, rows in (("planned", timings), ("again", again)):
        parts = {n: 1000 * median(t.stages.get(n, 0.0) for t in rows) for n in (rows[0].stages if rows else ())}
        if parts:
            print(f"      {kind}: " + ", ".join(f"{n} {ms:.0f}" for n, ms in parts.items()) + " ms", flush=True)


def growth(made: Callable[[int, int, int], Menu], dishes: int, hands: int, limit_s: float) -> str:
    """How long for bigger menus, how good, and how far the first start is from what no plan can be under."""
    found = []
    for seed in range(3):
        problem = question(made(seed, dishes, hands), EAT_AT, "UTC")
        began = perf_counter()
        plan = planner.answer(problem, limit_s=limit_s)
        took = perf_counter() - began
        if not isinstance(plan, Plan):
            found.append(f"{'cannot be' if plan.status is Status.IMPOSSIBLE else 'none found'} in {took:.1f} s")
            continue
        model = planner.model_of(problem)
        bound = model.axis.seconds(least_span(model))
        ahead = EAT_AT - plan.starts_at
        left = f"{plan.standing.aim} {plan.standing.cost} of {plan.standing.bound}" if plan.standing else "proven"
        found.append(f"{took:.1f} s, {left}, start {ahead // 60} min ahead, at least {bound // 60}")
    return f"{dishes} dishes, hands {hands}, limit {limit_s:g} s: " + "; ".join(found)


def main() -> None:
    """Prints the tables: seeds 0 on, some of which the search was tuned on, and seeds 100 on, which it never saw."""
    short = "--short" in sys.argv
    menus = 2 if short else next((int(word) for word in sys.argv[1:] if word.isdigit()), 20)
    only = [int(word.removeprefix("--hands=")) for word in sys.argv if word.startswith("--hands=")]
    again = "--again" in sys.argv
    for hands in only or (2, 1):
        suppers(range(menus), hands, "12 dishes, seen", only_again=again)
        suppers(range(100, 100 + menus), hands, "12 dishes, held out", only_again=again)
    for dishes in () if short or only or again else (24, 32, 40):
        for hands, limit_s in ((2, 0.2), (2, 10.0), (1, 10.0)):
            print("one sitting:", growth(menu_value, dishes, hands, limit_s), flush=True)
            print("sittings of 8:", growth(feast_value, dishes, hands, limit_s), flush=True)


if __name__ == "__main__":
    main()
