"""When the next reading of a core tells most, within what a cook will put up with.

Limits: at half the time left, never more often than every four minutes, always five minutes before the pull. Inside
them the moment is chosen where the fit's band is widest: there a reading parts the thinkable joints best.
"""

from .heat_values import PullForecast
from .values import MS, Moment, Span

LEAST_GAP_MS = 4 * 60 * MS
BEFORE_PULL_MS = 5 * 60 * MS
FIRST_SHARE = 0.5


def next_reading(started: Moment, last: Moment | None, forecast: PullForecast | None, span: Span) -> Moment | None:
    """When to ask for a reading; None when none is wanted any more (the pull has come).

    Without a forecast: half way through what the menu says is likely, then half of what is left of it.
    """
    since = started if last is None else last
    pull = started + span.likely * MS if forecast is None or forecast.at is None else forecast.at
    if last is not None and forecast is not None and forecast.why and forecast.at is not None and forecast.at <= last:
        return None
    soonest = since + LEAST_GAP_MS
    latest = min(since + round(FIRST_SHARE * (pull - since)), pull - BEFORE_PULL_MS)
    return max(soonest, _widest(forecast, soonest, latest))


def _widest(forecast: PullForecast | None, soonest: Moment, latest: Moment) -> Moment:
    """Where the band is widest between the two; the latest moment when nothing is known of it."""
    if forecast is None:
        return latest
    inside = [(p.high_c - p.low_c, p.at) for p in forecast.curve if soonest <= p.at <= latest]
    at_end = _width_at(forecast, latest)
    return max(inside, default=(0.0, latest))[1] if inside and max(inside)[0] > at_end else latest


def _width_at(forecast: PullForecast, at: Moment) -> float:
    """The width of the band at the drawn moment nearest to `at`."""
    nearest = min(forecast.curve, key=lambda p: abs(p.at - at), default=None)
    return nearest.high_c - nearest.low_c if nearest else 0.0
