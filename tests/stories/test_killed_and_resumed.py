"""A cook that is killed and taken up again after every single event ends as the one that ran through."""

from collections.abc import Iterator

import pytest

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import gravy, pork, small_menu
from timerboard.core.alarm_values import Kind
from timerboard.core.alarms import alarms, next_change
from timerboard.core.commands import Command, DropDish, SetQuickTimer, Undo
from timerboard.core.cook import StepState
from timerboard.core.decide import Refusal
from timerboard.core.engine import phase
from timerboard.core.events import BoardReturned
from timerboard.core.fold import fold
from timerboard.core.values import MS
from timerboard.core.view import view
from timerboard.core.view_values import HandsItem, Strip

MOST_LOOKS = 3_000


def evening(kitchen: DeskKitchen) -> Iterator[None]:
    """One cook answers the hands line as it comes, late and with a few acts of its own; stops after every act."""
    own = {4: SetQuickTimer("eggs", 390), 6: DropDish("Gravy"), 7: Undo()}
    acts = 0
    for _ in range(MOST_LOOKS):
        if all(life.state is StepState.ENDED for life in kitchen.desk.cook.lives.values()):
            return
        item = next((item for item in kitchen.desk.view().hands if wanted(kitchen, item)), None)
        command: Command | None = own.pop(acts, None) or (item.answer if item else None)
        if command is None or isinstance(kitchen.desk.send(command), Refusal):
            wait(kitchen)
            continue
        acts += 1
        yield
        kitchen.clock.advance(40)
        kitchen.desk.look()
    raise AssertionError("the evening never ends")


def wanted(kitchen: DeskKitchen, item: HandsItem) -> bool:
    """What calls now and is not only a reading; a range is let run to its high end."""
    standing = {alarm.id: alarm for alarm in alarms(kitchen.desk.cook, kitchen.desk.now())}
    alarm = standing.get(item.key)
    return not item.wants_reading and (alarm is None or alarm.kind is not Kind.CHECK)


def wait(kitchen: DeskKitchen) -> None:
    """On to the next moment at which something changes; a shown board looks at least every 15 s."""
    now = kitchen.desk.now()
    change = next_change(kitchen.desk.cook, now)
    step = min(15 * MS, (change or now + 15 * MS) - now)
    kitchen.clock.advance(max(1, step) / 1000)
    kitchen.desk.look()


def facts(kitchen: DeskKitchen) -> dict[str, object]:
    """Everything of a cook but the record of absences, and what they made to lapse."""
    cook = kitchen.desk.cook
    names = ("menu", "eat_at", "zone", "offset_ms", "lives", "plan", "dropped", "heats", "settings_done", "timers")
    return {name: getattr(cook, name) for name in names}


def acts_of(kitchen: DeskKitchen) -> list[tuple[str, int, str]]:
    """The record without absences: what, when, of which step."""
    events = (event for event in kitchen.journal.read() if not isinstance(event, BoardReturned))
    return [(event.kind, event.at, getattr(event, "step", "")) for event in events]


@pytest.fixture(scope="module")
def through() -> DeskKitchen:
    kitchen = DeskKitchen(small_menu(pork(), gravy()), eat_in=125)
    for _ in evening(kitchen):
        pass
    return kitchen


def test_killed_after_every_act_it_ends_the_same(through):
    kitchen = DeskKitchen(small_menu(pork(), gravy()), eat_in=125)
    kills = 0
    for _ in evening(kitchen):
        shown = kitchen.desk.view()
        kitchen.restart()
        again = kitchen.desk.view()
        kills += 1
        assert [(s.key, s.countdown) for s in again.strips] == [(s.key, s.countdown) for s in shown.strips]
        assert again.head == shown.head
    assert kills > 10
    assert acts_of(kitchen) == acts_of(through)
    assert facts(kitchen) == facts(through)


def test_the_desks_cook_is_its_journal_to_the_end(through):
    assert fold(through.journal.read()) == through.desk.cook
    cook = through.desk.cook
    assert {phase(cook, step, through.desk.now()) for step in cook.menu.steps} == {StepState.ENDED}


def told(strip: Strip) -> tuple[str, ...]:
    """What a strip shows."""
    return strip.name, strip.line, strip.countdown, strip.counts, strip.matter, strip.mark


@pytest.mark.parametrize("lost", [0.0, 90.0])
def test_killed_at_every_event_of_its_record_it_is_the_cook_of_that_moment(through, lost):
    """The journal cut off after every one of its events: that is what a kill leaves."""
    whole = through.journal.read()
    for count in range(1, len(whole) + 1):
        kept = whole[:count]
        kitchen = DeskKitchen(small_menu(pork(), gravy()), eat_in=125)
        kitchen.journal = type(kitchen.journal)(kept)
        kitchen.clock.advance((kept[-1].at - kept[0].at) / 1000 + lost)
        kitchen.restart()
        assert kitchen.desk.now() == kept[-1].at + round(lost * MS)
        before = fold(kept)
        back = next(e for e in kitchen.journal.read()[count:] if isinstance(e, BoardReturned))
        assert back.away_ms == round(lost * MS)
        begun_since = {e.step for e in kitchen.journal.read()[count:] if e.kind == "StepStarted"}
        for step, life in before.lives.items():
            assert step in begun_since or kitchen.desk.cook.lives[step] == life
        if not lost and not begun_since:
            unbroken, shown = view(before, kitchen.desk.now()), kitchen.desk.view()
            assert {s.key: told(s) for s in shown.strips} == {s.key: told(s) for s in unbroken.strips}
            assert [item.line for item in shown.hands] == [item.line for item in unbroken.hands]
            assert (shown.head.eat, shown.head.margin) == (unbroken.head.eat, unbroken.head.margin)
