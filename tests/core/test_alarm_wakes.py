"""When the board must look again: at the moment itself of everything that will call, or it calls late or never."""

from dataclasses import replace

import pytest

from tests.kitchen import MIN, Kitchen, fritters, minutes, plain_plan, small_menu, step
from timerboard.core.alarm_values import Answered, Kind, Rank
from timerboard.core.alarms import alarms, next_change
from timerboard.core.commands import (
    AdoptPlan,
    CloseCook,
    DoCue,
    EndStep,
    HearAlarm,
    Look,
    PutOff,
    SetQuickTimer,
    StartStep,
)
from timerboard.core.menu import Cue, Dish, Heat, Place, Use, Work

SECOND = 1000


def wakes(kitchen: Kitchen, most: int = 10) -> list[int]:
    """The next moments to look at, one after the other, in milliseconds from now; nobody does anything."""
    found, start = [], kitchen.now
    while len(found) < most and (change := next_change(kitchen.cook, kitchen.now)) is not None:
        found.append(change - start)
        kitchen.now = change
    kitchen.now = start
    return found


def running(*dishes: Dish) -> Kitchen:
    kitchen = Kitchen(small_menu(*dishes), plan=False)
    kitchen.must(*(StartStep(dish.steps[0].id) for dish in dishes))
    return kitchen


def test_a_running_step_wakes_a_minute_before_its_look_at_it_and_past_its_high_end():
    cracker = Dish(name="Crackers", steps=(step("Crackers", "Bake", minutes(60, 90)),))
    assert wakes(running(cracker)) == [59 * MIN, 60 * MIN, 90 * MIN + 1]


def test_hot_oil_wakes_when_its_time_is_over():
    # 4 loads of at most 300 s, 3 times at most 120 s to come back: 26 min; more than that is danger.
    assert 26 * MIN + 1 in wakes(running(fritters()))


def test_a_cue_wakes_when_it_falls_due():
    roast = step("Ham", "Roast", minutes(60, 90), cues=(Cue(do="Baste", every_s=1200),))
    assert wakes(running(Dish(name="Ham", steps=(roast,))))[:2] == [19 * MIN, 20 * MIN]


def test_a_loose_countdown_wakes_at_its_last_second():
    kitchen = running(Dish(name="Ham", steps=(step("Ham", "Roast", minutes(60)),)))
    kitchen.must(SetQuickTimer("eggs", 390))
    assert wakes(kitchen)[0] == 390 * SECOND


@pytest.mark.parametrize("closed", [False, True])
def test_food_out_of_the_heat_wakes_a_quarter_of_an_hour_before_its_limit_and_at_it(closed):
    """Two hours (USDA FSIS, Leftovers and Food Safety), a closed cook included."""
    stew = Dish(name="Stew", steps=(step("Stew", "Simmer", minutes(30), uses=(Use(place="hob"),)),))
    kitchen = running(stew)
    kitchen.must(EndStep("Stew/Simmer"))
    if closed:
        kitchen.must(CloseCook())
    assert {105 * MIN, 120 * MIN} <= set(wakes(kitchen))


def test_what_was_heard_wakes_when_it_calls_again_danger_first():
    kitchen = running(fritters(), Dish(name="Ham", steps=(step("Ham", "Roast", minutes(20, 90)),)))
    kitchen.now += 27 * MIN
    calls = {alarm.kind: alarm.id for alarm in kitchen.alarms()}
    kitchen.must(HearAlarm(calls[Kind.DANGER]), HearAlarm(calls[Kind.CHECK]))
    assert {MIN, 3 * MIN} <= set(wakes(kitchen))


def test_a_step_that_begins_by_itself_wakes_the_board_when_its_oven_is_hot():
    """The plan counts on an oven that is half warm, and asks after 10 min; from cold it takes its 20."""
    cut = step("Bake", "Cut", minutes(5), work=Work(throughout=True))
    bake = step("Bake", "Bake", minutes(30), after=["Cut"], uses=(Use(place="oven"),), heat_c=160.0)
    oven = Place(name="oven", heat=Heat(low_c=60, high_c=250, preheat_s=1200))
    kitchen = Kitchen(small_menu(Dish(name="Bake", steps=(cut, bake)), places=(oven,)), plan=False)
    plan = plain_plan(kitchen.cook.menu, kitchen.cook.eat_at)
    (setting,) = plan.settings
    warm = setting.model_copy(update={"at": setting.ready - 600})
    kitchen.must(AdoptPlan(plan.model_copy(update={"settings": (warm,)})))
    kitchen.must(EndStep(cut.id), DoCue("@oven", warm.id))
    set_at, kitchen.now = kitchen.now, kitchen.now + 11 * MIN
    assert [alarm.kind for alarm in kitchen.alarms()] == [Kind.HOT]
    assert next_change(kitchen.cook, kitchen.now) == set_at + 20 * MIN
    kitchen.now = set_at + 20 * MIN
    kitchen.must(Look())
    assert kitchen.cook.lives[bake.id].started == kitchen.now


def test_a_start_that_was_put_off_and_is_planned_later_is_told_ahead_again():
    kitchen = Kitchen(small_menu(Dish(name="Pie", steps=(step("Pie", "Fill", minutes(20), work=Work(start_s=60)),))))
    kitchen.now = kitchen.cook.plan.of("Pie/Fill").start * SECOND
    (start,) = kitchen.alarms()
    kitchen.must(PutOff(start.id, 60))
    kitchen.must(AdoptPlan(plain_plan(kitchen.cook.menu, kitchen.cook.eat_at + 30 * MIN)))
    kitchen.now += 29 * MIN
    assert [(alarm.kind, alarm.step) for alarm in kitchen.alarms()] == [(Kind.HEADS_UP, "Pie/Fill")]


def test_danger_calls_though_a_record_says_that_it_was_put_off():
    kitchen = running(fritters())
    kitchen.now += 30 * MIN
    danger = kitchen.alarms()[0]
    put_off = replace(kitchen.cook, put_off={danger.id: kitchen.now + 5 * MIN})
    again = alarms(put_off, kitchen.now)[0]
    assert (again.rank, again.answered) == (Rank.DANGER, Answered.NOT)
