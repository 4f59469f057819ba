"""Asks the program about simulated roasts, at every reading from the second on."""

from dataclasses import dataclass

from tests.outside.roast_simulator import Roast
from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_values import CoreReading, HeatQuestion
from timerboard.core.values import Span


@dataclass(frozen=True)
class Asked:
    """Seconds after the last reading: true, predicted, both ends of the band; how many readings, and the share done."""

    true: float
    at: float
    early: float
    late: float
    readings: int
    share: float

    @property
    def held(self) -> bool:
        return bool(self.early <= self.true <= self.late)

    @property
    def error(self) -> float:
        return float((self.at - self.true) / self.true)


def asked(roast: Roast, readings: int) -> Asked:
    low, likely, high = roast.span_s
    taken = tuple(
        CoreReading(at=round(s * 1000), celsius=c)
        for s, c in zip(roast.read_s[:readings], roast.read_c[:readings], strict=True)
    )
    found = forecast_pull(
        HeatQuestion(
            step="x",
            started=0,
            now=taken[-1].at,
            readings=taken,
            pull_c=roast.pull_c,
            oven_c=roast.oven_c,
            span=Span(low=low, likely=likely, high=high),
        )
    )
    assert found.at is not None
    assert found.early is not None
    assert found.late is not None
    last = roast.read_s[readings - 1]
    moments = (found.at / 1000 - last, found.early / 1000 - last, found.late / 1000 - last)
    return Asked(roast.pull_s - last, *moments, readings, last / roast.pull_s)


def all_asked(roast: Roast) -> list[Asked]:
    return [asked(roast, n) for n in range(2, len(roast.read_s) + 1)]
