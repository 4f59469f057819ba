"""The same question with one rule taken away or eased: what a search for reasons and for ways out is made of."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from timerboard.core.check_places import agree, parts_of
from timerboard.core.plan import HandsChange, PlaceRoom, Problem, Task
from timerboard.core.values import Seconds

from .overload import Overload

PLENTY = 1_000
"""Pairs of hands, or parts of a place, that nothing runs out of."""

Change = Callable[[Problem], Problem]


@dataclass(frozen=True)
class Rule:
    """A rule that can be taken out of a question. `kind` and `of` say which: 'heat' of step, 'room' of place, ..."""

    kind: str
    of: str
    without: Change


@dataclass(frozen=True)
class Trouble:
    """The fewest dishes that do not go together, and the rules that keep them from it.

    `over` is the window with too much work in it, where that is the trouble.
    """

    small: Problem
    rules: list[Rule]
    over: Overload | None = None

    @property
    def dishes(self) -> set[str]:
        """Their names."""
        return {t.dish for t in self.small.tasks}


def rules_of(problem: Problem) -> list[Rule]:
    """Every rule that a cook could do something about."""
    out = [Rule("hands", "", _free_hands)]
    if problem.closed:
        out.append(Rule("closed", "", lambda p: p.model_copy(update={"closed": ()})))
    if problem.not_before is not None:
        out.append(Rule("now", "", lambda p: p.model_copy(update={"not_before": None})))
    out += [Rule("room", p.name, easier_room(p.name, PLENTY)) for p in problem.places if p.room is not None]
    out += [Rule("hold", g.dish, hold_of(g.dish, None)) for g in problem.goals if g.ready_from is not None]
    for task in problem.tasks:
        out += _of_task(problem, task)
    return out


def may_bind(problem: Problem, rule: Rule) -> bool:
    """False for a rule that can keep nothing from anything: a hob that nobody uses, room for all at once, one heat."""
    if rule.kind == "hands":
        return any(t.hands or t.throughout or t.attend or any(c.work_s for c in t.cues) for t in problem.tasks)
    if rule.kind == "room":
        place = next(p for p in problem.places if p.name == rule.of)
        return sum(parts_of(t, place.name) for t in problem.tasks) > (place.room or 0)
    if rule.kind == "heat" and problem.not_before is None:
        task = next(t for t in problem.tasks if t.id == rule.of)
        hot = [t for t in problem.tasks if {name for name, _ in t.uses} & {name for name, _ in task.uses}]
        return any(not agree(task, other) for other in hot)
    return True


def _of_task(problem: Problem, task: Task) -> list[Rule]:
    heated = {p.name for p in problem.places if p.heated}
    out = []
    if task.heat_c is not None and any(place in heated for place, _ in task.uses):
        out.append(Rule("heat", task.id, changed_task(task.id, {"heat_c": None})))
    if task.within_s is not None or any(a.within_s is not None for a in task.after):
        after = tuple(a.model_copy(update={"within_s": None}) for a in task.after)
        out.append(Rule("within", task.id, changed_task(task.id, {"within_s": None, "after": after})))
    if task.earliest is not None:
        out.append(Rule("ahead", task.id, changed_task(task.id, {"earliest": None})))
    if task.shut_s:
        out.append(Rule("shut", task.id, changed_task(task.id, {"shut_s": 0})))
    return out


def _free_hands(problem: Problem) -> Problem:
    return more_hands(PLENTY)(problem)


def more_hands(extra: int) -> Change:
    """So many more pairs, all the time."""

    def change(problem: Problem) -> Problem:
        hands = tuple(HandsChange(at=h.at, pairs=h.pairs + extra) for h in problem.hands)
        return problem.model_copy(update={"hands": hands})

    return change


def helper_from(at: Seconds) -> Change:
    """One more pair from a moment on."""

    def change(problem: Problem) -> Problem:
        before = [h for h in problem.hands if h.at <= at] or list(problem.hands[:1])
        more = [HandsChange(at=h.at, pairs=h.pairs + 1) for h in problem.hands if h.at > at]
        hands = (*before, HandsChange(at=at, pairs=before[-1].pairs + 1), *more)
        return problem.model_copy(update={"hands": hands})

    return change


def easier_room(place: str, extra: int) -> Change:
    """So many more parts in one place."""

    def bigger(p: PlaceRoom) -> PlaceRoom:
        return p.model_copy(update={"room": p.room + extra}) if p.name == place and p.room is not None else p

    return lambda problem: problem.model_copy(update={"places": tuple(bigger(p) for p in problem.places)})


def hold_of(dish: str, hold_s: Seconds | None) -> Change:
    """Another hold limit for one dish; None: none."""

    def change(problem: Problem) -> Problem:
        goals = []
        for goal in problem.goals:
            if goal.dish == dish and goal.ready_from is not None:
                eaten = goal.ready_from + goal.hold_s
                update = {"ready_from": None if hold_s is None else eaten - hold_s, "hold_s": hold_s or goal.hold_s}
                goals.append(goal.model_copy(update=update))
            else:
                goals.append(goal)
        return problem.model_copy(update={"goals": tuple(goals)})

    return change


def changed_task(task_id: str, update: dict[str, object]) -> Change:
    """One step with other values."""

    def change(problem: Problem) -> Problem:
        tasks = tuple(t.model_copy(update=update) if t.id == task_id else t for t in problem.tasks)
        return problem.model_copy(update={"tasks": tasks})

    return change


def only(problem: Problem, dishes: Iterable[str]) -> Problem:
    """Some of the dishes; links to the others are dropped."""
    kept = set(dishes)
    tasks = [t for t in problem.tasks if t.dish in kept]
    ids = {t.id for t in tasks}
    linked = tuple(t.model_copy(update={"after": tuple(a for a in t.after if a.task in ids)}) for t in tasks)
    return problem.model_copy(update={"tasks": linked, "goals": tuple(g for g in problem.goals if g.dish in kept)})
