"""Six hours of random answers, naps and kills: every alarm that was raised has ended for a reason, or still waits."""

import random
from dataclasses import dataclass, field

import pytest

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import fritters, gravy, minutes, pork, small_menu, step
from timerboard.core.alarm_values import Alarm, Answered, Kind, Rank
from timerboard.core.alarms import alarms
from timerboard.core.commands import (
    ClearQuickTimer,
    Command,
    DropDish,
    EndStep,
    Hush,
    MoveEating,
    NotYet,
    ReopenStep,
    SetQuickTimer,
    TakeReading,
    Undo,
)
from timerboard.core.decide import Refusal
from timerboard.core.events import AlarmHeard, Event
from timerboard.core.menu import Cue, Dish, Use, Work
from timerboard.core.values import MS

HOURS = 6
LAST_MS = HOURS * 3600 * MS

LAMB = Dish(
    name="Lamb",
    steps=(
        step(
            "Lamb",
            "Roast",
            minutes(70, 100),
            uses=(Use(place="oven"),),
            heat_c=160.0,
            pull_at_c=54.0,
            work=Work(start_s=60),
            cues=(Cue(do="Turn", at_fraction=0.5), Cue(do="Baste", every_s=600)),
        ),
        step("Lamb", "Rest", minutes(10, 20), after=["Roast"], uses=(Use(place="counter"),), elastic=True),
    ),
)
MENU = small_menu(pork(), gravy(), fritters(), LAMB)

GIVES_WAY = {
    Kind.CHECK: {Kind.OVER, Kind.CHECK},
    Kind.READ: {Kind.PULL, Kind.OVER},
    Kind.PULL: {Kind.OVER},
}
"""What the clock alone may put in the place of what, at the same step."""

CHANGES_NOTHING = {"QuickTimerSet", "Hushed", "AlarmPutOff", "AlarmHeard"}
"""Events that end no cause. 'Heard' is an answer, and is looked at by itself."""


class TracedKitchen(DeskKitchen):
    """Notes what the desk traces by the alarm's id; a board that comes back tells of what called before it again."""

    calling: frozenset[str] = frozenset()

    def _trace(self, what: str, alarm: Alarm, _at: int) -> None:
        self.traced.append(("again" if what == "due" and alarm.id in self.calling else what, alarm.id))

    def restart(self) -> None:
        self.calling = self.desk._seen  # what the board before it has told of
        super().restart()
        self.calling = frozenset()


@dataclass
class Account:
    """Kept from outside: by the desk's own trace what was raised, by the journal why anything ended."""

    kitchen: TracedKitchen
    standing: dict[str, Alarm] = field(default_factory=dict)
    ended: int = 0
    lost: list[str] = field(default_factory=list)
    read: int = 0

    @property
    def raised(self) -> int:
        return sum(what == "due" for what, _ in self.kitchen.traced)

    def look(self) -> None:
        """After a look or an act: whatever is gone must be gone for a reason."""
        record = self.kitchen.desk.cook.record
        new, self.read = [noted.event for noted in record[self.read :]], len(record)
        here = {alarm.id: alarm for alarm in alarms(self.kitchen.desk.cook, self.kitchen.desk.now())}
        for name, alarm in self.standing.items():
            if name not in here:
                self.ended += 1
                if not any(ends(event, alarm) for event in new) and not gave_way(alarm, here):
                    self.lost.append(f"{name} at {self.kitchen.desk.now()} after {[event.kind for event in new]}")
        self.standing = here


def ends(event: Event, alarm: Alarm) -> bool:
    """True when the event may have ended the alarm: it answers it, or it changes the steps of the cook."""
    if isinstance(event, AlarmHeard):
        return event.alarm == alarm.id
    return event.kind not in CHANGES_NOTHING


def gave_way(alarm: Alarm, here: dict[str, Alarm]) -> bool:
    """True when something that says more stands in its place."""
    if alarm.kind is Kind.HEADS_UP:
        return alarm.id.removeprefix(f"{Kind.HEADS_UP}|") in here
    if alarm.kind is Kind.CHECK and any(name.startswith(f"{Kind.DANGER}|{alarm.step}|over|") for name in here):
        return True  # hot oil past its time
    if alarm.kind is Kind.CUE:  # at most one cue of a kind waits: the next one has taken its place
        return any(a.kind is Kind.CUE and (a.step, a.cue) == (alarm.step, alarm.cue) for a in here.values())
    return any(a.step == alarm.step and a.kind in GIVES_WAY.get(alarm.kind, ()) for a in here.values())


def some_command(kitchen: DeskKitchen, dice: random.Random) -> Command:
    """Mostly an answer to something on the hands line; now and then an act of one's own."""
    items = kitchen.desk.view().hands
    steps = list(kitchen.desk.cook.menu.steps)
    own: list[Command] = [
        SetQuickTimer(f"timer {dice.randrange(9)}", dice.randrange(20, 900)),
        ClearQuickTimer(f"timer {dice.randrange(9)}"),
        Hush(dice.randrange(10, 200)),
        Undo(),
        ReopenStep(dice.choice(steps)),
        EndStep(dice.choice(steps)),
        NotYet(dice.choice(steps)),
        MoveEating(kitchen.desk.cook.eat_at + dice.randrange(-5, 15) * 60 * MS),
        DropDish("Gravy") if dice.random() < 0.1 else Hush(30),
    ]
    if not items or dice.random() < 0.25:
        return dice.choice(own)
    item = dice.choice(items)
    said = [item.answer, item.not_yet, item.put_off, item.pass_over, item.heard]
    if item.wants_reading is not None:
        said = [TakeReading(item.wants_reading, float(dice.randrange(5, 60)), confirmed=dice.random() < 0.5)]
    return dice.choice([command for command in said if command is not None])


def six_hours(seed: int) -> Account:
    """One cook; about one in three calls is left alone for a while, and the board is asleep or killed now and then."""
    dice = random.Random(seed)
    kitchen = TracedKitchen(MENU, eat_in=dice.randrange(200, 330))
    account, end = Account(kitchen), kitchen.desk.now() + LAST_MS
    account.look()
    while kitchen.desk.now() < end:
        for _ in range(dice.choice((0, 0, 1, 1, 2))):
            said = kitchen.desk.send(some_command(kitchen, dice))
            if isinstance(said, Refusal) and said.ask is not None and dice.random() < 0.5:
                kitchen.desk.send(said.ask)
            account.look()
        luck = dice.random()
        if luck < 0.01:
            kitchen.clock.suspend(dice.randrange(61, 900))
        else:
            wake = kitchen.wake.delay_ms if kitchen.wake.delay_ms is not None else 45_000
            kitchen.clock.advance(min(wake, dice.randrange(500, 45_000)) / 1000)
        kitchen.restart() if 0.01 <= luck < 0.015 else kitchen.desk.look()
        account.look()
    return account


@pytest.mark.parametrize("seed", range(3))
def test_alarms_raised_are_alarms_ended_and_alarms_waiting_exactly(seed):
    account = six_hours(seed)
    assert account.lost == []
    assert account.raised == account.ended + len(account.standing)
    assert account.raised > 60


@pytest.mark.parametrize("seed", range(3, 5))
def test_whatever_waits_unanswered_for_a_minute_has_been_heard(seed):
    """Unless something of higher rank calls meanwhile, or sounds are paused: one sound at a time."""
    dice = random.Random(seed)
    kitchen = DeskKitchen(MENU, eat_in=240)
    heard: set[str] = set()
    kitchen.desk._trace = lambda what, alarm, _at: heard.add(alarm.id) if what == "sounds" else None
    since: dict[str, int] = {}
    for _ in range(600):
        if dice.random() < 0.3:
            kitchen.desk.send(some_command(kitchen, dice))
        kitchen.clock.advance(min(kitchen.wake.delay_ms or 15_000, 15_000) / 1000)
        kitchen.desk.look()
        cook, now = kitchen.desk.cook, kitchen.desk.now()
        calling = [a for a in alarms(cook, now) if a.answered is Answered.NOT and a.rank >= Rank.DUE]
        paused = cook.hushed_until is not None and now < cook.hushed_until
        top = max((a.rank for a in calling), default=Rank.DUE)
        since = {a.id: since.get(a.id, now) for a in calling if a.rank is top and not paused}
        doors = {a.id for a in calling if a.step and "oven" in a.where}
        late = [name for name, at in since.items() if now - at > 61_000 and name not in heard and name not in doors]
        assert late == []
    assert len(heard) > 5
