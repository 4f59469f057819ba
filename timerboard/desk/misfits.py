"""Whether the plan in force still fits the facts, and what it looks like by now."""

from collections.abc import Mapping

from timerboard.core.busy import Busy, all_busy, fewest_pairs
from timerboard.core.cook import Cook, StepState
from timerboard.core.outlook import Foreseen, Outlook
from timerboard.core.plan import Placed, Plan, Problem
from timerboard.core.values import MS, Moment
from timerboard.core.words import sentence_list, the

LATE_MS = 60_000
"""Lateness beyond what the plan in force already admits, before anyone is asked about it."""

LATE = "the meal would be late"


def misfits(cook: Cook, seen: Outlook, problem: Problem) -> tuple[str, ...]:
    """Why the plan in force no longer fits, for the cook; empty while it does."""
    if cook.plan is None:
        return ("there is no plan yet",)
    late = (LATE,) if -seen.margin_ms > admitted_ms(cook, cook.plan) + LATE_MS else ()
    waiting = [name for name, dish in seen.dishes.items() if _stands_too_long(cook, name, dish.hold_left_ms)]
    holds = (f"{sentence_list([the(name) for name in waiting])} would stand too long",) if waiting else ()
    return (*late, *holds, *_two_at_once(cook, problem, seen, cook.plan))


def admitted_ms(cook: Cook, plan: Plan) -> int:
    """How late the plan in force says the meal will be; less by as much as eating was moved since."""
    return max(0, (plan.eat_at + plan.late_s) * MS - cook.eat_at)


def _stands_too_long(cook: Cook, name: str, left_ms: int | None) -> bool:
    """A dish that is still to be finished and would be ready too early; what is ready already no plan can change."""
    dish = cook.menu.dish(name)
    if left_ms is None or left_ms >= -LATE_MS or dish is None:
        return False
    return any(cook.lives[step].started is None for step in dish.last_steps)


def _two_at_once(cook: Cook, problem: Problem, seen: Outlook, plan: Plan) -> tuple[str, ...]:
    """Where the steps as foreseen ask for more hands than there are; small jobs (cues) can wait and are not counted."""
    busy = all_busy(problem, as_foreseen(cook, plan, seen).by_id, ())
    for at in sorted({job.start for job in busy}):
        working = [job for job in busy if job.start <= at < job.end]
        if len(working) > fewest_pairs(problem, at, at + 1) and not all(job.fact for job in working):
            return (f"{_jobs(working)} would need hands at the same time",)
    return ()


def _jobs(working: list[Busy]) -> str:
    return sentence_list(sorted({the(job.task.dish) for job in working}))


def starts(cook: Cook, seen: Outlook) -> Mapping[str, Moment]:
    """When every step that has not begun would start as things stand."""
    waiting = {StepState.WAITING, StepState.READY}
    return {step: foreseen.start for step, foreseen in seen.steps.items() if cook.lives[step].state in waiting}


def as_foreseen(cook: Cook, plan: Plan, seen: Outlook) -> Plan:
    """The plan in force with every step where it was, is, or will be at the earliest.

    What is to come is as planned or later: that food may be done early breaks no plan. Eaten when the cook says now,
    not when the plan was made for: a forecast asks who eats in time.
    """
    placed = [_placed(cook, foreseen, plan.of(foreseen.step)) for foreseen in seen.steps.values()]
    return plan.model_copy(update={"placed": tuple(placed), "eat_at": cook.eat_at // MS})


def _placed(cook: Cook, seen: Foreseen, own: Placed | None) -> Placed:
    start, end = seen.start // MS, seen.end_likely // MS
    if own is None:
        return Placed(id=seen.step, start=start, end=end)
    life, step = cook.lives[seen.step], cook.menu.steps[seen.step]
    if life.state is StepState.ENDED:
        return own.model_copy(update={"start": start, "end": end})
    if life.started is not None:
        return own.model_copy(update={"start": start, "end": max(end, own.end)})
    late = max(0, start - own.start)
    gives_way = min(late, own.end - own.start - step.span.low) if step.elastic else 0
    return own.model_copy(update={"start": own.start + late, "end": own.end + late - max(0, gives_way)})
