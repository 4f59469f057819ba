"""A clock that is cranked by hand and a journal in memory: what a rehearsal runs on instead of the world."""

from collections.abc import Callable, Mapping, Sequence

from timerboard.core.events import Event
from timerboard.core.heat_values import HeatQuestion, PullForecast
from timerboard.core.values import Moment


class CrankedClock:
    """Time that moves only when told to. Keeps the promises of `ports.Clock`."""

    def __init__(self, wall_ms: int, zone: str) -> None:
        self._start_ms = wall_ms
        self._gone_ms = 0
        self._zone = zone

    @property
    def boot(self) -> str:
        """One rehearsal is one boot."""
        return "rehearsal"

    def kitchen_ms(self) -> int:
        """Milliseconds cranked so far."""
        return self._gone_ms

    def wall_ms(self) -> int:
        """The wall clock keeps step with the kitchen clock."""
        return self._start_ms + self._gone_ms

    def zone(self) -> str:
        """The zone it was made with."""
        return self._zone

    def crank_to(self, moment: Moment) -> None:
        """Go on to a moment; never back."""
        self._gone_ms = max(self._gone_ms, moment - self._start_ms)


class HeldMemory:
    """What a board would remember, for one rehearsal. Keeps the promises of `ports.Memory`; nothing outlives it."""

    def __init__(self, kept: Mapping[str, object]) -> None:
        self._kept = dict(kept)

    def recall(self) -> Mapping[str, object]:
        """Everything it was given or told."""
        return dict(self._kept)

    def remember(self, name: str, value: float | bool | str | list[str]) -> None:
        """Until the rehearsal is over."""
        self._kept[name] = value


class Foreteller:
    """Foretells pulls as the planner's process does, when it is told to. Keeps the promise of `pulls.Predictor`."""

    def __init__(self) -> None:
        self._asked: dict[str, tuple[HeatQuestion, Callable[[PullForecast], None]]] = {}

    def predict(self, question: HeatQuestion, on_pull: Callable[[PullForecast], None]) -> None:
        """Of two questions about one step only the newer is answered."""
        self._asked[question.step] = (question, on_pull)

    def answer(self) -> None:
        """Every answer that is open, now."""
        from timerboard.core.heat_pull import forecast_pull  # numpy and scipy: only once a core was read

        asked, self._asked = self._asked, {}
        for question, on_pull in asked.values():
            on_pull(forecast_pull(question))


class MemoryJournal:
    """Keeps events for as long as the rehearsal lasts. Keeps the promises of `ports.Journal`, but no disk."""

    def __init__(self) -> None:
        self._events: list[Event] = []

    def append(self, events: Sequence[Event]) -> None:
        """Keep all of them or none; a `seq` that is taken is a ValueError."""
        taken = {event.seq for event in self._events}
        if any(event.seq in taken for event in events):
            raise ValueError("this seq is in the journal already")
        self._events.extend(events)

    def read(self) -> tuple[Event, ...]:
        """Every event by `seq`."""
        return tuple(sorted(self._events, key=lambda event: event.seq))

    def looked(self, at: Moment) -> None:
        """A rehearsal is never taken up again."""

    def last_look(self) -> Moment | None:
        """Nobody was here before."""
        return None

    def damage(self) -> str:
        """Memory does not go bad."""
        return ""

    def close(self) -> None:
        """Nothing is held."""
