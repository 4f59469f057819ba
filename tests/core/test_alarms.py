"""What calls, since when, in which words and order, and until when."""

from dataclasses import replace

import pytest

from tests.kitchen import MIN, Kitchen, fritters, gravy, minutes, plain_plan, pork, small_menu, step
from timerboard.core.alarm_values import Alarm, Answered, Kind, Rank
from timerboard.core.alarms import alarms, next_change
from timerboard.core.commands import (
    AddDish,
    AdoptPlan,
    ClearQuickTimer,
    CloseCook,
    DoCue,
    EndStep,
    HearAlarm,
    NotYet,
    PassOverCue,
    ReviseDuration,
    SetQuickTimer,
    StartStep,
    TakeReading,
)
from timerboard.core.cook import Reading
from timerboard.core.due import batch_now
from timerboard.core.engine import LIFT
from timerboard.core.events import BoardReturned, ClockStepped
from timerboard.core.menu import Course, Cue, Dish, Link, Use, Work
from timerboard.core.pull_guess import predict_pull

SETTING = "oven at 160 C for Pork/Roast"


def one(*, span=None, **more) -> Kitchen:
    """A running step, with nothing else in the kitchen."""
    dish = Dish(name="Ham", steps=(step("Ham", "Roast", span or minutes(60, 90), **more),))
    kitchen = Kitchen(small_menu(dish))
    kitchen.must(StartStep("Ham/Roast"))
    return kitchen


def calling(kitchen: Kitchen, *kinds: Kind) -> list[Alarm]:
    return [a for a in kitchen.alarms() if a.kind in kinds]


def since(kitchen: Kitchen, kind: Kind) -> float:
    """Minutes from the start of the step until the alarm of a kind fell due."""
    (alarm,) = calling(kitchen, kind)
    return (alarm.since - kitchen.cook.lives["Ham/Roast"].started) / MIN


def test_a_look_is_due_at_the_low_end_and_over_past_the_high_end():
    kitchen = one(until="Skin blistered")
    kitchen.wait(59.5)
    assert [a.kind for a in kitchen.alarms()] == [Kind.HEADS_UP]
    kitchen.wait(0.5)
    (check,) = kitchen.alarms()
    assert (check.kind, check.rank, check.sentence) == (Kind.CHECK, Rank.DUE, "Check the ham")
    assert check.detail == "skin blistered?"
    assert check.spoils_at == check.since + 30 * MIN
    kitchen.wait(30)
    assert kitchen.alarms() == (check,)  # nothing that is unanswered goes away
    kitchen.wait(1)
    assert [(a.kind, a.sentence) for a in kitchen.alarms()] == [(Kind.OVER, "Finish: roast the ham")]


def test_an_exact_step_is_over_a_minute_after_its_time():
    kitchen = one(span=minutes(10))
    kitchen.wait(10)
    assert [(a.kind, a.sentence, a.detail) for a in kitchen.alarms()] == [
        (Kind.CHECK, "Finish: roast the ham", "time is up")
    ]
    kitchen.wait(1)
    assert [a.kind for a in kitchen.alarms()] == [Kind.OVER]


def test_a_rest_is_asked_about_when_the_plan_ends_it():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.wait(123.5)
    kitchen.must(EndStep("Pork/Salt"))
    kitchen.wait(10)
    kitchen.must(StartStep("Pork/Roast"))
    kitchen.wait(80)
    kitchen.must(EndStep("Pork/Roast"))
    kitchen.wait(21)
    assert calling(kitchen, Kind.CHECK) == []  # 20 min is its low end; the plan gives it 26 min 40 s
    kitchen.wait(6)
    assert [a.sentence for a in calling(kitchen, Kind.CHECK)] == ["Check the pork"]


def test_a_cue_is_counted_from_when_it_was_really_done():
    kitchen = one(cues=(Cue(do="Baste", every_s=1200, work_s=60),))
    kitchen.wait(27)
    assert since(kitchen, Kind.CUE) == 20
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    assert calling(kitchen, Kind.CUE) == []
    kitchen.wait(20)
    assert since(kitchen, Kind.CUE) == 47


def test_a_missed_cue_only_gets_older():
    kitchen = one(cues=(Cue(do="Baste", every_s=600, work_s=60),))
    kitchen.wait(45)
    (cue,) = calling(kitchen, Kind.CUE)
    assert cue.since == kitchen.now - 35 * MIN
    assert cue.spoils_at == cue.since + 150_000  # a quarter of its interval


def test_a_passed_over_cue_is_counted_from_then():
    kitchen = one(cues=(Cue(do="Baste", every_s=600, work_s=60),))
    kitchen.wait(12)
    kitchen.must(PassOverCue("Ham/Roast", "Baste"))
    kitchen.wait(10)
    assert since(kitchen, Kind.CUE) == 22


def test_no_cue_falls_in_the_last_tenth():
    kitchen = one(span=minutes(60), cues=(Cue(do="Baste", every_s=1100),))
    for _ in range(2):
        kitchen.wait(18.5)
        kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.wait(18.5)  # 55.5 min: past nine tenths of 60
    assert calling(kitchen, Kind.CUE, Kind.HEADS_UP) == []


def test_a_cue_of_a_small_interval_has_no_heads_up():
    kitchen = one(cues=(Cue(do="Stir", every_s=180),))
    kitchen.wait(2.5)
    assert kitchen.alarms() == ()
    kitchen.wait(0.5)
    assert kitchen.calls() == ["Stir the ham"]


def shut_beside(minute: float) -> Kitchen:
    """Ham that is basted every half hour; puddings that keep the oven shut for 20 min go in at that minute."""
    oven = (Use(place="oven"),)
    ham = step("Ham", "Roast", minutes(120), uses=oven, cues=(Cue(do="Baste", every_s=1800),))
    puddings = step("Puddings", "Bake", minutes(25), uses=oven, shut_s=1200)
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ham,)), Dish(name="Puddings", steps=(puddings,))), plan=False)
    kitchen.must(StartStep("Ham/Roast"))
    kitchen.wait(minute)
    kitchen.must(StartStep("Puddings/Bake"))
    return kitchen


def test_a_cue_waits_for_a_door_that_another_dish_keeps_shut():
    kitchen = shut_beside(25)
    kitchen.wait(19.9)
    assert calling(kitchen, Kind.CUE) == []
    kitchen.wait(0.1)
    assert since(kitchen, Kind.CUE) == 45


def test_a_cue_that_stood_before_the_door_was_shut_goes_on_standing():
    kitchen = shut_beside(31)
    assert since(kitchen, Kind.CUE) == 30


def test_a_dish_may_open_the_door_that_it_keeps_shut_itself():
    cues = (Cue(do="Turn", at_s=600),)
    kitchen = one(uses=(Use(place="oven"),), shut_s=1200, cues=cues)
    kitchen.wait(10)
    assert since(kitchen, Kind.CUE) == 10


def test_a_door_that_may_be_opened_early_lets_the_cue_call():
    kitchen = shut_beside(25)
    kitchen.wait(10)
    kitchen.must(EndStep("Puddings/Bake"))
    assert since(kitchen, Kind.CUE) == 30


def test_ending_the_step_clears_its_cues():
    kitchen = one(cues=(Cue(do="Baste", every_s=600),))
    kitchen.wait(12)
    kitchen.must(EndStep("Ham/Roast"))
    assert calling(kitchen, Kind.CUE) == []


def test_every_batch_is_lifted_and_the_last_one_ends_the_step():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    fry = kitchen.cook.menu.steps["Fritters/Fry"]
    kitchen.wait(4)
    assert kitchen.calls() == ["Lift batch 1 of 4: the fritters"]
    kitchen.must(DoCue("Fritters/Fry", LIFT))
    shown = batch_now(kitchen.cook, fry, kitchen.now)
    assert (shown.batch.number, shown.recovering) == (2, True)
    kitchen.wait(2)
    assert not batch_now(kitchen.cook, fry, kitchen.now).recovering
    kitchen.wait(4)
    kitchen.must(DoCue("Fritters/Fry", LIFT))
    kitchen.wait(6)
    kitchen.must(DoCue("Fritters/Fry", LIFT))
    kitchen.wait(6)
    assert calling(kitchen, Kind.CUE) == []
    assert kitchen.calls() == ["Check the fritters", "Read the oil of the fritters"]


def test_hot_oil_past_its_time_is_danger():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(26.5)
    danger = kitchen.alarms()[0]
    assert (danger.rank, danger.detail) == (Rank.DANGER, "hot oil, its time is over")
    kitchen.must(NotYet("Fritters/Fry"))
    assert calling(kitchen, Kind.DANGER) == []
    kitchen.wait(0.5)  # somebody looked; 30 s is all that it is worth
    assert kitchen.alarms()[0].rank is Rank.DANGER


def test_oil_that_was_read_too_hot_is_danger_until_it_is_read_cooler():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"), TakeReading("Fritters/Fry", 210.0, "oil"))
    assert kitchen.alarms()[0].sentence == "Take off the heat: the fritters"
    assert kitchen.alarms()[0].detail == "oil at 210 °C"
    kitchen.must(TakeReading("Fritters/Fry", 185.0, "oil"))
    assert calling(kitchen, Kind.DANGER) == []


def test_a_first_reading_is_asked_for_at_half_the_likely_time():
    kitchen = one(span=minutes(100, 130), pull_at_c=80.0)  # likely 120 min
    kitchen.wait(61)
    assert since(kitchen, Kind.READ) == 60
    assert kitchen.alarms()[0].detail == "pull at 80 °C"


def test_readings_come_at_half_the_predicted_time_and_five_minutes_before():
    kitchen = one(span=minutes(60, 120), pull_at_c=80.0)
    kitchen.wait(20)
    kitchen.must(TakeReading("Ham/Roast", 20.0))
    kitchen.wait(20)
    kitchen.must(TakeReading("Ham/Roast", 40.0))  # a degree a minute: 80 C at 80 min
    kitchen.wait(21)
    assert since(kitchen, Kind.READ) == 60
    kitchen.must(TakeReading("Ham/Roast", 61.0))  # read at 61, so 80 C at 80 min still
    kitchen.wait(9.5)
    assert since(kitchen, Kind.READ) == 70.5
    kitchen.must(TakeReading("Ham/Roast", 70.5))  # half is 75.25, five minutes before is 75, the least gap 74.5
    kitchen.wait(5)
    assert since(kitchen, Kind.READ) == 75


def test_readings_are_never_asked_for_within_four_minutes():
    kitchen = one(span=minutes(60, 120), pull_at_c=80.0)
    kitchen.wait(40)
    kitchen.must(TakeReading("Ham/Roast", 40.0))
    kitchen.wait(36)
    kitchen.must(TakeReading("Ham/Roast", 76.0))
    kitchen.wait(3.9)
    assert calling(kitchen, Kind.READ, Kind.PULL) == []


def test_at_the_predicted_moment_it_is_to_be_pulled():
    kitchen = one(span=minutes(60, 120), pull_at_c=80.0)
    kitchen.wait(40)
    kitchen.must(TakeReading("Ham/Roast", 40.0))
    kitchen.wait(30)
    kitchen.must(TakeReading("Ham/Roast", 70.0))
    kitchen.wait(10)
    assert [(a.kind, a.sentence) for a in kitchen.alarms()] == [(Kind.PULL, "Pull the ham")]
    kitchen.must(TakeReading("Ham/Roast", 78.0))
    assert kitchen.alarms() == ()


def test_a_reading_below_the_pull_gives_peace_past_the_high_end():
    kitchen = one(span=minutes(60, 90), pull_at_c=80.0)
    kitchen.wait(91)
    assert [a.kind for a in kitchen.alarms()] == [Kind.OVER]
    kitchen.must(TakeReading("Ham/Roast", 70.0))
    kitchen.wait(3.9)
    assert calling(kitchen, Kind.OVER) == []
    kitchen.wait(0.1)
    assert [a.kind for a in kitchen.alarms()] == [Kind.OVER]


def test_a_straight_line_is_not_turned_round_by_one_wrong_reading():
    line = [Reading(n * 10 * MIN, 10.0 + 10 * n) for n in range(5)]
    right = predict_pull(line, 80.0, 0, minutes(60), 40 * MIN)
    assert right.at == 70 * MIN
    line[2] = Reading(20 * MIN, 90.0)
    assert abs(predict_pull(line, 80.0, 0, minutes(60), 40 * MIN).at - right.at) < 10 * MIN
    assert right.early < right.at < right.late


def test_without_a_line_the_menu_is_the_guess():
    guess = predict_pull([Reading(MIN, 60.0), Reading(20 * MIN, 60.0)], 80.0, 0, minutes(60, 90, 70), 0)
    assert (guess.early, guess.at, guess.late) == (60 * MIN, 70 * MIN, 90 * MIN)


def test_a_start_is_due_at_its_planned_moment():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.wait(100)
    assert calling(kitchen, Kind.START) == []
    kitchen.wait(24)
    (start,) = calling(kitchen, Kind.START)
    assert start.since == kitchen.cook.plan.of("Pork/Salt").start * 1000
    assert start.sentence == "Start: salt the pork"


def test_a_start_whose_moment_has_passed_is_due_at_once():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.wait(150)
    kitchen.must(EndStep("Pork/Salt"))
    (start,) = calling(kitchen, Kind.START)
    assert (start.since, start.step) == (kitchen.now, "Pork/Roast")


def test_a_start_spoils_when_its_slack_or_its_longest_gap_is_used_up():
    roux = step("Sauce", "Roux", minutes(5), work=Work(throughout=True))
    thin = step("Sauce", "Thin", minutes(5), after=[Link(step="Sauce/Roux", within_s=120)], work=Work(start_s=60))
    kitchen = Kitchen(small_menu(Dish(name="Sauce", steps=(roux, thin))))
    kitchen.must(EndStep("Sauce/Roux"))
    kitchen.wait(236)
    (start,) = calling(kitchen, Kind.START)
    assert start.spoils_at == kitchen.cook.lives["Sauce/Roux"].ended + 2 * MIN


def test_an_oven_is_set_then_checked_and_food_in_it_ends_both():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.wait(114)
    (setting,) = calling(kitchen, Kind.SET)
    assert (setting.sentence, setting.where, setting.detail) == ("Set the oven to 160 °C", "oven", "for pork")
    kitchen.wait(6)
    kitchen.must(DoCue("@oven", SETTING))
    kitchen.wait(19)  # past the planned moment, but it was set late
    assert calling(kitchen, Kind.SET, Kind.HOT) == []
    kitchen.wait(1)
    (hot,) = calling(kitchen, Kind.HOT)
    assert (hot.sentence, hot.step, hot.cue) == ("Is the oven at 160 °C?", "@oven?", SETTING)
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    assert calling(kitchen, Kind.HOT) == []


def test_a_quick_timer_rings_until_it_is_cleared():
    kitchen = Kitchen(small_menu(gravy()), plan=False)
    kitchen.must(SetQuickTimer("eggs", 390))
    assert calling(kitchen, Kind.TIMER) == []
    kitchen.wait(60)
    (timer,) = calling(kitchen, Kind.TIMER)
    assert (timer.sentence, timer.since) == ("Time is up: eggs", kitchen.now - round(53.5 * MIN))
    kitchen.must(ClearQuickTimer("eggs"))
    assert calling(kitchen, Kind.TIMER) == []


def test_courses_are_served_when_they_are_ready_and_their_moment_nears():
    soup = Dish(name="Soup", course="starter", steps=(step("Soup", "Heat", minutes(10)),))
    stew = Dish(name="Stew", steps=(step("Stew", "Heat", minutes(10)),))
    kitchen = Kitchen(small_menu(soup, stew, courses=(Course(name="starter", eat_s=-1800),)), eat_in=120)
    kitchen.must(EndStep("Soup/Heat"))
    kitchen.wait(87)
    assert calling(kitchen, Kind.SERVE) == []
    kitchen.wait(1)
    (serve,) = calling(kitchen, Kind.SERVE)
    assert (serve.sentence, serve.detail) == ("Serve the starter", "soup")
    kitchen.must(HearAlarm(serve.id))
    kitchen.wait(40)
    assert calling(kitchen, Kind.SERVE) == []  # the stew is not ready: there is nothing to serve yet
    kitchen.must(EndStep("Stew/Heat"))
    assert [a.sentence for a in calling(kitchen, Kind.SERVE)] == ["Serve the meal"]


def test_notes_stand_until_they_are_heard():
    kitchen = Kitchen()
    kitchen.take(ClockStepped(**kitchen.stamp(), by_ms=3_600_000, offset_ms=3_600_000))
    (note,) = calling(kitchen, Kind.NOTE)
    assert (note.rank, note.sentence) == (Rank.NOTE, "The wall clock went forward by 1 h. No countdown moved.")
    kitchen.must(HearAlarm(note.id))
    assert calling(kitchen, Kind.NOTE) == []


def test_a_heard_alarm_calls_again_after_three_minutes():
    kitchen = one()
    kitchen.wait(60)
    (check,) = kitchen.alarms()
    kitchen.must(HearAlarm(check.id))
    assert [a.answered for a in kitchen.alarms()] == [Answered.HEARD]
    assert next_change(kitchen.cook, kitchen.now) == kitchen.now + 3 * MIN
    kitchen.wait(3)
    assert [a.answered for a in kitchen.alarms()] == [Answered.NOT]


def test_danger_that_was_heard_calls_again_after_one_minute():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(30)
    kitchen.must(HearAlarm(kitchen.alarms()[0].id))
    kitchen.wait(0.9)
    assert calling(kitchen, Kind.DANGER)[0].answered is Answered.HEARD
    kitchen.wait(0.1)
    assert calling(kitchen, Kind.DANGER)[0].answered is Answered.NOT


def test_what_takes_two_minutes_gets_no_heads_up():
    kitchen = one(span=minutes(2))
    kitchen.wait(1.5)
    assert kitchen.alarms() == ()


def test_hands_that_are_at_a_step_anyway_get_no_heads_up():
    kitchen = one(span=minutes(10), work=Work(throughout=True))
    kitchen.wait(9.5)
    assert kitchen.alarms() == ()


def test_after_a_restart_what_was_heard_calls_again():
    kitchen = one()
    kitchen.wait(60)
    kitchen.must(HearAlarm(kitchen.alarms()[0].id))
    kitchen.take(BoardReturned(**kitchen.stamp(), away_ms=60_000))
    assert kitchen.alarms()[0].answered is Answered.NOT


def test_danger_comes_first_then_the_unanswered_then_what_spoils_first():
    ham = Dish(name="Ham", steps=(step("Ham", "Roast", minutes(20, 60)),))
    tart = Dish(name="Tart", steps=(step("Tart", "Bake", minutes(25, 28)),))
    kitchen = Kitchen(small_menu(ham, tart, fritters()))
    kitchen.must(*(StartStep(s) for s in ("Ham/Roast", "Tart/Bake", "Fritters/Fry")))
    kitchen.wait(27)
    kinds = [(a.dish, a.kind) for a in kitchen.alarms()]
    assert kinds[0] == ("Fritters", Kind.DANGER)
    dishes = [a.dish for a in kitchen.alarms() if a.kind is Kind.CHECK]
    assert dishes == ["Tart", "Ham"]
    tart_check = next(a for a in kitchen.alarms() if a.dish == "Tart")
    kitchen.must(HearAlarm(tart_check.id))
    assert [a.dish for a in kitchen.alarms()][-1] == "Tart"


def test_none_of_many_is_dropped():
    dishes = [Dish(name=f"Dish {n}", steps=(step(f"Dish {n}", "Bake", minutes(20, 30)),)) for n in range(30)]
    kitchen = Kitchen(small_menu(*dishes), check=False)
    kitchen.must(*(StartStep(f"Dish {n}/Bake") for n in range(30)))
    kitchen.wait(20)
    assert len(calling(kitchen, Kind.CHECK)) == 30


def test_a_revised_length_moves_the_look():
    kitchen = one()
    kitchen.must(ReviseDuration("Ham/Roast", minutes(70, 90)))
    kitchen.wait(65)
    assert kitchen.alarms() == ()


def test_a_closed_cook_is_quiet_and_has_nothing_to_wake_for():
    kitchen = one()
    kitchen.wait(60)
    kitchen.must(CloseCook())
    assert kitchen.alarms() == ()


def test_a_dish_that_no_plan_has_placed_starts_by_the_meal():
    slow = step("Pie", "Fill", minutes(20), work=Work(throughout=True))
    bake = step("Pie", "Bake", minutes(30, 60), after=[Link(step="Pie/Fill", wait_s=300)])
    kitchen = Kitchen(small_menu(gravy()))
    kitchen.must(AddDish(Dish(name="Pie", steps=(slow, bake))))
    kitchen.wait(164.9)
    assert calling(kitchen, Kind.START) == []
    kitchen.wait(0.1)  # 50 min of baking, 5 min of waiting and 20 min of work before the meal at 240 min
    assert [a.step for a in calling(kitchen, Kind.START)] == ["Pie/Fill"]


def test_danger_of_food_calls_in_a_closed_cook_and_nothing_else_does(monkeypatch):
    def warm_stock(cook, now, clocks):
        call = Alarm("danger|stock", Kind.DANGER, Rank.DANGER, now - 1, "Stock", None, None, "Cool", "the stock", "")
        yield call
        yield replace(call, id="due|stock", rank=Rank.DUE)

    kitchen = one()
    kitchen.wait(60)
    monkeypatch.setattr("timerboard.core.alarms.SAFETY_SOURCES", (warm_stock,))
    assert kitchen.calls() == ["Cool the stock", "Check the ham", "Cool the stock"]
    kitchen.must(CloseCook())
    assert [a.id for a in kitchen.alarms()] == ["danger|stock"]


@pytest.mark.parametrize("minute", [0, 59, 60, 91])
def test_the_same_cook_and_moment_give_the_same_alarms(minute):
    kitchen = one(cues=(Cue(do="Baste", every_s=1200),))
    kitchen.wait(minute)
    assert alarms(kitchen.cook, kitchen.now) == alarms(kitchen.cook, kitchen.now)


def test_a_new_plan_moves_starts_but_keeps_their_names():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.wait(125)
    (before,) = calling(kitchen, Kind.START)
    kitchen.must(AdoptPlan(plain_plan(kitchen.cook.menu, kitchen.cook.eat_at - MIN)))
    (after,) = calling(kitchen, Kind.START)
    assert after.id == before.id
    assert after.since == before.since - MIN
