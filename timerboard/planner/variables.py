"""What the solver may decide: a start for every step, an end for the elastic ones, a moment for every cue.

Every variable is made together with a function that reads its value off a plan, so that any plan at hand (a greedy
one, the one being cooked, the last stage's) becomes a complete hint, auxiliary variables and all.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, TypeAlias

from ortools.sat.python import cp_model

from timerboard.core.lenience import is_fact
from timerboard.core.plan import Plan, Problem, Task

from .axis import LONGEST_PLAN_S, Axis, axis_of

Expr: TypeAlias = Any
"""A solver variable, an affine expression of one, or a whole number: the solver's own typing has no common name."""


@dataclass(frozen=True)
class Sketch:
    """A plan in ticks: what the value functions read."""

    start: Mapping[str, int]
    end: Mapping[str, int]
    cue: Mapping[tuple[str, str], int]
    later: int
    person: Mapping[str, int] = field(default_factory=dict)  # from 1; only where the solver had to choose

    def length(self, task: str) -> int:
        """How long a task is, in ticks."""
        return self.end[task] - self.start[task]


@dataclass
class Span:
    """A task's place on the axis: expressions of at most one variable each, and the interval between them."""

    start: Expr
    size: Expr
    end: Expr
    interval: Any


@dataclass
class Model:
    """The solver's model of a problem while it is being built, and the values a plan gives to its variables."""

    problem: Problem
    axis: Axis
    cp: cp_model.CpModel
    low: int
    high: int
    later: Expr = 0
    spans: dict[str, Span] = field(default_factory=dict)
    cues: dict[tuple[str, str], Expr] = field(default_factory=dict)
    ready: dict[str, Expr] = field(default_factory=dict)
    over_limits: list[Any] = field(default_factory=list)  # by how much facts force a hold or a `within` to be broken
    orders: dict[tuple[str, str, str], Expr] = field(default_factory=dict)
    last_hour: tuple[int, int, Expr] | None = None  # its length, what of it hands may be planned for, how far above
    hours: tuple[int, Expr, int] | None = None  # the last hour's length, the work in it, and all work there is
    first: Expr | None = None  # the first start of all that has not begun, once somebody asks for it
    chosen: dict[str, list[Any]] = field(default_factory=dict)  # whose hands, where steps name persons
    values: dict[int, tuple[Any, Callable[[Sketch], int]]] = field(default_factory=dict)

    @cached_property
    def follows(self) -> dict[str, set[str]]:
        """For each task, all that must come after it by the recipes alone."""
        return followers(self.problem)

    def known_before(self, a: str, b: str) -> bool | None:
        """Whether `a` comes before `b` in any plan: True, False, or None when the plan decides."""
        if b in self.follows[a] or a in self.follows[b]:
            return b in self.follows[a]
        begun = {t.id: t.started for t in self.problem.tasks if t.started is not None and t.id in (a, b)}
        if len(begun) == 2:
            return begun[a] < begun[b]
        return a in begun if begun else None

    def integer(self, low: int, high: int, name: str, value: Callable[[Sketch], int]) -> Expr:
        """A whole number in [low, high], and how a plan says what it is."""
        variable = self.cp.new_int_var(low, high, name)
        self.values[variable.index] = (variable, value)
        return variable

    def boolean(self, name: str, value: Callable[[Sketch], bool]) -> Expr:
        """A yes or no, and how a plan says which."""
        variable = self.cp.new_bool_var(name)
        self.values[variable.index] = (variable, lambda sketch: int(value(sketch)))
        return variable

    def starting_from(self, tick: int) -> "Model":
        """The same model, hints and all, for plans that do not begin before a tick."""
        near, first = replace(self, cp=self.cp.clone()), self.first
        if first is not None:
            near.cp.add(first >= tick)
        return near

    def hint(self, sketch: Sketch) -> None:
        """Offers a whole plan to the solver, every variable included."""
        self.cp.clear_hints()  # type: ignore[no-untyped-call]
        for variable, value in self.values.values():
            self.cp.add_hint(variable, value(sketch))


def followers(problem: Problem) -> dict[str, set[str]]:
    """Every task that must come after each task, by the recipes alone; a task on a cycle is among its own."""
    direct: dict[str, set[str]] = {t.id: set() for t in problem.tasks}
    for task in problem.tasks:
        for link in task.after:
            direct.setdefault(link.task, set()).add(task.id)
    return {task: _reach(direct, task) for task in direct}


def _reach(direct: dict[str, set[str]], task: str) -> set[str]:
    seen: set[str] = set()
    todo = [task]
    while todo:
        fresh = direct.get(todo.pop(), set()) - seen
        seen |= fresh
        todo += fresh
    return seen


def model_of(problem: Problem) -> Model:
    """Variables for every task, cue and goal, and for the meal when it may move; no rules yet."""
    axis = axis_of(problem)
    low, high = _horizon(problem, axis)
    model = Model(problem, axis, cp_model.CpModel(), low, high)
    model.later = _later(model)
    for task in problem.tasks:
        model.spans[task.id] = _span(model, task)
    for task in problem.tasks:
        _cues(model, task)
    return model


def _horizon(problem: Problem, axis: Axis) -> tuple[int, int]:
    """First and last tick that a plan may touch."""
    work = sum(t.most_s + max((a.wait_s for a in t.after), default=0) for t in problem.tasks)
    heat = sum(p.preheat_s for p in problem.places if p.heated) * (1 + len(problem.tasks))
    reach = min(LONGEST_PLAN_S, work + heat) if not problem.closed and len(problem.hands) < 2 else LONGEST_PLAN_S
    points = [problem.eat_at, *(g.ready_by for g in problem.goals)]
    facts = [t.started for t in problem.tasks if t.started is not None]
    if problem.not_before is None:
        first = min(points) - reach - max((g.hold_s for g in problem.goals), default=0)
    else:
        first = problem.not_before
    last = max(points)
    if problem.late_ok or problem.soonest:
        last = max(last, first + reach + max(points) - min(points))
    return axis.point(min([first, *facts])), axis.point(last)


def _later(model: Model) -> Expr:
    """How many ticks after the asked moment the meal is eaten."""
    problem = model.problem
    if problem.soonest:
        return model.integer(min(model.low, 0), max(model.high, 0), "later", lambda s: s.later)
    if problem.late_ok:
        return model.integer(0, max(model.high, 0), "later", lambda s: s.later)
    return 0


def _span(model: Model, task: Task) -> Span:
    length, name = model.axis.length, task.id
    least, most = length(task.least_s), length(task.most_s)
    start = _start(model, task, least)
    if task.started is not None and (task.ended is not None or task.least_s >= task.most_s):
        end = model.axis.point(task.ended if task.ended is not None else task.started + task.least_s)
        return Span(start, end - start, end, model.cp.new_fixed_size_interval_var(start, end - start, name))
    if task.started is not None:
        return _running(model, task, start)
    if least >= most:
        return Span(start, least, start + least, model.cp.new_fixed_size_interval_var(start, least, name))
    size = model.integer(least, most, f"{name} takes", lambda s: s.length(name))
    end = model.integer(model.low, model.high, f"{name} ends", lambda s: s.end[name])
    return Span(start, size, end, model.cp.new_interval_var(start, size, end, name))


def _running(model: Model, task: Task, start: int) -> Span:
    """An elastic step that has begun: the cook may end it on any tick within its limits, or at its longest."""
    name, began = task.id, task.started or 0
    first, last = model.axis.point(began + task.least_s), model.axis.point(began + task.most_s)
    last = max(first, last if model.axis.moment(last) <= began + task.most_s else last - 1)
    size = model.integer(first - start, last - start, f"{name} takes", lambda s: s.end[name] - start)
    end = model.integer(first, last, f"{name} ends", lambda s: s.end[name])
    return Span(start, size, end, model.cp.new_interval_var(start, size, end, name))


def _start(model: Model, task: Task, least: int) -> Expr:
    if task.started is not None:
        return model.axis.before(task.started)
    low = model.low
    if model.problem.not_before is not None:
        low = max(low, model.axis.point(model.problem.not_before))
    if task.earliest is not None and not (model.problem.soonest or model.problem.late_ok):
        low = max(low, model.axis.point(task.earliest))
    return model.integer(low, max(low, model.high - least), task.id, lambda s: s.start[task.id])


def _cues(model: Model, task: Task) -> None:
    """A moment for each cue: free within its play when it asks for hands or a door, else where it falls due.

    Cues of what has begun stay where they fall due: the cook already waits for them.
    """
    span, length = model.spans[task.id], model.axis.length
    for slot in task.cues:
        key, offset, play = (task.id, slot.id), length(slot.offset_s), length(slot.play_s)
        if play == 0 or is_fact(task) or not (slot.work_s or slot.opens):
            model.cues[key] = span.start + offset
            continue
        at = model.integer(model.low, model.high, f"{task.id}: {slot.id}", lambda s, k=key: s.cue[k])  # type: ignore[misc]
        model.cp.add(at >= span.start + max(0, offset - play))
        model.cp.add(at <= span.start + max(offset, task.cue_by_s(slot) // model.axis.tick))
        model.cp.add(at <= span.end - length(slot.work_s))
        model.cues[key] = at


def sketch_of(model: Model, plan: Plan) -> Sketch | None:
    """A plan on the model's axis, moments off the grid rounded up; None when it lacks a task."""
    axis, tasks = model.axis, model.problem.tasks
    if any(plan.of(t.id) is None for t in tasks):
        return None
    start = {p.id: axis.point(p.start) for p in plan.placed}
    start |= {t.id: axis.before(t.started) for t in tasks if t.started is not None}
    end = {p.id: axis.point(p.end) for p in plan.placed}
    cue = {(c.step, c.id): axis.point(c.at) for c in plan.cues}
    for task in tasks:
        for slot in task.cues:
            cue.setdefault((task.id, slot.id), start[task.id] + axis.length(slot.offset_s))
    later = max(
        (end[task] - axis.point(goal.ready_by) for goal in model.problem.goals for task in goal.last if task in end),
        default=0,
    )
    if not model.problem.soonest:
        later = max(0, later) if model.problem.late_ok else 0
    return Sketch(start, end, cue, later)
