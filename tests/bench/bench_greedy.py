"""How long the greedy plan takes and how it grows: `python tests/bench/bench_greedy.py`."""

from statistics import median
from time import perf_counter

from tests.bench.menus import menu_value
from timerboard.core.check_plan import broken_rules
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan

EAT_AT = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC


def row(dishes: int, hands: int, seeds: range) -> str:
    """One line of the table: milliseconds for question, plan and check, and how many menus got a plan."""
    times: list[tuple[float, float, float]] = []
    found, spans = 0, []
    for seed in seeds:
        menu = menu_value(seed, dishes, hands)
        t0 = perf_counter()
        problem = question(menu, EAT_AT, "UTC")
        t1 = perf_counter()
        plan = first_plan(problem)
        t2 = perf_counter()
        if plan is not None:
            found += not broken_rules(problem, plan)
            spans.append(plan.eat_at - plan.starts_at)
        times.append((t1 - t0, t2 - t1, perf_counter() - t2))
    asked, planned, checked = ([1000 * t[k] for t in times] for k in range(3))
    return (
        f"{dishes:3} dishes, hands {hands}: question {median(asked):5.1f} ms, plan {median(planned):6.1f} ms "
        f"(worst {max(planned):6.1f}), check {median(checked):5.1f} ms, {found} of {len(seeds)} planned, "
        f"median {median(spans) / 3600 if spans else 0:.2f} h"
    )


def main() -> None:
    """Prints the table."""
    for dishes, hands in ((12, 2), (12, 1), (24, 4), (40, 6)):
        print(row(dishes, hands, range(20)))


if __name__ == "__main__":
    main()
