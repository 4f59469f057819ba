"""How honest and how fast a pull forecast is: 200 simulated roasts, and the time of one forecast.

Run: python tests/bench/bench_heat.py [roasts]
"""

import sys
import time
from pathlib import Path
from statistics import mean, median

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.outside.roast_simulator import roast
from tests.outside.simulated_pulls import Asked, all_asked


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    roasts = [roast(seed) for seed in range(1000, 1000 + count)]
    began = time.perf_counter()
    found = [asked for one in roasts for asked in all_asked(one)]
    each = 1000 * (time.perf_counter() - began) / len(found)
    print(f"{count} roasts, {len(found)} forecasts, {each:.0f} ms each")
    print(f"80 % band holds the truth: {100 * mean(int(a.held) for a in found):.1f} %")
    late, early = (100 * mean(int(x) for x in xs) for xs in _missed(found))
    print(f"  later than the band {late:.0f} %, earlier {early:.0f} %")
    for low, high in ((0.15, 0.4), (0.4, 0.6), (0.6, 0.85), (0.85, 1.0)):
        some = [a for a in found if low <= a.share < high]
        if some:
            print(f"  {low:.0%}-{high:.0%} of the way: {_said(some)}")


def _missed(found: list[Asked]) -> tuple[list[bool], list[bool]]:
    return [a.true > a.late for a in found], [a.true < a.early for a in found]


def _said(some: list[Asked]) -> str:
    errors = sorted(abs(a.error) for a in some)
    held = 100 * mean(int(a.held) for a in some)
    usual, most = 100 * median(errors), 100 * errors[len(errors) * 9 // 10]
    return (
        f"{len(some)} forecasts, held {held:.0f} %, off by {usual:.0f} % of the time left (9 in 10 under {most:.0f} %)"
    )


if __name__ == "__main__":
    main()
