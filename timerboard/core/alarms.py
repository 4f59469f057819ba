"""What calls at a moment, derived from the cook and now; nothing here remembers anything.

Every source is a pure function of the cook and now that tells what calls and what will call (`since` in the future).
From that follow the alarms that stand (`alarms`), the heads-up a minute before, and when to look again
(`next_change`): an alarm cannot be forgotten by a late or lost wake-up, only seen late.

An alarm leaves only because its cause ended, went one step further (a check becomes over, a heads-up becomes due) or
somebody answered it. 'Heard' is no answer to a cause that still stands: after three minutes (danger: one) it calls
again, because an alarm that stays silent once somebody has glanced at it is how a roast is forgotten.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from .alarm_meals import set_calls, start_calls, timer_calls
from .alarm_notes import note_calls
from .alarm_steps import cue_calls, danger_calls, look_calls
from .alarm_values import Alarm, Answered, Kind, Rank
from .cook import Cook
from .food_clocks import FoodClock, food_clocks
from .hot_oil import oil_calls, oil_cautions
from .leftovers import away_calls
from .readiness import ALONE, earliest_start, hot_moment, lacks
from .safety_alarms import safety_alarms
from .to_the_table import serve_calls
from .values import MS, Moment

Source = Callable[[Cook, Moment], Iterable[Alarm]]
ClockSource = Callable[[Cook, Moment, tuple[FoodClock, ...]], Iterable[Alarm]]

SOURCES: tuple[Source, ...] = (
    danger_calls,
    look_calls,
    cue_calls,
    start_calls,
    set_calls,
    timer_calls,
    oil_calls,
)
"""What calls while a cook runs."""

SAFETY_SOURCES: tuple[ClockSource, ...] = (safety_alarms, away_calls)
"""What calls even when the cook is closed: food that still cools or stands warm."""

NOTE_SOURCES: tuple[Source, ...] = (note_calls, oil_cautions)

HEADS_UP_MS = 60 * MS
RECALL_MS = 180 * MS
DANGER_RECALL_MS = 60 * MS
"""How long 'heard' keeps an alarm quiet whose cause still stands; danger is not left alone for three minutes."""

ENDED_BY_HEARING = frozenset({Kind.NOTE, Kind.HEADS_UP, Kind.SERVE})
"""Nothing is left to do once these were heard."""

FOREWARNED = frozenset({Kind.CHECK, Kind.CUE, Kind.START, Kind.SET, Kind.HOT})
"""Kinds that a heads-up comes before: hands will be wanted, and something may have to be put down first."""

OFTEN_S = 300
"""A cue that comes more often than this needs no heads-up: whoever stirs every three minutes stands beside it."""

SHORT_S = 180

LATEST: Moment = 1 << 62


def alarms(cook: Cook, now: Moment, called: Iterable[Alarm] | None = None) -> tuple[Alarm, ...]:
    """Everything that calls at `now`, most pressing first: rank, unanswered, least time until harm, age.

    `called`: what `calls` says of this very cook at this very moment, where that was asked already.
    """
    known = calls(cook, now) if called is None else called
    return tuple(sorted(_standing(cook, now, known), key=pressing))


def pressing(alarm: Alarm) -> tuple[int, bool, Moment, Moment, str]:
    """The order of alarms: smaller is more pressing."""
    spoils = alarm.spoils_at if alarm.spoils_at is not None else LATEST
    return (-alarm.rank, alarm.answered is not Answered.NOT, spoils, alarm.since, alarm.id)


def _standing(cook: Cook, now: Moment, called: Iterable[Alarm]) -> Iterator[Alarm]:
    for call in called:
        if call.since <= now and not (call.kind in ENDED_BY_HEARING and call.id in cook.heard):
            yield answered(cook, call, now)


def calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """Everything that calls or will call, as known at `now`, heads-ups included, answers not yet."""
    clocks = food_clocks(cook, now, coming=True)
    for safety in SAFETY_SOURCES:
        found = safety(cook, now, clocks)
        yield from (c for c in found if cook.closed is None or c.rank is Rank.DANGER or c.kind is Kind.AWAY)
    if cook.closed is not None:
        return
    spoilt = {clock.dish for clock in clocks if clock.limit <= now}  # 'do not serve' and 'bring in' are never both said
    serving: Source = partial(serve_calls, spoilt=spoilt)
    for source in (*SOURCES, serving, *NOTE_SOURCES):
        for call in source(cook, now):
            yield call
            if call.since > now and forewarned(cook, call, now):
                yield heads_up(call)


def forewarned(cook: Cook, call: Alarm, now: Moment) -> bool:
    """True when a heads-up helps.

    Not for what comes every few minutes or takes only that long, nor for what hands are at anyway, nor for what was
    looked at a moment ago, nor for what will begin by itself.
    """
    if call.kind not in FOREWARNED:
        return False
    step = cook.step(call.step or "")
    if step is not None and call.kind is Kind.CHECK:
        asked_before = cook.lives[step.id].look_again is not None
        return not asked_before and not step.work.throughout and cook.span(step).low >= SHORT_S
    if step is not None and call.kind is Kind.START:
        return lacks(cook, step, now) not in ALONE
    if call.kind is not Kind.CUE:
        return True
    cue = step.cue(call.cue or "") if step else None
    return cue is not None and (cue.every_s is None or cue.every_s >= OFTEN_S)


def heads_up(call: Alarm) -> Alarm:
    """The minute before hands are wanted."""
    since = call.since - HEADS_UP_MS
    return replace(call, id=f"{Kind.HEADS_UP}|{call.id}", kind=Kind.HEADS_UP, rank=Rank.SOON, since=since)


def answered(cook: Cook, call: Alarm, now: Moment) -> Alarm:
    """The alarm with what somebody said to it, as long as that holds."""
    returns, heard = cook.put_off.get(call.id), cook.heard.get(call.id)
    if returns is not None and now < returns and call.rank is not Rank.DANGER:
        return replace(call, answered=Answered.PUT_OFF, returns_at=returns)
    if heard is not None and now < heard + recall_ms(call.rank):
        return replace(call, answered=Answered.HEARD, returns_at=heard + recall_ms(call.rank))
    return call


def recall_ms(rank: Rank) -> int:
    """How long an alarm of a rank stays quiet once it was heard."""
    return DANGER_RECALL_MS if rank is Rank.DANGER else RECALL_MS


def next_change(cook: Cook, now: Moment, called: Iterable[Alarm] | None = None) -> Moment | None:
    """The first moment after `now` at which `alarms` may differ or a step may begin by itself; None: never.

    `called` as in `alarms`.
    """
    known = calls(cook, now) if called is None else called
    return min((m for m in _changes(cook, known) if m > now), default=None)


def _changes(cook: Cook, called: Iterable[Alarm]) -> Iterator[Moment]:
    for call in called:
        yield call.since
    yield from cook.put_off.values()
    for name, heard in cook.heard.items():
        yield heard + recall_ms(Rank.DANGER if name.startswith(Kind.DANGER) else Rank.DUE)
    if cook.hushed_until is not None:
        yield cook.hushed_until
    for step in cook.menu.steps.values():
        earliest = earliest_start(cook, step)
        if earliest is not None:
            yield earliest
    for place in cook.menu.places:  # when a place is hot, a step may begin by itself in it
        hot = hot_moment(cook, place.name)
        if hot is not None:
            yield hot
