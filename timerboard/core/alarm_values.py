"""An alarm as a value. `alarms.py` derives them; nothing stores one."""

from dataclasses import dataclass
from enum import IntEnum, StrEnum

from .values import Moment


class Rank(IntEnum):
    """How much an alarm matters; danger first."""

    NOTE = 0
    SOON = 1
    DUE = 2
    DANGER = 3


class Answered(StrEnum):
    """Whether anyone has dealt with it (process-control practice: seen is not fixed)."""

    NOT = "unacknowledged"
    HEARD = "acknowledged"
    PUT_OFF = "put off"


class Kind(StrEnum):
    """What calls."""

    DANGER = "danger"
    CHECK = "check"  # the low end of a range was reached
    OVER = "over"  # the high end was passed
    PULL = "pull"
    READ = "read"  # take a reading
    CUE = "cue"
    START = "start"
    SET = "set"  # set a place's heat
    HOT = "hot"  # is it really hot?
    TIMER = "timer"
    HEADS_UP = "heads-up"
    SERVE = "serve"
    AWAY = "away"  # put away what is left
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Alarm:
    """One thing that calls for someone.

    `id` is a stable name (kind, step, cue and which falling-due), so that two derivations of the same cause are equal.
    `since` is when it fell due; `spoils_at` when harm begins (for ranking: least slack first).
    `verb`, `food`, `where` are its words, in that order; a dish's name is in `dish` ("" for none).
    """

    id: str
    kind: Kind
    rank: Rank
    since: Moment
    dish: str
    step: str | None
    cue: str | None
    verb: str
    food: str
    where: str
    detail: str = ""
    spoils_at: Moment | None = None
    answered: Answered = Answered.NOT
    returns_at: Moment | None = None

    @property
    def sentence(self) -> str:
        """Verb and food: 'Baste the pork'."""
        return f"{self.verb} {self.food}".strip()
