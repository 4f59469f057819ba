"""Civil time: what people call a moment. Only `eat_at` and words for people pass through here.

A civil time that a change of clocks leaves out, or that comes twice, is asked about and never guessed.
"""

import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from .faults import Unreadable
from .values import MS

_TIME = re.compile(r"(?:([0-9]{4})-([0-9]{2})-([0-9]{2})(?: +|T))?([0-9]{1,2}):([0-9]{2})")
_RIGHT = "write 18:30 or 2026-12-21 18:30"


@dataclass(frozen=True, slots=True)
class CivilDoubt:
    """A civil time that is no one moment. `choices` are words and the Unix seconds they would mean."""

    said: str
    choices: tuple[tuple[str, int], ...]


def resolve_eat_at(written: str, zone: str, now_ms: int) -> int | CivilDoubt:
    """Unix seconds of `HH:MM` (the next such time, now included) or `YYYY-MM-DD HH:MM` in an IANA zone.

    A date may lie in the past: whoever asks decides what to do with it. Raises Unreadable (ValueError) for nonsense.
    """
    day, hour, minute = read_eat_at(written)
    place = _zone(zone)
    if day is not None:
        return _resolve(day.replace(hour=hour, minute=minute), place)
    now = datetime.fromtimestamp(now_ms // MS, place)
    today = now.replace(hour=hour, minute=minute, second=0, microsecond=0, tzinfo=None)
    return _next(today, place, -(-now_ms // MS))


def read_eat_at(written: str) -> tuple[datetime | None, int, int]:
    """The day (None when only a time is written), hour and minute of an `eat_at`; Unreadable for anything else."""
    found = _TIME.fullmatch(" ".join(written.split()))
    if found is None:
        raise Unreadable(f"'{written[:40]}' is not a time of day", _RIGHT)
    hour, minute = int(found[4]), int(found[5])
    if hour > 23 or minute > 59:
        raise Unreadable(f"there is no {found[4]}:{found[5]} on a clock", _RIGHT)
    if found[1] is None:
        return None, hour, minute
    try:
        day = datetime(int(found[1]), int(found[2]), int(found[3]))  # noqa: DTZ001 - civil, its zone comes later
    except ValueError:
        raise Unreadable(f"there is no day {found[1]}-{found[2]}-{found[3]}", _RIGHT) from None
    _year_to_eat_in(day)
    return day, hour, minute


def exact_moment(written: str) -> int | None:
    """Unix seconds of an ISO 8601 time with an offset (`2026-10-25T02:30+01:00`), which is never in doubt; None for any
    other writing. Raises Unreadable for a year that nobody eats in.
    """
    try:
        exact = datetime.fromisoformat(written.strip())
    except ValueError:
        return None
    if exact.tzinfo is None:
        return None
    _year_to_eat_in(exact)
    return round(exact.timestamp())


def _year_to_eat_in(day: datetime) -> None:
    if not 1970 < day.year < 9999:
        raise Unreadable(f"{day.year} is not a year to eat in", _RIGHT)


def clock_words(unix_ms: int, zone: str) -> str:
    """The wall clock at a moment: '18:30'."""
    return f"{_at(unix_ms, zone):%H:%M}"


def day_clock_words(unix_ms: int, zone: str, relative_to_ms: int) -> str:
    """'18:30' on the day of `relative_to_ms`, 'Tue 18:30' within six days, '2026-12-21 18:30' beyond that."""
    then, base = _at(unix_ms, zone), _at(relative_to_ms, zone)
    apart = abs((then.date() - base.date()).days)
    if apart == 0:
        return f"{then:%H:%M}"
    return f"{_DAYS[then.weekday()]} {then:%H:%M}" if apart < 7 else f"{then:%Y-%m-%d %H:%M}"


_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def _at(unix_ms: int, zone: str) -> datetime:
    return datetime.fromtimestamp(unix_ms // MS, _zone(zone))


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):  # not found is a KeyError; a bad key a ValueError; a folder an OSError
        raise Unreadable(f"there is no time zone '{name}'", "write one such as Europe/Lisbon") from None


def _moments(civil: datetime, place: ZoneInfo) -> tuple[int, int]:
    """Unix seconds of a civil time read with the offset before (fold 0) and after (fold 1) a change of clocks."""
    early, late = (civil.replace(tzinfo=place, fold=fold) for fold in (0, 1))
    return round(early.timestamp()), round(late.timestamp())


def _exists(civil: datetime, moment: int, place: ZoneInfo) -> bool:
    return datetime.fromtimestamp(moment, UTC).astimezone(place).replace(tzinfo=None, fold=0) == civil


def _resolve(civil: datetime, place: ZoneInfo) -> int | CivilDoubt:
    first, second = _moments(civil, place)
    if first == second:
        return first
    asked = f"{civil:%H:%M} on {civil:%Y-%m-%d}"
    choices = tuple((_choice(m, place), m) for m in sorted((first, second)))
    if _exists(civil, first, place):
        return CivilDoubt(f"{asked} comes twice, because the clocks go back", choices)
    return CivilDoubt(f"{asked} does not exist, because the clocks go forward", choices)


def _choice(moment: int, place: ZoneInfo) -> str:
    there = datetime.fromtimestamp(moment, place)
    return f"{there:%H:%M} {there.tzname()}"


def _next(civil: datetime, place: ZoneInfo, now_s: int) -> int | CivilDoubt:
    """The first of today and tomorrow that is not over; of a doubled time only what is still to come counts."""
    found = _resolve(civil, place)
    if isinstance(found, CivilDoubt):
        left = tuple(choice for choice in found.choices if choice[1] >= now_s)
        if len(left) == len(found.choices):
            return found
        if left and _exists(civil, left[0][1], place):
            return left[0][1]
    elif found >= now_s:
        return found
    return _resolve(civil + timedelta(days=1), place)
