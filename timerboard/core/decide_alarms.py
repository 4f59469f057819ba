"""Answers to alarms that end no cause, and loose countdowns."""

from .alarm_values import Rank
from .alarms import alarms
from .answers import At, Refusal
from .commands import ClearQuickTimer, HearAlarm, Hush, PutOff, SetQuickTimer
from .cook import Cook
from .events import AlarmHeard, AlarmPutOff, Event, Hushed, QuickTimerCleared, QuickTimerSet
from .fold_effects import LONGEST_HUSH_S, LONGEST_PUT_OFF_S
from .values import MS

Answer = tuple[Event, ...] | Refusal

LONGEST_TIMER_S = 7 * 24 * 3600


def hear(cook: Cook, command: HearAlarm, stamp: At) -> Answer:
    """'I have seen it': the sound ends, the cause does not."""
    if all(alarm.id != command.alarm for alarm in alarms(cook, stamp.at)):
        return Refusal("That does not call any more.")
    return (AlarmHeard(**stamp.fields(), alarm=command.alarm),)


def put_off(cook: Cook, command: PutOff, stamp: At) -> Answer:
    """Later, five minutes at most; never danger."""
    alarm = next((a for a in alarms(cook, stamp.at) if a.id == command.alarm), None)
    if alarm is None:
        return Refusal("That does not call any more.")
    if alarm.rank is Rank.DANGER:
        return Refusal(f"{alarm.sentence}: this cannot be put off.")
    length = max(1, min(command.for_s, LONGEST_PUT_OFF_S))
    return (AlarmPutOff(**stamp.fields(), alarm=alarm.id, until=stamp.at + length * MS),)


def hush(cook: Cook, command: Hush, stamp: At) -> Answer:
    """Quiet for two minutes at most, but for what falls due after now."""
    length = max(1, min(command.for_s, LONGEST_HUSH_S))
    return (Hushed(**stamp.fields(), until=stamp.at + length * MS),)


def set_timer(cook: Cook, command: SetQuickTimer, stamp: At) -> Answer:
    """A loose countdown with a name of its own."""
    if not command.timer.strip():
        return Refusal("A countdown needs a name: eggs 6:30.")
    if not 1 <= command.length_s <= LONGEST_TIMER_S:
        return Refusal("A countdown lasts from 1 s to 7 days.")
    if command.timer in cook.timers:
        return Refusal(f"There is a countdown called {command.timer} already. Give this one another name.")
    return (QuickTimerSet(**stamp.fields(), timer=command.timer, ends=stamp.at + command.length_s * MS),)


def clear_timer(cook: Cook, command: ClearQuickTimer, stamp: At) -> Answer:
    """A countdown was answered or is taken away."""
    if command.timer not in cook.timers:
        return Refusal(f"There is no countdown called {command.timer}.")
    return (QuickTimerCleared(**stamp.fields(), timer=command.timer),)
