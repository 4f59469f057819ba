"""Temperatures that somebody read: sense first, then whether they end the step."""

from dataclasses import replace

from .answers import At, Refusal
from .commands import TakeReading
from .cook import Cook, CueLog, StepState
from .decide_steps import known, named, quoted
from .due import batch_of
from .engine import LIFT
from .events import CueDone, Event, ReadingTaken, StepEnded
from .fold_steps import BEYOND_C
from .menu import Step
from .pull_question import pull_question
from .quantity_words import celsius_words
from .reading_sense import beyond, doubt


def take_reading(cook: Cook, command: TakeReading, stamp: At) -> tuple[Event, ...] | Refusal:
    """A reading is kept. At or above the pull temperature, and confirmed, it ends the step as well.

    One that food can hardly have, or that would end the step, is asked about first: the refusal carries the same
    command, confirmed.
    """
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    if cook.lives[step.id].state not in READABLE:
        return Refusal(f"{quoted(step)} is not running.")
    if not abs(command.celsius) <= BEYOND_C:  # so that nan is refused as well
        return Refusal("That is not a temperature.")
    if not command.confirmed:
        question = _question(cook, step, command, stamp)
        if question:
            return Refusal(question, replace(command, confirmed=True))
    taken = ReadingTaken(**stamp.fields(), step=step.id, celsius=command.celsius, of=command.of)
    if _reaches(step, command) and cook.lives[step.id].state is StepState.RUNNING:
        if _batches_left(cook, step):
            return (taken, CueDone(**stamp.fields(1), step=step.id, cue=LIFT))
        return (taken, StepEnded(**stamp.fields(1), step=step.id, by_reading=True))
    return (taken,)


READABLE = frozenset({StepState.RUNNING, StepState.ENDED})
"""Food is read while it cooks, and after that while it rests, stands, or cools."""


def _reaches(step: Step, command: TakeReading) -> bool:
    return step.pull_at_c is not None and command.of == "core" and command.celsius >= step.pull_at_c


def _batches_left(cook: Cook, step: Step) -> bool:
    """True when another load comes after the one that was read: then that one is lifted and the step goes on."""
    batch = batch_of(step, cook.lives[step.id])
    return batch is not None and batch.number < batch.of


def _question(cook: Cook, step: Step, command: TakeReading, stamp: At) -> str:
    life = cook.lives[step.id]
    if life.state is StepState.ENDED:  # it may have fallen as far as it likes
        return doubt((), command.celsius, command.of, stamp.at, cook.menu.units)
    lifted = life.cues.get(LIFT, CueLog()).last or 0  # the next load is cold again, and no slip of the finger
    odd = doubt([r for r in life.readings if r.at > lifted], command.celsius, command.of, stamp.at, cook.menu.units)
    if not _reaches(step, command):
        return odd
    units, fit = cook.menu.units, life.fit
    read, pull = celsius_words(command.celsius, units), celsius_words(step.pull_at_c or 0.0, units)
    then = "lift this batch" if _batches_left(cook, step) else "end it"
    odd = odd or beyond(fit, command.celsius, stamp.at, units)
    if odd:
        return f"{odd} And {then}?"
    low = pull_question(cook, step, command.celsius)
    coast = f" It will coast to {celsius_words(round(fit.peak_c), units)}." if fit and fit.peak_c is not None else ""
    return low or f"{read}, and it is pulled at {pull}.{coast} {named(step)}: {then}?"
