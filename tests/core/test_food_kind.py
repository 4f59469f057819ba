"""What food a dish is, by its words."""

import pytest

from tests.kitchen import minutes, step
from timerboard.core.food_kind import FoodKind, food_kind, kind_of_words, perishable
from timerboard.core.menu import Dish, Use


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("Roast chicken", FoodKind.POULTRY),
        ("Stuffed peppers", FoodKind.STUFFED),
        ("Venison stew", FoodKind.GAME),
        ("Lamb koftas", FoodKind.GROUND),
        ("500 g lean mince", FoodKind.GROUND),
        ("Cheese omelette", FoodKind.EGGS),
        ("Pork shoulder", FoodKind.WHOLE_MEAT),
        ("Baked salmon", FoodKind.FISH),
        ("Red cabbage", FoodKind.PLANT),
    ],
)
def test_the_name_tells(words, kind):
    assert kind_of_words(words) is kind


@pytest.mark.parametrize(
    "words",
    [
        "Leek soup\n1 l chicken stock",
        "Eggplant dip",
        "Chickpea stew",
        "Lamb's lettuce salad",
        "Beef tomatoes, sliced",
        "Roast potatoes in goose fat",
        "Minced garlic and ground cumin",
        "Kidney bean chilli",
        "Oyster mushrooms",
        "Red lentils\nChop the onion",
        "Cauliflower steaks with celery ribs",
    ],
)
def test_names_in_which_an_animal_is_only_a_word(words):
    assert kind_of_words(words) is FoodKind.PLANT


def test_of_several_kinds_the_strictest_counts():
    assert kind_of_words("Salmon and chicken skewers") is FoodKind.POULTRY


def dish(name, *ingredients):
    return Dish(name=name, ingredients=ingredients, steps=(step(name, "Cook", minutes(10)),))


def test_ingredients_tell_and_the_cook_overrules():
    pie = dish("Winter pie", "800 g beef brisket", "4 leeks")
    assert food_kind(pie) is FoodKind.WHOLE_MEAT
    assert food_kind(pie, {"Winter pie": FoodKind.GROUND}) is FoodKind.GROUND


@pytest.mark.parametrize("name", ["Spiced almonds", "Flat breads", "Soda bread"])
def test_dry_things_have_no_clock(name):
    assert not perishable(dish(name))


@pytest.mark.parametrize("name", ["Bread pudding", "Rice", "Gravy", "Bread sauce", "Almond cream", "Chicken bread"])
def test_what_is_in_doubt_has_one(name):
    assert perishable(dish(name))


@pytest.mark.parametrize(
    ("name", "ingredients", "stands"),
    [
        ("Fennel salad", ("2 fennel bulbs", "lemon"), True),
        ("Fruit salad", ("2 oranges", "grapes"), True),
        ("Carrot salad", ("6 carrots", "mayonnaise"), False),
        ("Chickpea salad", (), False),
        ("Fruit salad", ("half a melon",), False),  # cut melon: Food Code 1-201.10
        ("Maize bread", ("2 eggs", "300 g maize flour"), True),
        ("Cinnamon buns", ("1 egg",), True),
        ("Batter puddings", ("4 eggs", "milk"), True),
        ("Savoury bread pudding", ("4 eggs",), False),
        ("Egg salad", ("6 eggs",), False),
        ("Meat loaf", ("800 g minced beef",), False),
        ("Pickles", ("cucumber", "vinegar"), True),
    ],
)
def test_raw_sour_and_baked_food_may_stand_and_what_is_rich_or_cooked_may_not(name, ingredients, stands):
    assert perishable(dish(name, *ingredients)) is not stands


@pytest.mark.parametrize(
    ("name", "ingredients", "job", "stands"),
    [
        ("Slaw", ("1 white cabbage", "lemon"), "Shred and dress", False),
        ("Carrot slaw", ("3 carrots",), "Grate", False),
        ("Green leaves", ("200 g leaves",), "Wash and spin", False),
        ("Green salad", (), "Tear the romaine", False),
        ("Tomato salad", ("6 tomatoes", "basil"), "Slice", False),
        ("Orange salad", ("4 oranges",), "Cut the tomatoes and toss", False),
        ("Tomatoes on toast", ("bread",), "Slice", False),
        ("Green leaves", ("200 g small leaves, whole",), "Wash and spin", True),
        ("Green leaves", ("200 g leaves, whole",), "Tear", False),
        ("Tomato salad", ("whole cherry tomatoes",), "Dress", True),
        ("Orange salad", ("4 oranges", "mint leaves", "parsley"), "Chop the parsley", True),
        ("Carrot salad", ("6 carrots", "sun-dried tomatoes"), "Grate", True),
        ("Pickled red cabbage", ("1 red cabbage", "vinegar"), "Shred", True),
        ("Tomato relish", ("6 tomatoes", "vinegar"), "Chop", True),
        ("Sun-dried tomato bread", (), "Bake", True),
    ],
)
def test_cut_leafy_greens_and_cut_tomatoes_have_a_clock_and_herbs_and_whole_leaves_do_not(
    name, ingredients, job, stands
):
    """FDA Food Code 2022, 1-201.10(B): time/temperature control for safety food, and cut leafy greens, in whose list
    cabbage is and herbs are not. The list is from memory.
    """
    assert perishable(Dish(name=name, ingredients=ingredients, steps=(step(name, job, minutes(10)),))) is not stands


@pytest.mark.parametrize(("name", "stands"), [("Beetroot salad", False), ("Pickled beetroot", True)])
def test_a_salad_of_heated_plants_has_a_clock_and_a_pickle_has_none(name, stands):
    boil = step(name, "Boil", minutes(40), uses=(Use(place="hob"),))
    assert perishable(Dish(name=name, ingredients=("beetroot",), steps=(boil,))) is not stands
