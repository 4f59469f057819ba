"""The one door to a cook: command -> decide -> journal -> apply -> tell.

Nothing is shown before it is durable, or before the saved mark says that it is not. Whoever wakes up calls `look`;
looking twice, early or late does no harm.
"""

from collections.abc import Callable, Sequence

from timerboard.core.alarm_values import Alarm, Rank
from timerboard.core.alarms import alarms, calls, next_change
from timerboard.core.civil import clock_words
from timerboard.core.commands import AddDish, AdoptPlan, BoardWish, Command, HearAlarm, Look, MoveEating, Undo
from timerboard.core.cook import Cook
from timerboard.core.decide import At, Refusal, decide
from timerboard.core.events import BoardReturned, ClockStepped, Event, PlanAdopted, PullForeseen
from timerboard.core.flood import Flood
from timerboard.core.fold import apply, fold
from timerboard.core.heat_values import PullForecast
from timerboard.core.menu import Dish
from timerboard.core.plan import Plan
from timerboard.core.record_words import Teller
from timerboard.core.values import Moment
from timerboard.core.view import view
from timerboard.core.view_record import last_act
from timerboard.core.view_values import BoardView, Extras, Notice

from .choosing import choices_of_old, remember_choices
from .keeping import NOT_SAVED, Keeper
from .kitchen_time import AWAY_MS, Glance, KitchenTime, at_open, glance
from .late_plan import with_late_dish
from .listening import Listening
from .notices import CLOCK, Notices, hands_told, keep_the_clock_time, plain
from .opening import Order, opening, taken_up
from .ports import Clock, Journal, Memory, Planner, Wake
from .pulls import Predictor, Pulls
from .replanning import Replanner
from .sounder import Sounder

AHEAD_MS = 20_000
"""How long before its moment a burst is armed: more than the 15 s between two looks of a board that nobody sees."""

SETTLE_MS = 100
"""After an act the board is painted first; so soon after it the plan is looked at."""

Trace = Callable[[str, Alarm, Moment], None]
"""Told "due" for every alarm when the board first sees it, and "sounds" for every burst."""


class Desk:
    """A cook in progress, and everything that happens to it. `board` names this board in the record.

    Without a `wake` nobody promised to look at certain times (a rehearsal), so no absence is noted while it runs.
    """

    def __init__(
        self,
        clock: Clock,
        journal: Journal,
        board: str,
        *,
        wake: Wake | None = None,
        planner: Planner | None = None,
        sounder: Sounder | None = None,
        memory: Memory | None = None,
        trace: Trace | None = None,
        predictor: Predictor | None = None,
    ) -> None:
        self._clock = clock
        self._journal = journal
        self._board = board
        self._wake = wake
        self._sounder = sounder
        self._trace = trace
        self._keeper = Keeper(journal)
        self._replanner = Replanner(planner, self._tell, self._adopt)
        self._pulls = Pulls(predictor, self._foresee)
        self._notices = Notices()
        self._memory = memory
        self._listening = Listening(sounder, memory, self._notices)
        self._flood = Flood()
        self._listeners: list[Callable[[], None]] = []
        self._time: KitchenTime = at_open(glance(clock))
        self._cook: Cook | None = None
        self._looked: Moment = 0
        self._seen: frozenset[str] = frozenset()
        self._order: tuple[str, ...] = ()
        self._looks_at: tuple[Moment, tuple[Alarm, ...]] | None = (
            None  # while listeners are told: what they are told of
        )

    @property
    def cook(self) -> Cook:
        """The cook as it is. RuntimeError before one was opened."""
        if self._cook is None:
            raise RuntimeError("no cook was opened")
        return self._cook

    def now(self) -> Moment:
        """This moment on the kitchen clock."""
        return self._time.moment(glance(self._clock))

    def listen(self, listener: Callable[[], None]) -> None:
        """Call `listener` whenever something may have changed."""
        self._listeners.append(listener)

    def open_cook(self, order: Order, plan: Plan | None = None) -> None:
        """Begin a cook, and take its plan."""
        self._time, event = opening(order, glance(self._clock), self._board)
        self._looked = event.at
        self._keeper.keep([event], event.at)
        self._cook = fold([event])
        self._take(choices_of_old(self._memory, self._cook, self._at(event.at, None)), event.at)
        self.send(AdoptPlan(plan) if plan else Look())

    def resume(self) -> None:
        """Take up the cook that the journal has. Raises JournalTrouble when it cannot be read, or has no beginning."""
        seen = glance(self._clock)
        found = taken_up(self._journal, seen)
        self._time, self._cook = found.back.time, found.cook
        self._looked = self._time.moment(seen)
        self._keeper.take_up(found.events)
        self._take((found.event(seen, self._board, self._keeper.next_seq),), self._looked)
        if found.back.unsure:
            said = "The wall clock went back while the machine was off: look at every pot, countdowns may run behind"
            self._notices.say(plain("unsure", said, Rank.DUE))
        if self._journal.damage():
            self._notices.say(plain("damage", self._journal.damage(), Rank.DUE))
        self.look()

    def send(self, command: Command, who: str | None = None) -> str | Refusal:
        """Do what somebody asks: the words of the last act that stands when this returns, or why nothing was done."""
        now = self._catch_up()
        if isinstance(command, BoardWish):
            said = self._listening.wish(command)
            self._after(now)
            return said
        if isinstance(command, HearAlarm) and self._left(command.alarm):
            self._after(now)
            return ""
        answer = decide(self.cook, command, self._at(now, who or self._listening.who or None))
        if isinstance(answer, Refusal):
            return answer
        self._notices.answered(command)
        before = self.cook
        self._take(answer, now)
        if isinstance(command, AddDish):
            self._place(command.dish, now)
        if isinstance(command, MoveEating | Undo) and (moved := hands_told(before, self.cook, now)) is not None:
            self._notices.say(moved)
        remember_choices(self._memory, before.chosen, self.cook.chosen)
        self._after(now)
        return last_act(Teller(self.cook))

    def plan_better(self) -> None:
        """Ask for a better plan than the one in force, to be offered when it comes."""
        self._replanner.better()
        self._after(self._catch_up())

    def look(self) -> None:
        """See what time it is: what began by itself, what came due, whether the clock was moved or the board slept."""
        now = self._catch_up()
        self._keeper.retry(now)
        answer = decide(self.cook, Look(), self._at(now, None))
        self._take(() if isinstance(answer, Refusal) else answer, now)
        self._keeper.looked(now)
        self._replanner.look(self.cook, now)
        self._after(now)

    def view(self) -> BoardView:
        """Everything the board shows now. Strips stay where they were, as the core's order of strips allows."""
        now, called = self._looks_at or (self.now(), None)
        shown = view(self.cook, now, self._extras(), called)
        self._order = tuple(strip.key for strip in shown.strips)
        return shown

    def hear(self, rank: Rank) -> None:
        """Let a rank's burst be heard, for a test of the sound."""
        if self._sounder:
            self._sounder.hear(rank)

    def tell(self, notice: Notice) -> None:
        """Show a line that stays until it is answered; one of the same key is replaced."""
        self._notices.say(notice)
        self._tell()

    def close(self) -> None:
        """Let go of the journal and of the sound, and wake up no more. The cook itself is not closed by this."""
        if self._wake:
            self._wake.stop()
        if self._sounder:
            self._sounder.close()
        self._journal.close()

    def _at(self, now: Moment, who: str | None) -> At:
        wall = self._clock.wall_ms()
        return At(now, wall, self._clock.boot, self._board, who, self._keeper.next_seq)

    def _catch_up(self) -> Moment:
        """Note a board that was away and a clock that was moved; then it is now."""
        seen = glance(self._clock)
        now = self._time.moment(seen)
        if self._wake and now - self._looked > AWAY_MS:
            self._take((self._returned(now, seen),), now)
        self._looked = now
        by = self._time.stepped_by(seen)
        if by:
            self._step(by, now)
        return now

    def _returned(self, now: Moment, seen: Glance) -> BoardReturned:
        stamp = self._at(now, None).fields()
        return BoardReturned(**stamp, away_ms=now - self._looked, booted=now - seen.kitchen_ms)

    def _step(self, by: int, now: Moment) -> None:
        self._time = self._time.after_step(by)
        event = ClockStepped(**self._at(now, None).fields(), by_ms=by, offset_ms=self._time.offset_ms)
        self._take((event,), now)
        offer = keep_the_clock_time(self.cook, event)
        self._notices.take_back(CLOCK)
        if offer:
            self._notices.say(offer)

    def _take(self, events: tuple[Event, ...], now: Moment) -> None:
        """Keep, then apply. Whether the plan still fits is seen at the next look: a tap waits for the disk only."""
        if not events:
            return
        self._keeper.keep(events, now)
        for event in events:
            self._cook = apply(self.cook, event)
        self._replanner.changed()

    def _adopt(self, plan: Plan) -> None:
        """A better plan before anything has begun: nobody need be asked, and undo does not stop at it."""
        now = self._catch_up()
        self._take((PlanAdopted(**self._at(now, None).fields(), plan=plan, by_itself=True),), now)
        self._after(now)

    def _place(self, dish: Dish, now: Moment) -> None:
        """A dish that came late is not to be begun at once only because no plan knows it yet."""
        plan = with_late_dish(self.cook, dish, now)
        if plan is None:
            self._replanner.better()  # a plan of everything: it comes from the planner's process
            return
        late_s = self.cook.plan.late_s if self.cook.plan else 0
        self._take((PlanAdopted(**self._at(now, None).fields(), plan=plan, by_itself=True),), now)
        if plan.late_s > late_s:
            self._replanner.better()  # others may have to move for it: that is offered

    def _foresee(self, found: PullForecast) -> None:
        """A forecast of the readings so far is a fact once it is here: alarms and the plan follow from it."""
        life = self.cook.lives.get(found.step)
        if self.cook.closed is not None or life is None or life.foreseen == found:
            self._tell()
            return
        now = self._catch_up()
        self._take((PullForeseen(**self._at(now, None).fields(), forecast=found),), now)
        self._after(now)

    def _left(self, key: str) -> bool:
        """True when what was answered is the desk's own to tell, not an alarm of the cook."""
        if key == NOT_SAVED:
            self._keeper.heard()
            return True
        return self._listening.leave(key) or self._replanner.leave(key) or self._notices.take_back(key)

    def _after(self, now: Moment) -> None:
        """Sound what is due, set the next wake-up, and tell whoever listens."""
        self._pulls.look(self.cook, now)
        called = tuple(calls(self.cook, now))  # asked once: it is most of the work of a look
        calling = alarms(self.cook, now, called)
        unsaved = self._keeper.alarm()
        calling = (*calling, unsaved) if unsaved else calling
        self._trace_due(calling, now)
        self._notices.wonder(self.cook, calling, now)
        self._flood = self._flood.look(calling, now)
        moments = [next_change(self.cook, now, called), self._sound(calling, now)]
        self._sound_ahead(moments, called, now)
        moments += [now + SETTLE_MS if self._replanner.due else None, self._replanner.tells_at]
        due = min((moment for moment in moments if moment is not None), default=None)
        if self._wake:
            self._wake.at(None if due is None else max(0, due - now), self.look)
        self._looks_at = (now, called)
        try:
            self._tell()
        finally:
            self._looks_at = None

    def _sound(self, calling: tuple[Alarm, ...], now: Moment) -> Moment | None:
        if self._sounder is None:
            return None
        due, began = self._sounder.look(calling, self.cook, now, flood=self._flood.on)
        if began and due.alarm and self._trace:
            self._trace("sounds", due.alarm, now)
        return due.next_at

    def _sound_ahead(self, moments: Sequence[Moment | None], called: tuple[Alarm, ...], now: Moment) -> None:
        """Have what will sound next begin by itself, if that is before the look after next."""
        at = min((moment for moment in moments if moment is not None), default=None)
        if self._sounder is None or self._wake is None:
            return
        if at is None or at - now > AHEAD_MS:
            self._sounder.look_no_further()
            return
        unsaved = self._keeper.alarm()
        calling = alarms(self.cook, at, called)
        self._sounder.look_ahead((*calling, unsaved) if unsaved else calling, self.cook, at, self._time.in_boot(at))

    def _trace_due(self, calling: tuple[Alarm, ...], now: Moment) -> None:
        if self._trace:
            for alarm in calling:
                if alarm.id not in self._seen:
                    self._trace("due", alarm, now)
        self._seen = frozenset(alarm.id for alarm in calling)

    def _extras(self) -> Extras:
        offer, unsaved = self._replanner.offer or self._replanner.later(), self._keeper.alarm()
        trouble = (plain(NOT_SAVED, self._saved_words(), Rank.DUE),) if unsaved else ()
        stuck = self._replanner.trouble
        planner = (Notice("planner", f"No new plans for now: {stuck}", Rank.NOTE),) if stuck else ()
        told = Extras(
            saved=self._keeper.mark(self._clock_of),
            saved_ok=unsaved is None,
            forecast=self._replanner.forecast,
            notices=(*trouble, *self._notices.all(), *planner, *self._replanner.advice, *((offer,) if offer else ())),
            order=self._order,
            flood=self._flood.words,
            pulls=self._pulls.forecasts,
        )
        return self._listening.told(told)

    def _saved_words(self) -> str:
        mark = self._keeper.mark(self._clock_of)
        return f"{mark[:1].upper()}{mark[1:]}. The cook goes on; leave the board open"

    def _clock_of(self, at: Moment) -> str:
        return clock_words(at + self._time.offset_ms, self.cook.zone)

    def _tell(self) -> None:
        for listener in self._listeners:
            listener()
