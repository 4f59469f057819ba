"""A step's life: every legal change, in one table.

The rule in words. A step waits until every step before it has ended (a dropped one counts as ended: what it would have
made is bought). Then it is ready. It runs from the moment it is started, by hand or by itself. The clock alone brings
it into its range (low end passed) and over it (high end passed). Somebody, or a reading, ends it from any of these.
'Not yet' leaves it where it is. An ended step that is opened again goes on as if it had not ended; what began by itself
after it waits again. A dropped dish drops what of it has not ended. Everything else has no effect and says why.
"""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from .cook import Cook, StepLife, StepState
from .menu import Step
from .values import MS, Moment, Seconds, Span


class What(StrEnum):
    """What can happen to a step: what people do, what follows from that, and what only the clock does."""

    PREDECESSORS_ENDED = "every step before it has ended"
    PREDECESSOR_GOES_ON = "a step before it goes on"
    STARTED = "started"
    LOW_END_PASSED = "low end passed (clock)"
    HIGH_END_PASSED = "high end passed (clock)"
    MORE_TIME = "not yet"
    REVISED = "given another length"
    ENDED = "ended"
    REOPENED = "opened again"
    DROPPED = "its dish dropped"


_S, _W = StepState, What

TRANSITIONS: Mapping[tuple[StepState, What], StepState] = MappingProxyType(
    {
        (_S.WAITING, _W.PREDECESSORS_ENDED): _S.READY,
        (_S.WAITING, _W.REVISED): _S.WAITING,
        (_S.WAITING, _W.DROPPED): _S.DROPPED,
        (_S.READY, _W.PREDECESSOR_GOES_ON): _S.WAITING,
        (_S.READY, _W.STARTED): _S.RUNNING,
        (_S.READY, _W.REVISED): _S.READY,
        (_S.READY, _W.DROPPED): _S.DROPPED,
        (_S.RUNNING, _W.PREDECESSOR_GOES_ON): _S.WAITING,
        (_S.RUNNING, _W.LOW_END_PASSED): _S.IN_RANGE,
        (_S.RUNNING, _W.MORE_TIME): _S.RUNNING,
        (_S.RUNNING, _W.REVISED): _S.RUNNING,
        (_S.RUNNING, _W.ENDED): _S.ENDED,
        (_S.RUNNING, _W.DROPPED): _S.DROPPED,
        (_S.IN_RANGE, _W.PREDECESSOR_GOES_ON): _S.WAITING,
        (_S.IN_RANGE, _W.HIGH_END_PASSED): _S.OVER,
        (_S.IN_RANGE, _W.MORE_TIME): _S.IN_RANGE,
        (_S.IN_RANGE, _W.REVISED): _S.RUNNING,
        (_S.IN_RANGE, _W.ENDED): _S.ENDED,
        (_S.IN_RANGE, _W.DROPPED): _S.DROPPED,
        (_S.OVER, _W.PREDECESSOR_GOES_ON): _S.WAITING,
        (_S.OVER, _W.MORE_TIME): _S.OVER,
        (_S.OVER, _W.REVISED): _S.RUNNING,
        (_S.OVER, _W.ENDED): _S.ENDED,
        (_S.OVER, _W.DROPPED): _S.DROPPED,
        (_S.ENDED, _W.REOPENED): _S.RUNNING,
    }
)

LIVE = frozenset({StepState.RUNNING, StepState.IN_RANGE, StepState.OVER})
"""The states in which a step occupies its place."""


def after(state: StepState, what: What) -> StepState | None:
    """The state that follows, or None when that cannot happen to a step in this state."""
    return TRANSITIONS.get((state, what))


def phase(cook: Cook, step_id: str, now: Moment) -> StepState:
    """Where a step is in its life at `now`: what the events say, moved on by the clock. KeyError when unknown."""
    state = cook.lives[step_id].state
    ends = range_of(cook, step_id)
    if ends is None:
        return state
    low, high = ends
    if now >= low:
        state = TRANSITIONS[state, What.LOW_END_PASSED]
    if now > max(low, high):
        state = TRANSITIONS[state, What.HIGH_END_PASSED]
    return state


def range_of(cook: Cook, step_id: str) -> tuple[Moment, Moment] | None:
    """Low end and high end of a running step; None when it does not run. The high end itself is still in the range."""
    step, life = cook.step(step_id), cook.lives.get(step_id)
    if step is None or life is None or life.state is not StepState.RUNNING or life.started is None:
        return None
    return ends_of(step, life)


def ends_of(step: Step, life: StepLife) -> tuple[Moment, Moment]:
    """Low and high end of a life that has started. Lifted batches are facts: only the rest is counted from them.

    Where readings of the core were fitted, the ends are those of the pull's band and not what the menu hoped.
    """
    fit = life.fit
    if fit is not None and fit.early is not None and fit.late is not None:
        return fit.early, fit.late
    started = life.started or 0
    span = life.span or step.span
    lifted = life.cues.get(LIFT)
    if step.batches is None or lifted is None or lifted.last is None:
        return started + span.low * MS, started + span.high * MS
    left = max(1, step.batches.count - lifted.done - lifted.passed)
    each, recover = step.batches.each, step.batches.recover
    return lifted.last + left * (each.low + recover.low) * MS, lifted.last + left * (each.high + recover.high) * MS


def likely_end(step: Step, life: StepLife) -> Moment:
    """When a started step is likely to end, inside its range."""
    low, high = ends_of(step, life)
    if life.fit is not None and life.fit.at is not None:
        return life.fit.at
    likely = (life.started or 0) + (life.span or step.span).likely * MS
    return min(max(likely, low), high)


LIFT = "Lift the batch"
"""The name of the cue that a step with batches has by itself."""

LEAST_MORE_S: Seconds = 30
MOST_MORE_S: Seconds = 300


def more_time_s(span: Span, low: Moment, high: Moment, now: Moment, *, hazard: bool = False) -> Seconds:
    """What 'not yet' gives: a third of what is left to the high end, at least 30 s.

    Past the high end nothing is left to take a third of: then it is a tenth of the step's longest time, between 30 s
    and 5 min, so that ten minutes of pasta are looked at again in one and a roast in five. Hot oil gets 30 s each time.
    """
    if now <= high and high > low:
        return max(LEAST_MORE_S, (high - now) // (3 * MS))
    if hazard:
        return LEAST_MORE_S
    return min(MOST_MORE_S, max(LEAST_MORE_S, span.high // 10))


def transitions_markdown() -> str:
    """The table as DEVELOPERS.md shows it: one row per state, in the order of a step's life."""
    rows = ["| a step that is | and this happens | is then |", "|---|---|---|"]
    rows += [f"| {state} | {what} | {then} |" for (state, what), then in TRANSITIONS.items()]
    return "\n".join(rows) + "\n"
