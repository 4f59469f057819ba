"""A dish that comes late gets its times at once: near the meal, round everything that is planned already.

The window's thread waits for this, so it is a few right-shifted passes over the new steps alone, not a search: all that
is planned is a fact to them. Moving others for its sake is the planner's business, in its own process.
"""

from collections.abc import Iterator

from timerboard.core.check_plan import broken_rules
from timerboard.core.cook import Cook
from timerboard.core.heat_settings import heat_settings
from timerboard.core.menu import Dish
from timerboard.core.persons import with_persons
from timerboard.core.plan import CueSlot, Placed, PlacedCue, Plan, Problem, Task
from timerboard.core.question import question_of_cook
from timerboard.core.values import Moment, Seconds
from timerboard.planner.backward import Known, Pass, known_of

MINUTE_S = 60
LATER_MIN = (0, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 540, 720)
"""How many minutes later than the meal it may come, tried in turn; between the last two then to the minute."""


def with_late_dish(cook: Cook, dish: Dish, now: Moment) -> Plan | None:
    """The plan in force with a dish's steps in it and nothing else moved; `late_s` says how late that makes the meal.

    None when there is no plan in force, or no place for the dish within half a day of the meal.
    """
    plan = cook.plan
    if plan is None:
        return None
    problem = question_of_cook(cook, now)
    own, pinned = {step.id for step in dish.steps}, _pinned(problem, plan)
    known = known_of(pinned)
    return next((made for one in _passes(known) if (made := _made(plan, own, one)) is not None), None)


def _passes(known: Known) -> Iterator[Pass]:
    """Passes that found room for the new steps, for a meal as little later as that takes, to the minute."""
    low = -1
    for high in LATER_MIN:
        found = _pass(known, high)
        middle = high
        while found is not None and middle - low > 1:
            half = (low + middle) // 2
            sooner = _pass(known, half)
            found, low, middle = (found, half, middle) if sooner is None else (sooner, low, half)
        if found is not None:
            yield found
        low = high


def _pass(known: Known, minutes: int) -> Pass | None:
    """The new steps as late as they fit a meal so much later; None when they do not."""
    one = Pass(known, minutes * MINUTE_S, known.problem.not_before, _latest_first)
    return one if one.run() else None


def _made(plan: Plan, own: set[str], one: Pass) -> Plan | None:
    """The plan with the new steps where a pass put them; None when that breaks a rule."""
    problem = one.known.problem
    facts = [_placed(task, one) for task in problem.tasks]
    cues = [_cue(task.id, slot, one) for task in problem.tasks for slot in task.cues]
    peopled = with_persons(problem, facts, cues)
    if peopled is None:
        return None
    placed = (*(p for p in plan.placed if p.id not in own), *(p for p in peopled if p.id in own))
    ends = {task: fit.end for task, fit in one.fits.items()}
    late = max((ends[i] - goal.ready_by for goal in problem.goals for i in goal.last), default=0)
    settings, mine = heat_settings(problem, peopled), tuple(cue for cue in cues if cue.step in own)
    asked = Plan(
        status=plan.status, eat_at=plan.eat_at, placed=peopled, cues=tuple(cues), settings=settings, late_s=max(0, late)
    )
    if broken_rules(problem, asked):
        return None
    kept = tuple(cue for cue in plan.cues if cue.step not in own)
    told = {"cues": (*kept, *mine), "settings": settings, "late_s": asked.late_s}
    return plan.model_copy(update={"placed": placed, **told})


def _latest_first(_task: Task, end_by: Seconds, _end_from: Seconds) -> float:
    return end_by


def _placed(task: Task, one: Pass) -> Placed:
    fit = one.fits[task.id]
    return Placed(id=task.id, start=fit.start, end=fit.end, places=tuple(name for name, _ in task.uses))


def _cue(step: str, slot: CueSlot, one: Pass) -> PlacedCue:
    return PlacedCue(step=step, id=slot.id, cue=slot.cue, at=one.fits[step].cues[slot.id])


def _pinned(problem: Problem, plan: Plan) -> Problem:
    """The same question with every planned step a fact: it begins and ends as planned."""
    return problem.model_copy(update={"tasks": tuple(_fact(task, plan) for task in problem.tasks)})


def _fact(task: Task, plan: Plan) -> Task:
    placed = plan.of(task.id)
    if placed is None or task.started is not None:
        return task
    length = placed.end - placed.start
    facts = {"started": placed.start, "least_s": length, "most_s": length, "person": placed.person or task.person}
    return task.model_copy(update={"after": (), "within_s": None, "earliest": None, **facts})
