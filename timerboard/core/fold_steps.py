"""What events do to steps. Every move of a state goes through the table of `engine.py`."""

from dataclasses import replace

from .cook import CueLog, Reading, StepLife, StepState, cores_read
from .draft import Draft
from .engine import LIFT, What, after
from .events import (
    CueDone,
    CuePassedOver,
    DurationRevised,
    GivenMoreTime,
    PullForeseen,
    ReadingTaken,
    StepEnded,
    StepReopened,
    StepStarted,
)
from .fold_places import heated_by, setting_done
from .food_clocks import PUT_AWAY
from .values import Moment

UNKNOWN = "there is no such step"

LATE_FORECAST = "the readings had changed since"

BEYOND_C = 1000.0
"""Nothing in a kitchen is read beyond this; `reading_sense` asks about far less."""

WHY_NOT: dict[StepState, str] = {
    StepState.WAITING: "a step before it had not ended",
    StepState.READY: "it had not started",
    StepState.RUNNING: "it was running",
    StepState.IN_RANGE: "it was running",
    StepState.OVER: "it was running",
    StepState.ENDED: "it had ended already",
    StepState.DROPPED: "its dish was dropped",
}


def step_started(draft: Draft, event: StepStarted) -> str:
    """A ready step runs."""
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    then = after(life.state, What.STARTED)
    if then is None:
        return WHY_NOT[life.state]
    draft.lives[event.step] = StepLife(
        state=then,
        ready_since=life.ready_since,
        started=event.at,
        by_itself=event.by_itself,
        span=life.span,
        who=event.who,
    )
    if not event.by_itself:
        heated_by(draft, event.step, event.at)
    return ""


def step_ended(draft: Draft, event: StepEnded) -> str:
    """A running step has ended; what waited for it alone is ready."""
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    if not draft.move(event.step, What.ENDED, ended=event.at, who=event.who):
        return WHY_NOT[life.state]
    draft.free_followers(event.step, event.at)
    return ""


def step_reopened(draft: Draft, event: StepReopened) -> str:
    """An ended step goes on; what began by itself after it is taken back, what a person began forbids it."""
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    then = after(life.state, What.REOPENED)
    if then is None:
        return WHY_NOT[life.state]
    if draft.menu.steps[event.step].dish in draft.dropped:
        return WHY_NOT[StepState.DROPPED]
    began = begun_after(draft.lives, [other.id for other in draft.following(event.step)])
    if began is not None:
        return f"{began} had begun"
    draft.lives[event.step] = replace(life, state=then, ended=None, look_again=None)
    for other in draft.following(event.step):
        _wait_again(draft, other.id, event.step)
    return ""


def begun_after(lives: dict[str, StepLife], followers: list[str]) -> str | None:
    """The first follower that a person began or that has even ended; None when all can wait again."""
    for step in followers:
        life = lives[step]
        if life.state is StepState.ENDED or (life.state is StepState.RUNNING and not life.by_itself):
            return step
    return None


def _wait_again(draft: Draft, step: str, before: str) -> None:
    life = draft.lives[step]
    then = after(life.state, What.PREDECESSOR_GOES_ON)
    if then is None:
        return
    draft.lives[step] = StepLife(state=then, span=life.span)
    if life.state is StepState.RUNNING:
        draft.retell(step, f"taken back: {before} goes on")


def given_more_time(draft: Draft, event: GivenMoreTime) -> str:
    """Asked again later."""
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    return "" if draft.move(event.step, What.MORE_TIME, look_again=event.until) else WHY_NOT[life.state]


def cue_done(draft: Draft, event: CueDone) -> str:
    """A cue, a lifted batch, or a setting of a place."""
    if event.step.startswith("@"):
        return setting_done(draft, event)
    return _logged(draft, event, event.at, done=1)


def cue_passed_over(draft: Draft, event: CuePassedOver) -> str:
    """A cue was left out: the next one is counted from now."""
    return _logged(draft, event, event.at, passed=1)


def _logged(draft: Draft, event: CueDone | CuePassedOver, at: Moment, *, done: int = 0, passed: int = 0) -> str:
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    away = event.cue == PUT_AWAY and life.state is StepState.ENDED
    if life.state is not StepState.RUNNING and not away:
        return WHY_NOT[life.state]
    step = draft.menu.steps[event.step]
    if step.cue(event.cue) is None and not away and not (step.batches and event.cue == LIFT):
        return "it has no such cue"
    log = life.cues.get(event.cue, CueLog())
    log = CueLog(done=log.done + done, passed=log.passed + passed, last=at)
    draft.lives[event.step] = replace(life, cues={**life.cues, event.cue: log})
    return ""


def reading_taken(draft: Draft, event: ReadingTaken) -> str:
    """A temperature of a running step, or of what an ended one has left to rest or to cool."""
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    if life.state not in (StepState.RUNNING, StepState.ENDED):
        return WHY_NOT[life.state]
    if not abs(event.celsius) <= BEYOND_C:  # so that nan is refused as well
        return "that is no temperature of a kitchen"
    reading = Reading(event.at, event.celsius, event.of)
    draft.lives[event.step] = replace(life, readings=(*life.readings, reading))
    return ""


def pull_foreseen(draft: Draft, event: PullForeseen) -> str:
    """A forecast of all the readings that a running step has; one of other readings comes too late."""
    found = event.forecast
    life = draft.lives.get(found.step)
    if life is None:
        return UNKNOWN
    if life.state is not StepState.RUNNING:
        return WHY_NOT[life.state]
    if found.readings != cores_read(life):
        return LATE_FORECAST
    draft.lives[found.step] = replace(life, foreseen=found)
    return ""


def revised(draft: Draft, event: DurationRevised) -> str:
    """Another length than written; what was asked before is asked anew."""
    life = draft.lives.get(event.step)
    if life is None:
        return UNKNOWN
    if not 0 <= event.span.low <= event.span.likely <= event.span.high:
        return "its lengths are not in order"
    if not draft.move(event.step, What.REVISED, span=event.span, look_again=None):
        return WHY_NOT[life.state]
    return ""
