"""A whole plan at once: good enough to start from, and there when the solver is not.

Many backward passes (`backward.py`), each with another idea of what to put first; a dish that finds no place goes first
in the next pass (squeaky wheel optimisation: Joslin and Clements 1999, J. Artif. Intell. Res. 10: 353-373). The best
by the planner's own aims is returned: on time, then holds, then oven changes, then the latest start.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from timerboard.core.check_places import heating_s
from timerboard.core.check_plan import broken_rules
from timerboard.core.heat_settings import heat_settings
from timerboard.core.lenience import is_fact
from timerboard.core.persons import with_persons
from timerboard.core.plan import Placed, PlacedCue, Plan, Problem, Status, Task
from timerboard.core.question import LONGEST_PLAN_S
from timerboard.core.values import Seconds

from .backward import Known, Pass, known_of

ENOUGH = 4
"""Whole plans to choose from before the search ends; fewer of more than a hundred steps, so that they too come soon."""

MANY = 400
"""Steps in the plans to choose from, in all."""

FEW_PASSES = 8
"""Passes after which one whole plan is enough."""

MOST_REPAIRS = 12
"""How often one idea is begun again with something started earlier."""

MOST_PASSES = 40
"""Ideas before one moment of the meal is given up."""

PROBES = 5
"""Ideas tried for each of the many moments of a meal that may move."""

BUDGET = 9_000
"""Steps put in all passes, those begun again included: some tenths of a second at most, when nothing fits."""

ROOMS = (3_600, 6 * 3_600, 1_800, 10 * 3_600, 7_200)
"""How much room to move is told apart: an hour for what is short, ten where much may be made hours ahead only."""

FARTHEST_S = 2 * 86_400
"""How much later than asked a meal is looked for."""

COARSE_S = 900
"""How closely windows between closed hours are looked for."""

FINE_S = 60
"""A late meal is found to the minute."""


def first_plan(problem: Problem, *, ideas: int = MOST_PASSES) -> Plan | None:
    """A plan that keeps every rule, in some tens of milliseconds for 60 steps; None when none was found.

    None is no proof that there is none; `ideas` is how many are tried before a fixed meal is given up. With `late_ok`
    or `soonest` the meal moves as little, or comes as early, as this search can tell to the minute.
    """
    known = known_of(problem)
    order = _in_order(known)
    if order is None:
        return None
    _heads(known, order)
    if problem.soonest and _is_free(problem):
        return _checked(problem, _slid(known))
    if problem.soonest or problem.late_ok:
        return _checked(problem, _moved(known))
    enough = max(1, min(ENOUGH, MANY // max(1, len(order))))
    return _checked(problem, _best(known, 0, enough=enough, most=ideas))


def _checked(problem: Problem, plan: Plan | None) -> Plan | None:
    """What the checker does not pass is no plan."""
    return plan if plan is not None and not broken_rules(problem, plan) else None


@dataclass
class _Wheel:
    """What the next pass puts first: weights drawn anew each time, and dishes that squeaked before."""

    known: Known
    dice: Random = field(default_factory=lambda: Random(20))  # the same plan every time
    squeaks: Counter[str] = field(default_factory=Counter)
    tries: int = 0
    left: int = 1
    shift: Seconds = 0

    def rank(self, task: Task, end_by: Seconds, end_from: Seconds) -> float:
        """Late ends first, little room to move first, long chains first; by how much is another matter each time."""
        ahead = self.known.aheads.get(task.id)
        if ahead is not None:
            end_from = max(end_from, ahead + self.shift + task.least_s)
        room = min(end_by - end_from, self.most_room)
        return (
            end_by
            - self.tightness * room
            + self.squeak * self.squeaks[task.dish]
            + self.length * self.known.work_before[task.id]
            + self.noise.get(task.dish, 0.0)
        )

    tightness: float = 1.0
    most_room: Seconds = ROOMS[0]
    squeak: float = 600.0
    length: float = 0.0
    noise: dict[str, float] = field(default_factory=dict)

    def turn(self) -> None:
        """Another idea for the next pass."""
        self.tries += 1
        self.length = (0.0, 0.02, 0.1, 0.0, 0.05)[self.tries % 5]
        self.tightness = (1.0, 0.5, 0.75)[self.tries % 3]
        self.most_room = ROOMS[self.tries % len(ROOMS)]
        spread = 120.0 * (self.tries % 7)
        self.noise = {goal.dish: self.dice.uniform(0, spread) for goal in self.known.problem.goals}


def _best(
    known: Known, shift: Seconds, floor: Seconds | None = None, enough: int = ENOUGH, most: int = MOST_PASSES
) -> Plan | None:
    """The best of several passes for a meal moved by `shift`."""
    left = max(2, min(BUDGET // max(1, len(known.tasks)), 5 * most))
    wheel, plans = _Wheel(known, left=left, shift=shift), list[Plan]()
    while wheel.left > 0 and wheel.tries < most and len(plans) < enough and not (plans and wheel.tries >= FEW_PASSES):
        one = _pass(wheel, shift, floor)
        if one.stuck:
            wheel.squeaks[one.stuck] += 1
        elif (plan := _plan(known.problem, one, shift)) is not None:
            plans.append(plan)
        wheel.turn()
    return min(plans, key=lambda plan: _cost(known.problem, plan), default=None)


def _pass(wheel: _Wheel, shift: Seconds, floor: Seconds | None) -> Pass:
    """One idea, begun again while a step that found no place only needs another to start earlier."""
    start_by: dict[str, Seconds] = {}
    for _ in range(MOST_REPAIRS):
        one = Pass(wheel.known, shift, floor, wheel.rank, start_by, by_person=wheel.tries % 2 == 1)
        wheel.left -= 1
        if one.run() or not one.in_the_way or wheel.left <= 0:
            break
        start_by |= one.in_the_way
    return one


def _cost(problem: Problem, plan: Plan) -> tuple[float, ...]:
    """The planner's aims in their order."""
    if problem.soonest:
        return (plan.span_s, plan.eat_at)
    held = 0.0
    for goal in problem.goals:
        if goal.ready_from is not None and goal.last:
            ready = max(plan.by_id[i].end for i in goal.last)
            wait = goal.ready_from + goal.hold_s + plan.late_s - ready
            held += max(0.0, wait / max(1, goal.hold_s) - 0.25)
    return (plan.late_s, round(held, 2), len(plan.settings), -plan.starts_at)


def _plan(problem: Problem, one: Pass, shift: Seconds) -> Plan | None:
    placed = [
        Placed(id=t.id, start=fit.start, end=fit.end, places=tuple(name for name, _ in t.uses))
        for t in problem.tasks
        for fit in (one.fits[t.id],)
    ]
    cues = tuple(
        PlacedCue(step=t.id, id=slot.id, cue=slot.cue, at=one.fits[t.id].cues[slot.id])
        for t in problem.tasks
        for slot in t.cues
    )
    return _plan_of(problem, placed, cues, shift)


def _plan_of(problem: Problem, placed: list[Placed], cues: tuple[PlacedCue, ...], shift: Seconds) -> Plan | None:
    peopled = with_persons(problem, placed, cues)
    if peopled is None:
        return None
    ends = {p.id: p.end for p in placed}
    late = max((max(ends[i] for i in g.last) - g.ready_by for g in problem.goals if g.last), default=0)
    return Plan(
        status=Status.FEASIBLE,
        eat_at=problem.eat_at + (shift if problem.soonest else 0),
        placed=peopled,
        cues=cues,
        settings=heat_settings(problem, peopled),
        late_s=max(0, late) if problem.late_ok and not problem.soonest else 0,
    )


def _in_order(known: Known) -> list[Task] | None:
    """Every step after all it follows; None when they go in a circle."""
    left = {t.id: sum(link.task in known.tasks for link in t.after) for t in known.problem.tasks}
    ready = [t for t in known.problem.tasks if left[t.id] == 0]
    for task in ready:
        for follower, _, _ in known.followers[task.id]:
            left[follower.id] -= 1
            if left[follower.id] == 0:
                ready.append(follower)
    return ready if len(ready) == len(known.tasks) else None


def _heads(known: Known, order: list[Task]) -> None:
    """How early each step could begin if nothing but order, heating up and the present stood in its way."""
    problem = known.problem
    for task in order:
        if task.started is not None:
            known.heads[task.id] = task.started
            known.work_before[task.id] = 0
            continue
        befores = [(known.tasks[link.task], link.wait_s) for link in task.after if link.task in known.tasks]
        starts = [known.heads[b.id] + _least_length(b) + wait for b, wait in befores]
        starts.append(problem.eat_at - LONGEST_PLAN_S)
        if problem.not_before is not None:
            starts.append(problem.not_before + _heating(problem, task))
        known.heads[task.id] = max(starts)
        known.work_before[task.id] = task.least_s + max(
            (known.work_before[b.id] + wait for b, wait in befores), default=0
        )
        aheads = [known.aheads[b.id] + _least_length(b) + wait for b, wait in befores if b.id in known.aheads]
        aheads += [task.earliest] if task.earliest is not None else []
        if aheads:
            known.aheads[task.id] = max(aheads)


def _least_length(task: Task) -> Seconds:
    return task.ended - task.started if task.ended is not None and task.started is not None else task.least_s


def _heating(problem: Problem, task: Task) -> Seconds:
    """The time a cold place asks for before this step, unless something that suits it is inside already."""
    rooms = [p for p in problem.places if p.heated and any(name == p.name for name, _ in task.uses)]
    return max((heating_s(place, task) for place in rooms), default=0)


def _is_free(problem: Problem) -> bool:
    """True when the whole plan can slide along the axis: no calendar, no facts, the same hands all day."""
    steady = len({change.pairs for change in problem.hands}) <= 1
    return steady and not problem.closed and not any(is_fact(t) for t in problem.tasks)


def _slid(known: Known) -> Plan | None:
    """As early as can be: the shortest plan, slid so that it begins when it may."""
    problem = known.problem
    plan = _best(known, 0, problem.eat_at - 10 * LONGEST_PLAN_S)
    if plan is None or problem.not_before is None or not plan.placed:
        return plan
    tasks = known.tasks
    by = max(problem.not_before + _heating(problem, tasks[p.id]) - p.start for p in plan.placed)
    placed = [p.model_copy(update={"start": p.start + by, "end": p.end + by}) for p in plan.placed]
    cues = tuple(c.model_copy(update={"at": c.at + by}) for c in plan.cues)
    return _plan_of(problem, placed, cues, plan.eat_at - problem.eat_at + by)


def _moved(known: Known) -> Plan | None:
    """The least move of the meal that some pass can keep: doubled until one does, then halved back."""
    good = None
    shifts = _shifts(known)
    low = next(shifts)
    for shift in (low, *shifts):
        good = _best(known, shift, enough=1, most=PROBES)
        if good is not None:
            break
        low = shift
    else:
        return None
    high = shift
    while high - low > FINE_S:
        middle = low + (high - low) // (2 * FINE_S) * FINE_S if high - low >= 2 * FINE_S else low
        if middle <= low:
            break
        found = _best(known, middle, enough=1, most=PROBES)
        good, high, low = (found, middle, low) if found is not None else (good, high, middle)
    return _best(known, high) or good


def _least_shift(known: Known) -> Seconds:
    """No plan can have the meal moved by less: order alone asks for it."""
    ready = [known.heads[i] + _least_length(known.tasks[i]) - g.ready_by for g in known.problem.goals for i in g.last]
    least = max(ready, default=0)
    return least if known.problem.soonest else max(0, least)


def _shifts(known: Known) -> Iterator[Seconds]:
    """The least, then a minute more, two, four, and so on.

    Closed hours leave windows for a meal that doubling steps over: it is tried on the dot of closing, and every quarter
    of an hour.
    """
    least, step = _least_shift(known), FINE_S
    yield least
    while step <= FARTHEST_S:
        yield least + step
        step *= 2
    closed = known.problem.closed
    last = max((g.ready_by for g in known.problem.goals), default=known.problem.eat_at)
    yield from (s.start - last for s in closed if least < s.start - last < least + FARTHEST_S)
    yield from (least + at for at in range(COARSE_S, FARTHEST_S, COARSE_S) if closed)
