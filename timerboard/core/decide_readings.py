"""Temperatures that somebody read: sense first, then whether they end the step."""

from dataclasses import replace

from .answers import At, Refusal
from .commands import TakeReading
from .cook import Cook, StepState
from .decide_steps import known, named
from .events import Event, ReadingTaken, StepEnded
from .fold_steps import BEYOND_C
from .menu import Step
from .quantity_words import celsius_words
from .reading_sense import doubt


def take_reading(cook: Cook, command: TakeReading, stamp: At) -> tuple[Event, ...] | Refusal:
    """A reading is kept. At or above the pull temperature, and confirmed, it ends the step as well.

    One that food can hardly have, or that would end the step, is asked about first: the refusal carries the same
    command, confirmed.
    """
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    if cook.lives[step.id].state is not StepState.RUNNING:
        return Refusal(f"{named(step)} is not running.")
    if not abs(command.celsius) <= BEYOND_C:  # so that nan is refused as well
        return Refusal("That is not a temperature.")
    if not command.confirmed:
        question = _question(cook, step, command, stamp)
        if question:
            return Refusal(question, replace(command, confirmed=True))
    taken = ReadingTaken(**stamp.fields(), step=step.id, celsius=command.celsius, of=command.of)
    if _reaches(step, command):
        return (taken, StepEnded(**stamp.fields(1), step=step.id, by_reading=True))
    return (taken,)


def _reaches(step: Step, command: TakeReading) -> bool:
    return step.pull_at_c is not None and command.of == "core" and command.celsius >= step.pull_at_c


def _question(cook: Cook, step: Step, command: TakeReading, stamp: At) -> str:
    odd = doubt(cook.lives[step.id].readings, command.celsius, command.of, stamp.at, cook.menu.units)
    if not _reaches(step, command):
        return odd
    read = celsius_words(command.celsius, cook.menu.units)
    pull = celsius_words(step.pull_at_c or 0.0, cook.menu.units)
    return (
        f"{odd} It would end the step.".strip()
        if odd
        else f"{read}, and it is pulled at {pull}. {named(step)}: end it?"
    )
