"""What hands will be wanted for next, before anything calls: starts, settings, cues and looks to come."""

from dataclasses import dataclass

from .alarm_values import Alarm, Kind, Rank
from .alarm_words import start_words, where
from .commands import Command, StartStep
from .cook import StepState
from .leftovers import leftovers
from .menu import Step
from .scene import Scene, dish_key
from .values import Moment
from .words import MINUTE, dots, lower_first, names

SOON = 15 * MINUTE
"""How far ahead cues and looks of running steps are listed; starts and settings are listed however far off they are."""

LISTED = {
    Kind.START: None,
    Kind.SET: None,
    Kind.AWAY: None,
    Kind.CUE: SOON,
    Kind.CHECK: SOON,
    Kind.READ: SOON,
    Kind.PULL: SOON,
}
"""Kinds that become jobs before they call, and how far ahead (None: however far)."""


@dataclass(frozen=True, slots=True)
class Job:
    """Something for hands with the moment it is or was wanted. `key` is stable; `detail` has no time in it."""

    key: str
    at: Moment
    rank: Rank
    line: str
    detail: str
    answer: Command
    word: str
    doors: frozenset[str]
    strip: str = ""  # the key of the strip that it belongs to
    not_yet: Command | None = None
    pass_over: Command | None = None
    wants_reading: str | None = None
    heard: Command | None = None
    put_off: Command | None = None
    muted: str = ""  # "heard", "back in 2 min": why it is quiet


def calls_to_come(scene: Scene) -> list[Alarm]:
    """What will call soon and does not yet, not even as a heads-up."""
    known = {alarm.id.removeprefix(f"{Kind.HEADS_UP}|") for alarm in scene.alarms}
    return [
        call
        for call in scene.called
        if call.kind in LISTED and call.since > scene.now and call.id not in known and _near(scene, call)
    ]


def _near(scene: Scene, call: Alarm) -> bool:
    """Within reach; what is left is spoken of once something was eaten."""
    if call.kind is Kind.AWAY:
        return bool(leftovers(scene.cook, scene.now))
    reach = LISTED[call.kind]
    return reach is None or call.since <= scene.now + reach


def starts_to_come(scene: Scene) -> list[Job]:
    """Steps that hands will start once what is before them has ended, at their predicted moment."""
    steps = (scene.cook.menu.steps[step] for step, state in scene.states.items() if state is StepState.WAITING)
    return [_start(scene, step) for step in steps if step.work.attended_start]


def _start(scene: Scene, step: Step) -> Job:
    line = " ".join(start_words(step)).strip()
    return Job(
        key=f"next|{step.id}",
        at=scene.outlook.steps[step.id].start,
        rank=Rank.NOTE,
        line=line,
        detail=dots("" if names(line, step.dish) else lower_first(step.dish), where(step)),
        answer=StartStep(step.id),
        word="start",
        doors=scene.doors(step),
        strip=dish_key(step.dish),
    )
