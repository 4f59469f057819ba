"""Too many calls at once: when to speak of them together. None of them is dropped, and each still sounds.

A flood begins with more than five calls waiting or ten new ones in ten minutes, and is over when no more than five wait
and fewer than five came in ten minutes (the idea of the flood limits of ISA-18.2 for one operator, read in secondary
sources only; five waiting is what the hands line holds). The gap between the two keeps it from coming and going.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from .alarm_values import Alarm, Answered, Rank
from .values import MS, Moment

WINDOW_MS = 600 * MS
MOST_WAITING = 5
BEGINS_AT = 10
ENDS_BELOW = 5


@dataclass(frozen=True, slots=True)
class Flood:
    """Whether it floods. `came` are the moments of the calls of the last ten minutes, `known` the calls that stand."""

    on: bool = False
    waiting: int = 0
    came: tuple[Moment, ...] = ()
    known: frozenset[str] = frozenset()

    def look(self, alarms: Iterable[Alarm], now: Moment) -> "Flood":
        """The flood as it is at `now`. Heads-ups and notes do not count: they ask for nothing yet."""
        standing = [alarm for alarm in alarms if alarm.rank >= Rank.DUE]
        new = (alarm.since for alarm in standing if alarm.id not in self.known)
        came = tuple(at for at in (*self.came, *new) if at > now - WINDOW_MS)
        waiting = sum(1 for alarm in standing if alarm.answered is Answered.NOT)
        begins = waiting > MOST_WAITING or len(came) >= BEGINS_AT
        stays = self.on and len(came) >= ENDS_BELOW  # with more than five waiting it begins anew
        return Flood(begins or stays, waiting, came, frozenset(alarm.id for alarm in standing))

    @property
    def words(self) -> str:
        """'12 calls in 10 min' while it floods by number, else ''."""
        return f"{len(self.came)} calls in 10 min" if len(self.came) >= BEGINS_AT else ""
