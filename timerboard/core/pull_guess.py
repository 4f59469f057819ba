"""When will the core reach its pull temperature? A straight line through the last readings, kept inside good sense.

Units: degrees Celsius and Moments. Before two readings of the core are in, the menu's own range is the guess. The line
is the median of the slopes between all pairs of the last five readings (the Theil-Sen estimator), so that one mistaken
reading does not turn it round.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from .cook import Reading
from .values import MS, Moment, Span

LAST = 5
SLOWEST_C_PER_MS = 0.05 / 60_000
"""Slower than this the core stands still (a stall) and no line says when it will go on."""


@dataclass(frozen=True, slots=True)
class PullGuess:
    """The predicted moment, and the earliest and latest that are still likely."""

    at: Moment
    early: Moment
    late: Moment


def predict_pull(readings: Sequence[Reading], pull_c: float, started: Moment, span: Span, now: Moment) -> PullGuess:
    """When `pull_c` will be read, as known at `now`; never before `now`."""
    core = [r for r in readings if r.of == "core"][-LAST:]
    slope = _slope(core)
    if slope is None or slope < SLOWEST_C_PER_MS:
        return _as_written(started, span, now)
    left = max(0.0, pull_c - core[-1].celsius) / slope
    at = max(now, core[-1].at + round(left))
    play = round((at - core[-1].at) / 4)
    return PullGuess(at, max(now, at - play), at + play)


def _slope(core: Sequence[Reading]) -> float | None:
    """Degrees per millisecond: the median over all pairs; None before there are two moments."""
    pairs = [(a, b) for i, a in enumerate(core) for b in core[i + 1 :] if b.at > a.at]
    return median((b.celsius - a.celsius) / (b.at - a.at) for a, b in pairs) if pairs else None


def _as_written(started: Moment, span: Span, now: Moment) -> PullGuess:
    low, likely, high = (max(now, started + s * MS) for s in (span.low, span.likely, span.high))
    return PullGuess(likely, low, high)
