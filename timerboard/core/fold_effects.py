"""What each kind of event does to a cook that is being written. Each returns "" or why it had no effect."""

from collections.abc import Callable
from typing import Any

from .alarm_values import Kind
from .cook import Note, QuickTimer
from .draft import Draft
from .events import (
    AlarmHeard,
    AlarmPutOff,
    BoardReturned,
    ClockStepped,
    CookClosed,
    CookOpened,
    EatTimeMoved,
    Hushed,
    PlanAdopted,
    QuickTimerCleared,
    QuickTimerSet,
)
from .fold_choices import setting_chosen
from .fold_dishes import dish_added, dish_dropped
from .fold_steps import (
    cue_done,
    cue_passed_over,
    given_more_time,
    pull_foreseen,
    reading_taken,
    revised,
    step_ended,
    step_reopened,
    step_started,
)
from .values import MS

LONGEST_PUT_OFF_S = 300
LONGEST_HUSH_S = 120
LONGEST_AHEAD_S = 366 * 86_400
"""No meal is moved further away than that: a slip of the finger is no wish."""

HEARD_FOR_GOOD = (f"{Kind.NOTE}|", f"{Kind.SERVE}|")

Effect = Callable[[Draft, Any], str]


def opened_again(draft: Draft, event: CookOpened) -> str:
    """Only the first opening counts."""
    return "the cook was open already"


def plan_adopted(draft: Draft, event: PlanAdopted) -> str:
    """The newest plan is the plan."""
    draft.plan = event.plan
    return ""


def alarm_heard(draft: Draft, event: AlarmHeard) -> str:
    """Heard is the newer answer, so it ends a putting off."""
    draft.heard[event.alarm] = event.at
    draft.put_off.pop(event.alarm, None)
    return ""


def alarm_put_off(draft: Draft, event: AlarmPutOff) -> str:
    """Put off is the newer answer, so it ends a 'heard'."""
    if event.until <= event.at:
        return "it was to come back at once"
    if event.alarm.startswith(Kind.DANGER):
        return "danger is never put off"
    draft.put_off[event.alarm] = min(event.until, event.at + LONGEST_PUT_OFF_S * MS)
    draft.heard.pop(event.alarm, None)
    return ""


def hushed(draft: Draft, event: Hushed) -> str:
    """What fell due by now is silent until then."""
    draft.hushed_at, draft.hushed_until = event.at, min(event.until, event.at + LONGEST_HUSH_S * MS)
    return ""


def eating_moved(draft: Draft, event: EatTimeMoved) -> str:
    """The meal is then. The plan stays until another is taken."""
    if event.eat_at > event.at + LONGEST_AHEAD_S * MS:
        return "that is more than a year away"
    draft.eat_at = event.eat_at
    return ""


def timer_set(draft: Draft, event: QuickTimerSet) -> str:
    """A countdown of its own; a name that waits already is set anew."""
    draft.timers[event.timer] = QuickTimer(event.timer, event.at, event.ends)
    return ""


def timer_cleared(draft: Draft, event: QuickTimerCleared) -> str:
    """A countdown is gone."""
    return "" if draft.timers.pop(event.timer, None) else "no such countdown was set"


def clock_stepped(draft: Draft, event: ClockStepped) -> str:
    """The wall clock moved; no countdown does."""
    draft.offset_ms = event.offset_ms
    way = "forward" if event.by_ms > 0 else "back"
    said = f"The wall clock went {way} by {_length(abs(event.by_ms))}. No countdown moved."
    draft.notes[f"clock {event.seq}"] = Note(event.at, said)
    return ""


def board_returned(draft: Draft, event: BoardReturned) -> str:
    """After a restart every silence lapses: what is still due calls again at once. What hearing ended stays ended."""
    draft.heard = {name: at for name, at in draft.heard.items() if name.startswith(HEARD_FOR_GOOD)}
    draft.put_off.clear()
    draft.hushed_at = draft.hushed_until = None
    how = " The machine was restarted; the time away is the wall clock's." if event.rebooted else ""
    draft.notes[f"away {event.seq}"] = Note(event.at, f"The board was away for {_length(event.away_ms)}.{how}")
    return ""


def closed(draft: Draft, event: CookClosed) -> str:
    """The meal is over."""
    if draft.closed is not None:
        return "the cook was closed already"
    draft.closed = event.at
    return ""


def _length(ms: int) -> str:
    minutes, seconds = divmod(round(ms / MS), 60)
    hours, minutes = divmod(minutes, 60)
    parts = ((hours, "h"), (minutes, "min"), (seconds if not hours else 0, "s"))
    return " ".join(f"{n} {unit}" for n, unit in parts if n) or "0 s"


EFFECTS: dict[str, Effect] = {
    "CookOpened": opened_again,
    "PlanAdopted": plan_adopted,
    "StepStarted": step_started,
    "StepEnded": step_ended,
    "StepReopened": step_reopened,
    "GivenMoreTime": given_more_time,
    "CueDone": cue_done,
    "CuePassedOver": cue_passed_over,
    "ReadingTaken": reading_taken,
    "PullForeseen": pull_foreseen,
    "AlarmHeard": alarm_heard,
    "AlarmPutOff": alarm_put_off,
    "Hushed": hushed,
    "DishDropped": dish_dropped,
    "DishAdded": dish_added,
    "DurationRevised": revised,
    "EatTimeMoved": eating_moved,
    "QuickTimerSet": timer_set,
    "QuickTimerCleared": timer_cleared,
    "SettingChosen": setting_chosen,
    "ClockStepped": clock_stepped,
    "BoardReturned": board_returned,
    "CookClosed": closed,
}
