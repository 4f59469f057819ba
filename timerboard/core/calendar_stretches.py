"""Hours of the day on a plan's axis: where a kitchen is closed, day after day, through changes of the clocks."""

from collections.abc import Iterable, Iterator
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from .menu import Closed
from .plan import Stretch
from .values import Seconds


def closed_stretches(closed: Iterable[Closed], zone: str, start: Seconds, end: Seconds) -> tuple[Stretch, ...]:
    """Every stretch of Unix time in [start, end) in which `closed` hours of an IANA zone leave no hands.

    Sorted, merged, cut to [start, end). Hours whose end is before their start run over midnight. A closing or opening
    time that a change of clocks leaves out or repeats is read so that the kitchen is closed for longer.
    """
    place = ZoneInfo(zone)
    found = [s for hours in closed for s in _days(hours, place, start, end)]
    return merged(Stretch(start=max(s.start, start), end=min(s.end, end)) for s in found)


def merged(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """The same points, as few stretches as possible, in order; empty ones are left out."""
    joined: list[Stretch] = []
    for stretch in sorted((s for s in stretches if s.start < s.end), key=lambda s: s.start):
        if joined and stretch.start <= joined[-1].end:
            joined[-1] = Stretch(start=joined[-1].start, end=max(joined[-1].end, stretch.end))
        else:
            joined.append(stretch)
    return tuple(joined)


def _days(hours: Closed, place: ZoneInfo, start: Seconds, end: Seconds) -> Iterator[Stretch]:
    """One stretch for each day whose closed hours may touch [start, end)."""
    over_midnight = 1 if hours.end_min < hours.start_min else 0
    day = datetime.fromtimestamp(start, place).date() - timedelta(days=1)
    last = datetime.fromtimestamp(end, place).date()
    while day <= last:
        closes = min(_moments(day, hours.start_min, place))
        opens = max(_moments(day + timedelta(days=over_midnight), hours.end_min, place))
        yield Stretch(start=closes, end=opens)
        day += timedelta(days=1)


def _moments(day: date, minutes: int, place: ZoneInfo) -> tuple[Seconds, Seconds]:
    """Both readings of a civil time (PEP 495's fold); they are equal but where the clocks change."""
    civil = datetime(day.year, day.month, day.day, tzinfo=place) + timedelta(minutes=minutes)
    return int(civil.replace(fold=0).timestamp()), int(civil.replace(fold=1).timestamp())
