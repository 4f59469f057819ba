"""What the desk needs of the world. The shell keeps these promises; `tests/fakes.py` keeps them by hand."""

from collections.abc import Callable, Mapping, Sequence
from typing import Protocol

from timerboard.core.alarm_values import Rank
from timerboard.core.events import Event
from timerboard.core.plan import Forecast, NoPlan, Plan, Problem
from timerboard.core.values import Moment


class Clock(Protocol):
    """Time, read in one place. The kitchen clock never steps and counts while the machine sleeps."""

    @property
    def boot(self) -> str:
        """This boot of the machine."""

    def kitchen_ms(self) -> int:
        """Milliseconds since this boot, sleep included. The desk adds the base that makes it a Moment."""

    def wall_ms(self) -> int:
        """Unix time in milliseconds as the wall clock shows it."""

    def zone(self) -> str:
        """IANA name of the local time zone."""


class JournalTrouble(Exception):
    """The journal could not keep an event now (full disk, read-only folder, held by another board).

    `said` is for the cook. The desk goes on in memory and tries again.
    """

    def __init__(self, said: str) -> None:
        super().__init__(said)
        self.said = said


class HeldElsewhere(JournalTrouble):
    """Another board writes this cook. `said` is a whole thing to say: it needs no other words before it."""


class Journal(Protocol):
    """Keeps events in order, once each, durable when `append` returns."""

    def append(self, events: Sequence[Event]) -> None:
        """Keep all of them or none. Raises JournalTrouble; refuses a `seq` it already has with ValueError."""

    def read(self) -> tuple[Event, ...]:
        """Every event by `seq`."""

    def looked(self, at: Moment) -> None:
        """Note, cheaply and without a promise, that a board was here at `at`. Never raises."""

    def last_look(self) -> Moment | None:
        """When the board before this one last looked; None when nobody noted it."""

    def damage(self) -> str:
        """What of this cook could not be read back, for the cook; empty when all was."""

    def close(self) -> None:
        """Let go of the cook, so that another board may write it."""


class Planner(Protocol):
    """Answers questions somewhere else, one at a time. Every answer comes on the asker's own thread, later."""

    def ask(
        self,
        problem: Problem,
        hint: Plan | None,
        *,
        on_progress: Callable[[Plan], None],
        on_answer: Callable[[Plan | NoPlan], None],
        on_forecast: Callable[[Forecast], None],
        on_trouble: Callable[[str], None],
    ) -> None:
        """Put a question; one that is still open is dropped. `on_trouble` gets the reason in words for the cook."""

    def foresee(self, problem: Problem, plan: Plan, on_forecast: Callable[[Forecast], None]) -> None:
        """Forecast a plan as it stands, beside any open question; a forecast still awaited is dropped for it."""

    def cancel(self) -> None:
        """Drop the open question: nothing of it is called after this."""


class Wake(Protocol):
    """Looks again at a moment. A wake-up is only a hint: early, late and twice do no harm."""

    def at(self, delay_ms: int | None, look: Callable[[], None]) -> None:
        """Call `look` on the caller's own thread once in `delay_ms`; replaces what was asked before. None: never."""

    def stop(self) -> None:
        """No more wake-ups."""


class Sound(Protocol):
    """Makes bursts heard, one at a time."""

    @property
    def off(self) -> bool:
        """True when silence was asked for: then nothing is amiss, and nothing is heard."""

    def play(self, rank: Rank, dish: str, level: float) -> None:
        """Start a burst (0 < level <= 1) and return at once. A burst that plays gives way to one of higher rank."""

    def arm(self, name: str, rank: Rank, dish: str, level: float, at_ms: int) -> None:
        """Have a burst begin by itself at `at_ms` on the clock of this boot (`Clock.kitchen_ms`), whoever is busy then.

        One at a time: it takes the place of the one armed before. A player that cannot do this does nothing.
        """

    def went(self) -> str:
        """The name of the armed burst once it has begun by itself, told once; it stays armed until then."""

    def disarm(self) -> str:
        """Take the armed burst back; gives its name when it has begun already, else ""."""

    def hush(self) -> None:
        """Stop what plays now."""

    def trouble(self) -> str:
        """Empty while bursts reach a device as far as the system tells; else why not, for the cook."""

    def close(self) -> None:
        """Let go of the device."""


class Voice(Protocol):
    """Says sentences, one after another, behind the burst. Without a voice it does nothing."""

    @property
    def able(self) -> bool:
        """True where there is a voice at all."""

    @property
    def on(self) -> bool:
        """True while sentences are said."""

    def switch(self) -> bool:
        """Off or on again; tells which."""

    def say(self, sentence: str) -> None:
        """Queue a sentence and return at once."""

    def close(self) -> None:
        """Be quiet for good."""


class Memory(Protocol):
    """Small things that a board remembers from cook to cook. Nothing in it is needed: it may be lost."""

    def recall(self) -> Mapping[str, object]:
        """Everything that was remembered; empty when nothing can be read. Never raises."""

    def remember(self, name: str, value: float | bool | str | list[str]) -> None:
        """Keep a value for next time. Never raises."""
