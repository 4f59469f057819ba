"""Which alarm sounds, how loud, when next: escalation, one at a time, hush, heard and put off."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, minutes, small_menu, step
from timerboard.core.alarms import alarms
from timerboard.core.commands import ClearQuickTimer, EndStep, HearAlarm, Hush, PutOff, SetQuickTimer, StartStep
from timerboard.core.menu import Dish
from timerboard.core.sounding import Sounding, sounding

SECOND = 1000


def timers(**lengths: int) -> Kitchen:
    """A kitchen of loose countdowns, in seconds."""
    kitchen = Kitchen(small_menu(Dish(name="Tea", steps=(step("Tea", "Brew", minutes(4)),))), eat_in=600)
    kitchen.must(*(SetQuickTimer(name, length) for name, length in lengths.items()))
    return kitchen


def sounds(kitchen: Kitchen, ceiling: float = 1.0) -> Sounding:
    return sounding(alarms(kitchen.cook, kitchen.now), kitchen.cook, kitchen.now, ceiling)


def heard_over(kitchen: Kitchen, seconds: int) -> list[tuple[int, str]]:
    """When a new burst begins in the next seconds, and for what."""
    played, begun, start = set(), [], kitchen.now
    for second in range(seconds + 1):
        kitchen.now = start + second * SECOND
        now = sounds(kitchen)
        if now.alarm is not None and now.key not in played:
            played.add(now.key)
            begun.append((second, now.alarm.cue or now.alarm.kind.value))
    return begun


def frying() -> Kitchen:
    """Hot oil whose time is over."""
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(26)
    kitchen.now += 1
    return kitchen


def test_nothing_calls_and_nothing_sounds():
    assert sounds(timers()) == Sounding()
    assert sounds(timers()).key == ""


def test_a_due_alarm_sounds_at_once_after_20_s_after_60_s_then_every_minute():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    assert [second for second, _ in heard_over(kitchen, 240)] == [0, 20, 60, 120, 180, 240]


def test_danger_sounds_every_ten_seconds():
    assert [second for second, _ in heard_over(frying(), 40)] == [0, 10, 20, 30, 40]


def test_a_heads_up_sounds_once():
    kitchen = timers()
    kitchen.must(StartStep("Tea/Brew"))
    kitchen.wait(3)
    assert heard_over(kitchen, 59) == [(0, "heads-up")]


def test_each_burst_is_louder_up_to_the_ceiling():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    levels = []
    for _ in range(8):
        levels.append(sounds(kitchen).level)
        kitchen.now = sounds(kitchen).next_at
    assert levels == sorted(levels)
    assert levels[0] < levels[1]
    assert levels[-1] == 1.0
    assert sounds(kitchen, 0.5).level == 0.5


def test_the_next_burst_is_told():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    since = kitchen.now
    for seconds in (20, 60, 120):
        assert sounds(kitchen).next_at == since + seconds * SECOND
        kitchen.now = sounds(kitchen).next_at


def test_a_new_alarm_of_the_same_rank_is_heard_at_once():
    kitchen = timers(eggs=60, rice=95)
    kitchen.wait(1)
    assert heard_over(kitchen, 60) == [(0, "eggs"), (20, "eggs"), (35, "rice"), (55, "rice"), (60, "eggs")]


def test_danger_alone_sounds_until_it_is_answered_then_the_lower_begins():
    kitchen = frying()
    kitchen.must(SetQuickTimer("eggs", 1))
    kitchen.now += 2 * SECOND
    assert sounds(kitchen).alarm.kind == "danger"
    kitchen.must(EndStep("Fritters/Fry"))
    assert sounds(kitchen).alarm.cue == "eggs"


def test_a_heard_alarm_is_silent_for_three_minutes_and_then_calls_like_new():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    kitchen.must(HearAlarm(kitchen.alarms()[0].id))
    assert heard_over(kitchen, 260) == [(180, "eggs"), (200, "eggs"), (240, "eggs")]


def test_a_put_off_alarm_is_silent_until_it_returns():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    kitchen.must(PutOff(kitchen.alarms()[0].id, 90))
    assert [second for second, _ in heard_over(kitchen, 115)] == [90, 110]


def test_a_hush_is_over_by_itself_and_what_stands_sounds_then():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    kitchen.must(Hush(90))
    assert sounds(kitchen).next_at == kitchen.now + 90 * SECOND
    assert [second for second, _ in heard_over(kitchen, 190)] == [90, 120, 180]


def test_what_had_sounded_before_a_hush_sounds_when_it_is_over():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    rang = kitchen.now
    kitchen.now = rang + 70 * SECOND
    assert sounds(kitchen).at == rang + 60 * SECOND
    kitchen.must(Hush(30))
    kitchen.now = rang + 100 * SECOND
    assert sounds(kitchen).at == rang + 100 * SECOND


def test_a_new_alarm_sounds_through_a_hush():
    kitchen = timers(eggs=60, rice=90)
    kitchen.wait(1)
    kitchen.must(Hush(120))
    assert heard_over(kitchen, 60) == [(30, "rice"), (50, "rice")]


def test_what_becomes_a_danger_sounds_through_a_hush_that_its_look_had_stilled():
    """The hush was meant for 'look at it'; that its time is over is another call."""
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    over = alarms(frying().cook, frying().now)[0]
    kitchen.now = over.since - 30 * SECOND
    assert sounds(kitchen).alarm is not None
    kitchen.must(Hush(120))
    assert heard_over(kitchen, 60) == [(30, "danger"), (40, "danger"), (50, "danger"), (60, "danger")]


def test_danger_that_stood_before_a_hush_is_hushed_for_two_minutes_at_most():
    kitchen = frying()
    kitchen.must(Hush(600))
    assert heard_over(kitchen, 125)[0][0] == 120


def test_a_late_look_finds_one_burst_not_all_that_were_missed():
    kitchen = timers(eggs=60)
    kitchen.wait(40)
    assert len(heard_over(kitchen, 10)) == 1


@pytest.mark.parametrize("age", [0, 19, 20, 59, 60, 61, 600])
def test_a_burst_was_due_by_now_and_the_next_comes_after_now(age):
    kitchen = timers(eggs=60)
    kitchen.now += 1 * MIN + age * SECOND
    now = sounds(kitchen)
    assert now.at <= kitchen.now < now.next_at


@pytest.mark.parametrize("age", [0, 9, 10, 25, 600])
def test_a_burst_of_danger_was_due_at_a_whole_ten_seconds_and_the_next_comes_ten_later(age):
    kitchen = frying()
    (danger,) = [alarm for alarm in kitchen.alarms() if alarm.kind == "danger"]
    kitchen.now = danger.since + age * SECOND
    now = sounds(kitchen)
    assert now.at == danger.since + age // 10 * 10 * SECOND
    assert now.next_at == now.at + 10 * SECOND


def test_the_end_of_a_hush_is_told_while_a_newer_call_sounds_through_it():
    kitchen = timers(eggs=60, rice=85)
    kitchen.wait(1)
    hushed = kitchen.now
    kitchen.must(Hush(30))
    kitchen.now = hushed + 25 * SECOND
    assert sounds(kitchen).alarm.cue == "rice"
    assert sounds(kitchen).next_at == hushed + 30 * SECOND


def test_the_end_of_a_hush_brings_no_burst_of_a_call_that_sounded_through_it():
    kitchen = timers(rice=90)
    kitchen.wait(1)
    kitchen.must(Hush(45))
    assert [second for second, _ in heard_over(kitchen, 60)] == [30, 50]


def test_of_several_calls_the_newest_burst_sounds_and_the_nearest_of_their_next_is_told():
    kitchen = timers(eggs=60, rice=65, beans=70)
    kitchen.wait(1)
    assert heard_over(kitchen, 30) == [
        (0, "eggs"),
        (5, "rice"),
        (10, "beans"),
        (20, "eggs"),
        (25, "rice"),
        (30, "beans"),
    ]
    rang = kitchen.now - 30 * SECOND
    assert sounds(kitchen).next_at == rang + 60 * SECOND


def test_of_three_calls_at_one_moment_the_most_pressing_sounds():
    kitchen = timers(eggs=60, rice=60, beans=60)
    kitchen.wait(1)
    assert sounds(kitchen).alarm == kitchen.alarms()[0]


def test_a_second_burst_of_the_middle_of_three_calls_is_its_own():
    kitchen = timers(a=60, b=61, c=62)
    kitchen.wait(1)
    kitchen.now += 21 * SECOND
    assert sounds(kitchen).alarm.cue == "b"


def test_answering_ends_the_sound():
    kitchen = timers(eggs=60)
    kitchen.wait(1)
    kitchen.must(ClearQuickTimer("eggs"))
    assert sounds(kitchen).alarm is None
