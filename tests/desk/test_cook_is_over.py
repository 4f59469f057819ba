"""When all is cooked and eaten the board asks whether the cook is over; a closed cook is not taken up again."""

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import minutes, small_menu, step
from timerboard.core.commands import CloseCook, EndStep, HearAlarm, StartStep, Undo
from timerboard.core.menu import Dish
from timerboard.core.view_values import Notice


def eaten() -> DeskKitchen:
    """Tea, brewed a quarter of an hour before it is drunk, and drunk."""
    kitchen = DeskKitchen(small_menu(Dish(name="Tea", steps=(step("Tea", "Brew", minutes(4)),))), eat_in=20)
    kitchen.must(StartStep("Tea/Brew"), EndStep("Tea/Brew"))
    assert asked(kitchen) is None
    kitchen.run(21)
    return kitchen


def asked(kitchen: DeskKitchen) -> Notice | None:
    return next((n for n in kitchen.desk.view().notices if n.key == "over"), None)


def served(kitchen: DeskKitchen) -> None:
    for item in kitchen.desk.view().hands:
        kitchen.must(item.answer)


def test_it_is_not_asked_while_somebody_is_called():
    kitchen = eaten()
    assert kitchen.desk.view().hands
    assert asked(kitchen) is None


def test_once_all_is_served_it_is_asked_and_closes_the_cook():
    kitchen = eaten()
    served(kitchen)
    kitchen.must(asked(kitchen).take)
    assert kitchen.desk.cook.closed is not None
    assert asked(kitchen) is None
    assert kitchen.kinds()[-1] == "CookClosed"


def test_left_it_is_not_asked_again_until_something_was_done_again():
    kitchen = eaten()
    served(kitchen)
    kitchen.must(HearAlarm("over"))
    kitchen.run(30)
    assert asked(kitchen) is None


def test_a_closed_cook_is_opened_again_by_undo():
    kitchen = eaten()
    served(kitchen)
    kitchen.must(asked(kitchen).take, Undo())
    assert kitchen.desk.cook.closed is None
    assert asked(kitchen) is not None


def test_a_meal_that_is_ended_early_says_so_and_asks_for_nothing_more():
    kitchen = DeskKitchen(small_menu(Dish(name="Tea", steps=(step("Tea", "Brew", minutes(4)),))), eat_in=20)
    kitchen.must(CloseCook())
    shown = kitchen.desk.view()
    assert shown.hands == ()
    assert shown.foot.last.endswith("meal ended")
    assert shown.notices[0].text.startswith("This meal was ended at ")
    kitchen.must(Undo())
    assert not [n for n in kitchen.desk.view().notices if n.key == "ended"]
    assert kitchen.desk.view().foot.last.endswith("took back: meal ended")
