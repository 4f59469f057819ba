"""What may come of a plan: ten thousand simulated cooks who keep its order and whose food takes its own time.

Everybody does their own jobs in the plan's order. A step begins at its planned moment, or when what it waits for lets
go, whichever is later; one that follows on by itself begins as soon as that. Elastic steps give way first: one that
begins late still ends when planned, down to its shortest. Small jobs (cues, taking out) are done when they fall due and
hold up nothing else.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from timerboard.core.busy import minded
from timerboard.core.plan import Forecast, Placed, Plan, Problem, Task
from timerboard.core.values import Seconds

from .draws import Floats, drawn
from .order import Arc, order_by_person

GRACE_S = 60
"""Late by less than a minute is on time: nobody's clock shows less."""

MOST_BLAMED = 5
"""Steps that are named: more than a cook can watch."""

Steps = NDArray[np.int64]


@dataclass
class _Cooks:
    """Where every simulated cook began and ended every step, and what held up each beginning."""

    cooks: int
    index: dict[str, int]  # a step's place in the order that steps are simulated in
    starts: dict[str, Floats]
    ends: dict[str, Floats]
    held_by: dict[str, Steps]  # index of the step that held up the beginning; -1: nothing did
    over: dict[str, Floats]  # how much longer a step took than planned
    users: dict[str, list[tuple[str, int]]]  # by place: the steps that used it so far, and their parts


def forecast(problem: Problem, plan: Plan, *, cooks: int = 10_000, seed: int = 0) -> Forecast:
    """Shares and times over `cooks` simulated cooks; the same for the same seed. Under 0.1 s for 60 steps."""
    goals = [g for g in problem.goals if g.last]
    if not problem.tasks or not goals:
        return Forecast(cooks=cooks, on_time=1.0, late_likely_s=0, late_bad_s=0)
    order = sorted(problem.tasks, key=lambda t: (plan.by_id[t.id].start, plan.by_id[t.id].end, t.id))
    done = _simulated(problem, plan, order, cooks, np.random.default_rng(seed))
    spare = {g.dish: _spare(problem, plan, g.last, g.ready_by, done) for g in goals}
    late = -np.min(np.array(list(spare.values())), axis=0)
    is_late = late >= GRACE_S
    return Forecast(
        cooks=cooks,
        on_time=float(1.0 - np.mean(is_late)),
        late_likely_s=max(0, round(float(np.median(late)))),
        late_bad_s=max(0, round(float(np.quantile(late, 0.9)))),
        dish_slack_s=tuple((dish, round(float(np.median(s)))) for dish, s in spare.items()),
        blame=_blame(problem, order, done, np.flatnonzero(is_late), spare),
    )


def _spare(problem: Problem, plan: Plan, last: tuple[str, ...], ready_by: Seconds, done: _Cooks) -> Floats:
    """Seconds each dish had in hand before it held up the meal that the plan names."""
    ready = np.max(np.array([done.ends[i] for i in last]), axis=0)
    return np.asarray(ready_by + plan.eat_at - problem.eat_at - ready)


def _simulated(problem: Problem, plan: Plan, order: list[Task], cooks: int, dice: np.random.Generator) -> _Cooks:
    index = {t.id: n for n, t in enumerate(order)}
    done = _Cooks(cooks, index, {}, {}, {}, {}, {})
    arriving: dict[str, list[Arc]] = {t.id: [] for t in order}
    for arc in order_by_person(problem, plan).arcs:
        if not arc.small and not arc.after.at_end and index[arc.before.task] < index[arc.after.task]:
            arriving[arc.after.task].append(arc)
    for task in order:
        own = plan.by_id[task.id]
        took = _lengths(problem, task, own, cooks, dice)
        start, held = _begin(task, plan, arriving[task.id], done)
        for name, room, parts in _rooms(problem, task) if task.started is None else ():
            _wait_for_room(start, held, done.users.get(name, []), done, room - parts)
        done.starts[task.id], done.held_by[task.id] = start, held
        done.ends[task.id] = _end(problem, task, own, done.starts[task.id], took)
        for name, _, parts in _rooms(problem, task):
            done.users.setdefault(name, []).append((task.id, parts))
        done.over[task.id] = done.ends[task.id] - done.starts[task.id] - (own.end - own.start)
    return done


def _lengths(problem: Problem, task: Task, own: Placed, cooks: int, dice: np.random.Generator) -> Floats:
    """How long a step that is not elastic takes; what runs already takes at least as long as it has."""
    if task.ended is not None or task.elastic:
        return np.full(cooks, float(own.end - own.start))
    gone = 0
    if task.started is not None and problem.not_before is not None:
        gone = max(0, problem.not_before - task.started)
    return drawn(task.span, dice, cooks, gone)


def _begin(task: Task, plan: Plan, arcs: list[Arc], done: _Cooks) -> tuple[Floats, Steps]:
    """The latest of the planned moment and of all that the step waits for, and which of them it was."""
    own = plan.by_id[task.id]
    start = np.full(done.cooks, float(own.start))
    held = np.full(done.cooks, -1, dtype=np.int64)
    if task.started is not None:
        return start, held
    if arcs and _follows_on(task, own, plan):
        start[:] = -np.inf
    for arc in arcs:
        let_go = (done.ends if arc.before.at_end else done.starts)[arc.before.task] + float(arc.lag)
        later = let_go > start
        np.copyto(start, let_go, where=later)
        np.copyto(held, done.index[arc.before.task], where=later)
    return start, held


def _rooms(problem: Problem, task: Task) -> list[tuple[str, int, int]]:
    """Places with a limit that a step uses: name, room, parts."""
    rooms = {p.name: p.room for p in problem.places if p.room is not None}
    return [(name, rooms[name], parts) for name, parts in task.uses if name in rooms]


def _wait_for_room(start: Floats, held: Steps, users: list[tuple[str, int]], done: _Cooks, free: int) -> None:
    """Moves `start` to where the steps before it in the plan's order leave room: at most `free` parts are in use."""
    earliest = float(start.min())
    near = [(step, parts) for step, parts in users if done.ends[step].max() > earliest]
    if sum(parts for _, parts in near) <= free:
        return
    ends = np.array([done.ends[step] for step, _ in near])
    parts = np.array([parts for _, parts in near])
    crowded = np.flatnonzero(parts @ (ends > start) > free)
    if not len(crowded):
        return
    order = np.argsort(-ends[:, crowded], axis=0)
    still = np.cumsum(parts[order], axis=0) > free  # counted from the last to leave
    first = np.argmax(still, axis=0)
    columns = np.arange(len(crowded))
    leaves = order[first, columns]
    start[crowded] = ends[leaves, crowded]
    held[crowded] = np.array([done.index[step] for step, _ in near])[leaves]


def _follows_on(task: Task, own: Placed, plan: Plan) -> bool:
    """Begins by itself when what is before it ends: no hands to begin it, and no wait planned between them."""
    if minded(task) or any(not piece.from_end for piece in task.hands):
        return False
    befores = [plan.by_id[link.task].end + link.wait_s for link in task.after if link.task in plan.by_id]
    return bool(befores) and max(befores) == own.start


def _end(problem: Problem, task: Task, own: Placed, start: Floats, took: Floats) -> Floats:
    if task.ended is not None:
        return np.full(len(start), float(task.ended))
    if task.elastic:
        return np.minimum(np.maximum(float(own.end), start + task.least_s), start + task.most_s)
    end = start + took
    return end if problem.not_before is None else np.maximum(end, min(problem.not_before, own.end))


def _blame(
    problem: Problem, order: list[Task], done: _Cooks, late: Steps, spare: dict[str, Floats]
) -> tuple[tuple[str, float], ...]:
    """Of every late cook: along the chain that held up the meal, the step that ran longest over its plan."""
    if not len(late):
        return ()
    worst, at = np.full(len(late), 0.0), _holding_up(problem, done, late, spare)
    guilty = at.copy()
    held = np.array([done.held_by[t.id][late] for t in order])
    over = np.array([done.over[t.id][late] for t in order])
    columns = np.arange(len(late))
    for _ in order:
        on = at >= 0
        if not on.any():
            break
        longer = on & (over[at, columns] > worst)
        worst[longer], guilty[longer] = over[at, columns][longer], at[longer]
        at = np.where(on, held[at, columns], -1)
    shares = np.bincount(guilty, minlength=len(order)) / len(late)
    named = [(order[int(n)].id, float(shares[n])) for n in np.argsort(-shares, kind="stable")[:MOST_BLAMED]]
    return tuple((step, share) for step, share in named if share > 0)


def _holding_up(problem: Problem, done: _Cooks, late: Steps, spare: dict[str, Floats]) -> Steps:
    """Index of the step that ended last in the latest dish of every late cook."""
    goals = [g for g in problem.goals if g.last]
    dish = np.argmin(np.array([spare[g.dish][late] for g in goals]), axis=0)
    found = np.zeros(len(late), dtype=np.int64)
    for n, goal in enumerate(goals):
        last = np.argmax(np.array([done.ends[i][late] for i in goal.last]), axis=0)
        found = np.where(dish == n, np.array([done.index[i] for i in goal.last])[last], found)
    return found
