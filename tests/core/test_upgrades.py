"""Old journals stay readable: raw fields of an earlier version become today's events."""

import pytest

from tests.fakes import OPENING
from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.commands import NotYet, StartStep
from timerboard.core.events import VERSION, AlarmHeard, GivenMoreTime
from timerboard.core.fold import fold
from timerboard.core.menu import Dish
from timerboard.core.upgrades import UPGRADES, UnreadableEvent, read_event, upgraded

OLD = {"seq": 2, "at": OPENING, "wall_ms": OPENING, "boot": "b", "board": "kitchen"}


def test_every_older_version_has_its_function():
    assert sorted(UPGRADES) == list(range(VERSION))


def test_an_acknowledged_alarm_of_the_first_boards_is_a_heard_one():
    event = read_event({**OLD, "kind": "AlarmAcknowledged", "alarm": "cue|x"})
    assert isinstance(event, AlarmHeard)
    assert (event.alarm, event.version, event.who) == ("cue|x", VERSION, None)


def test_a_length_of_more_time_becomes_a_moment():
    event = read_event({**OLD, "kind": "GivenMoreTime", "step": "Tart/Bake", "more_s": 90})
    assert isinstance(event, GivenMoreTime)
    assert event.until == OPENING + 90_000


def test_todays_events_are_left_as_they_are():
    kitchen = Kitchen()
    for event in kitchen.events:
        raw = event.model_dump(mode="json")
        assert upgraded(raw) == raw
        assert read_event(raw) == event


def test_a_whole_old_cook_folds_to_the_same_as_todays():
    kitchen = Kitchen(small_menu(Dish(name="Tart", steps=(step("Tart", "Bake", minutes(25, 30)),))))
    kitchen.must(StartStep("Tart/Bake"))
    kitchen.wait(25)
    kitchen.must(NotYet("Tart/Bake"))
    old = [event.model_dump(mode="json") for event in kitchen.events]
    for raw in old:
        del raw["version"], raw["who"]
    last = old[-1]
    last["more_s"] = (last.pop("until") - last["at"]) // 1000
    assert fold(map(read_event, old)) == kitchen.cook


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        ({**OLD, "kind": "CookClosed", "version": VERSION + 1}, "newer board"),
        ({**OLD, "kind": "CookClosed", "version": "two"}, "proper version"),
        ({**OLD, "kind": "CookClosed", "version": -1}, "proper version"),
        ({**OLD, "kind": "PanDropped"}, "PanDropped"),
        ({"kind": "GivenMoreTime", "more_s": 3}, "GivenMoreTime"),
        ({}, "of no kind"),
    ],
)
def test_what_cannot_be_read_is_refused_in_words(raw, said):
    with pytest.raises(UnreadableEvent, match=said):
        read_event(raw)
