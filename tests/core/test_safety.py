"""Verdicts: what the rule is and whether the readings meet it; and the one question before a pull below it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.commands import EndStep, StartStep, TakeReading
from timerboard.core.cook import Reading
from timerboard.core.food_kind import FoodKind
from timerboard.core.menu import Dish, Use
from timerboard.core.pull_question import pull_question
from timerboard.core.safety import least, met, verdicts
from timerboard.core.safety_rules import Whose


def readings(*pairs):
    return [Reading(round(at * MIN), celsius) for at, celsius in pairs]


def judged(kind, *pairs, now=None, whose=None):
    taken = readings(*pairs)
    at = round((now if now is not None else (pairs[-1][0] if pairs else 0)) * MIN)
    return verdicts(kind, taken, at, **({"whose": whose} if whose else {}))


def of(found, whose):
    return next(v for v in found if v.rule.whose is whose)


def test_poultry_passes_at_165_f_and_the_careful_hold():
    assert not met(judged(FoodKind.POULTRY, (0, 73.0), (1, 73.5)))
    once = judged(FoodKind.POULTRY, (0, 74.0))
    assert of(once, Whose.FSIS).met
    assert not of(once, Whose.FOOD_CODE).met
    assert met(judged(FoodKind.POULTRY, (0, 74.0), (0.5, 74.2)))


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(20, 73.8)), max_size=8))
def test_no_time_at_all_passes_poultry_under_165_f(pairs):
    assert not met(judged(FoodKind.POULTRY, *sorted(pairs)))


def test_a_joint_at_145_f_needs_its_rest():
    chart = {Whose.FSIS}
    assert not met(judged(FoodKind.WHOLE_MEAT, (0, 63.0), now=2, whose=chart))
    assert met(judged(FoodKind.WHOLE_MEAT, (0, 63.0), now=3, whose=chart))


def test_of_two_codes_the_stricter_wins():
    found = judged(FoodKind.WHOLE_MEAT, (0, 63.0), now=3.5)
    assert of(found, Whose.FSIS).met
    assert not of(found, Whose.FOOD_CODE).met
    assert not met(found)
    assert met(judged(FoodKind.WHOLE_MEAT, (0, 63.0), (4.2, 63.4)))


def test_instant_in_the_table_is_withheld_by_the_integral():
    (code,) = judged(FoodKind.WHOLE_MEAT, (0, 70.0), whose={Whose.FOOD_CODE})
    assert not code.met
    assert code.logs == (0.0, 6.5)
    assert "The table is met" in code.said
    (later,) = judged(FoodKind.WHOLE_MEAT, (0, 70.0), (0.25, 70.0), whose={Whose.FOOD_CODE})
    assert later.met


def test_the_integral_never_passes_what_the_table_does_not():
    (cool,) = judged(FoodKind.WHOLE_MEAT, (0, 50.0), (600, 54.3), whose={Whose.FOOD_CODE})
    assert not cool.met
    assert cool.logs is not None
    assert cool.logs[0] > 6.5


def test_rows_that_a_study_missed_are_not_leant_on():
    assert not met(judged(FoodKind.WHOLE_MEAT, (0, 55.0), (120, 55.0), whose={Whose.FOOD_CODE}))


def test_falling_under_it_breaks_the_hold():
    assert not met(judged(FoodKind.WHOLE_MEAT, (0, 63.0), (2, 61.0), (4, 63.0), now=4, whose={Whose.FSIS}))


def test_plants_are_under_no_rule():
    assert judged(FoodKind.PLANT, (0, 20.0)) == ()
    assert least(FoodKind.PLANT) is None


@pytest.mark.parametrize("kind", [k for k in FoodKind if k is not FoodKind.PLANT])
def test_every_verdict_names_its_rule_and_never_says_safe(kind):
    for found in (judged(kind), judged(kind, (0, 60.0)), judged(kind, (0, 80.0), (5, 80.0))):
        for verdict in found:
            assert verdict.rule.section in verdict.said
            assert "safe " not in verdict.said.lower().replace("safe minimum", "")
            assert "local code" in verdict.said


def roast(name: str, pull: float) -> Kitchen:
    cook_step = step(name, "Roast", minutes(60, 80), uses=(Use(place="hob"),), pull_at_c=pull)
    kitchen = Kitchen(small_menu(Dish(name=name, steps=(cook_step,))), plan=False)
    kitchen.must(StartStep(f"{name}/Roast"))
    kitchen.wait(50)
    return kitchen


def test_a_low_pull_by_tap_asks_once_and_says_why():
    kitchen = roast("Beef", 54.0)
    kitchen.must(TakeReading("Beef/Roast", 50.0))
    refusal = kitchen.refused(EndStep("Beef/Roast"))
    assert "50 °C" in refusal.said
    assert "62.8 °C and a rest of 3 min" in refusal.said
    assert "not enough" in refusal.said
    assert refusal.ask == EndStep("Beef/Roast", confirmed=True)
    kitchen.must(refusal.ask)
    assert kitchen.cook.lives["Beef/Roast"].ended is not None


def test_without_any_reading_it_says_so():
    assert "No reading" in roast("Chicken", 74.0).refused(EndStep("Chicken/Roast")).said


def test_at_the_rule_nothing_is_asked():
    kitchen = roast("Chicken", 80.0)
    kitchen.must(TakeReading("Chicken/Roast", 74.0), EndStep("Chicken/Roast"))


@pytest.mark.parametrize(("celsius", "words"), [(62.0, "likely to bring it there"), (59.0, "may get there")])
def test_carry_over_is_considered(celsius, words):
    kitchen = roast("Beef", 60.0)
    said = pull_question(kitchen.cook, kitchen.cook.menu.steps["Beef/Roast"], celsius)
    assert words in (said or "")


def test_a_low_pull_by_reading_asks_in_the_same_question():
    kitchen = roast("Beef", 52.0)
    refusal = kitchen.refused(TakeReading("Beef/Roast", 52.0))
    assert "62.8 °C" in refusal.said
    kitchen.must(refusal.ask)
    assert kitchen.cook.lives["Beef/Roast"].ended is not None


def test_reheated_food_is_measured_against_its_own_rule():
    again = step("Soup", "Reheat", minutes(10, 20), uses=(Use(place="hob"),), pull_at_c=70.0)
    kitchen = Kitchen(small_menu(Dish(name="Soup", steps=(again,))), plan=False)
    kitchen.must(StartStep("Soup/Reheat"))
    said = kitchen.refused(TakeReading("Soup/Reheat", 71.0)).said
    assert "the rule for reheated food: 73.9 °C for 15 s" in said


def test_bread_is_not_asked_about():
    kitchen = roast("Rye bread", 96.0)
    kitchen.must(EndStep("Rye bread/Roast"))
