"""What opens a door and what only turns a dial; and which calls of one door are told together."""

import pytest

from tests.kitchen import MIN, Kitchen, minutes, pork, small_menu, step
from timerboard.core.alarm_values import Kind
from timerboard.core.commands import DoCue, StartStep
from timerboard.core.menu import Cue, Dish, Use
from timerboard.core.one_call import coming, doors, one_calls

SECOND = 1000


def basted_and_turned(apart_s: int, place: str = "oven") -> Kitchen:
    duck = step("Duck", "Roast", minutes(60), uses=(Use(place=place),), cues=(Cue(do="Baste", at_s=600),))
    roots = step("Roots", "Roast", minutes(60), uses=(Use(place=place),), cues=(Cue(do="Turn", at_s=600 + apart_s),))
    kitchen = Kitchen(small_menu(Dish(name="Duck", steps=(duck,)), Dish(name="Roots", steps=(roots,))), plan=False)
    kitchen.must(StartStep("Duck/Roast"), StartStep("Roots/Roast"))
    return kitchen


def cues(kitchen: Kitchen):
    return [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.CUE]


@pytest.mark.parametrize(("apart_s", "calls"), [(120, 1), (121, 2)])
def test_two_minutes_apart_is_one_call_and_a_second_more_is_two(apart_s, calls):
    kitchen = basted_and_turned(apart_s)
    kitchen.now += (600 + apart_s) * SECOND
    assert len(one_calls(cues(kitchen), kitchen.cook, lambda alarm: alarm.since)) == calls


@pytest.mark.parametrize(("apart_s", "soon"), [(120, ["Turn"]), (121, [])])
def test_what_opens_the_same_door_within_two_minutes_is_told_ahead(apart_s, soon):
    kitchen = basted_and_turned(apart_s)
    kitchen.now += 10 * MIN
    (lead,) = cues(kitchen)
    assert [alarm.cue for alarm in coming(kitchen.cook, lead, kitchen.now)] == soon
    kitchen.now = lead.since + 120 * SECOND  # the wait runs from now where the call is older
    assert [alarm.cue for alarm in coming(kitchen.cook, lead, kitchen.now)] == ([] if apart_s == 120 else ["Turn"])


def test_what_comes_at_another_door_is_not_told_with_it():
    duck = step("Duck", "Roast", minutes(60), uses=(Use(place="oven"),), cues=(Cue(do="Baste", at_s=600),))
    roots = step("Roots", "Boil", minutes(60), uses=(Use(place="hob"),), cues=(Cue(do="Turn", at_s=660),))
    kitchen = Kitchen(small_menu(Dish(name="Duck", steps=(duck,)), Dish(name="Roots", steps=(roots,))), plan=False)
    kitchen.must(StartStep("Duck/Roast"), StartStep("Roots/Boil"))
    kitchen.now += 10 * MIN
    (lead,) = cues(kitchen)
    assert coming(kitchen.cook, lead, kitchen.now) == ()


def test_with_danger_nothing_else_is_told_not_even_danger_at_the_same_door():
    dishes = [
        Dish(name=name, steps=(step(name, "Fry", minutes(length), uses=(Use(place="oven"),), hazard="hot oil"),))
        for name, length in (("Duck", 5), ("Roots", 6))
    ]
    kitchen = Kitchen(small_menu(*dishes), plan=False)
    kitchen.must(StartStep("Duck/Fry"), StartStep("Roots/Fry"))
    kitchen.now += 6 * MIN
    (danger,) = [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.DANGER]
    assert coming(kitchen.cook, danger, kitchen.now) == ()


def test_a_place_without_a_heat_of_its_own_has_no_door():
    kitchen = basted_and_turned(30, "counter")
    kitchen.now += 11 * MIN
    assert [doors(kitchen.cook, alarm) for alarm in cues(kitchen)] == [frozenset(), frozenset()]


def test_setting_an_oven_and_looking_whether_it_is_hot_open_no_door():
    kitchen = Kitchen(small_menu(pork()))
    (setting,) = kitchen.cook.plan.settings
    kitchen.now = setting.at * SECOND
    (turned,) = [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.SET]
    kitchen.must(DoCue("@oven", setting.id))
    kitchen.wait(20)
    (looked,) = [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.HOT]
    assert doors(kitchen.cook, turned) == doors(kitchen.cook, looked) == frozenset()
