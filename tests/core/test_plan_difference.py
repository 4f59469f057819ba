"""A new plan as a difference: what moves, by how much, and when we eat."""

from tests.fakes import OPENING
from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.commands import StartStep
from timerboard.core.cook import Cook
from timerboard.core.menu import Dish, Use, Work
from timerboard.core.outlook import outlook
from timerboard.core.plan_difference import difference_words, moves
from timerboard.core.values import MS, Moment


def beans() -> Dish:
    boil = step("Beans", "Boil", minutes(10), work=Work(throughout=True))
    return Dish(name="Beans", hold_s=1800, steps=(boil,))


def starts(cook: Cook, now: Moment) -> dict[str, Moment]:
    return {step: foreseen.start for step, foreseen in outlook(cook, now).steps.items()}


def test_moves_and_a_later_meal():
    kitchen = Kitchen(small_menu(beans()), eat_in=120)
    plan = kitchen.cook.plan
    moved = plan.placed[0].model_copy(update={"start": plan.placed[0].start + 360, "end": plan.placed[0].end + 360})
    later = plan.model_copy(update={"placed": (moved,), "late_s": 480})
    expected = starts(kitchen.cook, kitchen.now)
    assert difference_words(kitchen.cook, expected, later) == "boil the beans 6 min later; eat at 16:08"


def test_less_than_a_minute_is_not_told():
    kitchen = Kitchen(small_menu(beans()), eat_in=120)
    expected = {step: at + 59 * MS for step, at in starts(kitchen.cook, kitchen.now).items()}
    assert difference_words(kitchen.cook, expected, kitchen.cook.plan) == ""


def test_what_has_begun_is_never_moved():
    kitchen = Kitchen(small_menu(beans()), eat_in=120)
    kitchen.must(StartStep("Beans/Boil"))
    assert moves(kitchen.cook, {"Beans/Boil": OPENING}, kitchen.cook.plan) == ()


def test_the_furthest_move_first_and_the_rest_counted():
    dishes = [
        Dish(name=name, steps=(step(name, "Boil", minutes(10)),)) for name in ("Rice", "Peas", "Corn", "Beets", "Kale")
    ]
    kitchen = Kitchen(small_menu(*dishes), eat_in=120)
    planned = kitchen.cook.plan.placed[0].start * MS
    expected = {dish.steps[0].id: planned - (n + 1) * 2 * MIN for n, dish in enumerate(dishes)}
    said = difference_words(kitchen.cook, expected, kitchen.cook.plan)
    assert said == "boil the kale 10 min later; 4 more starts move"


def test_three_moves_are_told_each():
    dishes = [Dish(name=name, steps=(step(name, "Boil", minutes(10)),)) for name in ("Rice", "Peas", "Corn")]
    kitchen = Kitchen(small_menu(*dishes), eat_in=120)
    planned = kitchen.cook.plan.placed[0].start * MS
    expected = {dish.steps[0].id: planned - (n + 1) * 2 * MIN for n, dish in enumerate(dishes)}
    said = difference_words(kitchen.cook, expected, kitchen.cook.plan)
    assert said == "boil the corn 6 min later; boil the peas 4 min later; boil the rice 2 min later"


def test_another_place_and_another_heat_are_told():
    roast = step("Roots", "Roast", minutes(30), uses=(Use(place="oven"),), heat_c=180.0)
    kitchen = Kitchen(small_menu(Dish(name="Roots", steps=(roast,))), eat_in=120)
    plan = kitchen.cook.plan
    hotter = plan.settings[0].model_copy(update={"heat_c": 200.0, "id": "oven at 200 C for Roots/Roast"})
    elsewhere = plan.placed[0].model_copy(update={"places": ("hob",)})
    said = difference_words(
        kitchen.cook,
        starts(kitchen.cook, kitchen.now),
        plan.model_copy(update={"settings": (hotter,), "placed": (elsewhere,)}),
    )
    assert said == "roast the roots: now hob; oven to 200 °C at 15:10"
