"""A dish that comes late gets its times at once: near the meal, round everything that is planned already."""

from timerboard.core.cook import Cook
from timerboard.core.heat_settings import heat_settings
from timerboard.core.menu import Dish
from timerboard.core.plan import Plan, Problem, Task
from timerboard.core.question import question_of_cook
from timerboard.core.values import Moment
from timerboard.planner.greedy import first_plan


def with_late_dish(cook: Cook, dish: Dish, now: Moment) -> Plan | None:
    """The plan in force with a dish's steps in it and nothing else moved; None when there is no plan in force.

    Where the rest leaves no such place the steps are put where a plan of the whole meal would have them: the desk then
    offers to move the others.
    """
    plan, own = cook.plan, {step.id for step in dish.steps}
    if plan is None:
        return None
    problem = question_of_cook(cook, now)
    for asked in (_pinned(problem, plan), problem):
        found = first_plan(asked)
        if found is None:
            continue
        placed = (*(p for p in plan.placed if p.id not in own), *(p for p in found.placed if p.id in own))
        cues = (*(c for c in plan.cues if c.step not in own), *(c for c in found.cues if c.step in own))
        made = plan.model_copy(update={"placed": placed, "cues": cues, "late_s": found.late_s})
        return made if asked is problem else made.model_copy(update={"settings": heat_settings(problem, placed)})
    return None


def _pinned(problem: Problem, plan: Plan) -> Problem:
    """The same question with every planned step a fact: it begins and ends as planned."""
    return problem.model_copy(update={"tasks": tuple(_fact(task, plan) for task in problem.tasks)})


def _fact(task: Task, plan: Plan) -> Task:
    placed = plan.of(task.id)
    if placed is None or task.started is not None:
        return task
    length = placed.end - placed.start
    facts = {"started": placed.start, "least_s": length, "most_s": length}
    return task.model_copy(update={"after": (), "within_s": None, "earliest": None, **facts})
