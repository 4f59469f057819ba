"""What people did, and what was adopted on their behalf: the only thing a cook stores.

Past tense, frozen, validated when made. `seq` counts from 1 without gaps; `at` is the kitchen clock, `wall_ms` Unix
time as the wall clock showed it, `boot` the boot of the machine, `board` which board wrote it. `version` is the shape
of the event; `core/upgrades.py` turns older shapes into today's.
"""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, TypeAdapter

from .heat_values import PullForecast
from .menu import Dish, Menu
from .plan import Plan
from .values import Frozen, Moment, Span

VERSION = 2

Setting: TypeAlias = Literal["rules", "room", "height", "food"]


class Stamp(Frozen):
    """When and by which board an event was written."""

    seq: int
    at: Moment
    wall_ms: int
    boot: str
    board: str
    version: int = VERSION
    who: str | None = None  # which cook answered, when that is told


class CookOpened(Stamp):
    """A cook began. `eat_at` is on the kitchen clock; `offset_ms` is wall minus kitchen clock."""

    kind: Literal["CookOpened"] = "CookOpened"
    menu_text: str
    menu_hash: str
    menu: Menu
    eat_at: Moment
    zone: str  # IANA name
    booted: Moment | None = None  # where on the kitchen clock this boot of the machine stood at zero


class PlanAdopted(Stamp):
    """A plan was taken; on the axis of the kitchen clock in seconds. `by_itself`: before anything had begun."""

    kind: Literal["PlanAdopted"] = "PlanAdopted"
    plan: Plan
    by_itself: bool = False


class StepStarted(Stamp):
    """A step began, by hand or by itself (`by_itself`) when the step before it ended."""

    kind: Literal["StepStarted"] = "StepStarted"
    step: str
    by_itself: bool = False


class StepEnded(Stamp):
    """A step ended, by tap or because a reading reached its pull temperature."""

    kind: Literal["StepEnded"] = "StepEnded"
    step: str
    by_reading: bool = False


class StepReopened(Stamp):
    """An ended step goes on: it was not done after all."""

    kind: Literal["StepReopened"] = "StepReopened"
    step: str


class GivenMoreTime(Stamp):
    """'Not yet': look again at `until`."""

    kind: Literal["GivenMoreTime"] = "GivenMoreTime"
    step: str
    until: Moment


class CueDone(Stamp):
    """A cue was really done. Settings of a place are cues too: `step` is then "@oven", `cue` the setting's id."""

    kind: Literal["CueDone"] = "CueDone"
    step: str
    cue: str


class CuePassedOver(Stamp):
    """A cue was left out this time."""

    kind: Literal["CuePassedOver"] = "CuePassedOver"
    step: str
    cue: str


class ReadingTaken(Stamp):
    """A temperature was read: the core of a step's food, or its oil or water (`of`)."""

    kind: Literal["ReadingTaken"] = "ReadingTaken"
    step: str
    celsius: float
    of: Literal["core", "oil", "oven"] = "core"


class PullForeseen(Stamp):
    """What the readings of a step foretell, worked out elsewhere and adopted: alarms and plans follow from it."""

    kind: Literal["PullForeseen"] = "PullForeseen"
    forecast: PullForecast


class AlarmHeard(Stamp):
    """Somebody has seen an alarm: its sound ends, its cause does not."""

    kind: Literal["AlarmHeard"] = "AlarmHeard"
    alarm: str


class AlarmPutOff(Stamp):
    """An alarm was put off until a moment at most five minutes away; never one of danger."""

    kind: Literal["AlarmPutOff"] = "AlarmPutOff"
    alarm: str
    until: Moment


class Hushed(Stamp):
    """Every sound but a new alarm's is off until then, two minutes at most."""

    kind: Literal["Hushed"] = "Hushed"
    until: Moment


class DishDropped(Stamp):
    """A dish was struck off."""

    kind: Literal["DishDropped"] = "DishDropped"
    dish: str


class DishAdded(Stamp):
    """A dish came late; its steps are resolved against the menu as it then was."""

    kind: Literal["DishAdded"] = "DishAdded"
    dish: Dish


class DurationRevised(Stamp):
    """A step will take another time than written."""

    kind: Literal["DurationRevised"] = "DurationRevised"
    step: str
    span: Span


class EatTimeMoved(Stamp):
    """The meal was moved."""

    kind: Literal["EatTimeMoved"] = "EatTimeMoved"
    eat_at: Moment


class QuickTimerSet(Stamp):
    """A loose countdown beside the menu: 'eggs 6:30'."""

    kind: Literal["QuickTimerSet"] = "QuickTimerSet"
    timer: str  # its name, unique among those waiting
    ends: Moment


class QuickTimerCleared(Stamp):
    """A loose countdown was answered or taken away."""

    kind: Literal["QuickTimerCleared"] = "QuickTimerCleared"
    timer: str


class SettingChosen(Stamp):
    """A choice for this kitchen, or for one dish's food. `by_itself`: as it was chosen at the cook before this one."""

    kind: Literal["SettingChosen"] = "SettingChosen"
    setting: Setting
    value: str
    dish: str = ""
    by_itself: bool = False


class ClockStepped(Stamp):
    """The wall clock was moved against the kitchen clock; no countdown was."""

    kind: Literal["ClockStepped"] = "ClockStepped"
    by_ms: int
    offset_ms: int  # wall minus kitchen clock from now on


class BoardReturned(Stamp):
    """The board was away (closed, killed, asleep or rebooted) and is back."""

    kind: Literal["BoardReturned"] = "BoardReturned"
    away_ms: int
    rebooted: bool = False
    booted: Moment | None = None  # where on the kitchen clock this boot of the machine stood at zero


class EventUndone(Stamp):
    """One earlier event is taken back."""

    kind: Literal["EventUndone"] = "EventUndone"
    undone: int  # its seq


class CookClosed(Stamp):
    """The meal is over."""

    kind: Literal["CookClosed"] = "CookClosed"


Event: TypeAlias = Annotated[
    CookOpened
    | PlanAdopted
    | StepStarted
    | StepEnded
    | StepReopened
    | GivenMoreTime
    | CueDone
    | CuePassedOver
    | ReadingTaken
    | PullForeseen
    | AlarmHeard
    | AlarmPutOff
    | Hushed
    | DishDropped
    | DishAdded
    | DurationRevised
    | EatTimeMoved
    | QuickTimerSet
    | QuickTimerCleared
    | SettingChosen
    | ClockStepped
    | BoardReturned
    | EventUndone
    | CookClosed,
    Field(discriminator="kind"),
]

EVENT: TypeAdapter[Event] = TypeAdapter(Event)
"""Reads and writes any event as JSON."""
