"""What a cook can ask for. Values only: a view carries them ready-made, a widget sends them, `decide` answers them."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from .events import Setting
from .menu import Dish
from .plan import Plan
from .values import Moment, Span


@dataclass(frozen=True, slots=True)
class StartStep:
    """Begin a step now."""

    step: str


@dataclass(frozen=True, slots=True)
class EndStep:
    """A step is done now; what follows unattended begins. `confirmed`: although a rule asks for more heat."""

    step: str
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class ReopenStep:
    """A step that was ended goes on."""

    step: str


@dataclass(frozen=True, slots=True)
class NotYet:
    """Looked, and it needs longer: a third of what is left to the high end, at least 30 s."""

    step: str


@dataclass(frozen=True, slots=True)
class DoCue:
    """A cue was done (or, with step "@place", the place was set; "@place?": it was checked to be hot)."""

    step: str
    cue: str


@dataclass(frozen=True, slots=True)
class PutAway:
    """These dishes were put away (chilled, eaten up or thrown out): their food clocks stop. One act, for undo too."""

    dishes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PassOverCue:
    """Leave a cue out this time."""

    step: str
    cue: str


@dataclass(frozen=True, slots=True)
class TakeReading:
    """A temperature was read. `confirmed`: yes, end the step although / because of what it says."""

    step: str
    celsius: float
    of: Literal["core", "oil", "oven"] = "core"
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class HearAlarm:
    """'I have seen it': ends the sound, not the cause."""

    alarm: str


@dataclass(frozen=True, slots=True)
class PutOff:
    """Come back to an alarm in `for_s` seconds (at most 300; never for danger)."""

    alarm: str
    for_s: int = 120


@dataclass(frozen=True, slots=True)
class Hush:
    """All sounds off for `for_s` seconds (at most 120); a new alarm still sounds."""

    for_s: int = 120


@dataclass(frozen=True, slots=True)
class DropDish:
    """Strike a dish off."""

    dish: str


@dataclass(frozen=True, slots=True)
class AddDish:
    """Add a dish, already resolved against the menu."""

    dish: Dish


@dataclass(frozen=True, slots=True)
class ReviseDuration:
    """A step will take another time."""

    step: str
    span: Span


@dataclass(frozen=True, slots=True)
class MoveEating:
    """Eat at another moment."""

    eat_at: Moment


@dataclass(frozen=True, slots=True)
class SetQuickTimer:
    """A loose countdown of `length_s` seconds."""

    timer: str
    length_s: int


@dataclass(frozen=True, slots=True)
class ClearQuickTimer:
    """A loose countdown was answered or taken away."""

    timer: str


@dataclass(frozen=True, slots=True)
class ChooseSetting:
    """Choose whose rules, how hot the room is, its height above sea, or what food a dish is (see `choices.py`)."""

    setting: Setting
    value: str
    dish: str = ""
    by_itself: bool = False


@dataclass(frozen=True, slots=True)
class AdoptPlan:
    """Take a plan. `eat_at`: eat then, which the plan said when it was offered."""

    plan: Plan
    eat_at: Moment | None = None


@dataclass(frozen=True, slots=True)
class Undo:
    """Take back the last act of a person that has not been taken back yet."""


@dataclass(frozen=True, slots=True)
class CloseCook:
    """The meal is over."""


@dataclass(frozen=True, slots=True)
class Look:
    """A wake-up: adopt what began by itself in the meantime, and nothing else."""


@dataclass(frozen=True, slots=True)
class PlaySound:
    """Play a call, and ask whether it was heard. Makes no alarm and no event, as the next four."""


@dataclass(frozen=True, slots=True)
class HeardTest:
    """Whether the played call was heard."""

    heard: bool


@dataclass(frozen=True, slots=True)
class Louder:
    """The loudest that calls may become, `by` steps up (negative: down)."""

    by: int


@dataclass(frozen=True, slots=True)
class SwitchVoice:
    """Calls are spoken, or no longer."""


@dataclass(frozen=True, slots=True)
class AnswerAs:
    """From now on it is `who` that answers; "" for nobody in particular."""

    who: str


BoardWish: TypeAlias = PlaySound | HeardTest | Louder | SwitchVoice | AnswerAs
"""What concerns this board and not the cook: the desk does it, and no record keeps it."""

Command: TypeAlias = (
    StartStep
    | EndStep
    | ReopenStep
    | NotYet
    | DoCue
    | PutAway
    | PassOverCue
    | TakeReading
    | HearAlarm
    | PutOff
    | Hush
    | DropDish
    | AddDish
    | ReviseDuration
    | MoveEating
    | SetQuickTimer
    | ClearQuickTimer
    | ChooseSetting
    | AdoptPlan
    | Undo
    | CloseCook
    | Look
    | BoardWish
)
