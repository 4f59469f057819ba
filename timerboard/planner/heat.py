"""One temperature at a time: steps at temperatures that do not agree take turns, with time to change between them.

Tolerances are stretches of the thermometer, and stretches that meet two by two all meet in one point (Helly's theorem
on a line), so turns between pairs are enough: whatever shares the oven has a temperature that suits all of it.
"""

from itertools import combinations

from timerboard.core.check_places import agree, heating_s
from timerboard.core.lenience import is_fact
from timerboard.core.plan import PlaceRoom, Problem, Task

from .variables import Model


def heated_tasks(problem: Problem, place: PlaceRoom) -> list[Task]:
    """The tasks that need `place` hot."""
    return [t for t in problem.tasks if t.heat_c is not None and any(p == place.name for p, _ in t.uses)]


def one_temperature(model: Model) -> None:
    """Turns between temperatures that do not agree; the first after the place got hot."""
    for place in model.problem.places:
        if not place.heated:
            continue
        tasks = heated_tasks(model.problem, place)
        _hot_first(model, place, tasks)
        for a, b in combinations(tasks, 2):
            if not agree(a, b) and not (is_fact(a) and is_fact(b)):
                _take_turns(model, place, a, b)


def _hot_first(model: Model, place: PlaceRoom, tasks: list[Task]) -> None:
    """When the plan has a first moment, the place needs its time from what it is now."""
    if model.problem.not_before is None:
        return
    now = model.axis.point(model.problem.not_before)
    running = [t for t in tasks if is_fact(t) and t.ended is None]
    for task in tasks:
        if not is_fact(task) and not any(agree(task, other) for other in running):
            model.cp.add(model.spans[task.id].start >= now + model.axis.length(heating_s(place, task)))


def _take_turns(model: Model, place: PlaceRoom, a: Task, b: Task) -> None:
    a_b, b_a = _change(model, place, a, b), _change(model, place, b, a)
    first, second = model.spans[a.id], model.spans[b.id]
    before = model.known_before(a.id, b.id)
    if before is True:
        model.cp.add(second.start >= first.end + a_b)
    elif before is False:
        model.cp.add(first.start >= second.end + b_a)
    else:
        order = model.boolean(f"{a.id} before {b.id} on {place.name}", lambda s: s.start[a.id] < s.start[b.id])
        model.cp.add(second.start >= first.end + a_b).only_enforce_if(order)
        model.cp.add(first.start >= second.end + b_a).only_enforce_if(~order)
        model.orders[place.name, a.id, b.id] = order


def _change(model: Model, place: PlaceRoom, before: Task, after: Task) -> int:
    return model.axis.length(place.change_s(before.heat_c, after.heat_c or 0.0))
