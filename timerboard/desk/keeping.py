"""Keeping events: durable before anything shows them, or in memory and tried again while the journal is in trouble."""

from collections.abc import Callable, Sequence

from timerboard.core.alarm_values import Alarm, Answered, Kind, Rank
from timerboard.core.events import Event
from timerboard.core.values import Moment

from .ports import Journal, JournalTrouble

NOT_SAVED = "desk|not saved"
LOOKED_EVERY_MS = 10_000


class Keeper:
    """Stands between the desk and its journal. Nothing it does raises: trouble is told by `trouble` and `mark`."""

    def __init__(self, journal: Journal) -> None:
        self._journal = journal
        self._all: list[Event] = []
        self._behind = False
        self._noted: Moment | None = None
        self._heard: str = ""
        self.saved_at: Moment | None = None
        self.since: Moment | None = None
        self.trouble = ""

    def take_up(self, events: Sequence[Event]) -> None:
        """These were read back: they are kept already."""
        self._all = list(events)
        self.saved_at = self._all[-1].at if self._all else None

    @property
    def next_seq(self) -> int:
        """The next free number of the record."""
        return max((event.seq for event in self._all[-1:]), default=0) + 1

    def keep(self, events: Sequence[Event], now: Moment) -> None:
        """Append; on trouble hold on to them for `retry`."""
        self._all.extend(events)
        if self._behind:
            self.retry(now)
        else:
            self._try(lambda: self._journal.append(events), now)

    def retry(self, now: Moment) -> None:
        """While something is not saved: append all that the journal does not have, whatever became of its file."""
        if self._behind:
            self._try(self._catch_up, now)

    def looked(self, now: Moment) -> None:
        """Note that a board is here, every ten seconds at most."""
        if self._noted is None or now - self._noted >= LOOKED_EVERY_MS:
            self._noted = now
            self._journal.looked(now)

    def heard(self) -> None:
        """Somebody has seen that it is not saved: the sound of this trouble ends, the mark stays."""
        self._heard = self.trouble

    def mark(self, clock: Callable[[Moment], str]) -> str:
        """The foot's words: 'saved 17:42', or 'not saved since 17:42: the disk is full'."""
        if self.since is not None:
            return f"not saved since {clock(self.since)}: {self.trouble}"
        return "" if self.saved_at is None else f"saved {clock(self.saved_at)}"

    def alarm(self) -> Alarm | None:
        """What calls while acts are not saved; None while they are."""
        if self.since is None:
            return None
        told = Answered.HEARD if self._heard == self.trouble else Answered.NOT
        return Alarm(
            NOT_SAVED,
            Kind.NOTE,
            Rank.DUE,
            self.since,
            dish="",
            step=None,
            cue=None,
            verb="Not saved:",
            food=self.trouble,
            where="",
            answered=told,
        )

    def _catch_up(self) -> None:
        kept = {event.seq for event in self._journal.read()}
        self._journal.append([event for event in self._all if event.seq not in kept])

    def _try(self, keeping: Callable[[], None], now: Moment) -> None:
        try:
            keeping()
        except JournalTrouble as trouble:
            self._fail(trouble.said, now)
        except ValueError:
            self._fail("another board wrote to this cook", now)
        else:
            self._behind, self.since, self.trouble, self._heard = False, None, "", ""
            self.saved_at = now

    def _fail(self, said: str, now: Moment) -> None:
        self._behind, self.trouble = True, said
        self.since = now if self.since is None else self.since
