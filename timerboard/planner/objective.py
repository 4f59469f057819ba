"""What a plan aims for, in this order; each aim is a stage of its own, so that none is ever traded for a later one.

1. On time. A meal is late by the most that any dish is ready after its course may still be eaten (`ready_by`), in the
   axis's ticks (`axis.py`). It may only be late while cooking; `soonest` makes this as early as can be instead.
2. Limits (only while cooking): seconds by which what has begun is forced to stand longer than its hold, or to wait
   longer than a `within`, in all.
3. Holds: for every dish the part of its hold that it stands ready before the meal (a window: before it begins) beyond
   the first quarter, in hundredths rounded up, in all.
4. Oven changes: stretches of one temperature beyond the first, in every heated place. Two steps are in one stretch
   when nothing that agrees with neither comes between them: exact where agreeing is transitive.
5. Hands: calls (starts of jobs and cues with work) above ten in the busiest ten minutes, plus what jobs that end in the
   last hour before the meal take above 70 % of it, in hundredths of an hour rounded up; a job counts whole.
6. The latest first start, to five minutes where the work takes an hour or more.

A plan is OPTIMAL when every one of these was proven as it is stated here, on the axis's grid; else FEASIBLE. While
cooking a cook waits: what follows 3 is the least change to the plan at hand (minutes that starts are moved by, in all),
then 4 and 5, each aim bettered for a moment only: such an answer is OPTIMAL only where those moments were enough.
Last, as neatness that no cook asked for and no status speaks of: every step as late as all that allows.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

from timerboard.core.check_places import agree
from timerboard.core.lenience import is_fact
from timerboard.core.plan import Goal, Plan, Task

from .energy import before_last_hour, least_span
from .hands import Job, begin_of, jobs_of, least_size
from .heat import heated_tasks
from .variables import Expr, Model, Sketch

CALLS_WINDOW_S = 600
CALLS_IN_WINDOW = 10
"""At most 10 calls on hands in 10 minutes: the alarm rate a person can follow (ISA-18.2 and EEMUA 191 say the same)."""

LAST_HOUR_S = 3600
LAST_HOUR_SHARE = 0.7
"""The last hour before the meal is planned at 70 % of the hands there are. Common practice, no source."""

BEST_SHARE = 4
"""The first quarter of a hold costs nothing: a dish is at its best within about that part. Common practice."""


FIRST_TO_S = 300
"""The first start counts to five minutes once a meal takes an hour: nobody begins at 14:07 rather than at 14:05."""


BY_CORES = ("no_lp", "core")
"""For sums of many small losses: measured 3-30 times faster to proof than with linear relaxations."""

BY_BOUNDS = ("no_lp", "objective_lb_search_no_lp")
"""For one moment to be made early: measured twice as fast on job shops as the usual mix."""


WHILE_COOKING_S = {
    "on time": 1.5,
    "limits": 0.3,
    "holds": 0.25,
    "least change": 0.08,
    "oven changes": 0.05,
    "hands": 0.03,
}
"""What each aim may take while a cook stands there and waits."""

UNTIL_S = {"least change": 0.15}
"""... and more where the aims before it left so much of the time since the question."""

NEATNESS_S = 0.25
"""What neatness may take where nobody waits for it."""


@dataclass(frozen=True)
class Stage:
    """One aim: an expression to make least, and a value it can never be below (None: nothing is known)."""

    name: str
    terms: tuple[tuple[int, Any], ...]  # (factor, variable)
    constant: int = 0
    floor: int | None = 0
    at_most_s: float | None = None  # bettered for so long and no longer: a cook waits, or nobody does
    until_s: float = 0.0  # ... or until so long after the question, if that is later
    aim: bool = True  # False: neatness that no cook asked for; whether it is proven says nothing about the plan
    search: tuple[str, ...] = ()  # the solver's own names of what proves such an aim soonest; (): its usual mix
    at_best: int | None = None  # what it cannot be below once every aim before it is at its floor
    ticks: int = 0  # how many ticks of time one of it is; 0: it counts something else

    @property
    def cost(self) -> Expr:
        """What is to be made least, for the solver."""
        return sum(factor * variable for factor, variable in self.terms) + self.constant

    def of(self, model: Model, sketch: Sketch) -> int:
        """What the cost of a plan is."""
        return sum(f * model.values[v.index][1](sketch) for f, v in self.terms) + self.constant


Terms = list[Any]


def _stage(name: str, terms: Terms, constant: int = 0, floor: int | None = 0) -> Stage:
    return Stage(name, tuple((1, t) for t in terms), constant, floor)


def stages(model: Model, near: Plan | None = None) -> list[Stage]:
    """The aims in their order. `near` is the plan being cooked: what has not begun should stay where it was."""
    problem = model.problem
    out = []
    if problem.soonest or problem.late_ok:
        lateness = _stage("on time", [model.later], floor=_no_sooner(model) if problem.soonest else 0)
        out.append(replace(lateness, search=BY_BOUNDS, ticks=1))
    out.append(replace(_stage("limits", model.over_limits), search=BY_CORES, ticks=1))
    out.append(replace(_stage("holds", _holds(model)), search=BY_CORES))
    if near is not None:
        out += [replace(_stage("least change", _moved(model, near)), search=BY_CORES)]
        out += [_oven_changes(model), _hands(model)]
        return [replace(s, at_most_s=WHILE_COOKING_S[s.name], until_s=UNTIL_S.get(s.name, 0.0)) for s in out if s.terms]
    out += [_oven_changes(model), _hands(model)]
    if not problem.soonest:
        out += [_first_start(model), _close_to_the_meal(model)]
    return [s for s in out if s.terms]


def _no_sooner(model: Model) -> int | None:
    """The last course cannot be eaten before the work that must come before it fits; None: nothing says so."""
    if not model.problem.goals or model.problem.not_before is None:
        return None
    last = max(model.axis.point(g.ready_by) for g in model.problem.goals)
    soonest = model.axis.point(model.problem.not_before) + least_span(model) - last
    model.cp.add(model.later >= soonest)
    return soonest


def _holds(model: Model) -> Terms:
    """Per dish: the part of its hold used up beyond the first quarter, in hundredths."""
    return [
        _loss(model, goal)
        for goal in model.problem.goals
        if goal.ready_from is not None
        and goal.hold_s > 0
        and goal.dish in model.ready
        and model.axis.length(goal.hold_s) // BEST_SHARE < model.high - model.low
    ]


def _loss(model: Model, goal: Goal) -> Expr:
    hold = max(1, model.axis.length(goal.hold_s))
    by = model.axis.point((goal.ready_from or 0) + goal.hold_s)  # a window's beginning; else when it must be ready
    free = hold // BEST_SHARE
    ends = [t for t in goal.last if t in model.spans]

    def value(sketch: Sketch) -> int:
        wait = by + sketch.later - max(sketch.end[t] for t in ends)
        return max(0, -(-100 * (wait - free) // hold))

    most = 100 * (1 + (model.high - model.low) // hold)
    loss = model.integer(0, most, f"{goal.dish} loses", value)
    model.cp.add(hold * loss >= 100 * (by + model.later - model.ready[goal.dish] - free))
    return loss


def _oven_changes(model: Model) -> Stage:
    """Phases of one temperature beyond the first, per place; and how few there can be.

    Two steps that agree are in one phase when nothing that disagrees with both comes between them; a phase is counted
    at its first step in the menu's order. Exact when agreeing is transitive, as it is for steps in groups of one heat.
    """
    terms: Terms = []
    known, fewest = 0, 0
    for place in model.problem.places:
        tasks = [t for t in heated_tasks(model.problem, place) if t.ended is None] if place.heated else []
        if all(agree(a, b) for a, b in combinations(tasks, 2)):
            continue
        fewest += _apart(tasks) - 1
        heads = [_new_phase(model, place.name, tasks, n) for n in range(len(tasks))]
        terms += [h for h in heads if h is not None]
        known += sum(h is None for h in heads) - 1
    return _stage("oven changes", terms, known, fewest)


def _apart(tasks: list[Task]) -> int:
    """Fewest temperatures that suit all: stretches pierced by points, taken greedily from the low end."""
    points, last = 0, None
    for task in sorted(tasks, key=lambda t: (t.heat_c or 0.0) + t.within_c):
        heat = task.heat_c or 0.0
        if last is None or heat - task.within_c > last:
            points, last = points + 1, heat + task.within_c
    return points


def _new_phase(model: Model, place: str, tasks: list[Task], n: int) -> Expr | None:
    """1 unless the task shares a phase with one that is earlier in the list; None when it cannot share."""
    task = tasks[n]
    joins: list[tuple[Any, Callable[[Sketch], bool]]] = []
    for other in tasks[:n]:
        if agree(task, other):
            joins.append(_joined(model, place, tasks, task, other))
    if not joins:
        return None
    head = model.boolean(f"{task.id} opens a phase", lambda s: not any(v(s) for _, v in joins))
    model.cp.add_bool_or([head, *(j for j, _ in joins)])
    return head


def _joined(model: Model, place: str, tasks: list[Task], a: Task, b: Task) -> tuple[Any, Callable[[Sketch], bool]]:
    between = [t for t in tasks if not agree(t, a) and not agree(t, b)]

    def value(s: Sketch) -> bool:
        return all((s.start[t.id] < s.start[a.id]) == (s.start[t.id] < s.start[b.id]) for t in between)

    joined = model.boolean(f"{a.id} with {b.id}", value)
    for t in between:
        one, other = _before(model, place, t, a), _before(model, place, t, b)
        if one is None or other is None:
            continue
        model.cp.add(one == other).only_enforce_if(joined)
    return joined, value


def _before(model: Model, place: str, a: Task, b: Task) -> Expr | None:
    """The Boolean 'a before b', 0 or 1 where it is known, None where only time tells."""
    if (place, a.id, b.id) in model.orders:
        return model.orders[place, a.id, b.id]
    if (place, b.id, a.id) in model.orders:
        return 1 - model.orders[place, b.id, a.id]
    return model.known_before(a.id, b.id)


def _hands(model: Model) -> Stage:
    """Calls above ten in the busiest ten minutes, and work above 70 % of the last hour, in hundredths of an hour."""
    return _stage("hands", _calls(model) + _last_hour(model))


def _calls(model: Model) -> Terms:
    """How many calls on hands above ten the busiest ten minutes have."""
    jobs = [j for j in jobs_of(model) if not is_fact(j.task)]
    if len(jobs) <= CALLS_IN_WINDOW:
        return []
    window = max(1, model.axis.length(CALLS_WINDOW_S))

    def value(sketch: Sketch) -> int:
        starts = sorted(begin_of(model, j, sketch) for j in jobs)
        return max(0, max(sum(s <= t < s + window for t in starts) for s in starts) - CALLS_IN_WINDOW)

    above = model.integer(0, len(jobs), "calls above ten", value)
    calls = [model.cp.new_fixed_size_interval_var(j.start, window, f"call {j.task.id} {j.key}") for j in jobs]
    model.cp.add_cumulative(calls, [1] * len(calls), CALLS_IN_WINDOW + above)
    return [above]


def _last_hour(model: Model) -> Terms:
    """Work above 70 % of the last hour's hands, in hundredths of an hour. A job ending in it counts whole."""
    problem, length = model.problem, model.axis.length
    hour = length(LAST_HOUR_S)
    pairs = [h.pairs for h in problem.hands if h.at <= problem.eat_at][-1:] or [1]
    room = int(LAST_HOUR_SHARE * hour * pairs[0])
    jobs = [j for j in jobs_of(model) if not is_fact(j.task) and j.task.least_s > 0]
    sizes = [least_size(model, j) for j in jobs]
    if sum(sizes) <= room:
        return []
    inside = [_inside(model, j, hour) for j in jobs]

    def value(sketch: Sketch) -> int:
        work = sum(n for j, n in zip(jobs, sizes, strict=True) if begin_of(model, j, sketch) + n > sketch.later - hour)
        return max(0, -(-100 * (work - room) // hour))

    over = model.integer(0, 100 * sum(sizes) // hour + 1, "last hour above 70 %", value)
    work = sum(n * b for n, b in zip(sizes, inside, strict=True))
    model.cp.add(hour * over >= 100 * (work - room))
    model.last_hour, model.hours = (hour, room, over), (hour, work, sum(sizes))
    return [over]


def _inside(model: Model, job: Job, hour: int) -> Expr:
    size = least_size(model, job)
    inside = model.boolean(
        f"{job.task.id} {job.key} in the last hour", lambda s: begin_of(model, job, s) + size > s.later - hour
    )
    model.cp.add(job.start + size <= model.later - hour).only_enforce_if(~inside)
    return inside


def _moved(model: Model, near: Plan) -> Terms:
    """How many minutes each step's start is from where the plan at hand has it."""
    terms: Terms = []
    for task in model.problem.tasks:
        placed = near.of(task.id)
        if placed is not None and not is_fact(task):
            terms.append(_distance(model, task.id, model.axis.point(placed.start)))
    return terms


def _distance(model: Model, task: str, was: int) -> Expr:
    unit = max(1, 60 // model.axis.tick)
    most = 2 * (model.high - model.low) // unit + 1
    far = model.integer(0, most, f"{task} moved", lambda s: -(-abs(s.start[task] - was) // unit))
    model.cp.add(unit * far >= model.spans[task].start - was)
    model.cp.add(unit * far >= was - model.spans[task].start)
    return far


def _first_start(model: Model) -> Stage:
    free = [t.id for t in model.problem.tasks if not is_fact(t)]
    first = model.integer(model.low, model.high, "first start", lambda s: min((s.start[t] for t in free), default=0))
    model.first = first
    for task in free:
        model.cp.add(first <= model.spans[task].start)
    shortest, latest, best = least_span(model), None, None
    if model.problem.goals and not model.problem.late_ok:
        latest = max(model.axis.point(g.ready_by) for g in model.problem.goals) - shortest
        model.cp.add(first <= latest)
    if model.last_hour is not None and len({h.pairs for h in model.problem.hands}) == 1:
        hour, room, over = model.last_hour
        pairs, needed = model.problem.hands[0].pairs, before_last_hour(model, hour, room)
        model.cp.add(100 * pairs * (model.later - hour - first) >= 100 * needed - hour * over)
        if latest is not None and pairs == 1:
            best = min(latest, -hour - needed)
    unit = model.axis.length(FIRST_TO_S) if shortest >= model.axis.length(3600) else 1
    most = (model.high - model.low) // unit + 1
    ahead = model.integer(
        -most, most, "first start ahead", lambda s: -(min((s.start[t] for t in free), default=0) // unit)
    )
    model.cp.add(unit * ahead >= -first)
    floor, at_best = (None if at is None else -(at // unit) for at in (latest, best))
    return Stage("latest first start", ((1, ahead),), 0, floor, at_best=at_best, ticks=unit)


def _close_to_the_meal(model: Model) -> Stage:
    """Every start as late as the aims before allow: food is made shortly before it is needed."""
    starts = tuple((-1, model.spans[t.id].start) for t in model.problem.tasks if not is_fact(t))
    return Stage("close to the meal", starts, 0, None, at_most_s=NEATNESS_S, aim=False)
