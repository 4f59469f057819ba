"""From a command to events, or to a refusal in words. Pure: the same cook, command and stamp give the same answer.

After every act comes what follows from it without anyone: unattended steps that can begin by themselves now do.
"""

from collections.abc import Callable
from typing import Any

from .answers import At, Refusal
from .commands import BoardWish, Command, Look
from .cook import Cook
from .decide_alarms import clear_timer, hear, hush, put_off, set_timer
from .decide_choices import choose
from .decide_cook import add_dish, adopt_plan, close, drop_dish, move_eating
from .decide_cues import do_cue, pass_over, put_away
from .decide_following import begun_by_itself
from .decide_readings import take_reading
from .decide_steps import end, not_yet, reopen, revise, start
from .decide_undo import undo
from .events import Event
from .fold import apply

Answer = tuple[Event, ...] | Refusal


def decide(cook: Cook, command: Command, stamp: At) -> Answer:
    """The events that a command makes of a cook at a moment (none for a look at which nothing began), or why not."""
    name = type(command).__name__
    if cook.closed is not None:
        return _rule(cook, command, stamp) if name in AFTER_CLOSING else Refusal(CLOSED)
    if name in NOTHING_FOLLOWS:
        return _rule(cook, command, stamp)
    begun = begun_by_itself(cook, stamp)  # a late look: what began before this act stands before it in the record
    cook = _after(cook, begun)
    acts = _rule(cook, command, stamp.further(len(begun)))
    if isinstance(acts, Refusal) or not acts:
        return acts or begun
    follow = begun_by_itself(_after(cook, acts), stamp.further(len(begun) + len(acts)))
    return (*begun, *acts, *follow)


def _rule(cook: Cook, command: Command, stamp: At) -> Answer:
    return () if isinstance(command, Look | BoardWish) else RULES[type(command).__name__](cook, command, stamp)


def _after(cook: Cook, events: tuple[Event, ...]) -> Cook:
    for event in events:
        cook = apply(cook, event)
    return cook


Rule = Callable[[Cook, Any, At], Answer]

RULES: dict[str, Rule] = {
    "StartStep": start,
    "EndStep": end,
    "ReopenStep": reopen,
    "NotYet": not_yet,
    "DoCue": do_cue,
    "PutAway": put_away,
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
    "ChooseSetting": choose,
    "AdoptPlan": adopt_plan,
    "Undo": undo,
    "CloseCook": close,
}

NOTHING_FOLLOWS = frozenset({"Undo", "HearAlarm", "PutOff", "Hush", "CloseCook"})
"""Taking back must not start anything anew, and answering an alarm changes no step."""

CLOSED = "The cook is closed. Take that back first (undo)."

AFTER_CLOSING = frozenset(
    {
        "Undo",
        "Look",
        "HearAlarm",
        "PutOff",
        "Hush",
        "TakeReading",
        "EndStep",
        "DoCue",
        "PutAway",
        "ClearQuickTimer",
        "ChooseSetting",
    }
)
"""What can still be done when the meal is over: food may yet be cooling."""

__all__ = ["At", "Refusal", "begun_by_itself", "decide"]
