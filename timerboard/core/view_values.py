"""Every word and number that a board shows, as values. `view.py` makes them, widgets only paint them.

Positions in time are Moments, so that a widget can draw a ribbon at any width; everything that is read is a string.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from .alarm_values import Rank
from .commands import Command
from .heat_values import CurvePoint, PullForecast
from .plan import Forecast
from .values import Moment


class Part(StrEnum):
    """How a stretch of a ribbon is drawn."""

    DONE = "done"  # solid
    RUNNING = "running"  # solid, up to the low end
    UNCERTAIN = "uncertain"  # hatched: between low and high end
    OVER = "over"  # past the high end
    PLANNED = "planned"  # dashed outline
    PLANNED_UNCERTAIN = "planned-uncertain"  # dashed and hatched
    HOLD = "hold"  # ready, waiting to be eaten


@dataclass(frozen=True, slots=True)
class Head:
    """The top line."""

    clock: str  # "17:42"
    title: str  # "Solstice supper for 12"
    eat: str  # "Eat at 18:30 · in 48 min"
    margin: str  # "9 min in hand" / "8 min late: mashed potatoes"
    margin_share: float  # 0..1, how full the bar is
    late: bool
    chance: str  # "on time 8 in 10" or ""
    tightest: str  # "tightest: potatoes" or ""
    places: tuple[str, ...]  # ("oven 200 °C, 220 °C at 18:03", "hob 2 of 4")


@dataclass(frozen=True, slots=True)
class HandsItem:
    """One job for hands. `digit` answers it; `answer` and the others are sent as they are."""

    key: str  # stable id of what calls
    digit: int
    rank: Rank
    line: str  # "Baste the pork"
    detail: str  # "oven, lower rack · 0:40 ago"
    answer: Command
    answer_word: str  # "done", "start", "end", "read"
    not_yet: Command | None = None
    put_off: Command | None = None
    pass_over: Command | None = None
    heard: Command | None = None
    wants_reading: str | None = None  # a step id: answering it asks for a temperature
    muted: bool = False  # heard or put off: shown quietly
    said: str = ""  # the whole of it for a screen reader
    strip: str = ""  # the key of the strip that it belongs to


@dataclass(frozen=True, slots=True)
class RibbonPart:
    """A stretch of a ribbon."""

    part: Part
    start: Moment
    end: Moment
    label: str = ""
    step: str = ""


@dataclass(frozen=True, slots=True)
class Tick:
    """A cue on a ribbon."""

    at: Moment
    done: bool = False
    due: bool = False


@dataclass(frozen=True, slots=True)
class Act:
    """Something that can be done to a strip, from its menu or by key."""

    word: str  # "End the roast now", "Drop the dish"
    command: Command
    reading_for: str | None = None  # asks for a temperature first
    choices: tuple["Act", ...] = ()  # asks which of these first


@dataclass(frozen=True, slots=True)
class Read:
    """A reading in a picture."""

    at: Moment
    celsius: float
    words: str  # "71 °C"
    doubtful: bool = False


@dataclass(frozen=True, slots=True)
class PullPicture:
    """How a core warms: what was read, the fit and its band, and the temperature it is pulled at."""

    reads: tuple[Read, ...]
    curve: tuple[CurvePoint, ...]
    pull_c: float
    pull_words: str  # "80 °C"
    now: Moment
    start: Moment
    end: Moment
    low_c: float
    high_c: float
    at: Moment | None  # when it is likely to be pulled
    at_words: str  # "18:03"
    labels: tuple[tuple[Moment, str], ...]
    said: str  # the picture in words


@dataclass(frozen=True, slots=True)
class Strip:
    """A dish (or a loose countdown) on the board."""

    key: str
    name: str
    line: str  # "Roast · oven, lower rack · core 71 °C → 80 °C"
    countdown: str  # "21:00", "1:05:00", "+2:10" when over, "" when nothing counts
    counts: str  # what it counts to, for the ear: "to first look"
    matter: str  # what matters most: "reach 80 °C 18:03 ± 4"
    rank: Rank | None  # of its most pressing alarm
    juts: bool  # needs hands now
    mark: str  # the word for its state: "now", "look", "over", "late", ""
    ribbon: tuple[RibbonPart, ...] = ()
    ticks: tuple[Tick, ...] = ()
    acts: tuple[Act, ...] = ()
    answered: str = ""  # "stirred 17:40, Ana" for a minute after
    said: str = ""  # accessible name: its whole state
    told: tuple[str, ...] = ()  # for its drawer: what rules ask, what the readings show, what to do about oil
    pull: PullPicture | None = None  # for its drawer


@dataclass(frozen=True, slots=True)
class Axis:
    """The one time axis that all strips share."""

    start: Moment
    end: Moment
    now: Moment
    eat: Moment
    labels: tuple[tuple[Moment, str], ...]


@dataclass(frozen=True, slots=True)
class Foot:
    """The bottom line."""

    keys: str
    last: str
    saved: str
    saved_ok: bool
    sound: str
    sound_ok: bool
    hot_oil: bool = False  # fat is hot: what to do when it smokes or burns has to be one tap away


@dataclass(frozen=True, slots=True)
class Notice:
    """A line that stays until it is answered: a new plan, a stepped clock, what came due while away."""

    key: str
    text: str
    rank: Rank
    take: Command | None = None
    take_word: str = ""
    leave: Command | None = None
    leave_word: str = ""
    again: Command | None = None  # a third answer, that leaves the question standing
    again_word: str = ""


@dataclass(frozen=True, slots=True)
class BoardView:
    """The whole board at one moment."""

    head: Head
    hands: tuple[HandsItem, ...]
    waiting: str  # "" or "and 4 more"
    strips: tuple[Strip, ...]
    axis: Axis
    foot: Foot
    notices: tuple[Notice, ...] = ()
    danger: bool = False
    hushed: str = ""  # "sound paused 1:40 left"
    names: tuple[str, ...] = ()  # who may be answering, to choose from
    choices: tuple[Act, ...] = ()  # what can be chosen for the whole kitchen
    fire: tuple[str, ...] = ()  # what to do when fat smokes or burns, one key away


@dataclass(frozen=True, slots=True)
class Extras:
    """What a board shows that does not follow from the cook: told by whoever keeps the journal, the sound, the plan."""

    saved: str = ""  # "saved 17:42:07", or why it is not
    saved_ok: bool = True
    sound: str = ""  # the trouble with the sound, "" when there is none
    forecast: Forecast | None = None
    notices: tuple[Notice, ...] = ()
    order: tuple[str, ...] = ()  # the strips' keys as last shown, so that they stay where they are
    sound_state: str = "sound ok"  # what the foot says of the sound while there is no trouble with it
    sound_calls: bool = False  # sound was lost and nobody has seen it yet
    flood: str = ""  # "12 calls in 10 min"
    who: str = ""  # whose answers these are: "Ana"
    names: tuple[str, ...] = ()  # who has answered at this board so far
    pulls: Mapping[str, PullForecast] = field(default_factory=dict)  # by step: what the fit of its readings says
