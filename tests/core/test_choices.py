"""Choices of a kitchen: whose rules, room, height, food; and what holding and coming up ask for."""

import pytest

from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.choices import food_kinds, height_words, room_c, whose_rules
from timerboard.core.commands import AddDish, ChooseSetting, EndStep, StartStep, Undo
from timerboard.core.cook import Reading
from timerboard.core.food_clocks import food_clocks
from timerboard.core.food_kind import FoodKind
from timerboard.core.holding import cold_holding, come_up, hot_holding
from timerboard.core.menu import Dish, Use
from timerboard.core.safety import least, verdicts
from timerboard.core.safety_rules import Whose

PASTA = Dish(name="Pasta", steps=(step("Pasta", "Boil", minutes(10), uses=(Use(place="hob"),)),))


def test_without_a_choice_the_stricter_of_the_two_federal_codes_counts():
    kitchen = Kitchen(small_menu(PASTA))
    assert whose_rules(kitchen.cook) == {Whose.FOOD_CODE, Whose.FSIS}
    assert room_c(kitchen.cook) < 32
    assert food_kinds(kitchen.cook) == {}


def test_height_makes_boiled_steps_longer_once_and_not_again_and_undo_takes_it_back():
    kitchen = Kitchen(small_menu(PASTA))
    kitchen.must(ChooseSetting("height", "1500"))
    longer = kitchen.cook.menu.steps["Pasta/Boil"].span.likely
    assert 1.3 < longer / 600 < 1.4  # 7 % for each of the 5 degrees that water boils lower
    kitchen.must(ChooseSetting("height", "1500"))
    assert kitchen.cook.menu.steps["Pasta/Boil"].span.likely == longer
    kitchen.must(ChooseSetting("height", "3000"), ChooseSetting("height", "1500"))
    assert kitchen.cook.menu.steps["Pasta/Boil"].span.likely == longer
    kitchen.must(ChooseSetting("height", "0"))
    assert kitchen.cook.menu.steps["Pasta/Boil"].span.likely == 600
    kitchen.must(Undo())
    assert kitchen.cook.menu.steps["Pasta/Boil"].span.likely == longer


def test_a_late_dish_is_boiled_at_the_same_height():
    kitchen = Kitchen(small_menu(PASTA))
    kitchen.must(ChooseSetting("height", "1500"))
    late = Dish(name="Eggs", steps=(step("Eggs", "Boil", minutes(10), uses=(Use(place="hob"),)),))
    kitchen.must(AddDish(late))
    spans = {s.span for s in kitchen.cook.menu.steps.values()}
    assert len(spans) == 1


def test_a_hot_room_halves_the_time_out():
    kitchen = Kitchen(small_menu(PASTA), plan=False)
    kitchen.must(StartStep("Pasta/Boil"))
    kitchen.wait(10)
    kitchen.must(EndStep("Pasta/Boil"))
    (usual,) = food_clocks(kitchen.cook, kitchen.now)
    kitchen.must(ChooseSetting("room", "hot"))
    (hot,) = food_clocks(kitchen.cook, kitchen.now)
    assert (usual.limit - usual.since, hot.limit - hot.since) == (120 * MIN, 60 * MIN)  # USDA FSIS, Leftovers


@pytest.mark.parametrize(
    ("setting", "value", "dish"),
    [
        ("rules", "mine", ""),
        ("room", "40", ""),
        ("height", "9000", ""),
        ("height", "nan", ""),
        ("food", "poultry", "X"),
    ],
)
def test_what_is_no_choice_is_refused_in_words(setting, value, dish):
    kitchen = Kitchen(small_menu(PASTA))
    assert kitchen.refused(ChooseSetting(setting, value, dish)).said.endswith(".")


def test_a_code_without_a_rule_for_the_food_gives_way_to_the_stricter_of_the_others():
    uk = frozenset({Whose.UK})
    assert {v.rule.whose for v in verdicts(FoodKind.WHOLE_MEAT, (), 0, whose=uk)} == {Whose.FOOD_CODE, Whose.FSIS}
    rule = least(FoodKind.POULTRY, uk)
    assert rule is not None
    assert (round(rule.celsius), rule.hold_s) == (70, 120)  # 70 °C for 2 min


def test_heights_are_said_with_where_water_boils():
    assert height_words("1500").startswith("1500 m · 95 °C")
    assert height_words("0") == "off"


def core(*pairs: tuple[float, float]) -> tuple[Reading, ...]:
    return tuple(Reading(round(at * MIN), celsius) for at, celsius in pairs)


def test_holding_hot_is_57_and_cold_is_5():  # FDA Food Code 2022, 3-501.16(A): 135 °F and 41 °F
    assert hot_holding(core((0, 57.3)), 0).met is True
    assert hot_holding(core((0, 60.0), (30, 56.9)), 0).met is False
    assert hot_holding(core((0, 40.0), (30, 60.0)), 20 * MIN).met is True
    assert cold_holding(core((0, 5.0)), 0).met is True
    assert cold_holding(core((0, 5.1)), 0).met is False
    assert cold_holding((), 0).met is None


def test_coming_up_takes_six_hours_at_most_from_10_to_54():  # USDA FSIS GD-2021-14, come-up-time option
    assert come_up(core((60, 8.0), (60 + 360, 54.5)), 0, 500 * MIN).met is True
    assert come_up(core((60, 8.0), (60 + 361, 54.5)), 0, 500 * MIN).met is False
    assert come_up(core((60, 30.0)), 0, 200 * MIN).met is None
    assert come_up(core((60, 30.0)), 0, 361 * MIN).met is False
