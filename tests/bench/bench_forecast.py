"""Is the forecast calibrated, and how fast is it? `python tests/bench/bench_forecast.py`."""

import sys
from pathlib import Path
from random import Random
from statistics import median
from time import perf_counter

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.bench.menus import menu_value
from tests.planner.simulated_cook import late_cooks
from timerboard.core.question import question
from timerboard.planner.forecast import forecast
from timerboard.planner.greedy import first_plan

EAT_AT = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC
COOKS = 400


def main() -> None:
    """Prints said and done for each supper, and the milliseconds of 10,000 cooks of 60 steps."""
    apart, took = [], []
    for seed in range(12):
        asked = question(menu_value(seed, 12, 1 + seed % 2), EAT_AT, "UTC")
        plan = first_plan(asked)
        if plan is None:
            continue
        before = perf_counter()
        said = forecast(asked, plan)
        took.append(1000 * (perf_counter() - before))
        late = late_cooks(asked, plan, Random(seed), COOKS)
        done = sum(s < 60 for s in late) / COOKS
        apart.append(abs(said.on_time - done))
        print(
            f"supper {seed:2}: said {said.on_time:.3f}, done {done:.3f} of {COOKS}, median late {said.late_likely_s} s"
        )
    print(
        f"mean apart {sum(apart) / len(apart):.3f}, most {max(apart):.3f}; {median(took):.0f} ms, worst {max(took):.0f}"
    )


if __name__ == "__main__":
    main()
