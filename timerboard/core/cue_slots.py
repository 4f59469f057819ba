"""When the cues of a step fall due in a plan."""

from collections.abc import Iterator

from .cook import CueLog, StepLife
from .menu import Cue, Step
from .plan import CueSlot
from .survey import Survey
from .values import MS, Moment, Seconds


def cue_slots(survey: Survey, step: Step, length: Seconds) -> tuple[CueSlot, ...]:
    """Every falling-due in a step of that length: none in its last tenth, movable by a quarter of the interval."""
    return _slots(survey, step, {cue.do: _offsets(cue, length) for cue in step.cues}, length)


def cue_slots_left(survey: Survey, step: Step, life: StepLife, length: Seconds, now: Moment) -> tuple[CueSlot, ...]:
    """What is still to come of a running step: counted from the last time each was done or passed over.

    One that is overdue falls due now, once. Offsets count from the start that is a fact.
    """
    began = (life.started or 0) // MS
    gone = -(-now // MS) - began
    left = {cue.do: _left(cue, life.cues.get(cue.do, CueLog()), began, gone, length) for cue in step.cues}
    return _slots(survey, step, left, length)


def _left(cue: Cue, log: CueLog, began: Seconds, gone: Seconds, length: Seconds) -> list[Seconds]:
    answered = log.done + log.passed
    if cue.every_s is None:
        return [max(offset, gone) for offset in _offsets(cue, length)[answered:]]
    last = log.last // MS - began if log.last is not None else 0
    first = max(last + cue.every_s, gone)
    times = None if cue.times is None else cue.times - answered
    return _every(first, cue.every_s, times, length)


def _offsets(cue: Cue, length: Seconds) -> list[Seconds]:
    """Nominal offsets from the start of a step of that length."""
    if cue.every_s is not None:
        return _every(cue.every_s, cue.every_s, cue.times, length)
    at = cue.at_s if cue.at_s is not None else round((cue.at_fraction or 0.0) * length)
    return [at] if _early_enough(at, length) else []


def _every(first: Seconds, every: Seconds, times: int | None, length: Seconds) -> list[Seconds]:
    due = [at for at in range(first, length + 1, max(1, every)) if _early_enough(at, length)]
    return due if times is None else due[: max(0, times)]


def _early_enough(offset: Seconds, length: Seconds) -> bool:
    """No cue falls in the last tenth of a step's time."""
    return offset * 10 <= length * 9


def _slots(survey: Survey, step: Step, due: dict[str, list[Seconds]], length: Seconds) -> tuple[CueSlot, ...]:
    opens = tuple(dict.fromkeys(_doors(survey, step)))
    return tuple(
        CueSlot(
            id=cue.do if n == 0 else f"{cue.do} {n + 1}",
            cue=cue.do,
            offset_s=offset,
            play_s=_play(cue.every_s or offset),
            work_s=0 if _at_it_anyway(step, cue, offset, length) else cue.work_s,
            opens=opens,
        )
        for cue in step.cues
        for n, offset in enumerate(due[cue.do])
    )


def _at_it_anyway(step: Step, cue: Cue, offset: Seconds, length: Seconds) -> bool:
    """True when hands are at this step at that moment already: the cue asks for no other pair."""
    if step.work.throughout or step.hazard is not None:
        return True
    return offset < step.work.start_s or offset + cue.work_s > length - step.work.end_s


def _play(interval: Seconds) -> Seconds:
    """A quarter of the interval, in whole minutes once it is more than one: nobody bastes to the second."""
    quarter = interval // 4
    return quarter if quarter < 60 else quarter - quarter % 60


def _doors(survey: Survey, step: Step) -> Iterator[str]:
    """Places whose door a cue of this step opens: heated ones, and any that some step asks to keep shut."""
    for use in step.uses:
        place = survey.menu.place(use.place)
        if use.place in survey.kept_shut or (place is not None and place.heat is not None):
            yield use.place
