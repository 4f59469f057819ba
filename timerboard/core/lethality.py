"""How far heat has reduced germs, by the readings: the log-linear (D and z) integral along straight lines.

The curve is fitted to the FSIS 6.5-log table for beef (Appendix A, 1999): all 28 rows from 130 to 157 °F are
211.6 s x 10^((145 - F) / 10.005), rounded up to the minute below 146 °F and to the second from there; so D(145 °F) is
32.55 s and z 10.005 °F. At 5 logs it gives the times of Food Code 3-401.11(A)(2). The fit is reckoned, not published.
A lethality never overrides a minimum temperature: it can only withhold what a table grants.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

D_S = 211.6 / 6.5
REFERENCE_C = (145.0 - 32.0) / 1.8
Z_C = 10.005 / 1.8

WHOLE_MEAT_LOGS = 6.5
GROUND_LOGS = 5.0


def time_at(fahrenheit: float, logs: float) -> float:
    """Seconds at one temperature for so many log reductions."""
    return logs * D_S * math.pow(10.0, (145.0 - fahrenheit) / 10.005)


def log_reduction(
    points: Sequence[tuple[float, float]], d_s: float = D_S, reference_c: float = REFERENCE_C, z_c: float = Z_C
) -> float:
    """Log10 reductions along straight lines between (seconds, Celsius) points in order: the exact integral.

    Nothing is counted before the first point or after the last.
    """
    return sum(_segment(a, b, d_s, reference_c, z_c) for a, b in pairwise(points))


def _segment(a: tuple[float, float], b: tuple[float, float], d_s: float, reference_c: float, z_c: float) -> float:
    """The integral of 10^((T - Tref) / z) dt / D over one straight line."""
    rate_a, rate_b = (math.pow(10.0, (celsius - reference_c) / z_c) / d_s for _, celsius in (a, b))
    slope = (b[1] - a[1]) * math.log(10.0) / z_c
    if abs(slope) < 1e-9:
        return rate_a * (b[0] - a[0])
    return (b[0] - a[0]) * (rate_b - rate_a) / slope
