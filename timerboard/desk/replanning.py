"""When the plan no longer fits the facts: ask for a new one, and offer it as a difference in words.

Nothing moves under the cook's eyes: starts that only slip need no offer, and a new plan is taken or left. Only as long
as nothing has begun a better plan is simply taken. Where no plan brings the meal in time, moving it is offered.
"""

from collections.abc import Callable

from timerboard.core.advice import early_joints, guests_late
from timerboard.core.alarm_values import Rank
from timerboard.core.civil import day_clock_words
from timerboard.core.commands import AdoptPlan, HearAlarm, MoveEating
from timerboard.core.cook import Cook
from timerboard.core.outlook import Outlook, outlook
from timerboard.core.plan import Forecast, NoPlan, Plan, Problem, Status
from timerboard.core.plan_difference import difference_words
from timerboard.core.plan_quality import better_words
from timerboard.core.question import question_of_cook
from timerboard.core.values import MS, Moment
from timerboard.core.view_values import Notice
from timerboard.core.words import MINUTE, sentence_list, upper_first
from timerboard.planner.in_hand import first_plan_in_hand

from .misfits import LATE, LATE_MS, as_foreseen, misfits, starts
from .ports import Planner

REDO_MS = 60_000
"""How often the plan is looked at while nobody does anything."""

ASK_AGAIN_MS = 300_000
"""How long one answer is good for while neither the facts nor the reasons change."""

MUCH_LATER_MS = 600_000
"""After an offer was left, the meal must get later by this before another is made for the same reasons."""

WORTH_MOVING_MS = 180_000
"""Guests notice: by less the meal is not moved, the head says how late it is."""

SPARE_MS = 120_000
"""A meal that is moved is moved by so much more than it must be."""

TOLD_IN_MS = 300_000
"""People are told times in fives."""

PLANNING_MS = 500
"""A plan that takes longer is said to be on its way, and may be called off."""

LATENESS = "on time"
"""The planner's first aim: only of that a cook with a meal going late wants to know how far it may be from the best."""

PLANNING = "planning"
OFFER = "offer"
ADVICE = "advice"
LATER = "later"


class Replanner:
    """Asks after every act, and now and then, whether the plan still fits; keeps the one offer that stands."""

    def __init__(self, planner: Planner | None, tell: Callable[[], None], adopt: Callable[[Plan], None]) -> None:
        self._planner = planner
        self._tell, self._adopt = tell, adopt
        self._cook: Cook | None = None
        self._now: Moment = 0
        self._asked: Moment = 0
        self._why: tuple[str, ...] = ()
        self._margin_ms = 0
        self._left: tuple[tuple[str, ...], int] | None = None  # what an offer was left for, and the margin it had then
        self._kept_ms = 0  # how late the meal was when the cook would not move it
        self._waits = False  # a question is open
        self._put: Moment = 0  # since when
        self._count = 0
        self.offer: Notice | None = None
        self.forecast: Forecast | None = None
        self.advice: tuple[Notice, ...] = ()
        self._read: set[str] = set()  # advice that somebody has read
        self._wants_better = False
        self.trouble = ""
        self.due = False  # something has changed since the last look

    def changed(self) -> None:
        """The cook has changed: what was offered for it as it was is withdrawn, and the next look asks anew."""
        self.offer, self.due, self._waits = None, True, False
        self._withdraw()

    @property
    def tells_at(self) -> Moment | None:
        """When to look again to say that a plan is on its way; None while none is, or when that is said."""
        return self._put + PLANNING_MS if self._waits and self.offer is None else None

    def better(self) -> None:
        """At the next look ask for a better plan, though the one in force fits."""
        self._wants_better = self.due = True

    def look(self, cook: Cook, now: Moment) -> None:
        """After a change, and once a minute while only time goes by, see whether the plan still fits."""
        if self.due or now - self._now >= REDO_MS:
            changed, self.due = self.due, False
            self._look_at(cook, now, changed=changed)
        if self._waits and self.offer is None and now - self._put >= PLANNING_MS:
            self.offer = _planning()
            self._tell()

    def leave(self, key: str) -> bool:
        """The cook keeps the plan in force: no more is offered for the same reasons until it is much later.

        False when there is no such offer.
        """
        if any(notice.key == key for notice in self.advice):
            self._read.add(key)
            self.advice = tuple(notice for notice in self.advice if notice.key != key)
            return True
        later = self.later()
        if later is not None and later.key == key:
            self._kept_ms = -self._margin_ms
            return True
        if self.offer is None or self.offer.key != key:
            return False
        if key == PLANNING:
            self._withdraw()
            self._waits = False
        self.offer, self._left, self._wants_better = None, (self._why, self._margin_ms), False
        return True

    def later(self) -> Notice | None:
        """Where no plan is known that brings the meal in time: when it could be eaten, to be taken or left."""
        cook, late_ms = self._cook, -self._margin_ms
        gone = cook is None or cook.closed is not None or self.due or self._waits or self.offer is not None
        if cook is None or gone or late_ms < max(WORTH_MOVING_MS, self._kept_ms + MUCH_LATER_MS * bool(self._kept_ms)):
            return None
        soonest = -(-(cook.eat_at + late_ms) // MINUTE) * MINUTE
        then = _announced(cook, soonest)
        asked, said = _clock(cook, cook.eat_at), _clock(cook, soonest)
        key = f"{LATER}|{cook.eat_at}"
        return Notice(
            key,
            f"It cannot all be ready at {asked} any more; the soonest is {said}",
            Rank.SOON,
            take=MoveEating(then),
            take_word=f"eat at {_clock(cook, then)}",
            leave=HearAlarm(key),
            leave_word=f"keep {asked}",
        )

    def _look_at(self, cook: Cook, now: Moment, *, changed: bool) -> None:
        self._cook, self._now = cook, now
        seen, problem = outlook(cook, now), question_of_cook(cook, now)
        self.advice = self._advised(cook, seen) if cook.begun and cook.closed is None else ()
        if cook.closed is not None or seen.all_ready:
            self.offer, self.forecast, self._why, self._margin_ms = None, None, (), 0
            return
        if not cook.begun and cook.plan and cook.plan.eat_at * MS != cook.eat_at:
            self._wants_better = True  # eating was moved: all of the plan may move with it
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
            plan = first_plan_in_hand(problem)
            self._answered(plan if plan else NoPlan(status=Status.UNKNOWN, reasons=("None was found.",)), tell=False)
            return
        self._waits, self._put = True, self._now
        self._planner.ask(
            problem,
            hint,
            on_progress=lambda _plan: None,
            on_answer=self._answered,
            on_forecast=lambda _forecast: None,  # of the plan on offer: the head shows that of the plan in force
            on_trouble=self._failed,
        )

    def _answered(self, answer: Plan | NoPlan, *, tell: bool = True) -> None:
        """A plan that changes something worth telling and is no later than what is foreseen is offered, or taken."""
        self.trouble, self.offer, self._wants_better, self._waits = "", None, False, False
        cook = self._cook
        if cook is not None and isinstance(answer, Plan):
            seen = outlook(cook, self._now)
            words = difference_words(cook, starts(cook, seen), answer)
            if words and not cook.begun and answer.late_s * MS <= max(0, -seen.margin_ms) + LATE_MS:
                self._adopt(answer)
            elif words and not self._no_better(seen, answer):
                self._count += 1
                self.offer = self._notice(f"{OFFER}|{self._count}", words, answer)
        if tell:
            self._tell()

    def _no_better(self, seen: Outlook, plan: Plan) -> bool:
        """Lateness is the only reason, or none is, and the new plan is as late as doing nothing."""
        return self._why in {(LATE,), ()} and plan.late_s * MS > max(0, -seen.margin_ms - LATE_MS)

    def _notice(self, key: str, words: str, plan: Plan) -> Notice:
        why = f"{upper_first(sentence_list(self._why))}. New plan" if self._why else "A better plan"
        better = plan.standing if plan.standing is not None and plan.standing.aim == LATENESS else None
        text = f"{why}: {words}" + (f" ({better_words(better)})" if better is not None and plan.late_s else "")
        return Notice(
            key,
            text,
            Rank.SOON,
            take=_taking(self._cook, plan),
            take_word="take it",
            leave=HearAlarm(key),
            leave_word="leave it",
        )

    def _advised(self, cook: Cook, seen: Outlook) -> tuple[Notice, ...]:
        """What practised cooks do with a joint that would stand too long, whether or not a plan could help."""
        said = {f"{ADVICE}|{line.partition(' is early')[0]}": line for line in early_joints(cook, seen)}
        if late := guests_late(cook, seen):
            said[f"{ADVICE}|{cook.eat_at}"] = f"guests late: {late}"
        return tuple(
            Notice(key, upper_first(line), Rank.NOTE, leave=HearAlarm(key), leave_word="ok")
            for key, line in said.items()
            if key not in self._read
        )

    def _foreseen(self, forecast: Forecast) -> None:
        self.forecast = forecast
        self._tell()

    def _failed(self, said: str) -> None:
        self.trouble, self._waits = said, False
        if self.offer is not None and self.offer.key == PLANNING:
            self.offer = None
        self._tell()


def _planning() -> Notice:
    """A new plan is on its way."""
    said = "Planning: the plan in force stands until you take another"
    return Notice(PLANNING, said, Rank.NOTE, leave=HearAlarm(PLANNING), leave_word="stop")


def _taking(cook: Cook | None, plan: Plan) -> AdoptPlan:
    """Whoever takes a plan that says 'eat at 18:34' has said when to eat, and is not asked for it again."""
    if cook is None or plan.late_s < MINUTE // MS:
        return AdoptPlan(plan)
    late = cook.eat_at + plan.late_s * MS
    return AdoptPlan(plan, eat_at=late - (late + cook.offset_ms) % MINUTE)


def _announced(cook: Cook, soonest: Moment) -> Moment:
    """A moment to tell people: on the next five minutes, with a little to spare, so that it moves only once."""
    return soonest + SPARE_MS + -(soonest + SPARE_MS + cook.offset_ms) % TOLD_IN_MS


def _clock(cook: Cook, at: Moment) -> str:
    return day_clock_words(at + cook.offset_ms, cook.zone, cook.eat_at + cook.offset_ms)
