"""Asks the program about two measured curves: beef at 175 °C.

Data: tests/outside/data/beef_centre_175c.csv, source in its first lines. A cook reads each minute and the menu says
13 to 15 minutes (true: 13 and 14); then with a menu that is a third too long and one that is a quarter too short.
"""

from functools import cache
from pathlib import Path

from timerboard.core.heat_model import USUAL, Allowance
from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_values import CoreReading, HeatQuestion, PullForecast
from timerboard.core.values import Span

FILE = Path(__file__).parent / "data" / "beef_centre_175c.csv"
PULL_C = 65.0
PIECES = ("A", "B")
SHARES = (0.25, 0.5, 0.75)
MENUS = {"right": (13, 15), "long": (17, 20), "short": (9, 11)}


@cache
def curve(piece: str) -> tuple[tuple[int, float], ...]:
    rows = [line.split(",") for line in FILE.read_text(encoding="utf-8").splitlines() if line[:2] in ("A,", "B,")]
    return tuple((int(s), float(c)) for p, s, c in rows if p == piece)


def truth(piece: str) -> float:
    return next(s for s, c in curve(piece) if c >= PULL_C)


@cache
def asked(piece: str, share: float, menu: str, allowance: Allowance = USUAL) -> PullForecast:
    low, high = (60 * m for m in MENUS[menu])
    now = share * truth(piece)
    readings = tuple(CoreReading(at=s * 1000, celsius=c) for s, c in curve(piece) if s <= now and s % 60 == 0)
    question = HeatQuestion(
        step="Beef/Roast",
        started=0,
        now=round(now * 1000),
        readings=readings,
        pull_c=PULL_C,
        oven_c=175.0,
        span=Span(low=low, likely=low + (high - low) * 2 // 3, high=high),
    )
    return forecast_pull(question, allowance)


def error(piece: str, share: float, menu: str, allowance: Allowance = USUAL) -> float:
    """How far the predicted moment is off, as a share of the time that is really left."""
    true = truth(piece)
    at = asked(piece, share, menu, allowance).at
    assert at is not None
    return (at / 1000 - true) / (true * (1 - share))


def moments(piece: str, share: float, menu: str, allowance: Allowance = USUAL) -> tuple[float, float, float, float]:
    """Seconds from when it is asked: true, early, likely, late."""
    found, now = asked(piece, share, menu, allowance), share * truth(piece)
    assert found.early is not None
    assert found.at is not None
    assert found.late is not None
    return (truth(piece) - now, *(m / 1000 - now for m in (found.early, found.at, found.late)))
