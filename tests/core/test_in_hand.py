"""Time in hand: how much earlier than it is eaten each dish is aimed at. 5 min and the quarter: common practice."""

from tests.kitchen import Kitchen, fritters, gravy, pork, small_menu
from timerboard.core.commands import StartStep
from timerboard.core.in_hand import with_time_in_hand
from timerboard.core.question import question, question_of_cook

EAT = 1_797_877_800


def aims(problem) -> dict[str, int]:
    """Seconds before it is eaten that each dish is to be ready."""
    return {goal.dish: EAT - goal.ready_by for goal in with_time_in_hand(problem).goals}


def test_a_dish_gives_at_most_the_quarter_of_its_hold_in_which_it_loses_nothing():
    brief = fritters().model_copy(update={"hold_s": 900})
    at_once = gravy().model_copy(update={"hold_s": 0})
    asked = question(small_menu(pork(), at_once, brief), EAT, "UTC")
    assert aims(asked) == {"Pork": 300, "Gravy": 0, "Fritters": 225}


def test_a_menu_says_how_much_it_wants():
    assert aims(question(small_menu(pork(), in_hand_s=600), EAT, "UTC")) == {"Pork": 600}
    none = question(small_menu(pork(), in_hand_s=0), EAT, "UTC")
    assert with_time_in_hand(none) is none


def test_what_only_goes_into_another_dish_gives_none():
    menu = small_menu(pork(), gravy(), table=("Gravy",))
    assert aims(question(menu, EAT, "UTC")) == {"Pork": 0, "Gravy": 300}


def test_as_soon_as_can_be_keeps_nothing_back():
    asked = question(small_menu(pork()), EAT, "UTC", soonest=True)
    assert with_time_in_hand(asked) is asked


def test_once_something_has_begun_it_is_there_to_be_used_up():
    kitchen = Kitchen(small_menu(pork()), eat_in=240)
    assert question_of_cook(kitchen.cook, kitchen.now).in_hand_s == 300
    kitchen.must(StartStep("Pork/Salt"))
    assert question_of_cook(kitchen.cook, kitchen.now).in_hand_s == 0
