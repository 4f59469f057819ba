"""Starting, ending, reopening and re-timing steps."""

from dataclasses import replace

from .answers import At, Refusal
from .commands import EndStep, NotYet, ReopenStep, ReviseDuration, StartStep
from .cook import Cook, StepState
from .due import READ_GAP_MS, pull_guess, read_at
from .engine import LIVE, ends_of, more_time_s, phase
from .events import DurationRevised, Event, GivenMoreTime, StepEnded, StepReopened, StepStarted
from .fold_steps import begun_after
from .menu import Step
from .pull_question import pull_question
from .quantity_words import duration_words
from .readiness import unended
from .values import MS, Moment
from .words import job_sentence, lower_first, names

Answer = tuple[Event, ...] | Refusal


def named(step: Step) -> str:
    """A step in a sentence: 'Roast the pork shoulder', 'Tart: Score the skin'."""
    sentence, has_dish = job_sentence(step.do, step.dish)
    return sentence if has_dish else f"{step.dish}: {sentence}"


def quoted(step: Step) -> str:
    """A step as what a sentence is about: "'Take off the chill' (leg of lamb)"; a job is no noun."""
    sentence, has_dish = job_sentence(step.do, step.dish)
    return f"'{sentence}'" if has_dish or names(sentence, step.dish) else f"'{sentence}' ({lower_first(step.dish)})"


def known(cook: Cook, step_id: str) -> Step | Refusal:
    """The step, or why nothing can be done with it."""
    step = cook.step(step_id)
    if step is None:
        return Refusal(f"There is no step {step_id}.")
    if cook.lives[step_id].state is StepState.DROPPED or step.dish in cook.dropped:
        return Refusal(f"{step.dish} was dropped. Take that back first (undo).")
    return step


def start(cook: Cook, command: StartStep, stamp: At) -> Answer:
    """A ready step begins. A waiting one does not: what is before it comes first."""
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    state = cook.lives[step.id].state
    if state is StepState.READY:
        return (StepStarted(**stamp.fields(), step=step.id),)
    if state is StepState.WAITING:
        return _not_ready(cook, step)
    return Refusal(f"{quoted(step)} {'is running' if state is StepState.RUNNING else 'has ended'} already.")


def _not_ready(cook: Cook, step: Step) -> Refusal:
    """What is missing; when that is one running step, ending it is what the cook may mean."""
    missing = unended(step, cook.lives)
    first = cook.menu.steps[missing[0]]
    if cook.lives[first.id].state is StepState.RUNNING:
        return Refusal(f"{quoted(first)} has not ended. End it now?", EndStep(first.id) if len(missing) == 1 else None)
    return Refusal(f"{quoted(first)} comes first.")


def end(cook: Cook, command: EndStep, stamp: At) -> Answer:
    """A step is done. One that nobody had started is noted as started and ended at once."""
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    state = cook.lives[step.id].state
    if state is StepState.RUNNING:
        question = None if command.confirmed else pull_question(cook, step, last_core(cook, step))
        if question is not None:
            return Refusal(question, replace(command, confirmed=True))
        return (StepEnded(**stamp.fields(), step=step.id),)
    if state is StepState.READY:
        started = StepStarted(**stamp.fields(), step=step.id)
        return (started, StepEnded(**stamp.fields(1), step=step.id))
    return _not_ready(cook, step) if state is StepState.WAITING else Refusal(f"{quoted(step)} has ended already.")


def last_core(cook: Cook, step: Step) -> float | None:
    """The last reading of its core in °C."""
    return next((r.celsius for r in reversed(cook.lives[step.id].readings) if r.of == "core"), None)


def reopen(cook: Cook, command: ReopenStep, stamp: At) -> Answer:
    """An ended step goes on, unless somebody has begun what comes after it."""
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    if cook.lives[step.id].state is not StepState.ENDED:
        return Refusal(f"{quoted(step)} has not ended.")
    after = [s.id for s in cook.menu.steps.values() if any(link.step == step.id for link in s.links)]
    began = begun_after(dict(cook.lives), after)
    if began is not None:
        return Refusal(f"{quoted(cook.menu.steps[began])} has begun since. Take that back first (undo).")
    return (StepReopened(**stamp.fields(), step=step.id),)


def not_yet(cook: Cook, command: NotYet, stamp: At) -> Answer:
    """Looked, and it needs longer: asked again after the time that `more_time_s` gives.

    A reading that was asked for before the low end is asked for again after the least gap between two readings.
    """
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    now_is = phase(cook, step.id, stamp.at)
    if now_is not in LIVE:
        return Refusal(f"{quoted(step)} is not running.")
    low, high = ends_of(step, cook.lives[step.id])
    if now_is is not StepState.RUNNING:
        more = more_time_s(cook.span(step), low, high, stamp.at, hazard=step.hazard is not None)
    elif _reading_due(cook, step, stamp.at):
        more = READ_GAP_MS // MS
    else:
        left = duration_words(-(-(low - stamp.at) // MS))
        return Refusal(f"{named(step)}: {left} to the first look anyway.")
    return (GivenMoreTime(**stamp.fields(), step=step.id, until=stamp.at + more * MS),)


def _reading_due(cook: Cook, step: Step, now: Moment) -> bool:
    """True when a reading or the pull was asked for before the low end."""
    guess = pull_guess(cook, step, cook.lives[step.id])
    return guess is not None and min(guess.at, read_at(cook, step, cook.lives[step.id], guess)) <= now


def revise(cook: Cook, command: ReviseDuration, stamp: At) -> Answer:
    """A step that has not ended will take another time."""
    step = known(cook, command.step)
    if isinstance(step, Refusal):
        return step
    if cook.lives[step.id].state is StepState.ENDED:
        return Refusal(f"{quoted(step)} has ended already.")
    return (DurationRevised(**stamp.fields(), step=step.id, span=command.span),)
