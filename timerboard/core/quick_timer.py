"""A loose countdown as a cook writes it: 'eggs 6:30', 'tea 4 min', 'dough 1 h 10', '90 s'. Text in, command out."""

import re

from .commands import SetQuickTimer

LONGEST_S = 24 * 3600
MOST_OF_A_UNIT = 1e6  # more is too long for anything that a length is for, and says so there
CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)$")
UNITS = re.compile(
    r"(?:(?P<h>\d+(?:[.,]\d+)?)\s*(?:h|hr|hrs|hour|hours)\b\s*)?"
    r"(?:(?P<m>\d+(?:[.,]\d+)?)\s*(?:m|min|mins|minute|minutes)?(?![\w:.,])\s*)?"
    r"(?:(?P<s>\d+)\s*(?:s|sec|secs|second|seconds)\b\s*)?$",
    re.IGNORECASE,
)
PARTED = re.compile(r"(?<=\d)(?=[hms])|(?<=[a-z])(?=\d)")  # 1h30 is read as 1 h 30
UNNAMED = "timer"


def quick_timer(text: str) -> SetQuickTimer:
    """Read a name and a length; the length comes last, the name may be left out ('timer').

    A length is mm:ss, h:mm:ss, or numbers with units; a bare number is minutes, and after hours too ('1 h 10').
    Raises ValueError with words for the cook: nothing written, no length, none at all, or over a day.
    """
    words = text.split()
    if not words:
        raise ValueError("Write a name and a time, such as eggs 6:30.")
    for start in range(len(words)):
        length = length_s(" ".join(words[start:]))
        if length is not None:
            return SetQuickTimer(" ".join(words[:start]) or UNNAMED, _possible(length))
    raise ValueError(f"There is no time in '{text.strip()}': write it last, such as eggs 6:30 or tea 4 min.")


def length_s(text: str) -> int | None:
    """Seconds that a length says, or None when it is not a length."""
    if clock := CLOCK.match(text.strip()):
        hours, minutes, seconds = (int(part or 0) for part in clock.groups())
        return hours * 3600 + minutes * 60 + seconds
    units = UNITS.match(PARTED.sub(" ", text.strip().lower()))
    if not units or not any(units.groups()):
        return None
    h, m, s = (min(float((units[name] or "0").replace(",", ".")), MOST_OF_A_UNIT) for name in "hms")
    return round(h * 3600 + m * 60 + s)


def _possible(length: int) -> int:
    if length <= 0:
        raise ValueError("A timer needs at least one second.")
    if length > LONGEST_S:
        raise ValueError("A timer can run for a day at most.")
    return length
