"""What people did, in a few words: the last act for the foot, and the last answer of each dish."""

from . import events as ev
from .record_words import Tells, act_words
from .scene import Scene
from .words import MINUTE, lower_first

SHOWN_FOR = MINUTE


def last_act(teller: Tells) -> str:
    """'17:40 red cabbage stirred', or '' when nothing was done yet."""
    for noted in reversed(teller.cook.record):
        words = act_words(teller, noted)
        if words:
            return f"{teller.clock(noted.event.at)} {words}"
    return ""


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
