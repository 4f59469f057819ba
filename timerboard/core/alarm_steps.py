"""What running steps call for: danger, looks, readings, cues. Each source also tells what it will call for."""

from collections.abc import Iterator
from dataclasses import replace

from .alarm_values import Alarm, Kind, Rank
from .alarm_words import Words, food, job, step_alarm, where
from .cook import Cook, StepLife
from .due import CueDue, ask_at, cues_due, door_free, last_reading, over_at, pull_guess, read_at, reads
from .engine import LIFT, ends_of
from .hot_oil import TOO_HOT_C, last_oil
from .menu import Step
from .quantity_words import celsius_words
from .readiness import running
from .values import MS, Moment
from .words import lower_first

FINISH = "Finish"


def danger_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """Hot oil whose time is over, and oil that was read too hot."""
    for step in running(cook):
        life = cook.lives[step.id]
        if step.hazard is not None:
            over = over_at(step, life)
            detail = f"{step.hazard}, its time is over"
            yield _danger(step, over, Words("See to", food(step), detail), f"over|{_asked(life)}")
        last = last_oil(life)
        if last is not None and last.celsius >= TOO_HOT_C:
            read = celsius_words(last.celsius, cook.menu.units)
            words = Words("Take off the heat:", food(step), f"oil at {read}")
            yield _danger(step, last.at, words, f"oil|{last.at}")


def _danger(step: Step, since: Moment, words: Words, name: str) -> Alarm:
    alarm = step_alarm(Kind.DANGER, Rank.DANGER, step, since, words)
    return replace(alarm, id=f"{Kind.DANGER}|{step.id}|{name}", spoils_at=since)


def _asked(life: StepLife) -> int:
    """Tells one falling-due of a look from the next: each 'not yet' and each reading answers the one before."""
    return (life.look_again or 0) + (last_reading(life) or 0)


def look_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """Check, over, read and pull: one at a time for a step, each taking the place of the one before it."""
    for step in running(cook):
        life = cook.lives[step.id]
        over = over_at(step, life)
        if step.hazard is None:
            yield _over(step, life, over)
        if now < over:
            yield from _readings(cook, step, life, now) if reads(step) else _check(cook, step, life)


def _over(step: Step, life: StepLife, since: Moment) -> Alarm:
    verb = FINISH if step.pull_at_c is None else "Probe or pull"
    detail = "its longest time is over"
    alarm = step_alarm(Kind.OVER, Rank.DUE, step, since, Words(*_look_words(step, verb), detail), n=_asked(life))
    return replace(alarm, spoils_at=ends_of(step, life)[1])


def _check(cook: Cook, step: Step, life: StepLife) -> Iterator[Alarm]:
    low, high = ends_of(step, life)
    since = ask_at(cook, step, life)
    detail = _core(cook, step) or ("time is up" if low == high else "done?")
    if step.until:
        detail = f"{lower_first(step.until)}?"
    verb = FINISH if low == high else "Check"
    alarm = step_alarm(Kind.CHECK, Rank.DUE, step, since, Words(*_look_words(step, verb), detail), n=_asked(life))
    yield replace(alarm, spoils_at=high)


def _look_words(step: Step, verb: str) -> tuple[str, str]:
    """'Check', 'the tart'; for a step that names its own object: 'Finish: score the skin', ''."""
    do, what = job(step.do, step.dish)
    if verb == FINISH:
        return f"{FINISH}: {lower_first(do)}", what
    return verb, food(step)


def _readings(cook: Cook, step: Step, life: StepLife, now: Moment) -> Iterator[Alarm]:
    guess = pull_guess(cook, step, life)
    if guess is None or step.pull_at_c is None:
        return
    pull = celsius_words(step.pull_at_c, cook.menu.units)
    low, high = ends_of(step, life)
    last = last_reading(life)
    pull_at = max(guess.at, life.look_again or 0, (last or 0) + 60 * MS)
    n = _asked(life)
    words = Words("Pull", food(step), f"{pull} expected by now")
    yield replace(step_alarm(Kind.PULL, Rank.DUE, step, pull_at, words, n=n), spoils_at=high)
    if now < pull_at:
        since = read_at(cook, step, life, guess)
        words = Words("Probe", food(step), f"pull at {pull}")
        alarm = step_alarm(Kind.READ, Rank.DUE, step, since, words, n=n)
        yield replace(alarm, spoils_at=max(guess.early, low))


def cue_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """The small jobs of running steps, at most one of a kind."""
    for step in running(cook):
        life = cook.lives[step.id]
        for due in cues_due(cook, step, life):
            yield _cue(cook, step, replace(due, at=door_free(cook, step, due.at)))


def _core(cook: Cook, step: Step) -> str:
    """What the middle of the food should read; "" when the menu does not say."""
    return "" if step.pull_at_c is None else f"{celsius_words(step.pull_at_c, cook.menu.units)} in the middle?"


def _cue(cook: Cook, step: Step, due: CueDue) -> Alarm:
    verb, what = job(due.cue, step.dish)
    detail = ""
    if due.cue == LIFT and step.batches is not None:
        verb, what = f"Lift batch {due.number} of {step.batches.count}:", food(step)
        detail = _core(cook, step)
    return Alarm(
        id=f"{Kind.CUE}|{step.id}|{due.cue}|{due.number}",
        kind=Kind.CUE,
        rank=Rank.DUE,
        since=due.at,
        dish=step.dish,
        step=step.id,
        cue=due.cue,
        verb=verb,
        food=what,
        where=where(step),
        detail=detail,
        spoils_at=due.spoils_at,
    )
