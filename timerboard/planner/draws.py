"""How long an uncertain step turns out to be, ten thousand times at once.

The PERT distribution: a beta on [low, high] with a = 1 + 4 (likely - low) / (high - low) and b = 6 - a, so that its
mode is `likely`. Source: Malcolm, Roseboom, Clark and Fazar 1959, Application of a technique for research and
development program evaluation, Operations Research 7: 646-669.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import betainc, betaincinv

from timerboard.core.values import Seconds, Span

Floats = NDArray[np.float64]

GRID = np.linspace(0.0, 1.0, 513)
"""Where the inverse distribution is tabulated; between these points it is taken as straight."""


def drawn(span: Span, dice: np.random.Generator, cooks: int, gone_s: Seconds = 0) -> Floats:
    """`cooks` lengths in seconds. `gone_s`: it has run for so long already, so no draw is shorter."""
    width = span.high - span.low
    if width <= 0 or gone_s >= span.high:
        return np.full(cooks, float(max(span.high, gone_s)))
    a, b = shape(span)
    past = float(betainc(a, b, min(1.0, max(0.0, (gone_s - span.low) / width))))
    shares = past + (1.0 - past) * dice.random(cooks)
    return np.asarray(span.low + width * np.interp(shares, GRID, _inverse(a, b)))


def shape(span: Span) -> tuple[float, float]:
    """The two parameters of the beta distribution of a span that is not a point."""
    a = 1.0 + 4.0 * (span.likely - span.low) / (span.high - span.low)
    return round(a, 4), round(6.0 - a, 4)


@lru_cache(maxsize=256)
def _inverse(a: float, b: float) -> Floats:
    return np.asarray(betaincinv(a, b, GRID))
