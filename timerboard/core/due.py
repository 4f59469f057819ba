"""When a running step wants somebody: its look, its readings, its cues. Moments only; words are made elsewhere.

A moment here does not depend on now, only on what people did. So an alarm that falls due stays due until someone
answers it or what it is about has ended, and `next_change` can tell when it will fall due.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from .cook import Cook, CueLog, StepLife
from .engine import LIFT, ends_of
from .menu import Cue, Step
from .next_reading import next_reading
from .pull_guess import PullGuess, predict_pull
from .readiness import running
from .values import MS, Moment, Seconds

READ_GAP_MS = 4 * 60 * MS
READ_BEFORE_MS = 5 * 60 * MS
OVER_GRACE_MS = 60 * MS


def ask_at(cook: Cook, step: Step, life: StepLife) -> Moment:
    """When to ask whether a step is done.

    What the food decides is asked about at the low end. What the cook may end anywhere in a range (a rest, a soak) is
    asked about when the plan ends it, so that an overnight soak does not call in the night, and at the latest a minute
    before its high end.
    """
    low, high = ends_of(step, life)
    asked = low
    placed = cook.plan.of(step.id) if step.elastic and cook.plan else None
    if placed is not None:
        asked = max(low, min(placed.end * MS, high - OVER_GRACE_MS))
    return max(asked, life.look_again or 0)


def over_at(step: Step, life: StepLife) -> Moment:
    """When a step is called over: just past its high end, or a minute past the end of one whose length is exact."""
    low, high = ends_of(step, life)
    past = high + 1 if high > low else high + OVER_GRACE_MS
    return max(past, life.look_again or 0, _spared_by_reading(step, life, high))


def _spared_by_reading(step: Step, life: StepLife, high: Moment) -> Moment:
    """A fresh reading below the pull is as good as a look: four minutes of peace."""
    last = last_reading(life)
    return last + READ_GAP_MS if step.pull_at_c is not None and last is not None and last > high else 0


def last_reading(life: StepLife) -> Moment | None:
    """When the core was last read."""
    return next((r.at for r in reversed(life.readings) if r.of == "core"), None)


def reads(step: Step) -> bool:
    """True for a step that asks for readings. Batches do not: each is looked at when it is to be lifted anyway."""
    return step.pull_at_c is not None and step.batches is None


def pull_guess(cook: Cook, step: Step, life: StepLife, now: Moment | None = None) -> PullGuess | None:
    """When the step's core will reach its pull temperature, as known at its last reading (or at `now`)."""
    if step.pull_at_c is None or life.started is None or not reads(step):
        return None
    fit = life.fit
    if fit is not None and fit.at is not None and fit.early is not None and fit.late is not None:
        return PullGuess(*(max(m, now or m) for m in (fit.at, fit.early, fit.late)))
    known_at = now if now is not None else (last_reading(life) or life.started)
    return predict_pull(life.readings, step.pull_at_c, life.started, cook.span(step), known_at)


def read_at(cook: Cook, step: Step, life: StepLife, guess: PullGuess) -> Moment:
    """When the next reading is due.

    Half the predicted time after the last reading, never sooner than 4 min after it, yet always 5 min before the
    predicted moment; and at the low end, which the menu gives for looking. Once a fit of the readings is there, the
    moment inside these limits is the one that tells most.
    """
    last = last_reading(life)
    fit = life.fit
    if fit is not None:  # the fit knows better than the menu's low end when to look
        wants = next_reading(life.started or 0, last, fit, cook.span(step))
        return max(guess.at if wants is None else wants, life.look_again or 0)
    base = last if last is not None else life.started or 0
    soonest = base + READ_GAP_MS if last is not None else base
    wanted = [max(soonest, base + (guess.at - base) // 2)]
    before = guess.at - READ_BEFORE_MS
    wanted += [max(soonest, m) for m in (before, ends_of(step, life)[0]) if m > base]
    return max(min(wanted), life.look_again or 0)


@dataclass(frozen=True, slots=True)
class CueDue:
    """One falling-due of a cue: the `number`-th of its kind (from 1), and when leaving it begins to do harm."""

    cue: str
    number: int
    at: Moment
    spoils_at: Moment
    work_s: Seconds


def cues_due(cook: Cook, step: Step, life: StepLife) -> Iterator[CueDue]:
    """The next falling-due of every cue of a running step that still has one; at most one of a kind."""
    for cue in step.cues:
        due = _cue_due(cook, step, life, cue)
        if due is not None:
            yield due
    if step.batches is not None:
        lift = lift_due(step, life)
        if lift is not None:
            yield lift


def _cue_due(cook: Cook, step: Step, life: StepLife, cue: Cue) -> CueDue | None:
    log = life.cues.get(cue.do, CueLog())
    answered = log.done + log.passed
    most = cue.times or (None if cue.every_s else 1)
    if most is not None and answered >= most:
        return None
    likely, started = cook.span(step).likely, life.started or 0
    at = _falls_due(cue, log, started, likely)
    if at > started + likely * MS * 9 // 10:
        return None
    harm = (cue.every_s // 4 if cue.every_s else likely // 10) * MS
    return CueDue(cue.do, answered + 1, at, at + harm, cue.work_s)


def _falls_due(cue: Cue, log: CueLog, started: Moment, likely: Seconds) -> Moment:
    if cue.every_s is not None:
        return max(started, log.last or 0) + cue.every_s * MS
    offset = cue.at_s if cue.at_s is not None else round((cue.at_fraction or 0.0) * likely)
    return started + offset * MS


def door_free(cook: Cook, step: Step, at: Moment) -> Moment:
    """When a job that falls due at `at` may open the places of its step.

    What another dish keeps shut from its start (`shut`) puts off what falls due while it is shut, and nothing that was
    due before: an alarm that stands goes on standing.
    """
    places = {use.place for use in step.uses}
    for other in running(cook):
        began = cook.lives[other.id].started
        if (
            other.shut_s
            and began is not None
            and other.dish != step.dish
            and places & {use.place for use in other.uses}
        ):
            opens = began + other.shut_s * MS
            at = opens if began < at < opens else at
    return at


def lift_due(step: Step, life: StepLife) -> CueDue | None:
    """When the batch that cooks now is to be lifted; None for the last one, which ends the step."""
    batch = batch_of(step, life)
    if batch is None or batch.number >= batch.of:
        return None
    return CueDue(LIFT, batch.number, batch.low, batch.high, 0)


@dataclass(frozen=True, slots=True)
class Batch:
    """Which load cooks: its number, how many there are, when it goes in, and its own low and high end."""

    number: int
    of: int
    loaded: Moment
    low: Moment
    high: Moment


def batch_of(step: Step, life: StepLife) -> Batch | None:
    """The batch that a running step is at, counted from what was really lifted; None for a step without batches."""
    if step.batches is None or life.started is None:
        return None
    log = life.cues.get(LIFT, CueLog())
    lifted = log.done + log.passed
    loaded = life.started if log.last is None else log.last + step.batches.recover.likely * MS
    each = step.batches.each
    number = min(lifted + 1, step.batches.count)
    return Batch(number, step.batches.count, loaded, loaded + each.low * MS, loaded + each.high * MS)


@dataclass(frozen=True, slots=True)
class BatchNow:
    """A batch at a moment. `recovering`: the oil or pan comes back to heat and the next load waits."""

    batch: Batch
    recovering: bool


def batch_now(cook: Cook, step: Step, now: Moment) -> BatchNow | None:
    """Which batch a running step shows at `now`; None when it has no batches or does not run."""
    life = cook.lives[step.id]
    batch = batch_of(step, life) if life.ended is None else None
    return None if batch is None else BatchNow(batch, now < batch.loaded)
