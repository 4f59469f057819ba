"""Every plan of a tiny kitchen on a grid of five minutes, by counting them out: nothing shared with the planner.

Rules are those of the checker (`core/check_plan.py`), persons those of `core/persons.py`; starts, lengths and the
moments of cues are enumerated, so the least lateness and the least lost in holds are known by looking at all.
"""

from collections.abc import Iterator
from itertools import product
from random import Random

from tests.planner.minute_kitchens import EAT, LONG_AGO, OVEN, M, at, kitchen, oven, step
from timerboard.core.check_plan import broken_rules
from timerboard.core.persons import with_persons
from timerboard.core.plan import HandsChange, Placed, PlacedCue, PlaceRoom, Plan, Problem, Status, Stretch, Task

GRID = 5
FARTHEST = 95  # minutes before the meal that starts are enumerated from
STOVE = OVEN.model_copy(update={"preheat_s": 1000})
"""5 min for the 60 degrees between 160 and 220: changes lie on the grid."""

Spots = dict[str, tuple[int, int]]


def kitchen_of(seed: int) -> Problem:
    """One to three dishes of up to four steps in all, every kind of rule now and then."""
    dice = Random(seed)
    tasks: list[Task] = []
    two, holds = dice.random() < 0.5, {}
    for dish in range(dice.randint(1, 3)):
        before: list[str] = []
        for n in range(dice.randint(1, 3)):
            if len(tasks) < 4:
                tasks.append(_step(dice, f"D{dish}/S{n}", before, two=two))
                before.append(f"D{dish}/S{n}")
        holds[f"D{dish}"] = dice.choice([0, GRID, 2 * GRID, 6 * GRID])
    more = {}
    if dice.random() < 0.3:
        more["closed"] = (Stretch(start=at(-5 * GRID), end=at(-3 * GRID)),)
    if two and dice.random() < 0.5:
        second = HandsChange(at=at(-GRID * dice.randint(1, 6)), pairs=2)
        more["hands"] = (HandsChange(at=LONG_AGO, pairs=1), second)
    places, courses = (STOVE, PlaceRoom(name="hob", room=1)), {"D0": dice.choice([0, 0, -GRID])}
    return kitchen(*tasks, holds=holds, pairs=2 if two else 1, places=places, courses=courses, **more)


def _step(dice: Random, name: str, before: list[str], *, two: bool) -> Task:
    takes, more = GRID * dice.randint(1, 4), {}
    kind = dice.choice(["work", "oven", "oven", "hob", "oil", "rest", "ends"])
    if kind == "work":
        more = {"work": "all", "person": dice.choice([None, None, 1, 2 if two else 1])}
    elif kind == "oven":
        more = {
            **oven(dice.choice([160, 168, 220]), parts=dice.choice([1, 1, 2])),
            "shut_s": dice.choice([0, GRID * M]),
        }
        if takes > 2 * GRID:
            more["cues"] = [("turn", GRID, dice.choice([0, GRID]), dice.choice([0, GRID]), ("oven",))]
    elif kind == "rest":
        more = {"most": takes + GRID * dice.randint(1, 2)}
    elif kind == "ends":
        takes, more = max(takes, 2 * GRID), {"work": (dice.choice([0, GRID]), dice.choice([0, GRID]))}
    else:
        more = {"uses": (("hob", 1),), "live_heat": True, "attend": kind == "oil"}
    if dice.random() < 0.15:
        more["earliest"] = at(-GRID * dice.randint(4, 10))
    wait = dice.choice([0, 0, GRID])
    within = dice.choice([None, None, wait, wait + GRID])
    made = step(name, takes, after=[(b, wait, within) for b in before[-dice.choice([1, 1, 2]) :]], **more)
    if len(made.after) < 2 or dice.random() < 0.5 or within is None:
        return made
    after = tuple(a.model_copy(update={"within_s": None}) for a in made.after)
    return made.model_copy(update={"within_s": within * M, "after": after})


def least_loss(problem: Problem) -> int | None:
    """Hundredths of holds lost beyond their first quarters in the best of all plans; None when no plan is one."""
    best = None
    for spots in _spots(problem, 0, {}):
        lost = _lost(problem, spots)
        if lost is not None and (best is None or lost < best) and any(map(_keeps(problem), _plans(problem, spots))):
            best = lost
    return best


def lost_in(problem, plan: Plan) -> int:
    """Hundredths of holds beyond their first quarters, as the aims say it."""
    lost = 0
    for goal in problem.goals:
        wait = goal.ready_by - max(plan.by_id[i].end for i in goal.last)
        lost += max(0, -(-100 * (wait - goal.hold_s / 4) // goal.hold_s)) if goal.hold_s else 0
    return int(lost)


def _spots(problem: Problem, n: int, spots: Spots) -> Iterator[Spots]:
    if n == len(problem.tasks):
        yield spots
        return
    task = problem.tasks[n]
    for length in range(task.least_s // M, task.most_s // M + 1, GRID):
        for start in range(-FARTHEST, 1 - length, GRID):
            gaps = [(start - spots[a.task][1], a) for a in task.after]
            if all(gap * M >= a.wait_s and (a.within_s is None or gap * M <= a.within_s) for gap, a in gaps):
                yield from _spots(problem, n + 1, {**spots, task.id: (start, start + length)})


def _lost(problem: Problem, spots: Spots) -> int | None:
    lost = 0
    for goal in problem.goals:
        ready = EAT + M * max(spots[i][1] for i in goal.last)
        wait = goal.ready_by - ready
        if not 0 <= wait <= goal.hold_s:
            return None
        lost += max(0, -(-100 * (wait - goal.hold_s / 4) // goal.hold_s)) if goal.hold_s else 0
    return int(lost)


def _plans(problem: Problem, spots: Spots) -> Iterator[Plan]:
    """The plans with those steps: cues early, due or late, and somebody for every job."""
    slots = [(task.id, slot) for task in problem.tasks for slot in task.cues]
    moments = [[at(spots[i][0]) + s.offset_s + by for by in {-s.play_s, 0, s.play_s}] for i, s in slots]
    placed = [Placed(id=i, start=at(start), end=at(end)) for i, (start, end) in spots.items()]
    for chosen in product(*moments):
        cues = tuple(PlacedCue(step=i, id=s.id, cue=s.cue, at=t) for (i, s), t in zip(slots, chosen, strict=True))
        if (who := with_persons(problem, placed, cues)) is not None:
            yield Plan(status=Status.FEASIBLE, eat_at=problem.eat_at, placed=who, cues=cues)


def _keeps(problem: Problem):
    return lambda plan: not broken_rules(problem, plan)
