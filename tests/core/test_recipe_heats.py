"""Temperatures as recipes write them."""

import pytest

from timerboard.core.recipe_heats import HeatOf, find_heats, oven_heat


@pytest.mark.parametrize(
    ("text", "written", "fan"),
    [
        ("Preheat the oven to 180C/160C fan/gas 4.", "180 C", False),
        ("Heat oven to 200C fan 180C gas 6", "200 C", False),
        ("Heat the oven to fan 180C", "180 C", True),
        ("Preheat oven to 350°F", "350 F", False),
        ("oven at 180 degrees Celsius", "180 C", False),
        ("oven at 350 degrees Fahrenheit", "350 F", False),
        ("set the oven to 200 ºC", "200 C", False),
        ("Preheat the oven to 180 ℃", "180 C", False),
        ("Bake at gas mark 6", "200 C", False),
        ("gas mark ½ oven", "130 C", False),
        ("in a moderate oven", "180 C", False),
        ("in a very hot oven", "230 C", False),
        ("roast at 190-200C", "190 C", False),
    ],
)
def test_the_temperature_to_set_is_the_one_without_fan_in_degrees(text, written, fan):
    heat = oven_heat(find_heats(text))
    assert heat is not None
    assert (heat.written, heat.fan) == (written, fan)


@pytest.mark.parametrize("text", ["gas mark 4 oven", "a slow oven", "oven at 350 degrees", "fan oven 180C"])
def test_what_a_recipe_leaves_open_about_its_oven_is_said(text):
    assert oven_heat(find_heats(text)).guess


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("until the thickest part reaches 74 °C", "74 C"),
        ("cook to at least 74C", "74 C"),
        ("a thermometer inserted in the center registers 145°F", "145 F"),
        ("until it reads 96C in the middle", "96 C"),
        ("(63C in the centre)", "63 C"),
        ("boil the syrup until it reaches 121°C", "121 C"),
    ],
)
def test_a_temperature_of_the_food_ends_its_step(text, written):
    (heat,) = find_heats(text)
    assert (heat.of, heat.written) == (HeatOf.FOOD, written)


@pytest.mark.parametrize("text", ["Heat the oil to 180C", "fry in 350F oil"])
def test_a_temperature_of_oil_is_neither(text):
    assert [heat.of for heat in find_heats(text)] == [HeatOf.OIL]


@pytest.mark.parametrize("text", ["water at 40C", "100 g", "200 calories", "2 cups", "a 20 cm tin", "C", "180", "4 F"])
def test_what_is_no_heat_to_cook_at_is_left(text):
    assert find_heats(text) == ()
