"""Answers at their edges: in a closed cook, twice in two seconds, the longest countdown, readings that end nothing."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, minutes, pork, small_menu, step
from timerboard.core.alarm_values import Answered, Kind, Rank
from timerboard.core.commands import (
    ChooseSetting,
    ClearQuickTimer,
    CloseCook,
    Command,
    DoCue,
    EndStep,
    HearAlarm,
    Hush,
    Look,
    MoveEating,
    NotYet,
    PutOff,
    ReviseDuration,
    SetQuickTimer,
    StartStep,
    TakeReading,
)
from timerboard.core.cook import StepState
from timerboard.core.engine import LIFT
from timerboard.core.events import EatTimeMoved
from timerboard.core.food_clocks import PUT_AWAY
from timerboard.core.menu import Cue, Dish
from timerboard.core.view import view
from timerboard.core.view_values import Extras

SECOND = 1000


def one(span=None, **more) -> Kitchen:
    dish = Dish(name="Ham", steps=(step("Ham", "Roast", span or minutes(60, 90), **more),))
    kitchen = Kitchen(small_menu(dish))
    kitchen.must(StartStep("Ham/Roast"))
    return kitchen


def kinds(kitchen: Kitchen) -> list[Kind]:
    return [alarm.kind for alarm in kitchen.alarms()]


@pytest.mark.parametrize(
    "command",
    [
        Look(),
        Hush(30),
        ClearQuickTimer("eggs"),
        ChooseSetting("room", "hot"),
        TakeReading("Ham/Roast", 60.0),
        EndStep("Ham/Roast"),
    ],
)
def test_what_can_still_be_done_when_the_meal_is_over(command: Command):
    kitchen = one()
    kitchen.must(SetQuickTimer("eggs", 60), CloseCook(), command)


@pytest.mark.parametrize("command", [SetQuickTimer("rice", 60), NotYet("Ham/Roast"), StartStep("Ham/Roast")])
def test_what_begins_something_waits_until_the_closing_is_taken_back(command: Command):
    kitchen = one()
    kitchen.must(CloseCook())
    assert "closed" in kitchen.refused(command).said


@pytest.mark.parametrize(("later", "done"), [(0, 1), (1999, 1), (2000, 2)])
def test_a_second_tap_counts_after_two_seconds(later, done):
    kitchen = one(cues=(Cue(do="Baste", every_s=600),))
    kitchen.wait(10)
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.now += later
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    assert kitchen.cook.lives["Ham/Roast"].cues["Baste"].done == done


def test_only_what_has_ended_is_put_away_and_only_batches_are_lifted():
    kitchen = one(cues=(Cue(do="Baste", every_s=600),))
    assert "no job" in kitchen.refused(DoCue("Ham/Roast", PUT_AWAY)).said
    assert "no job" in kitchen.refused(DoCue("Ham/Roast", LIFT)).said
    frying = Kitchen(small_menu(fritters()))
    frying.must(StartStep("Fritters/Fry"))
    assert "no job called Baste" in frying.refused(DoCue("Fritters/Fry", "Baste")).said
    kitchen.must(EndStep("Ham/Roast"))
    assert "not running" in kitchen.refused(DoCue("Ham/Roast", "Baste")).said


def test_a_setting_that_is_no_part_of_the_plan_is_refused_beside_one_that_is():
    kitchen = Kitchen(small_menu(pork()))
    (setting,) = kitchen.cook.plan.settings
    assert "no such setting" in kitchen.refused(DoCue("@oven", "oven at 99 C for Tart/Bake")).said
    kitchen.must(DoCue("@oven", setting.id))
    assert "answered already" in kitchen.refused(DoCue("@oven", setting.id)).said


def test_a_place_that_was_found_hot_is_not_asked_about_again():
    kitchen = Kitchen(small_menu(pork()))
    (setting,) = kitchen.cook.plan.settings
    kitchen.wait(120)
    kitchen.must(DoCue("@oven", setting.id))
    kitchen.wait(25)
    assert Kind.HOT in kinds(kitchen)
    kitchen.must(DoCue("@oven?", setting.id))
    assert Kind.HOT not in kinds(kitchen)


@pytest.mark.parametrize(("length_s", "taken"), [(0, False), (1, True), (604_800, True), (604_801, False)])
def test_a_countdown_lasts_from_a_second_to_seven_days(length_s, taken):
    kitchen = one()
    answer = kitchen.send(SetQuickTimer("eggs", length_s))
    assert isinstance(answer, tuple) is taken


@pytest.mark.parametrize(("days", "words"), [(366, ""), (367, "That is more than a year away."), (10**12, "year away")])
def test_a_meal_is_moved_by_a_year_at_most_and_the_board_can_always_be_shown(days, words):
    kitchen = one()
    answer = kitchen.send(MoveEating(kitchen.now + days * 86_400 * SECOND))
    assert words in getattr(answer, "said", "")
    assert isinstance(answer, tuple) is (not words)
    assert view(kitchen.cook, kitchen.now, Extras("", True, "", None, ())).head


def test_a_record_that_moves_the_meal_out_of_time_has_no_effect():
    kitchen = one()
    eat_at = kitchen.cook.eat_at
    kitchen.take(EatTimeMoved(**kitchen.stamp(), eat_at=1 << 62))
    assert kitchen.cook.eat_at == eat_at
    assert kitchen.cook.record[-1].effect == "that is more than a year away"


def test_no_hush_and_no_putting_off_is_shorter_than_a_second():
    kitchen = one()
    kitchen.must(Hush(0))
    assert kitchen.cook.hushed_until == kitchen.now + SECOND
    kitchen.wait(60)
    (check,) = kitchen.alarms()
    kitchen.must(PutOff(check.id, -5))
    assert kitchen.cook.put_off[check.id] == kitchen.now + SECOND


def test_putting_off_takes_the_place_of_having_heard():
    kitchen = one()
    kitchen.wait(60)
    (check,) = kitchen.alarms()
    kitchen.must(HearAlarm(check.id), PutOff(check.id, 60))
    kitchen.now += 61 * SECOND
    assert [alarm.answered for alarm in kitchen.alarms()] == [Answered.NOT]


def test_a_reading_above_the_pull_of_a_step_that_has_ended_ends_nothing():
    kitchen = one(pull_at_c=70.0)
    kitchen.wait(60)
    kitchen.must(EndStep("Ham/Roast", confirmed=True))
    events = kitchen.send(TakeReading("Ham/Roast", 75.0, confirmed=True))
    assert [event.kind for event in events] == ["ReadingTaken"]
    assert kitchen.cook.lives["Ham/Roast"].state is StepState.ENDED


@pytest.mark.parametrize("celsius", [float("nan"), float("inf"), 1000.1, -1000.1])
def test_what_is_no_temperature_is_refused(celsius):
    assert "not a temperature" in one(pull_at_c=70.0).refused(TakeReading("Ham/Roast", celsius, confirmed=True)).said


def test_a_look_that_was_heard_calls_again_when_it_is_asked_anew():
    kitchen = one()
    kitchen.wait(60)
    kitchen.must(HearAlarm(kitchen.alarms()[0].id), NotYet("Ham/Roast"))
    assert kitchen.alarms() == ()
    kitchen.now = kitchen.cook.lives["Ham/Roast"].look_again
    assert [(alarm.kind, alarm.answered) for alarm in kitchen.alarms()] == [(Kind.CHECK, Answered.NOT)]


def test_hot_oil_past_its_time_is_one_call_and_no_second_one_beside_it():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(30)
    assert [alarm.kind for alarm in kitchen.alarms() if alarm.rank >= Rank.DUE] == [Kind.DANGER, Kind.CUE]


def test_what_has_a_pull_is_read_or_pulled_past_its_longest_time():
    kitchen = one(pull_at_c=70.0)
    kitchen.wait(91)
    assert kitchen.calls() == ["Probe or pull the ham"]


def test_not_yet_at_a_pull_moves_the_pull():
    kitchen = one(span=minutes(60, 120), pull_at_c=80.0)
    kitchen.wait(40)
    kitchen.must(TakeReading("Ham/Roast", 40.0))
    kitchen.wait(30)
    kitchen.must(TakeReading("Ham/Roast", 70.0))
    kitchen.wait(10)
    assert kinds(kitchen) == [Kind.PULL]
    kitchen.must(NotYet("Ham/Roast"))
    again = kitchen.cook.lives["Ham/Roast"].look_again
    assert Kind.PULL not in kinds(kitchen)
    kitchen.now = again
    assert Kind.PULL in kinds(kitchen)


def test_a_cue_that_comes_so_many_times_is_over_after_them():
    kitchen = one(cues=(Cue(do="Baste", every_s=600, times=2), Cue(do="Turn", at_s=300)))
    kitchen.wait(5)
    kitchen.must(DoCue("Ham/Roast", "Turn"))
    for _ in range(2):
        kitchen.wait(10)
        kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.wait(25)
    assert Kind.CUE not in kinds(kitchen)


def test_a_revised_length_has_to_be_of_a_step_that_there_is():
    assert "no step" in one().refused(ReviseDuration("Ham/Fly", minutes(3))).said


def test_a_heads_up_for_a_start_is_given_sixty_seconds_before_it():
    kitchen = Kitchen(small_menu(pork()))
    start = kitchen.cook.plan.of("Pork/Salt").start * SECOND
    kitchen.now = start - MIN - 1
    assert Kind.HEADS_UP not in kinds(kitchen)
    kitchen.now += 1
    assert Kind.HEADS_UP in kinds(kitchen)
