"""The minute before hands are wanted: what is called ahead, since when, and what is not; and when to look again."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, minutes, pork, small_menu, step
from timerboard.core.alarm_values import Kind, Rank
from timerboard.core.alarms import next_change
from timerboard.core.commands import DoCue, HearAlarm, Hush, NotYet, PutOff, StartStep
from timerboard.core.menu import Cue, Dish

SECOND = 1000


def one(**more) -> Kitchen:
    span = more.pop("span", minutes(60, 90))
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(step("Ham", "Roast", span, **more),))))
    kitchen.must(StartStep("Ham/Roast"))
    return kitchen


def ahead(kitchen: Kitchen) -> list[str]:
    return [alarm.sentence for alarm in kitchen.alarms() if alarm.kind is Kind.HEADS_UP]


def test_a_heads_up_begins_sixty_seconds_before_and_no_sooner():
    kitchen = one()
    kitchen.now += 59 * MIN - 1
    assert ahead(kitchen) == []
    kitchen.now += 1
    assert ahead(kitchen) == ["Check the ham"]
    assert [alarm.rank for alarm in kitchen.alarms()] == [Rank.SOON]


@pytest.mark.parametrize(("every_s", "told"), [(300, ["Stir the ham"]), (299, [])])
def test_a_cue_of_five_minutes_is_told_ahead_and_a_shorter_one_is_not(every_s, told):
    kitchen = one(cues=(Cue(do="Stir", every_s=every_s, work_s=30),))
    kitchen.now += (every_s - 1) * SECOND
    assert ahead(kitchen) == told


@pytest.mark.parametrize(("seconds", "told"), [(180, ["Finish: roast the ham"]), (179, [])])
def test_three_minutes_are_told_ahead_and_less_is_not(seconds, told):
    kitchen = one(span=minutes(seconds / 60))
    kitchen.now += (seconds - 1) * SECOND
    assert ahead(kitchen) == told


def test_setting_the_oven_is_told_ahead_and_so_is_looking_whether_it_is_hot():
    kitchen = Kitchen(small_menu(pork()))
    (setting,) = kitchen.cook.plan.settings
    kitchen.now = setting.at * SECOND - MIN
    assert ahead(kitchen) == ["Set the oven to 160 °C"]
    kitchen.must(DoCue("@oven", setting.id))
    kitchen.now = kitchen.cook.settings_done[setting.id] + (setting.ready - setting.at) * SECOND - 1
    assert "Is the oven at 160 °C?" in ahead(kitchen)


def test_a_heads_up_that_was_heard_is_gone_and_what_it_was_for_still_comes():
    kitchen = one()
    kitchen.now += 59 * MIN
    (soon,) = kitchen.alarms()
    kitchen.must(HearAlarm(soon.id))
    assert kitchen.alarms() == ()
    kitchen.now += MIN
    assert kitchen.calls() == ["Check the ham"]


def test_what_was_put_off_or_looked_at_a_moment_ago_gets_no_heads_up():
    kitchen = one()
    kitchen.now += 60 * MIN
    kitchen.must(PutOff(kitchen.alarms()[0].id, 180))
    kitchen.now += 150 * SECOND
    assert ahead(kitchen) == []
    looked = one()
    looked.now += 60 * MIN
    looked.must(NotYet("Ham/Roast"))
    looked.now = looked.cook.lives["Ham/Roast"].look_again - SECOND
    assert ahead(looked) == []


def test_danger_that_was_heard_is_quiet_for_sixty_seconds_to_the_second():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(30)
    (danger,) = [alarm for alarm in kitchen.alarms() if alarm.rank is Rank.DANGER]
    kitchen.must(HearAlarm(danger.id))
    (quiet,) = [alarm for alarm in kitchen.alarms() if alarm.rank is Rank.DANGER]
    assert quiet.returns_at == kitchen.now + 60 * SECOND
    assert next_change(kitchen.cook, kitchen.now) <= quiet.returns_at


def test_the_caution_of_hot_oil_stands_among_the_alarms_before_it_is_lit():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.now = kitchen.cook.plan.of("Fritters/Fry").start * SECOND - 3 * MIN
    notes = [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.NOTE]
    assert [note.verb for note in notes] == ["Hot oil soon, the fritters."]


def test_the_end_of_a_hush_is_looked_for():
    kitchen = one()
    kitchen.now += 61 * MIN
    kitchen.must(Hush(45))
    assert next_change(kitchen.cook, kitchen.now) == kitchen.now + 45 * SECOND
