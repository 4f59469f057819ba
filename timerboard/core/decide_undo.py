"""Taking back the last act of a person, with everything that was adopted because of it."""

from collections.abc import Sequence

from .answers import At, Refusal
from .cook import Cook, Noted
from .events import (
    CueDone,
    EatTimeMoved,
    Event,
    EventUndone,
    PlanAdopted,
    ReadingTaken,
    SettingChosen,
    StepEnded,
    StepStarted,
)
from .fold import NEVER_UNDONE, apply, fold
from .food_clocks import PUT_AWAY
from .readiness import Lack, lacks


def undo(cook: Cook, command: object, stamp: At) -> tuple[Event, ...] | Refusal:
    """One EventUndone for each event of the last act, the newest first; as often as there are acts."""
    acts = [n.event for n in cook.record if _is_act(n)]
    first_plan = next((n.event for n in cook.record if isinstance(n.event, PlanAdopted)), None)
    acts = [event for event in acts if event is not first_plan]
    if not acts:
        return Refusal("There is nothing to take back.")
    taken = _whole_act(acts)
    newest_first = sorted(taken | _because_of(cook, taken), reverse=True)
    return tuple(EventUndone(**stamp.fields(n), undone=seq) for n, seq in enumerate(newest_first))


def _is_act(noted: Noted) -> bool:
    """Something a person did that still has an effect. Plans taken at the opening were nobody's act, and stay."""
    event = noted.event
    if noted.undone or noted.effect or event.kind in NEVER_UNDONE:
        return False
    return not (isinstance(event, StepStarted | PlanAdopted | SettingChosen) and event.by_itself)


def _whole_act(acts: Sequence[Event]) -> set[int]:
    """The last event, and the one before it when one tap made both.

    A reading may end a step or lift a batch, an end may stand for a start as well, and a plan may move the meal.
    """
    last = acts[-1]
    if (away := _put_away_with(acts)) is not None:
        return away
    before = acts[-2] if len(acts) > 1 else None
    if before is None or (before.seq, before.at) != (last.seq - 1, last.at):
        return {last.seq}
    if isinstance(last, EatTimeMoved):
        return {before.seq, last.seq} if isinstance(before, PlanAdopted) else {last.seq}
    if isinstance(last, StepEnded):
        mate = before.kind == ("ReadingTaken" if last.by_reading else "StepStarted")
    else:
        mate = isinstance(last, CueDone) and isinstance(before, ReadingTaken)
    return {before.seq, last.seq} if mate and getattr(before, "step", "") == getattr(last, "step", "") else {last.seq}


def _put_away_with(acts: Sequence[Event]) -> set[int] | None:
    """Everything that was put away by one tap; None when the last act was another."""
    if not _is_putting_away(acts[-1]):
        return None
    taken: set[int] = set()
    for event in reversed(acts):
        if not _is_putting_away(event) or event.at != acts[-1].at:
            break
        taken.add(event.seq)
    return taken


def _is_putting_away(event: Event) -> bool:
    return isinstance(event, CueDone) and event.cue == PUT_AWAY


def _because_of(cook: Cook, taken: set[int]) -> set[int]:
    """Starts by themselves after the act that could not have been without it."""
    first = min(taken)
    gone = {n.event.seq for n in cook.record if n.undone} | taken
    told = [n.event for n in cook.record if n.event.seq not in gone and not isinstance(n.event, EventUndone)]
    without = fold([event for event in told if event.seq < first])
    fallen: set[int] = set()
    for event in (event for event in told if event.seq > first):
        if isinstance(event, StepStarted) and event.by_itself:
            step = without.step(event.step)
            if step is None or lacks(without, step, event.at) is not Lack.NOTHING:
                fallen.add(event.seq)
                continue
        without = apply(without, event)
    return fallen
