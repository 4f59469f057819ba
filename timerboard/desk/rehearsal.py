"""A whole cook without a kitchen: the same desk, engine and view, a cranked clock, and a cook who answers the board.

The rehearsed cook knows only what the board shows (the hands line) and what the food would show when looked at.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from timerboard.core.alarm_values import Rank
from timerboard.core.alarms import alarms, next_change
from timerboard.core.answers import Refusal
from timerboard.core.commands import (
    ClearQuickTimer,
    CloseCook,
    Command,
    DoCue,
    EndStep,
    HearAlarm,
    StartStep,
    TakeReading,
)
from timerboard.core.cook import Cook, Noted, StepState
from timerboard.core.engine import LIFT
from timerboard.core.leftovers import leftovers
from timerboard.core.values import MS, Moment
from timerboard.core.view_values import HandsItem

from .by_hand import CrankedClock
from .desk import Desk
from .rehearsed_cook import RehearsedCook

LONGEST_MS = 21 * 24 * 3600 * MS  # a plan is at most 14 days; what is not over a week later never ends
GLANCE_MS = 5 * MS  # between two jobs of one pair of hands
BUSY_MS = 20 * MS  # how soon hands that are full look again
MOST_LOOKS = 200_000


@dataclass
class Tally:
    """Alarms counted from the outside: raised = ended + waiting must hold at every look."""

    raised: int = 0
    standing: set[str] = field(default_factory=set)
    ended: int = 0
    longest_wait_ms: int = 0

    def look(self, cook: Cook, now: Moment) -> None:
        """Compare what calls now with what called before."""
        here = {alarm.id: alarm for alarm in alarms(cook, now)}
        self.ended += len(self.standing - here.keys())
        self.raised += len(here.keys() - self.standing)
        self.standing = set(here)
        waits = [now - alarm.since for alarm in here.values() if alarm.rank >= Rank.DUE]
        self.longest_wait_ms = max([self.longest_wait_ms, *waits])


@dataclass
class Rehearsal:
    """One run. `pace` is told how many milliseconds go by before each look, for a run that is watched."""

    desk: Desk
    clock: CrankedClock
    person: RehearsedCook
    pace: Callable[[int], None] = lambda _ms: None
    foretell: Callable[[], None] = lambda: None  # lets open forecasts of pulls be answered
    tally: Tally = field(default_factory=Tally)
    refused: list[str] = field(default_factory=list)
    _answer_at: dict[str, Moment] = field(default_factory=dict)
    _told: int = 0

    def run(self) -> Iterator[Noted]:
        """Cook to the end; gives each event as it is noted. Ends when every step has, or nothing more can happen."""
        end = self.desk.now() + LONGEST_MS
        for _ in range(MOST_LOOKS):
            self.desk.look()
            self.tally.look(self._cook, self.desk.now())
            self._answer()
            self.foretell()
            yield from self._news()
            calling = self._calling()
            if not calling and self._over():
                break
            upcoming = self._next(calling)
            if upcoming is None or upcoming > end:
                break
            self.pace(upcoming - self.desk.now())
            self.clock.crank_to(upcoming)
        self.desk.send(CloseCook())
        self.tally.look(self._cook, self.desk.now())
        yield from self._news()

    @property
    def _cook(self) -> Cook:
        return self.desk.cook

    def _news(self) -> Iterator[Noted]:
        record = self._cook.record
        yield from record[self._told :]
        self._told = len(record)

    def _over(self) -> bool:
        """Every step has ended, the meal has come, and nothing stands out that should be put away."""
        done = (StepState.ENDED, StepState.DROPPED)
        if any(life.state not in done for life in self._cook.lives.values()):
            return False
        now = self.desk.now()
        return now >= self._cook.eat_at and not leftovers(self._cook, now)

    def _calling(self) -> tuple[HandsItem, ...]:
        return tuple(item for item in self.desk.view().hands if item.rank >= Rank.DUE)

    def _next(self, calling: tuple[HandsItem, ...]) -> Moment | None:
        """When to look again: the next change of the alarms, the next answer, the meal."""
        now = self.desk.now()
        wanted = [self._answer_at.setdefault(i.key, now + self.person.delay_ms(i.key)) for i in calling]
        answers = [max(at, now + GLANCE_MS) for at in wanted]
        change = next_change(self._cook, now)
        moments = [*answers, *([change] if change is not None else []), self._cook.eat_at]
        later = [moment for moment in moments if moment > now]
        return min(later, default=now + BUSY_MS if calling else None)

    def _answer(self) -> None:
        """One job after the other: what was seen long enough ago and that hands are free for."""
        for item in self._calling():
            now = self.desk.now()
            due = self._answer_at.setdefault(item.key, now + self.person.delay_ms(item.key))
            if due > now:
                continue
            if self._hands_full(item.answer) or self._not_to_be_lifted(item.answer, now):
                self._answer_at[item.key] = now + BUSY_MS
                continue
            del self._answer_at[item.key]
            self._send(self._reply(item, now), item)
            self.tally.look(self._cook, now)
            self.clock.crank_to(now + GLANCE_MS)

    def _hands_full(self, command: Command) -> bool:
        """True when a step that needs hands throughout would want more hands than there are."""
        if not isinstance(command, StartStep):
            return False
        step = self._cook.menu.steps[command.step]
        if not (step.work.throughout or step.hazard):
            return False
        lives = self._cook.lives
        steps = (s for s in self._cook.menu.steps.values() if lives[s.id].state is StepState.RUNNING)
        busy = sum(1 for s in steps if s.work.throughout or s.hazard)
        return busy >= max(1, *(h.pairs for h in self._cook.menu.hands))

    def _not_to_be_lifted(self, command: Command, now: Moment) -> bool:
        """True while the load in the pan is paler than it should be: whoever stands there waits for it."""
        if not isinstance(command, DoCue) or command.cue != LIFT:
            return False
        return not self.person.load_done(self._cook, self._cook.menu.steps[command.step], now)

    def _reply(self, item: HandsItem, now: Moment) -> Command:
        """What the cook does after a look at the food."""
        if item.wants_reading is not None:
            step = self._cook.menu.steps[item.wants_reading]
            return TakeReading(step.id, self.person.core_c(self._cook, step, now), confirmed=True)
        if isinstance(item.answer, EndStep):
            step = self._cook.menu.steps[item.answer.step]
            if not self.person.is_done(self._cook, step, now) and item.not_yet is not None:
                return item.not_yet
        return item.answer

    def _send(self, command: Command, item: HandsItem) -> None:
        said = self.desk.send(command)
        if isinstance(said, Refusal) and said.ask is not None:
            said = self.desk.send(said.ask)
        if isinstance(said, Refusal):
            self.refused.append(f"{item.line}: {said.said}")
            self._answer_at[item.key] = self.desk.now() + 3 * BUSY_MS
            if item.heard is not None and not isinstance(command, HearAlarm | ClearQuickTimer):
                self.desk.send(item.heard)
