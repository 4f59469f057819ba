"""What begins without anyone: unattended steps that have everything they need."""

from collections.abc import Iterator

from .answers import At
from .cook import Cook
from .events import Event, StepStarted
from .fold import apply
from .menu import Step
from .readiness import Lack, earliest_start, hot_moment, lacks
from .values import Moment

CHANGE_NO_STEP = frozenset({"BoardReturned", "ClockStepped", "AlarmHeard", "AlarmPutOff", "Hushed"})
"""Kinds of events after which nothing new can begin."""


def begun_by_itself(cook: Cook, stamp: At) -> tuple[Event, ...]:
    """Starts of unattended steps that lack nothing now, in the order of the menu.

    A start carries the moment at which the last thing it lacked came true, not the moment of the look: a machine that
    slept through the end of a wait finds the step running since then, as it is in the kitchen.
    """
    begun: list[Event] = []
    for step in cook.menu.steps.values():
        if lacks(cook, step, stamp.at) is Lack.NOTHING:
            at = began_at(cook, step, stamp.at)
            then = {"at": at, "wall_ms": stamp.wall_ms - (stamp.at - at), "who": None}
            begun.append(StepStarted(**stamp.fields(len(begun)) | then, step=step.id, by_itself=True))
            cook = apply(cook, begun[-1])
    return tuple(begun)


def began_at(cook: Cook, step: Step, now: Moment) -> Moment:
    """When a step that lacks nothing now began to lack nothing.

    Whatever people do is looked at as soon as they have done it. So what did not begin then and could now has been let
    begin by the clock alone: a wait that ended, or a place that had its time to heat up.
    """
    told = (n.event.at for n in reversed(cook.record) if n.event.kind not in CHANGE_NO_STEP)
    floor = next(told, cook.opened)
    moments = sorted(m for m in _clock_moments(cook, step) if floor < m < now)
    return next((m for m in moments if lacks(cook, step, m) is Lack.NOTHING), now)


def _clock_moments(cook: Cook, step: Step) -> Iterator[Moment]:
    earliest = earliest_start(cook, step)
    if earliest is not None:
        yield earliest
    for use in step.uses:
        hot = hot_moment(cook, use.place)
        if hot is not None:
            yield hot
