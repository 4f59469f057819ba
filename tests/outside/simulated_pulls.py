"""Asks the program about simulated roasts, at every reading from the second on."""

from dataclasses import dataclass

import numpy as np

from tests.outside.roast_simulator import Roast
from timerboard.core.heat_model import USUAL, Allowance
from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_values import CoreReading, HeatQuestion
from timerboard.core.reading_sense import beyond
from timerboard.core.values import Span

NOISE_C = 0.76
"""A simulated reading's error: 0.7 °C, and rounding to a degree."""


@dataclass(frozen=True)
class Asked:
    """Seconds after the last reading: true, predicted, both ends of the band; how many readings, and the share done.

    `there`: the last reading is at the pull, so the board says 'pull now' and gives no band. `short_c`: how far the
    core is then from the pull. `noise`: the median error, in seconds, of someone who knows how this very joint heats
    but for its size, from the noise of the readings alone (information bound).
    """

    true: float
    at: float
    early: float
    late: float
    readings: int
    share: float
    there: bool
    short_c: float
    noise: float

    @property
    def held(self) -> bool:
        return bool(self.early <= self.true <= self.late)

    @property
    def error(self) -> float:
        return float((self.at - self.true) / self.true)


def question(roast: Roast, readings: int) -> HeatQuestion:
    """What the cook knows after so many readings."""
    low, likely, high = roast.span_s
    taken = tuple(
        CoreReading(at=round(s * 1000), celsius=c)
        for s, c in zip(roast.read_s[:readings], roast.read_c[:readings], strict=True)
    )
    return HeatQuestion(
        step="x",
        started=0,
        now=taken[-1].at,
        readings=taken,
        pull_c=roast.pull_c,
        oven_c=roast.oven_c,
        span=Span(low=low, likely=likely, high=high),
    )


def questioned(roast: Roast, readings: int) -> bool:
    """Whether the board asks if the last of so many readings is right, by the forecast of those before."""
    fit, at = forecast_pull(question(roast, readings - 1)), round(roast.read_s[readings - 1] * 1000)
    return bool(beyond(fit, float(roast.read_c[readings - 1]), at, "C"))


def asked(roast: Roast, readings: int, allowance: Allowance = USUAL) -> Asked:
    found = forecast_pull(question(roast, readings), allowance)
    assert found.at is not None
    assert found.early is not None
    assert found.late is not None
    last = roast.read_s[readings - 1]
    moments = (found.at / 1000 - last, found.early / 1000 - last, found.late / 1000 - last)
    short = roast.pull_c - float(np.interp(last, roast.seconds, roast.core))
    noise = _noise(roast, readings)
    return Asked(roast.pull_s - last, *moments, readings, last / roast.pull_s, bool(found.why), short, noise)


def _noise(roast: Roast, readings: int) -> float:
    """Scaling all times by 1 + e changes a reading at t by t dT/dt e: least squares for e, times the whole length."""
    at = np.asarray(roast.read_s[:readings])
    rise = np.interp(at, roast.seconds, np.gradient(roast.core, roast.seconds)) * at
    return float(0.6745 * NOISE_C / np.sqrt((rise**2).sum()) * roast.pull_s)


def all_asked(roast: Roast, allowance: Allowance = USUAL) -> list[Asked]:
    return [asked(roast, n, allowance) for n in range(2, len(roast.read_s) + 1)]
