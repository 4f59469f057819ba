"""A burst is armed before its moment, so that a board that is busy just then is heard on time all the same."""

import pytest

from tests.desk.desk_kitchen import DeskKitchen
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import ClearQuickTimer, SetQuickTimer
from timerboard.core.sounding import FIRST_LEVEL, SECOND_DUE_MS
from timerboard.core.values import MS

LENGTH_S = 12
DUE = FIRST_LEVEL[Rank.DUE]


@pytest.fixture
def kitchen() -> DeskKitchen:
    """Nothing of the meal calls for a long time yet; one timer will."""
    kitchen = DeskKitchen(eat_in=600)
    kitchen.sound.played.clear()
    kitchen.must(SetQuickTimer("eggs", LENGTH_S))
    return kitchen


def test_the_next_burst_is_armed_for_its_very_millisecond(kitchen):
    asked = kitchen.clock.kitchen_ms() + LENGTH_S * MS
    assert kitchen.sound.armed is not None
    _name, rank, _dish, level, at_ms = kitchen.sound.armed
    assert (rank, level, at_ms) == (Rank.DUE, DUE, asked)


def test_what_is_far_off_is_not_armed_yet_and_is_before_two_looks_of_a_hidden_board_have_passed(kitchen):
    kitchen.must(ClearQuickTimer("eggs"), SetQuickTimer("stock", 120))
    assert kitchen.sound.armed is None
    kitchen.clock.advance(120 - 16)
    kitchen.desk.look()
    assert kitchen.sound.armed is not None


@pytest.mark.parametrize("late_s", [0, 0.03, 1.5, 15])
def test_a_late_look_finds_the_burst_begun_and_does_not_begin_it_again(kitchen, late_s):
    kitchen.traced.clear()
    kitchen.clock.advance(LENGTH_S + late_s)
    kitchen.desk.look()
    assert [burst[2] for burst in kitchen.sound.played] == [DUE]
    assert kitchen.sound.begun_by_itself == 1
    assert [words for what, words in kitchen.traced if what == "sounds"] == ["Time is up: eggs"]
    assert kitchen.voice.said[-1:] == ["Time is up: eggs."]
    hushes = kitchen.sound.hushes
    kitchen.desk.look()
    assert (len(kitchen.sound.played), kitchen.sound.hushes) == (1, hushes)


def test_the_heads_up_that_ends_just_then_does_not_silence_the_call_that_took_its_place():
    kitchen = DeskKitchen(eat_in=240)
    for _ in range(4 * 240):
        before, hushes = kitchen.sound.begun_by_itself, kitchen.sound.hushes
        kitchen.clock.advance(min(kitchen.wake.delay_ms or 15_000, 15_000) / 1000)
        kitchen.desk.look()
        if kitchen.sound.begun_by_itself > before:
            assert kitchen.sound.hushes == hushes
    assert kitchen.sound.begun_by_itself == len(kitchen.sound.played) > 10


def test_an_answer_before_the_look_silences_it(kitchen):
    kitchen.clock.advance(LENGTH_S + 1)
    hushes = kitchen.sound.hushes
    kitchen.must(ClearQuickTimer("eggs"))
    assert kitchen.sound.hushes == hushes + 1
    kitchen.clock.advance(30)
    kitchen.desk.look()
    assert len(kitchen.sound.played) == 1


def test_a_timer_taken_back_in_time_is_never_heard(kitchen):
    kitchen.clock.advance(LENGTH_S - 1)
    kitchen.must(ClearQuickTimer("eggs"))
    kitchen.clock.advance(30)
    kitchen.desk.look()
    assert kitchen.sound.played == []


def test_looks_on_the_way_leave_the_armed_burst_alone(kitchen):
    armed = kitchen.sound.armed
    kitchen.sound.disarm = None  # taking it back, and be it for a moment, would fail
    kitchen.sound.arm = None
    for _ in range(LENGTH_S - 1):
        kitchen.clock.advance(1)
        kitchen.desk.look()
    assert kitchen.sound.armed is armed


def test_the_louder_repeat_is_armed_too(kitchen):
    kitchen.clock.advance(LENGTH_S)
    kitchen.desk.look()
    kitchen.clock.advance(SECOND_DUE_MS / 1000 + 0.4)
    kitchen.desk.look()
    assert [round(burst[2] - DUE, 2) for burst in kitchen.sound.played] == [0, 0.15]
    assert kitchen.sound.begun_by_itself == 2


def test_a_device_that_cannot_arm_is_played_at_the_look(kitchen):
    kitchen.sound.now_ms = lambda: -1
    kitchen.clock.advance(LENGTH_S + 0.02)
    kitchen.desk.look()
    assert ([burst[2] for burst in kitchen.sound.played], kitchen.sound.begun_by_itself) == ([DUE], 0)


def test_a_burst_that_begins_by_itself_while_the_look_plays_it_is_heard_all_the_same(kitchen):
    sound = kitchen.sound
    sound.went, sound.disarm = (lambda: ""), sound.went  # not yet, says the device; then its next buffer begins it
    sound.hush = sound.played.clear  # what is left is what is heard
    kitchen.clock.advance(LENGTH_S)
    kitchen.desk.look()
    assert sound.begun_by_itself == 1
    assert [burst[2] for burst in sound.played] == [DUE]
