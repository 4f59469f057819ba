"""Cues of running steps, lifted batches, and the settings of places."""

from .answers import At, Refusal
from .commands import DoCue, PassOverCue, PutAway
from .cook import Cook, StepState
from .decide_steps import known, quoted
from .engine import LIFT
from .events import CueDone, CuePassedOver, Event
from .food_clocks import PUT_AWAY, food_clocks
from .menu import Step
from .values import Moment

DOUBLE_TAP_MS = 2000

Answer = tuple[Event, ...] | Refusal


def do_cue(cook: Cook, command: DoCue, stamp: At) -> Answer:
    """A cue was done, waiting or early: the next one is counted from now."""
    wrong = _wrong_setting(cook, command) if command.step.startswith("@") else _wrong_cue(cook, command)
    if wrong is None and _twice(cook, command, stamp.at):
        return ()
    return wrong or (CueDone(**stamp.fields(), step=command.step, cue=command.cue),)


def put_away(cook: Cook, command: PutAway, stamp: At) -> tuple[Event, ...] | Refusal:
    """One event for each dish of those named that still stands out; what was put away meanwhile needs nothing more."""
    # The event is of a step that has ended: on another one the record would be told that it had no effect.
    clocks = [clock for clock in food_clocks(cook, stamp.at) if cook.lives[clock.step].state is StepState.ENDED]
    out = {clock.dish: clock for clock in reversed(clocks)}
    named_ = [out[dish] for dish in dict.fromkeys(command.dishes) if dish in out]
    if not named_:
        return Refusal("Nothing of that stands out any more.")
    return tuple(CueDone(**stamp.further(n).fields(), step=clock.step, cue=PUT_AWAY) for n, clock in enumerate(named_))


def pass_over(cook: Cook, command: PassOverCue, stamp: At) -> Answer:
    """A cue is left out this time. Setting a place cannot be left out."""
    if command.step.startswith("@"):
        return Refusal("A place that food goes into has to be set. Put it off instead.")
    wrong = _wrong_cue(cook, command)
    if wrong is None and _twice(cook, command, stamp.at):
        return ()
    return wrong or (CuePassedOver(**stamp.fields(), step=command.step, cue=command.cue),)


def _twice(cook: Cook, command: DoCue | PassOverCue, now: Moment) -> bool:
    """True for the second of two taps: a wet finger does not baste twice in two seconds."""
    life = cook.lives.get(command.step)
    log = life.cues.get(command.cue) if life is not None else None
    return log is not None and log.last is not None and 0 <= now - log.last < DOUBLE_TAP_MS


def _wrong_cue(cook: Cook, command: DoCue | PassOverCue) -> Refusal | None:
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    if command.cue == PUT_AWAY and isinstance(command, DoCue) and cook.lives[step.id].state is StepState.ENDED:
        return None
    if cook.lives[step.id].state is not StepState.RUNNING:
        return Refusal(f"{quoted(step)} is not running.")
    if step.cue(command.cue) is None and not (step.batches and command.cue == LIFT):
        return Refusal(f"{quoted(step)} has no job called {command.cue}.")
    return None if _left(cook, step, command.cue) else Refusal(f"{command.cue}: every one of them was answered.")


def _left(cook: Cook, step: Step, cue: str) -> bool:
    """True while another falling-due of a cue is to come."""
    log = cook.lives[step.id].cues.get(cue)
    known_cue = step.cue(cue)
    most = known_cue.times or (None if known_cue.every_s else 1) if known_cue else _lifts(step)
    return log is None or most is None or log.done + log.passed < most


def _lifts(step: Step) -> int:
    """Batches that are lifted while the step goes on; the last one ends it."""
    return step.batches.count - 1 if step.batches else 0


def _wrong_setting(cook: Cook, command: DoCue) -> Refusal | None:
    settings = cook.plan.settings if cook.plan else ()
    done: dict[str, Moment] = dict(cook.settings_done)
    if all(s.id != command.cue for s in settings):
        return Refusal("The plan has no such setting any more.")
    key = command.cue + ("?" if command.step.endswith("?") else "")
    return Refusal("That was answered already.") if key in done else None
