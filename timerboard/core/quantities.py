"""Times and temperatures as cooks write them, turned into whole seconds and degrees Celsius.

Every function raises `Unreadable` (a ValueError) whose words say what is wrong and what would be right.
"""

import re
from fractions import Fraction

from .faults import Unreadable
from .quantity_words import celsius_words, countdown_words, duration_words, span_words
from .values import Seconds, Span

__all__ = [
    "celsius_words",
    "countdown_words",
    "duration_words",
    "parse_celsius",
    "parse_celsius_range",
    "parse_degrees",
    "parse_duration",
    "parse_signed",
    "parse_span",
    "span_words",
]

_UNITS = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), 1),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), 60),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 3600),
    **dict.fromkeys(("d", "day", "days"), 86_400),
}
_LONGEST_TEXT = 80
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_PIECE = re.compile(rf"\s*({_NUMBER})\s*([a-zA-Z]+)\s*")
_BARE = re.compile(rf"{_NUMBER}")
_AMOUNT = r"[0-9]+(?:[.,][0-9]+)?"
# ISO 8601 durations with designators: weeks alone, or days and a time part; only the last number may have a fraction.
_ISO = re.compile(
    rf"P(?:(?P<w>{_AMOUNT})W|(?:(?P<d>{_AMOUNT})D)?(?:T(?=[0-9])(?:(?P<h>{_AMOUNT})H)?(?:(?P<m>{_AMOUNT})M)?"
    rf"(?:(?P<s>{_AMOUNT})S)?)?)"
)
_ISO_SECONDS = {"w": 604_800, "d": 86_400, "h": 3600, "m": 60, "s": 1}
_DEGREES = re.compile(rf"([-−]?{_NUMBER})\s*(?:°|º|degrees?)?\s*([CcFf])")
_HOTTEST_C, _COLDEST_C = 600.0, -90.0


def parse_duration(text: str) -> Seconds:
    """One length of time in whole seconds (rounded to the nearest): '90 s', '1 h 30 min', '1.5 h', 'PT25M'."""
    written = _tidy(text)
    if written.startswith("P"):
        return _iso(written)
    if _BARE.fullmatch(written):
        raise Unreadable(f"{written} has no unit", f"write {written} min")
    return _whole(_pieces(written), written)


def parse_signed(text: str) -> Seconds:
    """A moment relative to another, in seconds: '-30 min' is before it, '90 min' and '+90 min' after."""
    written = _tidy(text).replace("−", "-")
    sign = -1 if written.startswith("-") else 1
    return sign * parse_duration(written.lstrip("+-") if written[:1] in "+-" else written)


def parse_span(text: str) -> Span:
    """A length or a range of them: '25-30 min', '3 h-3 h 40 min', '10/12/20 min' (low, likely, high).

    A range alone is likely to take two thirds of the way from its low to its high end (the menu format's rule).
    """
    written = _tidy(text)
    parts = [part.strip() for part in re.split(r"/|[-–—]", written)]
    if "/" in written and len(parts) != 3:
        raise Unreadable(f"'{written}' is not low/likely/high", "write 20/25/35 min, or 20-35 min")
    if len(parts) > (3 if "/" in written else 2) or not all(parts):
        raise Unreadable(f"'{written}' is not a time or a range of times", "write 25 min or 25-30 min")
    times = [parse_duration(part) for part in _with_units(parts, written)]
    if times != sorted(times):
        raise Unreadable(f"'{written}' goes from long to short", "write the shorter time first: 25-30 min")
    low, high = times[0], times[-1]
    likely = times[1] if len(times) == 3 else low + round((high - low) * 2 / 3)
    return Span(low=low, likely=likely, high=high)


def parse_celsius(text: str) -> float:
    """A temperature in degrees Celsius: '180 C', '180 °C', '356 F'."""
    number, fahrenheit = _degrees(_tidy(text), "180 C or 356 F")
    celsius = float(round((number - 32) * 5 / 9 if fahrenheit else number, 6))
    if not _COLDEST_C <= celsius <= _HOTTEST_C:
        raise Unreadable(f"'{_tidy(text)}' is no kitchen temperature", "write one from -90 C to 600 C")
    return celsius


def parse_degrees(text: str) -> float:
    """A difference of temperatures in Celsius degrees: '10 C', '18 F' (18 F degrees are 10 C degrees)."""
    number, fahrenheit = _degrees(_tidy(text), "10 C")
    if not 0 <= number <= 500:
        raise Unreadable(f"'{_tidy(text)}' is no tolerance", "write how far off is still good, as 10 C")
    return float(round(number * 5 / 9 if fahrenheit else number, 6))


def parse_celsius_range(text: str) -> tuple[float, float]:
    """What a place can be set to, (low, high) in degrees Celsius: '60-250 C', '140-480 F', '60 C-250 C'."""
    written = _tidy(text)
    parts = [p.strip() for p in re.split(r"(?<=[0-9CcFf°º])\s*[-–—]\s*", written)]
    if len(parts) > 2 or not all(parts):
        raise Unreadable(f"'{written}' is not a range of temperatures", "write 60-250 C")
    if len(parts) == 2 and _BARE.fullmatch(parts[0].lstrip("-−")):
        parts[0] += parts[1][-1]
    low, high = parse_celsius(parts[0]), parse_celsius(parts[-1])
    if low > high:
        raise Unreadable(f"'{written}' goes from hot to cold", "write the lower temperature first: 60-250 C")
    return low, high


def _tidy(text: str) -> str:
    written = " ".join(text.split())
    if not written:
        raise Unreadable("nothing is written here", "write a number and its unit, as 25 min or 180 C")
    if len(written) > _LONGEST_TEXT:
        raise Unreadable(f"'{written[:20]}…' is too long for a quantity", "write it as 25 min, 1 h 30 min or 180 C")
    return written


def _with_units(parts: list[str], written: str) -> list[str]:
    """A unit written once at the end holds for every bare number before it."""
    if not any(_BARE.fullmatch(part) for part in parts[:-1]):
        return parts
    last = _PIECE.fullmatch(parts[-1])
    if last is None:
        raise Unreadable(f"'{written}' has a number without a unit", "write 25-30 min, or a unit at both ends")
    return [f"{part} {last[2]}" if _BARE.fullmatch(part) else part for part in parts]


def _pieces(written: str) -> Fraction:
    """Seconds of '1 h 30 min': largest unit first, each once."""
    total, at, smallest = Fraction(0), 0, 1 << 62
    while at < len(written):
        piece = _PIECE.match(written, at)
        if piece is None:
            raise _not_a_time(written)
        unit = _unit(piece[2], piece[1])
        if unit >= smallest:
            raise Unreadable(f"'{written}' has its units out of order", "write the larger unit first: 1 h 30 min")
        total, at, smallest = total + Fraction(piece[1]) * unit, piece.end(), unit
    return total


def _unit(word: str, number: str) -> int:
    if word in ("m", "M"):
        raise Unreadable(f"'{word}' could be minutes or months", f"write {number} min")
    unit = _UNITS.get(word.lower())
    if unit is None:
        raise Unreadable(f"'{word}' is not a unit of time", "write s, min, h or days")
    return unit


def _not_a_time(written: str) -> Unreadable:
    comma = re.fullmatch(r"([0-9]+),([0-9]+) ?([a-zA-Z]+)", written)
    if comma:
        return Unreadable(f"'{written}' has a comma", f"write {comma[1]}.{comma[2]} {comma[3]}")
    if re.search(r"[0-9][a-zA-Z ]*[-–—/]", written):
        return Unreadable(f"'{written}' is a range", "write one time here, as 25 min")
    return Unreadable(f"'{written}' is not a time", "write it as 90 s, 25 min, 1 h 30 min, 2 days or PT25M")


def _iso(written: str) -> Seconds:
    found = _ISO.fullmatch(written)
    amounts = [(name, n.replace(",", ".")) for name, n in found.groupdict().items() if n] if found else []
    if not amounts or any("." in n for _, n in amounts[:-1]):
        if re.match(r"P[0-9.,]+[YM]", written):
            raise Unreadable(f"'{written}' has years or months, which have no fixed length", "write days, as P2D")
        raise Unreadable(f"'{written}' is not an ISO 8601 duration", "write PT25M or PT1H30M")
    return _whole(sum((Fraction(n) * _ISO_SECONDS[name] for name, n in amounts), Fraction(0)), written)


def _whole(exact: Fraction, written: str) -> Seconds:
    seconds = int(exact + Fraction(1, 2))
    if exact and not seconds:
        raise Unreadable(f"'{written}' is less than a second", "times are whole seconds: write 1 s")
    return seconds


def _degrees(written: str, example: str) -> tuple[Fraction, bool]:
    found = _DEGREES.fullmatch(written)
    if found is not None:
        return Fraction(found[1].replace("−", "-")), found[2] in "Ff"
    if _BARE.fullmatch(written.lstrip("-−").rstrip("°º ")):
        raise Unreadable(f"{written} has no unit", f"write {written.rstrip('°º ')} C or {written.rstrip('°º ')} F")
    raise Unreadable(f"'{written}' is not a temperature", f"write {example}")
