"""From a command to events, or to a refusal in words. Pure: the same cook, command and stamp give the same answer.

After every act comes what follows from it without anyone: unattended steps that can begin by themselves now do.
"""

from collections.abc import Callable
from typing import Any

from .answers import At, Refusal
from .commands import Command, Look
from .cook import Cook
from .decide_alarms import clear_timer, hear, hush, put_off, set_timer
from .decide_cook import add_dish, adopt_plan, close, drop_dish, move_eating
from .decide_cues import do_cue, pass_over
from .decide_readings import take_reading
from .decide_steps import end, not_yet, reopen, revise, start
from .decide_undo import undo
from .events import Event, StepStarted
from .fold import apply
from .readiness import Lack, lacks

Answer = tuple[Event, ...] | Refusal


def decide(cook: Cook, command: Command, stamp: At) -> Answer:
    """The events that a command makes of a cook at a moment (none for a look at which nothing began), or why not."""
    name = type(command).__name__
    if cook.closed is not None and name not in AFTER_CLOSING:
        return Refusal("The cook is closed. Take that back first (undo).")
    acts = () if isinstance(command, Look) else RULES[name](cook, command, stamp)
    if isinstance(acts, Refusal) or name in NOTHING_FOLLOWS or cook.closed is not None:
        return acts
    return (*acts, *begun_by_itself(cook, acts, stamp))


def begun_by_itself(cook: Cook, acts: tuple[Event, ...], stamp: At) -> tuple[Event, ...]:
    """Starts of unattended steps that have everything they need after these acts, in the order of the menu."""
    for event in acts:
        cook = apply(cook, event)
    begun: list[Event] = []
    for step in cook.menu.steps.values():
        if lacks(cook, step, stamp.at) is Lack.NOTHING:
            fields = stamp.fields(len(acts) + len(begun)) | {"who": None}
            begun.append(StepStarted(**fields, step=step.id, by_itself=True))
            cook = apply(cook, begun[-1])
    return tuple(begun)


Rule = Callable[[Cook, Any, At], Answer]

RULES: dict[str, Rule] = {
    "StartStep": start,
    "EndStep": end,
    "ReopenStep": reopen,
    "NotYet": not_yet,
    "DoCue": do_cue,
    "PassOverCue": pass_over,
    "TakeReading": take_reading,
    "HearAlarm": hear,
    "PutOff": put_off,
    "Hush": hush,
    "DropDish": drop_dish,
    "AddDish": add_dish,
    "ReviseDuration": revise,
    "MoveEating": move_eating,
    "SetQuickTimer": set_timer,
    "ClearQuickTimer": clear_timer,
    "AdoptPlan": adopt_plan,
    "Undo": undo,
    "CloseCook": close,
}

NOTHING_FOLLOWS = frozenset({"Undo", "HearAlarm", "PutOff", "Hush", "CloseCook"})
"""Taking back must not start anything anew, and answering an alarm changes no step."""

AFTER_CLOSING = frozenset({"Undo", "Look", "HearAlarm", "Hush", "TakeReading", "EndStep", "DoCue", "ClearQuickTimer"})
"""What can still be done when the meal is over: food may yet be cooling."""

__all__ = ["At", "Refusal", "begun_by_itself", "decide"]
