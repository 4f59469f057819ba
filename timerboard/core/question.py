"""From a menu, or from a cook that is going on, to the question that a planner answers.

The axis is seconds of Unix time; for a running cook seconds of its kitchen clock (see `values.Moment`).
"""

from .calendar_stretches import closed_stretches
from .cook import Cook, StepState, cores_read
from .cue_slots import cue_slots_left
from .due import reads
from .hands_by_time import hands_of, hands_of_cook
from .menu import Dish, Menu, Place, Step
from .outlook import remaining
from .plan import LONGEST_PLAN_S, Goal, PlaceRoom, Problem, Stretch, Task
from .survey import Survey
from .tasks import task_of
from .values import MS, Moment, Seconds, Span

LEAST_READINGS = 2
"""A line goes through two readings; of one nothing can be said until it has been fitted."""

LATER_S = 2 * 86_400
"""How far after the meal closed hours are worked out: further than any meal gets late."""


def question(
    menu: Menu, eat_at: Seconds, zone: str, *, not_before: Seconds | None = None, soonest: bool = False
) -> Problem:
    """The question before a cook: when does everything start, if we eat at `eat_at` (Unix seconds)?

    `zone` is the IANA name that closed hours are read in. `soonest`: eat as early as a start at `not_before` (or, when
    that is not given, at `eat_at`) allows; the goals then move with the meal.
    """
    if soonest and not_before is None:
        not_before = eat_at
    survey = Survey(menu)
    latest = max(eat_at, not_before or eat_at) + (LONGEST_PLAN_S if soonest else LATER_S)
    earliest = min(eat_at - LONGEST_PLAN_S, not_before or eat_at)
    return Problem(
        tasks=tuple(task_of(survey, step, eat_at) for step in menu.steps.values()),
        places=tuple(_room(place) for place in menu.places),
        goals=tuple(_goal(menu, dish, eat_at) for dish in menu.dishes),
        hands=hands_of(menu, eat_at),
        closed=closed_stretches(menu.closed, zone, earliest, latest),
        eat_at=eat_at,
        not_before=not_before,
        soonest=soonest,
        zone=zone,
        units=menu.units,
        in_hand_s=0 if soonest else menu.in_hand_s,
    )


def question_of_cook(cook: Cook, now: Moment) -> Problem:
    """The question while cooking: what has begun is a fact, dropped dishes are out, and late is better than never."""
    menu = _menu_now(cook)
    eat_at, now_s, offset = cook.eat_at // MS, -(-now // MS), cook.offset_ms // MS
    base, survey = min(now_s, eat_at), Survey(menu)
    closed = closed_stretches(menu.closed, cook.zone, base + offset, max(now_s, eat_at) + offset + LATER_S)
    return Problem(
        tasks=tuple(_task_now(cook, survey, step, now) for step in menu.steps.values()),
        places=tuple(_room_now(cook, place, now_s) for place in menu.places),
        goals=tuple(_goal(menu, dish, eat_at) for dish in menu.dishes if not _eaten(cook, dish)),
        hands=hands_of_cook(cook),
        closed=tuple(Stretch(start=s.start - offset, end=s.end - offset) for s in closed),
        eat_at=eat_at,
        not_before=now_s,
        late_ok=True,
        zone=cook.zone,
        units=menu.units,
        in_hand_s=0 if cook.begun else menu.in_hand_s,  # later it is there to be used up
    )


def _room(place: Place) -> PlaceRoom:
    if place.heat is None:
        return PlaceRoom(name=place.name, room=place.room)
    heat = place.heat
    return PlaceRoom(
        name=place.name,
        room=place.room,
        heated=True,
        low_c=heat.low_c,
        high_c=heat.high_c,
        preheat_s=heat.preheat_s,
    )


def _goal(menu: Menu, dish: Dish, eat_at: Seconds) -> Goal:
    course = menu.course_of(dish)
    eat = eat_at + course.eat_s
    return Goal(
        dish=dish.name,
        last=dish.last_steps,
        ready_from=eat - dish.hold_s if menu.on_table(dish) else None,
        ready_by=eat_at + (course.eat_s if course.until_s is None else course.until_s),
        hold_s=dish.hold_s,
    )


def _menu_now(cook: Cook) -> Menu:
    """The menu as far as it is still cooked: no dropped dish, no link to one, lengths as revised."""
    kept = [d for d in cook.menu.dishes if d.name not in cook.dropped]
    ids = {s.id for d in kept for s in d.steps}
    dishes = tuple(d.model_copy(update={"steps": tuple(_step_now(cook, s, ids) for s in d.steps)}) for d in kept)
    return cook.menu.model_copy(update={"dishes": dishes})


def _step_now(cook: Cook, step: Step, ids: set[str]) -> Step:
    links = tuple(link for link in step.links if link.step in ids)
    return step.model_copy(update={"links": links, "span": cook.span(step)})


def _eaten(cook: Cook, dish: Dish) -> bool:
    """Every step has ended: its goal is no longer a question."""
    return all(cook.lives[s.id].state is StepState.ENDED for s in dish.steps)


def _task_now(cook: Cook, survey: Survey, step: Step, now: Moment) -> Task:
    """A step as it stands. What has begun follows nothing any more: it did begin."""
    task, life = task_of(survey, step, cook.eat_at // MS), cook.lives[step.id]
    begun: dict[str, object] = {"after": (), "within_s": None, "earliest": None}
    if life.state is StepState.ENDED and life.ended is not None:
        ended = life.ended // MS
        started = min(ended, (life.started if life.started is not None else life.ended) // MS)
        took = ended - started
        facts = {"started": started, "ended": ended, "least_s": took, "most_s": took, "cues": (), "hands": ()}
        return task.model_copy(update={**begun, **facts})
    if life.state is not StepState.RUNNING or life.started is None:
        return task
    least, most = _length_now(task, step, life.started, life.look_again, now)
    cues = cue_slots_left(survey, step, life, least, now)
    facts = {"started": life.started // MS, "least_s": least, "most_s": most, "cues": cues}
    read = _as_read(cook, step, now)
    if read is not None:
        facts |= {"least_s": read.likely, "most_s": read.likely, "span": read}
    return task.model_copy(update={**begun, **facts})


def _as_read(cook: Cook, step: Step, now: Moment) -> Span | None:
    """How long a step takes in all by the readings of its core; None while they say nothing of it."""
    life = cook.lives[step.id]
    if life.started is None or not reads(step) or (life.fit is None and cores_read(life) < LEAST_READINGS):
        return None
    gone = -(-now // MS) - life.started // MS
    low, likely, high = (max(gone, m // MS - life.started // MS) for m in remaining(cook, step, now))
    likely = max(likely, gone + step.work.end_s)
    return Span(low=min(low, likely), likely=likely, high=max(high, likely))


def _length_now(
    task: Task, step: Step, started: Moment, look_again: Moment | None, now: Moment
) -> tuple[Seconds, Seconds]:
    """Least and most length of a running step: never over before now, and the hands at its end still to come."""
    gone = -(-now // MS) - started // MS
    soonest = gone + (0 if task.throughout else step.work.end_s)
    if task.elastic:
        least = max(task.least_s, soonest)
        return least, max(task.most_s, least)
    length = task.least_s if gone < task.least_s else _still(step.span, gone)
    if look_again is not None:
        length = max(length, -(-look_again // MS) - started // MS)
    return max(length, soonest), max(length, soonest)


def _still(span: Span, gone: Seconds) -> Seconds:
    """Past its planned length: two thirds of what is left to the high end, as for any range; past that, now."""
    return gone + round((span.high - gone) * 2 / 3) if gone < span.high else gone


def _room_now(cook: Cook, place: Place, now_s: Seconds) -> PlaceRoom:
    """A place with the temperature it has come to: on its way up in proportion until somebody saw that it was hot."""
    room, set_to = _room(place), cook.heats.get(place.name)
    if place.heat is None:
        return room
    if set_to is None:
        return room.model_copy(update={"now_c": _heat_inside(cook, place.name)})
    left = room.preheat_s - (now_s - set_to.set_at // MS) if set_to.hot_at is None else 0
    if left <= 0:
        return room.model_copy(update={"now_c": set_to.heat_c})
    way = max(1.0, room.high_c - 20.0) * left / max(1, room.preheat_s)
    return room.model_copy(update={"now_c": max(20.0, set_to.heat_c - way)})


def _heat_inside(cook: Cook, place: str) -> float | None:
    """What a place nobody told us about must be at: the heat of what is cooking in it; None when nothing is."""
    running = (s for s in cook.menu.steps.values() if cook.lives[s.id].state is StepState.RUNNING)
    return next((s.heat_c for s in running if s.heat_c is not None and any(u.place == place for u in s.uses)), None)


__all__ = ["LATER_S", "LONGEST_PLAN_S", "question", "question_of_cook"]
