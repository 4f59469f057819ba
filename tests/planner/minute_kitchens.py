"""Problems of a handful of steps, written by hand: minutes in, a Problem whose meal is at minute 0 out."""

from timerboard.core.plan import After, CueSlot, Goal, HandsChange, HandsPiece, Placed, PlaceRoom, Plan, Problem, Task
from timerboard.core.values import Span
from timerboard.planner.answer import answer

EAT = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC
M = 60
LONG_AGO = EAT - 14 * 86_400


def at(minute):
    """Minute 0 is the meal."""
    return EAT + minute * M


def step(name, takes, *, after=(), work=None, cues=(), most=None, **more):
    """`work`: "all", or (minutes at the start, minutes at the end). `after`: names or (name, wait, within)."""
    dish = name.partition("/")[0]
    pieces = []
    if work not in (None, "all"):
        start, end = work
        pieces += [HandsPiece(offset_s=0, length_s=start * M)] if start else []
        pieces += [HandsPiece(offset_s=end * M, length_s=end * M, from_end=True)] if end else []
    return Task(
        id=name,
        dish=dish,
        do=name.partition("/")[2],
        least_s=takes * M,
        most_s=(most or takes) * M,
        likely_s=takes * M,
        span=Span(low=takes * M, likely=takes * M, high=(most or takes) * M),
        elastic=most is not None,
        hands=tuple(pieces),
        throughout=work == "all",
        after=tuple(_after(a) for a in after),
        cues=tuple(_cue(*c) for c in cues),
        **more,
    )


def _after(link):
    if isinstance(link, str):
        return After(task=link)
    name, wait, within = link
    return After(task=name, wait_s=wait * M, within_s=None if within is None else within * M)


def _cue(name, offset, play, work, opens=()):
    return CueSlot(id=name, cue=name, offset_s=offset * M, play_s=play * M, work_s=work * M, opens=opens)


def oven(heat, *, parts=1, within=5.0):
    """What a step in the oven asks for."""
    return {"uses": (("oven", parts),), "heat_c": float(heat), "within_c": within}


OVEN = PlaceRoom(name="oven", room=2, heated=True, low_c=60, high_c=220, preheat_s=20 * M)
"""20 min from cold; 20 min * 60/200 = 6 min between 160 and 220 C."""


def kitchen(*tasks, holds=None, hold=60, pairs=1, places=(OVEN,), courses=None, **more):
    """A problem with a goal for each dish: its last steps are those that nothing of the dish follows."""
    followed = {a.task for t in tasks for a in t.after if a.task.partition("/")[0] == t.dish}
    goals = []
    for dish in dict.fromkeys(t.dish for t in tasks):
        last = tuple(t.id for t in tasks if t.dish == dish and t.id not in followed)
        stand = (holds or {}).get(dish, hold) * M
        eaten = at((courses or {}).get(dish, 0))
        goals.append(Goal(dish=dish, last=last, ready_from=eaten - stand, ready_by=eaten, hold_s=stand))
    hands = more.pop("hands", (HandsChange(at=LONG_AGO, pairs=pairs),))
    return Problem(tasks=tasks, places=places, goals=tuple(goals), hands=hands, eat_at=EAT, **more)


def planned(problem, **more) -> Plan:
    """The answer, which must be a plan proven best."""
    plan = answer(problem, **more)
    assert isinstance(plan, Plan), plan
    assert plan.status == "optimal"
    return plan


def minutes(plan, name):
    """(start, end) of a step in minutes from the meal."""
    placed = plan.of(name)
    assert isinstance(placed, Placed)
    return (placed.start - EAT) / M, (placed.end - EAT) / M
