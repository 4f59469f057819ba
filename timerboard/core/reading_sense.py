"""Is a reading one that food can have? A doubtful one is asked about, never swallowed and never thrown away.

Bounds: food in a kitchen is not colder than a freezer (-30 C) and, while it holds water, not hotter than a little above
100 C; frying oil and ovens stay below 320 C. A core falls slowly and climbs at most a few degrees a minute. Common
practice, no source: they are only there to catch a slip of the finger.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from .cook import Reading
from .heat_values import PullForecast
from .quantity_words import celsius_words
from .values import Moment

COLDEST = -30.0
HOTTEST = {"core": 125.0, "oil": 320.0, "oven": 400.0}
FALL_C = {"core": 6.0, "oil": 80.0, "oven": 150.0}
CLIMB_C = {"core": 15.0, "oil": 120.0, "oven": 200.0}
CLIMB_C_PER_MIN = {"core": 4.0, "oil": 30.0, "oven": 30.0}
BAND_SDS = 1.2816
"""How many standard deviations the end of a band that holds four in five lies from the middle."""
PROBE_SD_C = 1.0
BEYOND_SDS, BEYOND_LEAST_C = 3.0, 5.0


def doubt(readings: Sequence[Reading], celsius: float, of: str, now: Moment, units: str) -> str:
    """ "" for a reading that makes sense, else what is odd about it, as a question to the cook."""
    said = celsius_words(celsius, units)
    if not COLDEST <= celsius <= HOTTEST[of]:
        return f"{said} is beyond what the {of} can be. Is it right?"
    last = next((r for r in reversed(readings) if r.of == of), None)
    if last is None or not _jumped(last, celsius, of, now):
        return ""
    turned = swapped(celsius)
    hint = f" Or {celsius_words(turned, units)}?" if turned is not None and not _jumped(last, turned, of, now) else ""
    return f"{said}, after {celsius_words(last.celsius, units)} before: is it right?{hint}"


def _jumped(last: Reading, celsius: float, of: str, now: Moment) -> bool:
    minutes = max(0.0, (now - last.at) / 60_000)
    fell = last.celsius - celsius > FALL_C[of]
    return fell or celsius - last.celsius > CLIMB_C[of] + CLIMB_C_PER_MIN[of] * minutes


def beyond(fit: PullForecast | None, celsius: float, now: Moment, units: str) -> str:
    """ "" for a core that the readings before it allow, else what is odd: it is far above the curve foretold by them.

    `fit`: the forecast of all readings so far; without one, or past the end of its curve, nothing is said.
    """
    foretold = _foretold(fit, now)
    if foretold is None:
        return ""
    likely, sd = foretold
    if celsius - likely <= max(BEYOND_LEAST_C, BEYOND_SDS * hypot(sd, PROBE_SD_C)):
        return ""
    said, expected = celsius_words(celsius, units), celsius_words(round(likely), units)
    return f"{said}, but about {expected} was expected by now: is it right?"


def _foretold(fit: PullForecast | None, now: Moment) -> tuple[float, float] | None:
    """The core at that moment and its standard deviation, between two points of the curve."""
    for left, right in pairwise(fit.curve if fit is not None and fit.readings else ()):
        if left.at <= now <= right.at:
            share = (now - left.at) / max(right.at - left.at, 1)
            likely = left.likely_c + share * (right.likely_c - left.likely_c)
            high = left.high_c + share * (right.high_c - left.high_c)
            return likely, (high - likely) / BAND_SDS
    return None


def swapped(celsius: float) -> float | None:
    """Two whole digits the other way round (17 for 71); None when there are not two different ones."""
    if celsius != int(celsius) or not 10 <= celsius <= 99:
        return None
    tens, ones = divmod(int(celsius), 10)
    return float(ones * 10 + tens) if tens != ones else None
