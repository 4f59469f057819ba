"""What people did, in a few words: the last act for the foot, and the last answer of each dish."""

from dataclasses import replace

from . import events as ev
from .cook import Noted
from .record_words import Tells, act_words
from .scene import Scene
from .words import MINUTE, lower_first

SHOWN_FOR = MINUTE
HAPPENED = {ev.StepStarted: "started", ev.StepEnded: "ended", ev.StepReopened: "goes on"}


def last_act(teller: Tells) -> str:
    """'17:40 red cabbage stirred', '17:41 took back: mint sauce dropped', or '' when nothing was done yet."""
    for noted in reversed(teller.cook.record):
        event = noted.event
        if isinstance(event, ev.EventUndone):
            if words := _taken_back(teller, event.undone):
                return f"{teller.clock(event.at)} took back: {words}"
        elif words := _told(teller, noted):
            return f"{teller.clock(event.at)} {words}"
    return ""


def _told(teller: Tells, noted: Noted) -> str:
    """An act in words, what happened before what it happened to: the foot may have no room for the end of it."""
    event = noted.event
    happened = next((word for kind, word in HAPPENED.items() if isinstance(event, kind)), "")
    words = act_words(teller, noted)
    step = teller.cook.menu.steps.get(getattr(event, "step", ""))
    return f"{lower_first(step.dish)} {happened}: {lower_first(step.do)}" if words and happened and step else words


def _taken_back(teller: Tells, seq: int) -> str:
    """The act that was taken back; '' for what followed from another act by itself."""
    return next((_told(teller, replace(n, undone=False)) for n in teller.cook.record if n.event.seq == seq), "")


def answered(scene: Scene, dish: str) -> str:
    """'stirred 17:40, Ana' for a minute after somebody answered something of a dish; else ''."""
    for noted in reversed(scene.cook.record):
        event = noted.event
        if event.at < scene.now - SHOWN_FOR:
            return ""
        if _is_of(scene, event, dish) and (words := act_words(scene, noted)):
            who = f", {event.who}" if event.who else ""
            short = words.removeprefix(lower_first(dish)).lstrip(": ")
            return f"{short} {scene.clock(event.at)}{who}"
    return ""


def _is_of(scene: Scene, event: ev.Event, dish: str) -> bool:
    if isinstance(event, ev.DishDropped | ev.DishAdded):
        return False
    step = scene.cook.menu.steps.get(getattr(event, "step", ""))
    return step is not None and step.dish == dish
