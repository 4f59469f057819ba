"""What people did, in a few words: the last act for the foot, and the last answer of each dish."""

from . import events as ev
from .cook import Noted
from .scene import Scene
from .words import MINUTE, lower_first, the, what_was_done

SHOWN_FOR = MINUTE
QUIET = (ev.CookOpened, ev.ClockStepped, ev.BoardReturned, ev.EventUndone)


def last_act(scene: Scene) -> str:
    """'17:40 red cabbage stirred', or '' when nothing was done yet."""
    for noted in reversed(scene.cook.record):
        words = _act_words(scene, noted)
        if words:
            return f"{scene.clock(noted.event.at)} {words}"
    return ""


def answered(scene: Scene, dish: str) -> str:
    """'stirred 17:40, Ana' for a minute after somebody answered something of a dish; else ''."""
    for noted in reversed(scene.cook.record):
        event = noted.event
        if event.at < scene.now - SHOWN_FOR:
            return ""
        if _is_of(scene, event, dish) and (words := _act_words(scene, noted)):
            who = f", {event.who}" if event.who else ""
            short = words.removeprefix(lower_first(dish)).lstrip(": ")
            return f"{short} {scene.clock(event.at)}{who}"
    return ""


def _is_of(scene: Scene, event: ev.Event, dish: str) -> bool:
    if isinstance(event, ev.DishDropped | ev.DishAdded):
        return False
    step = scene.cook.menu.steps.get(getattr(event, "step", ""))
    return step is not None and step.dish == dish


def _act_words(scene: Scene, noted: Noted) -> str:
    """An act of a person that still counts, as an act of the past; '' for everything else."""
    if noted.undone or noted.effect or isinstance(noted.event, QUIET):
        return ""
    return _words(scene, noted.event)


def _words(scene: Scene, event: ev.Event) -> str:  # noqa: PLR0912  one line per kind of event, in their order
    match event:
        case ev.PlanAdopted():
            return "plan taken"
        case ev.StepStarted():
            return "" if event.by_itself else _step(scene, event.step, "started")
        case ev.StepEnded():
            return _step(scene, event.step, "ended")
        case ev.StepReopened():
            return _step(scene, event.step, "goes on")
        case ev.GivenMoreTime():
            return _step(scene, event.step, f"given more time, look again {scene.clock(event.until)}")
        case ev.CueDone():
            return _cue(scene, event.step, event.cue)
        case ev.CuePassedOver():
            return _step(scene, event.step, f"without: {lower_first(event.cue)}")
        case ev.ReadingTaken():
            return f"{event.of} {scene.heat(event.celsius)} read"
        case ev.DishDropped():
            return f"{lower_first(event.dish)} dropped"
        case ev.DishAdded():
            return f"{lower_first(event.dish.name)} added"
        case ev.DurationRevised():
            return _step(scene, event.step, "given another length")
        case ev.EatTimeMoved():
            return f"eating moved to {scene.day_clock(event.eat_at)}"
        case ev.QuickTimerSet():
            return f"{lower_first(event.timer)} timer set"
        case ev.QuickTimerCleared():
            return f"{lower_first(event.timer)} timer cleared"
        case ev.Hushed():
            return "sounds paused"
        case _:
            return ""


def _step(scene: Scene, step: str, happened: str) -> str:
    known = scene.cook.menu.steps.get(step)
    if known is None:
        return ""
    return f"{lower_first(known.dish)}: {lower_first(known.do)} {happened}"


def _cue(scene: Scene, step: str, cue: str) -> str:
    if step.startswith("@"):
        place = step.strip("@?")
        return f"{the(place)} is hot" if step.endswith("?") or cue.endswith("?") else f"{place} set"
    known = scene.cook.menu.steps.get(step)
    return "" if known is None else what_was_done(cue, known.dish)
