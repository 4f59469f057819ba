"""When the plan no longer fits the facts: ask for a new one, and offer it as a difference in words.

Nothing moves under the cook's eyes: starts that only slip need no offer, and a new plan is taken or left.
"""

from collections.abc import Callable, Mapping

from timerboard.core.alarm_values import Rank
from timerboard.core.busy import Busy, all_busy, fewest_pairs
from timerboard.core.commands import AdoptPlan, HearAlarm
from timerboard.core.cook import Cook, StepState
from timerboard.core.outlook import Foreseen, Outlook, outlook
from timerboard.core.plan import Forecast, NoPlan, Placed, Plan, Problem
from timerboard.core.plan_difference import difference_words
from timerboard.core.question import question_of_cook
from timerboard.core.values import MS, Moment
from timerboard.core.view_values import Notice
from timerboard.core.words import sentence_list, the, upper_first
from timerboard.planner.greedy import first_plan

from .ports import Planner

LATE_MS = 60_000
"""Lateness beyond what the plan in force already admits, before anyone is asked about it."""

REDO_MS = 60_000
"""How often the plan is looked at while nobody does anything."""

ASK_AGAIN_MS = 300_000
"""How long one answer is good for while neither the facts nor the reasons change."""

MUCH_LATER_MS = 600_000
"""After an offer was left, the meal must get later by this before another is made for the same reasons."""

OFFER = "offer"
LATE = "the meal would be late"


def misfits(cook: Cook, seen: Outlook, problem: Problem) -> tuple[str, ...]:
    """Why the plan in force no longer fits, for the cook; empty while it does."""
    if cook.plan is None:
        return ("there is no plan yet",)
    planned_late = cook.plan.late_s * MS
    late = (LATE,) if -seen.margin_ms > planned_late + LATE_MS else ()
    waiting = [name for name, dish in seen.dishes.items() if _stands_too_long(cook, name, dish.hold_left_ms)]
    holds = (f"{sentence_list([the(name) for name in waiting])} would stand too long",) if waiting else ()
    return (*late, *holds, *_two_at_once(cook, problem, seen, cook.plan))


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

    What is to come is as planned or later: that food may be done early breaks no plan.
    """
    placed = [_placed(cook, foreseen, plan.of(foreseen.step)) for foreseen in seen.steps.values()]
    return plan.model_copy(update={"placed": tuple(placed)})


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


class Replanner:
    """Asks after every act, and now and then, whether the plan still fits; keeps the one offer that stands."""

    def __init__(self, planner: Planner | None, tell: Callable[[], None]) -> None:
        self._planner = planner
        self._tell = tell
        self._cook: Cook | None = None
        self._now: Moment = 0
        self._asked: Moment = 0
        self._why: tuple[str, ...] = ()
        self._margin_ms = 0
        self._left: tuple[tuple[str, ...], int] | None = None  # what an offer was left for, and the margin it had then
        self._count = 0
        self.offer: Notice | None = None
        self.forecast: Forecast | None = None
        self._wants_better = False
        self.trouble = ""
        self.due = False  # something has changed since the last look

    def changed(self) -> None:
        """The cook has changed: what was offered for it as it was is withdrawn, and the next look asks anew."""
        self.offer, self.due = None, True
        self._withdraw()

    def better(self) -> None:
        """At the next look ask for a better plan, though the one in force fits."""
        self._wants_better = self.due = True

    def look(self, cook: Cook, now: Moment) -> None:
        """After a change, and once a minute while only time goes by, see whether the plan still fits."""
        if self.due or now - self._now >= REDO_MS:
            changed, self.due = self.due, False
            self._look_at(cook, now, changed=changed)

    def leave(self, key: str) -> bool:
        """The cook keeps the plan in force: no more is offered for the same reasons until it is much later.

        False when there is no such offer.
        """
        if self.offer is None or self.offer.key != key:
            return False
        self.offer, self._left, self._wants_better = None, (self._why, self._margin_ms), False
        return True

    def _look_at(self, cook: Cook, now: Moment, *, changed: bool) -> None:
        self._cook, self._now = cook, now
        seen, problem = outlook(cook, now), question_of_cook(cook, now)
        if cook.closed is not None or seen.all_ready:
            self.offer, self.forecast, self._why = None, None, ()
            return
        if self._planner and cook.plan:
            self._planner.foresee(problem, as_foreseen(cook, cook.plan, seen), self._foreseen)
        before, self._why, self._margin_ms = self._why, misfits(cook, seen, problem), seen.margin_ms
        if not self._why and self._wants_better and self._planner:
            self._ask(problem, cook.plan)
        elif not self._why:
            self.offer = None
        elif (changed or self._why != before or now - self._asked >= ASK_AGAIN_MS) and not self._was_left():
            self._asked = now
            self._ask(problem, cook.plan)

    def _was_left(self) -> bool:
        if self._left is None:
            return False
        why, margin_ms = self._left
        return why == self._why and self._margin_ms > margin_ms - MUCH_LATER_MS

    def _withdraw(self) -> None:
        if self._planner:
            self._planner.cancel()

    def _ask(self, problem: Problem, hint: Plan | None) -> None:
        if self._planner is None:
            plan = first_plan(problem)
            self._answered(plan if plan else NoPlan(reasons=("none was found",)), tell=False)
            return
        self._planner.ask(
            problem,
            hint,
            on_progress=lambda _plan: None,
            on_answer=self._answered,
            on_forecast=lambda _forecast: None,  # of the plan on offer: the head shows that of the plan in force
            on_trouble=self._failed,
        )

    def _answered(self, answer: Plan | NoPlan, *, tell: bool = True) -> None:
        """Offer a plan that changes something worth telling and is no later than what is foreseen anyway."""
        self.trouble, self.offer, self._wants_better = "", None, False
        cook = self._cook
        if cook is not None and isinstance(answer, Plan):
            seen = outlook(cook, self._now)
            words = difference_words(cook, starts(cook, seen), answer)
            if words and not self._no_better(seen, answer):
                self._count += 1
                self.offer = self._notice(f"{OFFER}|{self._count}", words, answer)
        if tell:
            self._tell()

    def _no_better(self, seen: Outlook, plan: Plan) -> bool:
        """Lateness is the only reason, or none is, and the new plan is as late as doing nothing."""
        return self._why in {(LATE,), ()} and plan.late_s * MS > max(0, -seen.margin_ms - LATE_MS)

    def _notice(self, key: str, words: str, plan: Plan) -> Notice:
        why = f"{upper_first(sentence_list(self._why))}. New plan" if self._why else "A better plan"
        text = f"{why}: {words}"
        return Notice(
            key, text, Rank.SOON, take=AdoptPlan(plan), take_word="take it", leave=HearAlarm(key), leave_word="leave it"
        )

    def _foreseen(self, forecast: Forecast) -> None:
        self.forecast = forecast
        self._tell()

    def _failed(self, said: str) -> None:
        self.trouble = said
        self._tell()
