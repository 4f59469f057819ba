"""What a pull forecast says on a strip: 'reach 80 °C 18:03 ± 4', at last 'pull now, it will coast to 63 °C'."""

from .civil import clock_words
from .heat_values import PullForecast
from .quantity_words import celsius_words, duration_words
from .values import MS, Moment

_MINUTE = 60 * MS


def pull_line(forecast: PullForecast, now: Moment, offset_ms: int, zone: str, units: str = "C") -> str:
    """The one line of a strip."""
    pull = celsius_words(forecast.pull_c, units)
    if forecast.at is None or forecast.early is None or forecast.late is None:
        return f"will not reach {pull}: {forecast.why}" if forecast.why else f"{pull}: take a reading"
    if forecast.at <= now + _MINUTE // 2:
        return f"pull now, {coast_words(forecast, units)}" if forecast.why else f"{pull} expected by now: read it"
    play = max(1, round((forecast.late - forecast.early) / 2 / _MINUTE))
    line = f"reach {pull} {clock_words(forecast.at + offset_ms, zone)} ± {play}"
    return f"stands still · {line}" if forecast.plateau else line


def coast_words(forecast: PullForecast, units: str = "C") -> str:
    """'it will coast to 63 °C (61 to 65) in 15 min'."""
    peak, low, high = forecast.peak_c, forecast.peak_low_c, forecast.peak_high_c
    if peak is None or low is None or high is None:
        return "it will coast on"
    words = [celsius_words(round(c), units) for c in (peak, low, high)]
    after = f" in {duration_words(forecast.peak_after_s)}" if forecast.peak_after_s else ""
    return f"it will coast to {words[0]} ({words[1].split()[0]} to {words[2].split()[0]}){after}"
