"""An alarm as a job for hands: what answers it, by kind."""

from dataclasses import replace

from .alarm_values import Alarm, Answered, Kind, Rank
from .alarms import HEADS_UP_MS
from .commands import (
    ClearQuickTimer,
    Command,
    DoCue,
    EndStep,
    HearAlarm,
    NotYet,
    PassOverCue,
    PutAway,
    PutOff,
    StartStep,
    TakeReading,
)
from .cook import StepState
from .hot_oil import asks_for_oil
from .leftovers import leftovers
from .menu import Step
from .scene import Scene, strip_of
from .view_head import setting_at, settings_left
from .view_jobs import Job, calls_to_come, starts_to_come
from .words import MINUTE, dots, length_words, lower_first, names

PUT_OFF_S = 120
ONLY_THEN = ("time is up", "expected by now")
LOOKS = frozenset((Kind.CHECK, Kind.OVER, Kind.PULL))


def jobs_to_come(scene: Scene) -> list[Job]:
    """What hands are wanted for next, soonest first: nothing of it calls yet."""
    coming = [_quiet(scene, call) for call in calls_to_come(scene)]
    return sorted([*coming, *starts_to_come(scene)], key=lambda job: (job.at, job.key))


def _quiet(scene: Scene, call: Alarm) -> Job:
    """A call to come as a job: it can be answered early, but there is nothing to hear or to put off yet."""
    at = call.since
    if call.kind is Kind.START and call.step is not None and call.step in scene.states:
        at = max(at, scene.outlook.steps[call.step].start)
    elif call.kind is Kind.SET:
        at = max(at, _slipped_setting(scene, call))
    return replace(call_of(scene, call), at=at, rank=Rank.NOTE, heard=None, put_off=None, pass_over=None, not_yet=None)


def _slipped_setting(scene: Scene, call: Alarm) -> int:
    found = [setting for setting in settings_left(scene) if setting.id == call.cue]
    return setting_at(scene, found[0]) if found else call.since


def call_of(scene: Scene, alarm: Alarm) -> Job:
    """The job that an alarm asks for, with every answer it takes."""
    step = None if alarm.step is None else scene.cook.step(alarm.step)
    answer, word = answer_of(scene, alarm, step)
    running = step is not None and scene.states.get(step.id) in (StepState.IN_RANGE, StepState.OVER)
    return Job(
        key=alarm.id,
        at=alarm.since + (HEADS_UP_MS if alarm.kind is Kind.HEADS_UP else 0),
        rank=alarm.rank,
        line=alarm.sentence,
        detail=dots(_dish(alarm), _place(alarm), _hint(scene, alarm)),
        answer=answer,
        word=word,
        doors=scene.doors(step) if alarm.kind not in (Kind.SET, Kind.HOT) else frozenset(),
        strip=strip_of(scene.cook, alarm),
        not_yet=NotYet(step.id) if step is not None and running and alarm.kind in LOOKS else None,
        pass_over=PassOverCue(alarm.step, alarm.cue) if alarm.kind is Kind.CUE and alarm.step and alarm.cue else None,
        wants_reading=_reading(alarm, step),
        heard=HearAlarm(alarm.id) if alarm.answered is Answered.NOT else None,
        put_off=PutOff(alarm.id, PUT_OFF_S) if alarm.rank is not Rank.DANGER else None,
        muted=muted_words(alarm, scene.now),
    )


def answer_of(scene: Scene, alarm: Alarm, step: Step | None) -> tuple[Command, str]:
    """What 'done' means for an alarm, and the word on its button."""
    if alarm.kind is Kind.TIMER:
        return ClearQuickTimer(alarm.cue or alarm.food), "done"
    if alarm.kind is Kind.AWAY:
        return PutAway(tuple(clock.dish for clock in leftovers(scene.cook, max(scene.now, alarm.since)))), "away"
    if alarm.kind is Kind.SERVE:
        return HearAlarm(alarm.id), "served"
    if alarm.kind is Kind.READ and alarm.step is not None and asks_for_oil(alarm):
        return TakeReading(alarm.step, 0.0, of="oil"), "read"
    if alarm.kind is Kind.READ:
        return HearAlarm(alarm.id), "read"
    if alarm.cue is not None and alarm.step is not None:
        return DoCue(alarm.step, alarm.cue), {Kind.SET: "set", Kind.HOT: "hot"}.get(alarm.kind, "done")
    if step is None:
        return HearAlarm(alarm.id), "seen"
    if scene.states.get(step.id) in (StepState.WAITING, StepState.READY):
        return StartStep(step.id), "start"
    if step.id in scene.states and scene.runs(step):
        return EndStep(step.id), "end"
    return HearAlarm(alarm.id), "seen"


def muted_words(alarm: Alarm, now: int) -> str:
    """Why a call is quiet: 'heard 0:40 ago' has no place, so 'heard'; 'back in 2 min' when put off."""
    if alarm.answered is Answered.PUT_OFF and alarm.returns_at is not None:
        left = max(0, alarm.returns_at - now)
        return f"back in {length_words(left if left < MINUTE else -(-left // MINUTE) * MINUTE)}"
    return "heard" if alarm.answered is Answered.HEARD else ""


def _dish(alarm: Alarm) -> str:
    """The dish beside a sentence that does not name it."""
    dish = lower_first(alarm.dish)
    return "" if not dish or names(f"{alarm.sentence} {alarm.detail}", dish) else dish


def _hint(scene: Scene, alarm: Alarm) -> str:
    """What more there is to know; not yet what is true only once the call has come."""
    early = alarm.kind is Kind.HEADS_UP or alarm.since > scene.now
    return "" if early and alarm.detail.endswith(ONLY_THEN) else alarm.detail


def _place(alarm: Alarm) -> str:
    """The place, unless the sentence speaks of it: 'Set the oven to 220 °C'."""
    return "" if alarm.where.lower() in alarm.sentence.lower().split() else alarm.where


def _reading(alarm: Alarm, step: Step | None) -> str | None:
    if step is None or not (alarm.kind in (Kind.READ, Kind.PULL) or (alarm.kind in LOOKS and step.pull_at_c)):
        return None
    return step.id
