"""The kitchen's rules, one function each, posted to the solver. A rule between two facts is never posted.

`core/check_plan.py` states the same rules without a solver, and every plan is checked against it.
"""

from timerboard.core.lenience import hold_binds, is_fact, within_binds
from timerboard.core.plan import Goal, Task

from .busy import Block, Piece, limit
from .hands import hands
from .heat import one_temperature
from .variables import Expr, Model


def post_rules(model: Model) -> None:
    """Every rule of the kitchen."""
    order_of_steps(model)
    make_ahead(model)
    room_of_places(model)
    one_temperature(model)
    hands(model)
    live_heat_in_closed_hours(model)
    shut_doors(model)
    ready_for_the_table(model)


def order_of_steps(model: Model) -> None:
    """After what it follows: not sooner than `wait`, not later than `within`."""
    length = model.axis.length
    for task in model.problem.tasks:
        for link in task.after:
            before, span = model.spans.get(link.task), model.spans[task.id]
            if before is None or is_fact(task):
                continue
            model.cp.add(span.start >= before.end + length(link.wait_s))
            if link.within_s is not None:
                _no_later(model, task, [link.task], length(link.within_s))
        if task.within_s is not None and task.after and not is_fact(task):
            _no_later(model, task, [a.task for a in task.after if a.task in model.spans], length(task.within_s))


def _no_later(model: Model, task: Task, before: list[str], most: int) -> None:
    """At most so long after the latest of `before`. After what has begun it is only an aim while cooking."""
    if not before:
        return
    start, ends = model.spans[task.id].start, [model.spans[b].end for b in before]
    latest = ends[0]
    if len(ends) > 1:
        name = f"{task.id} may begin"
        latest = model.integer(model.low, model.high, name, lambda s: max(s.end[b] for b in before))
        model.cp.add_max_equality(latest, ends)
    if all(within_binds(model.problem, t) for t in model.problem.tasks if t.id in before):
        model.cp.add(start <= latest + most)
        return
    over = model.integer(
        0,
        model.high - model.low,
        f"{task.id} begins too late",
        lambda s: max(0, s.start[task.id] - max(s.end[b] for b in before) - most),
    )
    model.cp.add(start <= latest + most + over)
    model.over_limits.append(over)


def make_ahead(model: Model) -> None:
    """Not before its make-ahead limit, which moves with the meal."""
    for task in model.problem.tasks:
        if task.earliest is not None and not is_fact(task):
            model.cp.add(model.spans[task.id].start >= model.axis.point(task.earliest) + model.later)


def room_of_places(model: Model) -> None:
    """No more parts of a place in use than it has."""
    for place in model.problem.places:
        if place.room is None:
            continue
        pieces, blocks = [], []
        for task in model.problem.tasks:
            parts = sum(n for p, n in task.uses if p == place.name)
            span = model.spans[task.id]
            if parts and is_fact(task):
                blocks.append(Block(span.start, _latest_end(model, task), parts))
            elif parts:
                pieces.append(Piece(span.interval, span.start, span.end, parts))
        limit(model, pieces, blocks, place.room, place.name)


def _latest_end(model: Model, fact: Task) -> int:
    end = model.spans[fact.id].end
    return end if isinstance(end, int) else model.axis.point((fact.started or 0) + fact.most_s)


def live_heat_in_closed_hours(model: Model) -> None:
    """No running hob and no hot oil while nobody is there."""
    point = model.axis.point
    closed = [(point(s.start), point(s.end)) for s in model.problem.closed]
    blocks = [model.cp.new_fixed_size_interval_var(a, b - a, "closed") for a, b in closed if b > a]
    for task in model.problem.tasks:
        if task.live_heat and blocks and not is_fact(task):
            model.cp.add_no_overlap([model.spans[task.id].interval, *blocks])


def shut_doors(model: Model) -> None:
    """While a step keeps its place shut, no other dish's start, cue or end opens that door."""
    for task in model.problem.tasks:
        if not task.shut_s:
            continue
        places = {place for place, _ in task.uses}
        for other in model.problem.tasks:
            if other.dish != task.dish and not (is_fact(task) and is_fact(other)):
                _keep_out(model, task, other, places)


def _keep_out(model: Model, task: Task, other: Task, places: set[str]) -> None:
    begin = model.spans[task.id].start
    until = begin + model.axis.length(task.shut_s)
    if task.started is not None:
        until = model.axis.point(task.started + task.shut_s)
    slack = 1 if is_fact(other) else 0  # its moments are rounded to a tick, one way here and the other way there
    for what, at in _openings(model, other, places):
        before = _door_order(model, task, other, what)
        model.cp.add(at + slack <= begin).only_enforce_if(before)
        model.cp.add(at - slack >= until).only_enforce_if(~before)


def _openings(model: Model, other: Task, places: set[str]) -> list[tuple[str, Expr]]:
    """When another dish's step opens one of these doors."""
    opens: list[tuple[str, Expr]] = []
    if any(place in places for place, _ in other.uses):
        opens = [("start", model.spans[other.id].start), ("end", model.spans[other.id].end)]
    return opens + [(c.id, model.cues[other.id, c.id]) for c in other.cues if places & set(c.opens)]


def _door_order(model: Model, task: Task, other: Task, what: str) -> Expr:
    """True when `other` opens the door before `task` shuts it."""

    def opened(start: dict[str, int], end: dict[str, int], cue: dict[tuple[str, str], int]) -> int:
        return {"start": start[other.id], "end": end[other.id]}.get(what, cue.get((other.id, what), 0))

    return model.boolean(
        f"{other.id} {what} opens before {task.id} shuts",
        lambda s: opened(dict(s.start), dict(s.end), dict(s.cue)) <= s.start[task.id],
    )


def ready_for_the_table(model: Model) -> None:
    """Every dish ready when its course is eaten, and not longer before than it may stand."""
    for goal in model.problem.goals:
        ends = [model.spans[t].end for t in goal.last if t in model.spans]
        if not ends:
            continue
        by = model.axis.point(goal.ready_by)
        for end in ends:
            model.cp.add(end <= by + model.later)
        model.ready[goal.dish] = ready = _latest(model, goal, ends)
        if goal.ready_from is not None:
            _hold(model, goal, ready, model.axis.point(goal.ready_from))


def _latest(model: Model, goal: Goal, ends: list[Expr]) -> Expr:
    if len(ends) == 1:
        return ends[0]
    last = [t for t in goal.last if t in model.spans]
    ready = model.integer(model.low, model.high, f"{goal.dish} ready", lambda s: max(s.end[t] for t in last))
    model.cp.add_max_equality(ready, ends)
    return ready


def _hold(model: Model, goal: Goal, ready: Expr, ready_from: int) -> None:
    """A hard limit in planning; while cooking, what facts force to stand longer is counted instead (and kept least)."""
    if hold_binds(model.problem, goal):
        model.cp.add(ready >= ready_from + model.later)
        return
    over = model.integer(
        0,
        model.high - model.low,
        f"{goal.dish} stands too long",
        lambda s: max(0, ready_from + s.later - max(s.end[t] for t in goal.last if t in s.end)),
    )
    model.cp.add(over >= ready_from + model.later - ready)
    model.over_limits.append(over)
