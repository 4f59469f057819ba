"""The world by hand: a clock to crank, a journal in memory, a wake-up that rings when told, sounds that are noted."""

from collections.abc import Callable, Sequence

from timerboard.core.alarm_values import Rank
from timerboard.core.events import EVENT, Event
from timerboard.core.values import Moment
from timerboard.desk.ports import JournalTrouble

OPENING = 1_797_861_600_000  # Mon 21 Dec 2026 14:00 UTC, in ms: nothing depends on it being that day


class HandClock:
    """Keeps `Clock`. Time moves only when a test moves it."""

    def __init__(self, wall_ms: int = OPENING, zone: str = "UTC") -> None:
        self._wall = wall_ms
        self._kitchen = 5_000_000
        self._boots = 1
        self._zone = zone

    @property
    def boot(self) -> str:
        return f"boot {self._boots}"

    def kitchen_ms(self) -> int:
        return self._kitchen

    def wall_ms(self) -> int:
        return self._wall

    def zone(self) -> str:
        return self._zone

    def advance(self, seconds: float) -> None:
        """Both clocks run on, as they do."""
        self._wall += round(seconds * 1000)
        self._kitchen += round(seconds * 1000)

    def suspend(self, seconds: float) -> None:
        """The lid is shut: nobody looks, and the kitchen clock runs on."""
        self.advance(seconds)

    def step_wall(self, seconds: float) -> None:
        """Somebody sets the wall clock."""
        self._wall += round(seconds * 1000)

    def reboot(self, seconds: float) -> None:
        """Off for so long; then the kitchen clock begins again near zero."""
        self._wall += round(seconds * 1000)
        self._kitchen = 9_000
        self._boots += 1


class MemoryJournal:
    """Keeps `Journal` in a list. `fail_at(n)` makes the nth append from now fail, and those after it, until `mend`."""

    def __init__(self, kept: Sequence[Event] = ()) -> None:
        self._kept: dict[int, str] = {event.seq: _text(event) for event in kept}
        self._fails_in: int | None = None
        self._said = ""
        self._looked: Moment | None = None
        self.closed = False
        self.lost = ""

    def fail_at(self, nth: int, said: str = "the disk is full") -> None:
        self._fails_in, self._said = nth, said

    def mend(self) -> None:
        self._fails_in = None

    def append(self, events: Sequence[Event]) -> None:
        if self._fails_in is not None:
            self._fails_in -= 1
            if self._fails_in <= 0:
                raise JournalTrouble(self._said)
        seqs = [event.seq for event in events]
        if len(set(seqs)) < len(seqs) or any(seq in self._kept for seq in seqs):
            raise ValueError(f"kept already: one of {seqs}")
        self._kept.update((event.seq, _text(event)) for event in events)

    def read(self) -> tuple[Event, ...]:
        return tuple(EVENT.validate_json(self._kept[seq]) for seq in sorted(self._kept))

    def looked(self, at: Moment) -> None:
        self._looked = at

    def last_look(self) -> Moment | None:
        return self._looked

    def damage(self) -> str:
        return self.lost

    def close(self) -> None:
        self.closed = True


def _text(event: Event) -> str:
    return event.model_dump_json()


class FakeWake:
    """Keeps `Wake`. Remembers what was asked; rings when told."""

    def __init__(self) -> None:
        self.delay_ms: int | None = None
        self.asked = 0
        self._look: Callable[[], None] | None = None

    def at(self, delay_ms: int | None, look: Callable[[], None]) -> None:
        self.delay_ms, self._look = delay_ms, look
        self.asked += 1

    def ring(self) -> None:
        assert self._look is not None, "nothing was asked to wake up for"
        self._look()

    def stop(self) -> None:
        self.delay_ms, self._look = None, None


class RecordingSound:
    """Keeps `Sound`. Notes every burst; `lost` is the trouble it then tells of."""

    def __init__(self) -> None:
        self.played: list[tuple[Rank, str, float]] = []
        self.hushes = 0
        self.lost = ""
        self.off = False
        self.armed: tuple[str, Rank, str, float, int] | None = None
        self.now_ms: Callable[[], int] = lambda: -1  # a device without a clock: nothing begins by itself
        self.begun_by_itself = 0

    def play(self, rank: Rank, dish: str, level: float) -> None:
        self.played.append((rank, dish, level))

    def arm(self, name: str, rank: Rank, dish: str, level: float, at_ms: int) -> None:
        self.armed = (name, rank, dish, level, at_ms)

    def went(self) -> str:
        """What the device does by itself: the burst whose moment has come has begun."""
        if self.armed is None or self.now_ms() < self.armed[4]:
            return ""
        name, *burst, _at_ms = self.armed
        self.armed = None
        self.played.append(tuple(burst))
        self.begun_by_itself += 1
        return name

    def disarm(self) -> str:
        went = self.went()
        self.armed = None
        return went

    def hush(self) -> None:
        self.hushes += 1

    def trouble(self) -> str:
        return self.lost

    def close(self) -> None:
        self.played.clear()


class RecordingVoice:
    """Keeps `Voice`. Notes every sentence."""

    def __init__(self) -> None:
        self.said: list[str] = []
        self.able = self.on = True

    def switch(self) -> bool:
        self.on = not self.on
        return self.on

    def say(self, sentence: str) -> None:
        self.said.append(sentence)

    def close(self) -> None:
        self.said.clear()


class RecordingMemory:
    """Keeps `Memory` in a dict."""

    def __init__(self, **kept: object) -> None:
        self.kept: dict[str, object] = kept

    def recall(self) -> dict[str, object]:
        return dict(self.kept)

    def remember(self, name: str, value: object) -> None:
        self.kept[name] = value
