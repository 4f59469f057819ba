"""Which alarm sounds, how loud, and when next. One sound at a time; nothing is remembered here.

Rules (process-control practice, in a cook's words): the highest rank with an unanswered alarm sounds, and in it the
burst that fell due last; so a new alarm of that rank is heard at once, and when the highest is answered the next lower
begins. A due alarm sounds at once, after 20 s, after 60 s, then every 60 s, each time louder up to the ceiling; danger
every 10 s; a heads-up once; a note never. Heard and put off are silent until they call again. A hush silences what had
fallen due when it was asked for, and nothing that falls due after it; when it is over, what still stands sounds.
Jobs at one door within two minutes are one call and sound once for all (`one_call.py`).
"""

from collections.abc import Iterable
from dataclasses import dataclass

from .alarm_values import Alarm, Answered, Rank
from .alarms import pressing, recall_ms
from .cook import Cook
from .one_call import one_calls
from .values import MS, Moment

DANGER_EVERY_MS = 10 * MS
DUE_EVERY_MS = 60 * MS
SECOND_DUE_MS = 20 * MS

FIRST_LEVEL = {Rank.DANGER: 0.7, Rank.DUE: 0.4, Rank.SOON: 0.3}
LOUDER = {Rank.DANGER: 0.15, Rank.DUE: 0.15, Rank.SOON: 0.0}


@dataclass(frozen=True, slots=True)
class Sounding:
    """What sounds. `burst` counts from 0 since the alarm began to call; `at` is when that burst fell due.

    A player plays a burst when it has not played its `key` yet, and looks again at `next_at` (or at the next change).
    `level` is 0 < level <= 1. `alarm` None: nothing sounds. `others` are called with it, at the same door; `covers`
    has the keys of their bursts that need not be played after this one.
    """

    alarm: Alarm | None = None
    burst: int = 0
    at: Moment = 0
    level: float = 0.0
    next_at: Moment | None = None
    others: tuple[Alarm, ...] = ()
    covers: frozenset[str] = frozenset()

    @property
    def key(self) -> str:
        """A name for this burst, the same however often it is asked for."""
        return f"{self.alarm.id}@{self.at}" if self.alarm else ""


def sounding(alarms: Iterable[Alarm], cook: Cook, now: Moment, ceiling: float = 1.0) -> Sounding:
    """The one burst that is due last at `now` among the alarms of the highest rank that may sound."""
    calling = sorted((a for a in alarms if a.rank is not Rank.NOTE and a.answered is Answered.NOT), key=pressing)
    heard = [a for a in calling if not _hushed(a, cook, now)]
    if not heard:
        return Sounding(next_at=cook.hushed_until if calling else None)
    top = [a for a in heard if a.rank is heard[0].rank]
    called = {call[0].id: call for call in one_calls(top, cook, lambda a: called_since(a, cook))}
    leads = [a for a in top if a.id in called]
    at, place = max((_last_burst(a, cook, now), -place) for place, a in enumerate(leads))
    alarm = leads[-place]
    count = _count(alarm.rank, now - called_since(alarm, cook))
    level = min(ceiling, FIRST_LEVEL[alarm.rank] + count * LOUDER[alarm.rank], 1.0)
    others = called[alarm.id][1:]
    covers = frozenset(f"{other.id}@{_last_burst(other, cook, now)}" for other in others)
    silent = len(heard) < len(calling)
    return Sounding(alarm, count, at, level, _next(leads, silent, cook, now), others, covers)


def called_since(alarm: Alarm, cook: Cook) -> Moment:
    """Since when an alarm calls without a break: it fell due, came back, or was heard too long ago."""
    heard, back = cook.heard.get(alarm.id), cook.put_off.get(alarm.id)
    return max(alarm.since, heard + recall_ms(alarm.rank) if heard is not None else 0, back or 0)


def _hushed(alarm: Alarm, cook: Cook, now: Moment) -> bool:
    if cook.hushed_at is None or cook.hushed_until is None or not cook.hushed_at <= now < cook.hushed_until:
        return False
    return called_since(alarm, cook) <= cook.hushed_at


def _last_burst(alarm: Alarm, cook: Cook, now: Moment) -> Moment:
    """When its newest burst fell due; the end of a hush brings one for what had called before it."""
    since = called_since(alarm, cook)
    last = since + _offset(alarm.rank, _count(alarm.rank, now - since))
    if cook.hushed_at is not None and cook.hushed_until is not None and since <= cook.hushed_at:
        return max(last, cook.hushed_until) if now >= cook.hushed_until else last
    return last


def _count(rank: Rank, age: int) -> int:
    """How many bursts fell due before the newest one."""
    if rank is Rank.DANGER:
        return age // DANGER_EVERY_MS
    if rank is Rank.SOON:
        return 0
    return int(age >= SECOND_DUE_MS) if age < DUE_EVERY_MS else 1 + age // DUE_EVERY_MS


def _offset(rank: Rank, count: int) -> int:
    """How long after the first burst the one of that number falls due."""
    if rank is Rank.DANGER:
        return count * DANGER_EVERY_MS
    return (0, SECOND_DUE_MS)[count] if count < 2 else (count - 1) * DUE_EVERY_MS


def _next(leads: list[Alarm], silent: bool, cook: Cook, now: Moment) -> Moment | None:
    moments = [_next_burst(a, cook, now) for a in leads if a.rank is not Rank.SOON]
    if silent and cook.hushed_until is not None:
        moments.append(cook.hushed_until)
    return min(moments, default=None)


def _next_burst(alarm: Alarm, cook: Cook, now: Moment) -> Moment:
    since = called_since(alarm, cook)
    return since + _offset(alarm.rank, _count(alarm.rank, now - since) + 1)
