"""To the moment: when a look, a reading, a pull, a cue and a batch fall due, and when leaving them does harm."""

from dataclasses import replace

import pytest

from tests.kitchen import MIN, Kitchen, fritters, minutes, plain_plan, small_menu, step
from timerboard.core.alarm_values import Alarm, Answered, Kind
from timerboard.core.commands import (
    AdoptPlan,
    DoCue,
    EndStep,
    HearAlarm,
    NotYet,
    PassOverCue,
    StartStep,
    TakeReading,
)
from timerboard.core.cook import StepLife
from timerboard.core.due import batch_now, cues_due, last_reading, pull_guess, read_at
from timerboard.core.engine import LIFT
from timerboard.core.heat_values import PullForecast
from timerboard.core.menu import Cue, Dish, Use, Work

SECOND = 1000
FRY = "Fritters/Fry"


def one(*, span=None, **more) -> Kitchen:
    """A running step, with nothing else in the kitchen."""
    dish = Dish(name="Ham", steps=(step("Ham", "Roast", span or minutes(60, 90), **more),))
    kitchen = Kitchen(small_menu(dish), plan=False)
    kitchen.must(StartStep("Ham/Roast"))
    return kitchen


def frying() -> Kitchen:
    kitchen = Kitchen(small_menu(fritters()), plan=False)
    kitchen.must(StartStep(FRY))
    return kitchen


def only(kitchen: Kitchen, kind: Kind) -> Alarm:
    (alarm,) = [alarm for alarm in kitchen.alarms() if alarm.kind is kind]
    return alarm


def kinds(kitchen: Kitchen) -> set[Kind]:
    return {alarm.kind for alarm in kitchen.alarms()}


def test_an_exact_step_is_over_sixty_seconds_after_its_end_and_no_sooner():
    kitchen = one(span=minutes(10))
    kitchen.now += 11 * MIN - 1
    assert Kind.OVER not in kinds(kitchen)
    kitchen.now += 1
    assert only(kitchen, Kind.OVER).since == kitchen.now


def test_a_reading_below_the_pull_past_the_high_end_is_worth_four_minutes_and_one_before_it_nothing():
    late = one(pull_at_c=80.0)
    late.now += 91 * MIN
    late.must(TakeReading("Ham/Roast", 70.0))
    late.now += 4 * MIN
    assert only(late, Kind.OVER).since == late.now
    early = one(pull_at_c=80.0)
    early.now += 89 * MIN
    early.must(TakeReading("Ham/Roast", 70.0))
    early.now += MIN + 1
    assert only(early, Kind.OVER).since == early.now


def test_oil_that_was_read_is_no_reading_of_the_core():
    kitchen = one(pull_at_c=80.0, hazard="hot oil")
    kitchen.must(TakeReading("Ham/Roast", 20.0))
    read = kitchen.now
    kitchen.now += 5 * MIN
    kitchen.must(TakeReading("Ham/Roast", 170.0, "oil"))
    assert last_reading(kitchen.cook.lives["Ham/Roast"]) == read


def test_a_rest_that_the_plan_lets_run_to_its_high_end_is_asked_about_a_minute_before_that():
    rest = step("Ham", "Rest", minutes(20, 30), elastic=True)
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(rest,))), plan=False)
    plan = plain_plan(kitchen.cook.menu, kitchen.cook.eat_at)
    begin = kitchen.now // SECOND
    placed = tuple(p.model_copy(update={"start": begin, "end": begin + 1800}) for p in plan.placed)
    kitchen.must(AdoptPlan(plan.model_copy(update={"placed": placed})), StartStep(rest.id))
    kitchen.now += 29 * MIN - 1
    assert Kind.CHECK not in kinds(kitchen)
    kitchen.now += 1
    assert only(kitchen, Kind.CHECK).since == kitchen.now


def test_a_first_reading_waits_for_no_gap_and_comes_five_minutes_before_the_guess():
    kitchen = one(span=minutes(6), pull_at_c=80.0)
    kitchen.now += 1 * MIN
    assert only(kitchen, Kind.READ).since == kitchen.now


def test_a_pull_is_never_said_within_a_minute_of_a_reading_below_it():
    kitchen = one(span=minutes(30, 120), pull_at_c=80.0)
    for celsius in (20.0, 40.0, 60.0):
        kitchen.now += 10 * MIN
        kitchen.must(TakeReading("Ham/Roast", celsius))
    kitchen.now += 10 * MIN - SECOND
    kitchen.must(TakeReading("Ham/Roast", 79.9))  # two degrees a minute: it is there in three seconds
    kitchen.now += 60 * SECOND - 1
    assert Kind.PULL not in kinds(kitchen)
    kitchen.now += 1
    assert only(kitchen, Kind.PULL).since == kitchen.now


@pytest.mark.parametrize(("at_s", "due"), [(3240, 1), (3241, 0)])
def test_a_cue_at_nine_tenths_to_the_second_still_comes(at_s, due):
    kitchen = one(span=minutes(60), cues=(Cue(do="Turn", at_s=at_s),))
    life = kitchen.cook.lives["Ham/Roast"]
    assert len(list(cues_due(kitchen.cook, kitchen.cook.menu.steps["Ham/Roast"], life))) == due


def test_a_cue_that_comes_once_spoils_after_a_tenth_of_its_step():
    kitchen = one(span=minutes(60), cues=(Cue(do="Turn", at_fraction=0.5),))
    kitchen.now += 30 * MIN
    cue = only(kitchen, Kind.CUE)
    assert (cue.since, cue.spoils_at) == (kitchen.now, kitchen.now + 6 * MIN)


def test_what_another_oven_keeps_shut_puts_off_no_cue():
    ham = step("Ham", "Roast", minutes(120), uses=(Use(place="hob"),), cues=(Cue(do="Baste", every_s=1800),))
    puddings = step("Puddings", "Bake", minutes(25), uses=(Use(place="oven"),), shut_s=1200)
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ham,)), Dish(name="Puddings", steps=(puddings,))), plan=False)
    kitchen.must(StartStep("Ham/Roast"))
    kitchen.now += 25 * MIN
    kitchen.must(StartStep("Puddings/Bake"))
    kitchen.now += 5 * MIN
    assert only(kitchen, Kind.CUE).since == kitchen.now


def test_a_batch_is_lifted_at_its_low_end_and_spoils_at_its_high_end():
    """Each load 240 to 300 s; the next goes in when the oil is back, 100 s after the lift."""
    kitchen = frying()
    start = kitchen.now
    kitchen.now += 240 * SECOND
    lift = only(kitchen, Kind.CUE)
    assert (lift.since - start, lift.spoils_at - start) == (240 * SECOND, 300 * SECOND)
    kitchen.must(DoCue(FRY, LIFT))
    lifted = kitchen.now
    fry = kitchen.cook.menu.steps[FRY]
    assert batch_now(kitchen.cook, fry, lifted + 100 * SECOND - 1).recovering
    assert not batch_now(kitchen.cook, fry, lifted + 100 * SECOND).recovering
    kitchen.now += 340 * SECOND
    second = only(kitchen, Kind.CUE)
    assert (second.since - lifted, second.spoils_at - lifted) == (340 * SECOND, 400 * SECOND)


def test_a_lift_that_was_passed_over_counts_as_its_batch():
    kitchen = frying()
    kitchen.now += 4 * MIN
    kitchen.must(PassOverCue(FRY, LIFT))
    assert batch_now(kitchen.cook, kitchen.cook.menu.steps[FRY], kitchen.now).batch.number == 2


def test_a_fry_that_has_ended_has_no_batch():
    kitchen = frying()
    fry = kitchen.cook.menu.steps[FRY]
    kitchen.now += 4 * MIN
    kitchen.must(EndStep(FRY, confirmed=True))
    assert batch_now(kitchen.cook, fry, kitchen.now) is None


def test_another_job_of_a_fry_is_no_lift():
    fry = fritters().steps[0].model_copy(update={"cues": (Cue(do="Stir", at_s=60),)})
    kitchen = Kitchen(small_menu(fritters().model_copy(update={"steps": (fry,)})), plan=False)
    kitchen.must(StartStep(FRY))
    kitchen.now += MIN
    assert only(kitchen, Kind.CUE).sentence == "Stir the fritters"


def test_danger_that_was_heard_and_looked_at_calls_anew_when_the_look_is_used_up():
    """'Not yet' over hot oil is worth 30 s. What was heard before it keeps nothing quiet after it."""
    kitchen = frying()
    kitchen.now += 26 * MIN + 1
    kitchen.must(HearAlarm(only(kitchen, Kind.DANGER).id), NotYet(FRY))
    kitchen.now = kitchen.cook.lives[FRY].look_again
    assert only(kitchen, Kind.DANGER).answered is Answered.NOT


def about_to_pull():
    """A ham read three times, ten minutes apart, at the moment when it is foretold to be at 80 °C."""
    kitchen = one(span=minutes(30, 120), pull_at_c=80.0)
    for celsius in (20.0, 40.0, 60.0):
        kitchen.now += 10 * MIN
        kitchen.must(TakeReading("Ham/Roast", celsius))
    kitchen.now += 10 * MIN
    return kitchen


def test_a_pull_that_was_heard_and_answered_by_a_reading_calls_anew_after_it():
    kitchen = about_to_pull()
    kitchen.must(HearAlarm(only(kitchen, Kind.PULL).id), TakeReading("Ham/Roast", 79.5))
    kitchen.now += 90 * SECOND
    assert only(kitchen, Kind.PULL).answered is Answered.NOT


def test_a_look_says_what_is_looked_for():
    asks = {
        "done?": one(),
        "time is up": one(span=minutes(60)),
        "blistered?": one(until="Blistered"),
    }
    for detail, kitchen in asks.items():
        kitchen.now += 60 * MIN
        assert only(kitchen, Kind.CHECK).detail == detail


def test_each_batch_is_looked_at_by_its_core_where_the_menu_says_how_hot():
    fry = fritters().steps[0].model_copy(update={"pull_at_c": 74.0})
    kitchen = Kitchen(small_menu(fritters().model_copy(update={"steps": (fry,)})), plan=False)
    kitchen.must(StartStep(FRY))
    kitchen.now += 4 * MIN
    assert only(kitchen, Kind.CUE).detail == "74 °C in the middle?"
    kitchen.now = kitchen.cook.lives[FRY].started + fry.span.low * SECOND
    assert only(kitchen, Kind.CHECK).detail == "74 °C in the middle?"


def test_setting_an_oven_spoils_when_it_is_wanted_hot_and_a_start_when_its_slack_is_used_up():
    bake = step("Pie", "Bake", minutes(30), uses=(Use(place="oven"),), heat_c=180.0, work=Work(start_s=60))
    kitchen = Kitchen(small_menu(Dish(name="Pie", steps=(bake,))), plan=False)
    plan = plain_plan(kitchen.cook.menu, kitchen.cook.eat_at)
    kitchen.must(AdoptPlan(plan.model_copy(update={"placed": tuple(replace_slack(p, 240) for p in plan.placed)})))
    start = kitchen.cook.plan.of(bake.id).start * SECOND
    kitchen.now = start
    assert only(kitchen, Kind.SET).spoils_at == start
    assert only(kitchen, Kind.START).spoils_at == start + 240 * SECOND


def replace_slack(placed, slack_s):
    return placed.model_copy(update={"slack_s": slack_s})


def test_a_step_that_no_plan_placed_starts_early_enough_for_the_longer_of_what_follows():
    """Cooling takes an hour and toasting ten minutes; the base (20 min) is begun 80 min before the meal."""
    base = step("Tart", "Bake the base", minutes(20), work=Work(start_s=60))
    cool = step("Tart", "Cool", minutes(60), after=["Bake the base"])
    toast = step("Tart", "Toast the nuts", minutes(10), after=["Bake the base"], work=Work(start_s=60))
    kitchen = Kitchen(small_menu(Dish(name="Tart", steps=(base, cool, toast))), plan=False)
    kitchen.now = kitchen.cook.eat_at - 80 * MIN - 1
    assert Kind.START not in kinds(kitchen)
    kitchen.now += 1
    assert only(kitchen, Kind.START).step == base.id


def test_a_start_in_an_oven_of_another_heat_says_so():
    first = step("Duck", "Roast", minutes(60), uses=(Use(place="oven"),), heat_c=220.0)
    cut = step("Roots", "Cut", minutes(5), work=Work(throughout=True))
    bake = step("Roots", "Bake", minutes(30), after=["Cut"], uses=(Use(place="oven"),), heat_c=120.0)
    dishes = (Dish(name="Duck", steps=(first,)), Dish(name="Roots", steps=(cut, bake)))
    kitchen = Kitchen(small_menu(*dishes), eat_in=30)
    kitchen.must(StartStep(first.id), EndStep(cut.id))
    (start,) = [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.START and alarm.step == bake.id]
    assert start.detail == "oven has another heat"


def two_settings() -> Kitchen:
    """Two bakes an hour apart in one oven, each with a setting of its own."""
    oven = (Use(place="oven"),)
    first = step("Pie", "Bake", minutes(30), uses=oven, heat_c=180.0, work=Work(start_s=60))
    second = step("Roots", "Bake", minutes(90), uses=oven, heat_c=120.0, work=Work(start_s=60))
    return Kitchen(small_menu(Dish(name="Pie", steps=(first,)), Dish(name="Roots", steps=(second,))))


def test_a_setting_that_nobody_needs_any_more_hides_no_later_one():
    kitchen = two_settings()
    kitchen.must(StartStep("Pie/Bake"))
    (setting,) = [one for one in kitchen.cook.plan.settings if one.for_step == "Roots/Bake"]
    kitchen.now = setting.at * SECOND
    assert only(kitchen, Kind.SET).cue == setting.id


def test_an_oven_that_was_seen_to_be_hot_is_not_asked_about_again():
    kitchen = two_settings()
    setting = next(one for one in kitchen.cook.plan.settings if one.for_step == "Pie/Bake")
    kitchen.now = setting.at * SECOND
    kitchen.must(DoCue("@oven", setting.id))
    kitchen.now += 20 * MIN
    hot = only(kitchen, Kind.HOT)
    kitchen.must(DoCue(hot.step, hot.cue))
    kitchen.now += 20 * MIN
    assert Kind.HOT not in kinds(kitchen)


def test_hot_oil_past_its_time_is_danger_and_nothing_less_beside_it():
    kitchen = frying()
    kitchen.now += 30 * MIN
    assert Kind.DANGER in kinds(kitchen)
    assert Kind.OVER not in kinds(kitchen)


def test_a_pull_that_was_answered_not_yet_calls_when_that_is_used_up():
    kitchen = about_to_pull()
    only(kitchen, Kind.PULL)
    kitchen.must(NotYet("Ham/Roast"))
    again = kitchen.cook.lives["Ham/Roast"].look_again
    kitchen.now = again - 1
    assert Kind.PULL not in kinds(kitchen)
    kitchen.now = again
    assert only(kitchen, Kind.PULL).since == again


def fitted(at_min: float, why: str = "") -> tuple[Kitchen, StepLife]:
    """A joint read after 20 min, with a fit that gives its pull at that minute."""
    kitchen = one(span=minutes(60, 180), pull_at_c=80.0)
    start = kitchen.now
    kitchen.now += 20 * MIN
    kitchen.must(TakeReading("Ham/Roast", 20.0))
    at = start + round(at_min * MIN)
    fit = PullForecast(step="Ham/Roast", pull_c=80.0, readings=1, at=at, early=at - 9 * MIN, late=at + 9 * MIN, why=why)
    return kitchen, replace(kitchen.cook.lives["Ham/Roast"], foreseen=fit)


def asked_at(kitchen: Kitchen, life: StepLife) -> float:
    """The minute at which the next reading is asked for."""
    roast = kitchen.cook.menu.steps["Ham/Roast"]
    guess = pull_guess(kitchen.cook, roast, life)
    return (read_at(kitchen.cook, roast, life, guess) - life.started) / MIN


def test_a_fit_knows_better_than_the_menus_low_end_when_to_read():
    # Read at 20 and there at 130: half of what is left is 75. Without a fit the low end of the menu, 60, would count.
    assert asked_at(*fitted(130)) == 75


def test_a_fit_that_says_that_it_is_there_asks_at_its_moment_and_not_yet_puts_that_off():
    assert asked_at(*fitted(19, why="it is there")) == 19
    kitchen, life = fitted(130)
    assert asked_at(kitchen, replace(life, look_again=life.started + 90 * MIN)) == 90


def test_a_guess_of_a_fit_is_never_in_the_past():
    kitchen, life = fitted(25)
    now = life.started + 30 * MIN
    guess = pull_guess(kitchen.cook, kitchen.cook.menu.steps["Ham/Roast"], life, now)
    assert (guess.early, guess.at, guess.late) == (now, now, life.started + 34 * MIN)
