"""From a solution to a Plan: moments, persons, the oven's settings."""

from timerboard.core.persons import with_persons
from timerboard.core.plan import CueSlot, Placed, PlacedCue, Plan, Problem, Standing, Status, Task
from timerboard.core.values import Seconds

from .objective import Stage
from .variables import Model, Sketch
from .windows import NEVER


def plan_of(model: Model, sketch: Sketch, status: Status = Status.FEASIBLE, bound_s: int | None = None) -> Plan:
    """The plan of a solution, without settings and slack."""
    problem, axis = model.problem, model.axis
    spots = tuple(_placed(model, sketch, t) for t in problem.tasks)
    cues = tuple(
        PlacedCue(step=t.id, id=c.id, cue=c.cue, at=_at(model, sketch, t, c)) for t in problem.tasks for c in t.cues
    )
    placed = with_persons(problem, spots, cues) or tuple(_chosen(p, sketch) for p in spots)
    late = axis.seconds(sketch.later) if problem.soonest else _late(problem, {p.id: p.end for p in placed})
    return Plan(
        status=status,
        eat_at=problem.eat_at + (late if problem.soonest else 0),
        placed=tuple(sorted(placed, key=lambda p: (p.start, p.end))),
        cues=tuple(sorted(cues, key=lambda c: (c.at, c.step))),
        late_s=0 if problem.soonest else late,
        bound_s=bound_s,
    )


def _placed(model: Model, sketch: Sketch, task: Task) -> Placed:
    axis = model.axis
    return Placed(
        id=task.id,
        start=task.started if task.started is not None else axis.moment(sketch.start[task.id]),
        end=_end(task, axis.moment(sketch.end[task.id])),
        places=tuple(place for place, _ in task.uses),
    )


def _end(task: Task, planned: Seconds) -> Seconds:
    """Facts are exact to the second, whatever the solver's grid."""
    if task.ended is not None:
        return task.ended
    if task.started is not None:
        return min(max(planned, task.started + task.least_s), task.started + task.most_s)
    return planned


def _late(problem: Problem, ends: dict[str, Seconds]) -> Seconds:
    ready = ((max(ends[t] for t in g.last if t in ends), g.ready_by) for g in problem.goals if set(g.last) & set(ends))
    return max([0, *(at - by for at, by in ready)]) if problem.late_ok else 0


def _at(model: Model, sketch: Sketch, task: Task, slot: CueSlot) -> Seconds:
    return model.axis.moment(sketch.cue[task.id, slot.id]) if task.started is None else task.started + slot.offset_s


def _chosen(placed: Placed, sketch: Sketch) -> Placed:
    """The solver's own choice of persons, where a simpler search found none."""
    return placed.model_copy(update={"person": sketch.person.get(placed.id)})


UNITS = {"oven changes": "changes", "least change": "minutes"}
"""What an aim counts that does not count time; the others count hundredths."""


def standing_of(model: Model, sketch: Sketch, aim: Stage, bound: int) -> Standing:
    """How near to the best a plan is known to be by the aim that is open. A first start counts ahead of the meal."""
    cost = aim.of(model, sketch)
    one = model.axis.seconds(aim.ticks) or 1
    return Standing(
        aim=aim.name,
        cost=cost * one,
        bound=min(cost, bound) * one if bound > -NEVER else None,
        unit="s" if aim.ticks else UNITS.get(aim.name, "hundredths"),
    )


def bound_of(problem: Problem, eat_bound: int) -> int | None:
    """No plan can span less than this, from a bound on when the meal can be; None where the calendar has a say.

    A plan can be moved along the axis as a whole unless closed hours, hands by time, facts or courses tie it down; it
    then starts at `not_before`, or a preheat later, and so its span is at least what is left.
    """
    moving = (
        not problem.closed
        and len({h.pairs for h in problem.hands}) < 2
        and len({g.ready_by for g in problem.goals}) < 2
    )
    if problem.not_before is None or not moving or any(t.started is not None for t in problem.tasks):
        return None
    preheat = max((p.preheat_s for p in problem.places if p.heated), default=0)
    return max(0, eat_bound - problem.not_before - preheat)
