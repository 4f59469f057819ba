"""What a cook is at a moment: everything that the events say, and nothing that the clock could say.

`fold.py` makes it from events. Countdowns, alarms and forecasts are not in here: they follow from this and now.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from .events import Event
from .heat_values import PullForecast
from .menu import Menu, Step
from .plan import Plan
from .values import Moment, Span


class StepState(StrEnum):
    """Where a step is in its life. `IN_RANGE` and `OVER` follow from the clock: `engine.phase` tells."""

    WAITING = "waiting"  # something before it has not ended
    READY = "ready"
    RUNNING = "running"
    IN_RANGE = "in its range"
    OVER = "over"
    ENDED = "ended"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class Reading:
    """A temperature somebody read."""

    at: Moment
    celsius: float
    of: str = "core"


@dataclass(frozen=True, slots=True)
class CueLog:
    """What became of a cue so far in this run of its step."""

    done: int = 0
    passed: int = 0
    last: Moment | None = None  # when it was last done or passed over


@dataclass(frozen=True, slots=True)
class StepLife:
    """One step's facts. `state` is WAITING, READY, RUNNING, ENDED or DROPPED: what events alone can say."""

    state: StepState = StepState.WAITING
    ready_since: Moment | None = None  # when the last step before it ended
    started: Moment | None = None
    ended: Moment | None = None
    by_itself: bool = False
    look_again: Moment | None = None  # 'not yet': when to ask next
    span: Span | None = None  # a revised length; None: as the menu says
    readings: tuple[Reading, ...] = ()
    cues: Mapping[str, CueLog] = field(default_factory=dict)
    who: str | None = None
    foreseen: PullForecast | None = None  # the newest that was adopted; it may be of older readings

    @property
    def fit(self) -> PullForecast | None:
        """The adopted forecast of all its readings that has a moment to tell; None while there is none such."""
        found = self.foreseen
        if found is None or found.at is None:
            return None
        return found if found.readings == cores_read(self) else None


def cores_read(life: StepLife) -> int:
    """How many readings of the core there are."""
    return sum(1 for r in life.readings if r.of == "core")


@dataclass(frozen=True, slots=True)
class PlaceHeat:
    """What a heated place was last set to, and when somebody saw that it was hot."""

    heat_c: float
    set_at: Moment
    hot_at: Moment | None = None


@dataclass(frozen=True, slots=True)
class QuickTimer:
    """A loose countdown."""

    name: str
    set_at: Moment
    ends: Moment


@dataclass(frozen=True, slots=True)
class Note:
    """Something that happened to the board, in words, until somebody has heard it."""

    at: Moment
    said: str


@dataclass(frozen=True, slots=True)
class Noted:
    """An event in the record. `effect` is empty when it had its effect, else why it had none."""

    event: Event
    effect: str = ""
    undone: bool = False


@dataclass(frozen=True, slots=True)
class Cook:
    """The whole fact. `menu` has the dishes added so far; dropped ones are in `dropped`."""

    menu: Menu
    menu_hash: str
    opened: Moment
    eat_at: Moment
    zone: str
    offset_ms: int  # wall clock minus kitchen clock
    lives: Mapping[str, StepLife]
    plan: Plan | None = None
    dropped: frozenset[str] = frozenset()
    heats: Mapping[str, PlaceHeat] = field(default_factory=dict)
    settings_done: Mapping[str, Moment] = field(default_factory=dict)  # HeatSetting id (or id + "?") -> when
    timers: Mapping[str, QuickTimer] = field(default_factory=dict)
    heard: Mapping[str, Moment] = field(default_factory=dict)  # alarm id -> when
    put_off: Mapping[str, Moment] = field(default_factory=dict)  # alarm id -> returns
    hushed_at: Moment | None = None  # what fell due after this still sounds
    hushed_until: Moment | None = None
    notes: Mapping[str, Note] = field(default_factory=dict)  # what the board has to tell, by the name of the event
    closed: Moment | None = None
    chosen: Mapping[str, str] = field(default_factory=dict)  # see `choices.py`
    written: Mapping[str, Step] = field(default_factory=dict)  # as the menu has them, where height made them longer
    record: tuple[Noted, ...] = ()

    @property
    def begun(self) -> bool:
        """True once hands have done something that the plan asked for: from then on nothing moves unasked."""
        return bool(self.settings_done) or any(life.started is not None for life in self.lives.values())

    def step(self, step: str) -> Step | None:
        """The step of that id, or None."""
        return self.menu.steps.get(step)

    def span(self, step: Step) -> Span:
        """How long a step takes as far as is known now: revised, else as written."""
        return self.lives[step.id].span or step.span
