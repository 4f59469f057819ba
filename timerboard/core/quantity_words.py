"""Seconds, milliseconds and degrees as a cook reads them."""

import math


def duration_words(seconds: int) -> str:
    """Whole seconds as '1 h 30 min', '2 days', '90 s' as '1 min 30 s'; a minus sign before a negative one."""
    if seconds < 0:
        return f"-{duration_words(-seconds)}"
    days, rest = divmod(seconds, 86_400)
    hours, rest = divmod(rest, 3600)
    minutes, left = divmod(rest, 60)
    parts = [(days, "day" if days == 1 else "days"), (hours, "h"), (minutes, "min"), (left, "s")]
    return " ".join(f"{count} {unit}" for count, unit in parts if count) or "0 min"


def span_words(low: int, high: int) -> str:
    """A range of seconds: '25-30 min' where one unit serves both, else '3 h-3 h 40 min'; one value when they meet."""
    if low == high:
        return duration_words(low)
    first, last = duration_words(low).split(" "), duration_words(high).split(" ")
    if len(first) == len(last) == 2 and first[1] == last[1]:
        return f"{first[0]}-{last[0]} {last[1]}"
    return f"{' '.join(first)}-{' '.join(last)}"


def countdown_words(ms: int) -> str:
    """Milliseconds left as '21:00' or '1:05:00'; it reads 0:00 only when nothing is left. Past zero: '+2:10'."""
    seconds = math.ceil(ms / 1000)
    sign, seconds = ("+", -seconds) if seconds < 0 else ("", seconds)
    hours, rest = divmod(seconds, 3600)
    minutes, left = divmod(rest, 60)
    return f"{sign}{hours}:{minutes:02}:{left:02}" if hours else f"{sign}{minutes}:{left:02}"


def celsius_words(celsius: float, units: str = "C") -> str:
    """Degrees Celsius in the menu's units ('C' or 'F'): '180 °C', '62.5 °C', '356 °F' (whole degrees Fahrenheit)."""
    if units == "F":
        return f"{math.floor(celsius * 9 / 5 + 32 + 0.5)} °F"
    return f"{round(celsius, 1) + 0.0:g} °C"
