"""What is to come, from the facts: when every step will probably start and end, and how much time is in hand.

Ended steps keep their end, running ones what is left of their range, and the rest the plan's order: at their planned
start or later, after what the recipe, the places and the hands put before them. Elastic steps give way first. The time
in hand is the total float of the critical path method (forward pass at shortest elastic lengths, backward pass from
when each dish is eaten; Kelley and Walker 1959, "Critical-path planning and scheduling").
"""

from collections.abc import Mapping
from dataclasses import dataclass

from .begin_by import begin_by
from .cook import Cook, StepState
from .due import pull_guess
from .engine import ends_of, likely_end
from .menu import Dish, Step
from .network import Network, network_of
from .plan import Placed
from .plan_order import Arc
from .readiness import agrees
from .values import MS, Moment


@dataclass(frozen=True, slots=True)
class Foreseen:
    """One step to come, running or past. For what is past all three ends are when it ended."""

    step: str
    start: Moment
    end_low: Moment
    end_likely: Moment
    end_high: Moment
    slip_ms: int = 0  # how much later it may be before the meal is late; negative: the meal is late through it
    behind: Arc | None = None  # what holds its start, when that is not the plan's time


@dataclass(frozen=True, slots=True)
class DishOutlook:
    """When a dish will be ready and what that leaves."""

    dish: str
    ready: Moment
    ready_high: Moment
    served: Moment  # its course is eaten from then on
    eaten: Moment  # it must be ready by then: the same, or the end of its course's window
    is_ready: bool
    slip_ms: int  # how much later it may get; negative: late by that
    hold_left_ms: (
        int | None
    )  # of its longest hold, at the moment it is eaten (or now, if that is later); None: no limit


@dataclass(frozen=True, slots=True)
class Outlook:
    """The forecast from the facts. `margin_ms` is the time in hand before the meal is late; negative: late by that."""

    steps: Mapping[str, Foreseen]
    dishes: Mapping[str, DishOutlook]
    margin_ms: int
    tightest: str  # the dish with the least time in hand, "" when all are ready
    all_ready: bool


def outlook(cook: Cook, now: Moment) -> Outlook:
    """The forecast at `now`. Pure; the plan gives order and earliest starts, the facts everything else."""
    net = network_of(cook)
    tight = _forward(cook, net, now, give_way=True)
    latest = _latest_starts(cook, net, tight)
    steps = {
        step: _with_slip(seen, tight[step], latest.get(step), cook) for step, seen in _forward(cook, net, now).items()
    }
    dishes = {d.name: _dish(cook, d, steps, now) for d in cook.menu.dishes if _shown(cook, d, steps)}
    worst = _critical(cook, tight, latest)
    if worst is None:
        return Outlook(steps, dishes, max(0, cook.eat_at - now), "", all(d.is_ready for d in dishes.values()))
    step, margin = worst
    return Outlook(steps, dishes, margin, cook.menu.steps[step].dish, False)


def _critical(cook: Cook, tight: Mapping[str, Foreseen], latest: Mapping[str, Moment]) -> tuple[str, int] | None:
    """The first step of the path with the least float, and that float; None when nothing is left to do.

    The first of them is where something can still be done about it; those behind it are late only because it is.
    """
    floats = {
        step: latest[step] - seen.start
        for step, seen in tight.items()
        if step in latest and cook.lives[step].state is not StepState.ENDED
    }
    if not floats:
        return None
    step = min(floats, key=lambda s: (floats[s], tight[s].start, s))
    return step, floats[step]


def eating(cook: Cook, dish: Dish) -> tuple[Moment, Moment]:
    """From when a dish is eaten, and by when it must be ready: its course's moment, or the end of its window."""
    if dish.course is None:
        return cook.eat_at, cook.eat_at
    course = cook.menu.course_of(dish)
    last_s = course.eat_s if course.until_s is None else max(course.eat_s, course.until_s)
    return cook.eat_at + course.eat_s * MS, cook.eat_at + last_s * MS


def remaining(cook: Cook, step: Step, now: Moment) -> tuple[Moment, Moment, Moment]:
    """The low, likely and high end of a running step, none before `now`, with 'not yet' heeded."""
    life = cook.lives[step.id]
    guess = pull_guess(cook, step, life)
    ends, likely = ends_of(step, life), likely_end(step, life)
    if guess is not None:  # what the readings say, not what the menu hoped
        ends, likely = (guess.early, guess.late), guess.at
    low = max(now, ends[0], life.look_again or 0)
    high = max(low, ends[1])
    if likely < low:  # past its likely end: a third of what is left, as when 'not yet' is answered
        likely = low + (high - low) // 3
    return low, min(likely, high), high


def _forward(cook: Cook, net: Network, now: Moment, *, give_way: bool = False) -> dict[str, Foreseen]:
    """Earliest predicted times in the network's order; `give_way`: every elastic step at its shortest."""
    seen: dict[str, Foreseen] = {}
    for step in net.order:
        life = cook.lives[step.id]
        placed = net.placed.get(step.id)
        if life.state is StepState.ENDED and life.ended is not None:
            seen[step.id] = Foreseen(step.id, life.started or life.ended, life.ended, life.ended, life.ended)
        elif life.started is not None and life.state is StepState.RUNNING:
            low, likely, high = remaining(cook, step, now)
            if step.elastic:
                likely = low if give_way else _stretched(placed, low, likely, high)
            seen[step.id] = Foreseen(step.id, life.started, low, likely, high)
        else:
            seen[step.id] = _to_come(cook, net, step, seen, now, give_way=give_way)
    return seen


def _to_come(
    cook: Cook, net: Network, step: Step, seen: Mapping[str, Foreseen], now: Moment, *, give_way: bool
) -> Foreseen:
    """A step that has not begun: at its planned start or later, behind the latest of what it follows."""
    placed, span = net.placed.get(step.id), cook.span(step)
    start, behind = now, None
    for arc in net.before[step.id]:
        if arc.before in seen:
            other = seen[arc.before]
            free = (other.start if arc.from_start else other.end_likely) + arc.lag_ms
            if free > start:
                start, behind = free, arc
    if placed is not None and placed.start * MS >= start and not _follows_by_itself(cook, step):
        start, behind = placed.start * MS, None
    low, likely, high = (start + length * MS for length in (span.low, span.likely, span.high))
    if step.elastic:
        likely = low if give_way else _stretched(placed, low, likely, high)
    return Foreseen(step.id, start, low, likely, high, behind=behind)


def _follows_by_itself(cook: Cook, step: Step) -> bool:
    """True for what begins unattended once the step before it has ended, whatever the plan's time (a rest, a hold)."""
    if not step.links or step.work.attended_start:
        return False
    places = (cook.menu.place(use.place) for use in step.uses)
    heats = [cook.heats.get(place.name) for place in places if place is not None and place.heat is not None]
    return step.heat_c is None or all(heat is not None and agrees(step, heat.heat_c) for heat in heats)


def _stretched(placed: Placed | None, low: Moment, likely: Moment, high: Moment) -> Moment:
    """An elastic step ends when the plan has it end, as far as its range allows: it gives way before others slip."""
    return likely if placed is None else max(low, min(placed.end * MS, high))


def _latest_starts(cook: Cook, net: Network, tight: Mapping[str, Foreseen]) -> dict[str, Moment]:
    """Latest start per step that still has every dish ready when it is eaten, elastic steps at their shortest."""
    deadline = {step: eating(cook, dish)[1] for dish in cook.menu.dishes for step in dish.last_steps if step in tight}
    latest: dict[str, Moment] = {}
    for step in reversed(net.order):
        seen = tight[step.id]
        length = seen.end_likely - seen.start
        limits = [deadline[step.id] - length] if step.id in deadline else []
        for arc in net.after[step.id]:
            if arc.after in latest:
                limits.append(latest[arc.after] - arc.lag_ms - (0 if arc.from_start else length))
        if limits:
            latest[step.id] = min(limits)
    return latest


def _with_slip(seen: Foreseen, tight: Foreseen, latest: Moment | None, cook: Cook) -> Foreseen:
    """The predicted step with its float, cut to what a `within` behind a begun step allows."""
    slip = 0 if latest is None else latest - tight.start
    step = cook.menu.steps[seen.step]
    if cook.lives[step.id].started is None:
        limit = begin_by(cook, step)
        slip = slip if limit is None else min(slip, max(0, limit - tight.start))
    return Foreseen(seen.step, seen.start, seen.end_low, seen.end_likely, seen.end_high, slip, seen.behind)


def _shown(cook: Cook, dish: Dish, steps: Mapping[str, Foreseen]) -> bool:
    return dish.name not in cook.dropped and any(step.id in steps for step in dish.steps)


def _dish(cook: Cook, dish: Dish, steps: Mapping[str, Foreseen], now: Moment) -> DishOutlook:
    own = [steps[step.id] for step in dish.steps if step.id in steps]
    last = [steps[step] for step in dish.last_steps if step in steps] or own
    unended = [seen for seen in own if cook.lives[seen.step].state is not StepState.ENDED]
    ready, (served, eaten) = max(seen.end_likely for seen in last), eating(cook, dish)
    slips = [seen.slip_ms for seen in unended]
    hold = dish.hold_s * MS - (max(served, ready, now) - ready)
    return DishOutlook(
        dish=dish.name,
        ready=ready,
        ready_high=max(seen.end_high for seen in last),
        served=served,
        eaten=eaten,
        is_ready=not unended,
        slip_ms=min(slips, default=eaten - ready),
        hold_left_ms=hold if cook.menu.on_table(dish) else None,
    )
