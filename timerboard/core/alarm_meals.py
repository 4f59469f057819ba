"""What the meal calls for: starts, settings of places, loose countdowns."""

from collections.abc import Iterator
from dataclasses import replace

from .alarm_values import Alarm, Kind, Rank
from .alarm_words import Words, start_words, step_alarm
from .begin_by import begin_by
from .cook import Cook, QuickTimer, StepState
from .fold_places import CHECKED
from .menu import Step
from .plan import HeatSetting
from .quantity_words import celsius_words
from .readiness import ALONE, Lack, earliest_start, free_since, lacks, warm_from
from .values import MS, Moment
from .words import lower_first

BY_ITSELF_MS = 5 * MS
"""An unattended step that should have begun by itself and has not after so long is called for like any other."""


def start_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """Ready steps that a person starts: at their planned moment, or at once if that has passed."""
    for step in cook.menu.steps.values():
        if cook.lives[step.id].state is StepState.READY:
            yield from _start(cook, step, now)


def _start(cook: Cook, step: Step, now: Moment) -> Iterator[Alarm]:
    earliest = earliest_start(cook, step)
    if earliest is None:
        return
    lack = lacks(cook, step, now)
    placed = cook.plan.of(step.id) if cook.plan else None
    planned = placed.start * MS if placed else by_the_meal(cook, step)
    free = free_since(cook, step)  # what has no place to go to is no call, only what comes next
    since = max(earliest, warm_from(cook, step)) + BY_ITSELF_MS if lack in ALONE else max(earliest, planned, free or 0)
    rank, lack = (Rank.SOON, Lack.PLACE) if free is None else (Rank.DUE, lack)
    alarm = step_alarm(Kind.START, rank, step, since, Words(*start_words(step), _missing(lack, step)))
    yield replace(alarm, spoils_at=_latest(cook, step, planned + (placed.slack_s if placed else 0) * MS))


def by_the_meal(cook: Cook, step: Step) -> Moment:
    """When a step that no plan has placed must start, so that its dish is ready when it is eaten (likely lengths)."""
    dish = next(d for d in cook.menu.dishes if d.name == step.dish)
    after: dict[str, int] = {}
    for one in reversed(dish.steps):
        follows = [after.get(s.id, 0) + link.wait_s for s in dish.steps for link in s.links if link.step == one.id]
        after[one.id] = max(follows, default=0) + cook.span(one).likely
    return cook.eat_at + (cook.menu.course_of(dish).eat_s - after[step.id]) * MS


def _latest(cook: Cook, step: Step, planned: Moment) -> Moment:
    """When a start begins to do harm: its slack is used up, or the most time after the step before it."""
    limit = begin_by(cook, step)
    return planned if limit is None else min(planned, limit)


def _missing(lack: Lack, step: Step) -> str:
    place = lower_first(step.uses[0].place) if step.uses else ""
    if lack is Lack.PLACE:
        return f"{place} is full"
    return f"{place} has another heat" if lack is Lack.HEAT else ""


def set_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """The plan's 'set the oven', and 'is it really hot?' after it; both end when the food is in."""
    for setting in cook.plan.settings if cook.plan else ():
        life = cook.lives.get(setting.for_step)
        if life is None or life.state not in (StepState.WAITING, StepState.READY):
            continue
        done = cook.settings_done.get(setting.id)
        if done is None:
            yield _setting(cook, setting, Kind.SET, setting.at * MS)
        elif setting.id + CHECKED not in cook.settings_done:
            heating = (setting.ready - setting.at) * MS
            yield _setting(cook, setting, Kind.HOT, done + heating)


def _setting(cook: Cook, setting: HeatSetting, kind: Kind, since: Moment) -> Alarm:
    heat = celsius_words(setting.heat_c, cook.menu.units)
    verb = f"Set the {lower_first(setting.place)} to" if kind is Kind.SET else f"Is the {lower_first(setting.place)} at"
    step = cook.menu.steps[setting.for_step]
    return Alarm(
        id=f"{kind}|@{setting.place}|{setting.id}|0",
        kind=kind,
        rank=Rank.DUE,
        since=since,
        dish=step.dish,
        step="@" + setting.place + (CHECKED if kind is Kind.HOT else ""),
        cue=setting.id,
        verb=verb,
        food=heat if kind is Kind.SET else f"{heat}?",
        where=setting.place,
        detail=f"for {lower_first(step.dish)}",
        spoils_at=setting.ready * MS,
    )


def timer_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """Loose countdowns ring until they are cleared."""
    for timer in cook.timers.values():
        yield _timer(timer)


def _timer(timer: QuickTimer) -> Alarm:
    return Alarm(
        id=f"{Kind.TIMER}||{timer.name}|{timer.set_at}",
        kind=Kind.TIMER,
        rank=Rank.DUE,
        since=timer.ends,
        dish="",
        step=None,
        cue=timer.name,
        verb="Time is up:",
        food=timer.name,
        where="",
        spoils_at=timer.ends,
    )
