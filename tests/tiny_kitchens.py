"""Tiny problems, one rule each: the meal is at 10,000 s, one pair of hands, times in seconds."""

from typing import Any

from timerboard.core.plan import (
    CueSlot,
    Goal,
    HandsChange,
    HandsPiece,
    Placed,
    PlacedCue,
    PlaceRoom,
    Plan,
    Problem,
    Status,
    Task,
)
from timerboard.core.values import Span

EAT = 10_000
OVEN = PlaceRoom(name="oven", room=2, heated=True, low_c=20, high_c=220, preheat_s=1200)
"""1200 s from cold; between two temperatures 6 s a degree (1200 s for the 200 degrees from 20 to 220)."""


def task(name: str, length: int, most: int | None = None, **more: Any) -> Task:
    """A step of a dish of its own, `length` seconds long; elastic when `most` is given."""
    most = length if most is None else most
    return Task(
        **{
            "id": name,
            "dish": f"dish of {name}",
            "do": name,
            "least_s": length,
            "most_s": most,
            "likely_s": length,
            "span": Span(low=length, likely=length, high=most),
            "elastic": most > length,
            **more,
        }
    )


def work(name: str, length: int, **more: Any) -> Task:
    """A step with hands throughout."""
    return task(name, length, throughout=True, **more)


def goal(*last: str, hold: int | None = None, by: int = EAT) -> Goal:
    """A dish that those steps make ready; `hold` None: nothing limits how early."""
    return Goal(
        dish=f"dish of {last[0]}",
        last=last,
        ready_from=None if hold is None else by - hold,
        ready_by=by,
        hold_s=hold or 0,
    )


def problem(*tasks: Task, pairs: int = 1, **more: Any) -> Problem:
    """All of it; every step that none follows is a goal unless `goals` are given."""
    followed = {link.task for t in tasks for link in t.after}
    return Problem(
        **{
            "tasks": tasks,
            "places": (),
            "goals": tuple(goal(t.id) for t in tasks if t.id not in followed),
            "hands": (HandsChange(at=-1_000_000, pairs=pairs),),
            "eat_at": EAT,
            **more,
        }
    )


def start(length: int, offset: int = 0) -> HandsPiece:
    """Hands at the start of a step."""
    return HandsPiece(offset_s=offset, length_s=length)


def finish(length: int) -> HandsPiece:
    """Hands for the last seconds of a step."""
    return HandsPiece(offset_s=length, length_s=length, from_end=True)


def cue(name: str, at: int, play: int = 0, work_s: int = 0, opens: tuple[str, ...] = ()) -> CueSlot:
    """A cue that falls due `at` seconds into its step."""
    return CueSlot(id=name, cue=name, offset_s=at, play_s=play, work_s=work_s, opens=opens)


def plan(asked: Problem, *, late: int = 0, cues: dict[tuple[str, str], int] | None = None, **at: Any) -> Plan:
    """A plan: for each step (start, end) or (start, end, person). Person 1 does what needs hands unless told."""
    tasks = {t.id: t for t in asked.tasks}
    placed = tuple(_placed(tasks.get(name), name, *moments) for name, moments in at.items())
    moments = {(t.id, s.id): p.start + s.offset_s for p in placed if (t := tasks.get(p.id)) for s in t.cues}
    moments |= cues or {}
    return Plan(
        status=Status.FEASIBLE,
        eat_at=asked.eat_at,
        placed=placed,
        cues=tuple(PlacedCue(step=s, id=c, cue=c, at=at_) for (s, c), at_ in moments.items()),
        late_s=late,
    )


def _placed(of: Task | None, name: str, begins: int, ends: int, person: int | None = None) -> Placed:
    busy = of is not None and (of.throughout or of.attend or bool(of.hands) or any(c.work_s for c in of.cues))
    return Placed(id=name, start=begins, end=ends, person=person if person is not None else 1 if busy else None)
