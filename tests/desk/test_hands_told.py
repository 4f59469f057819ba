"""A meal that is moved takes its helpers along: the board says from when whose hands are counted on."""

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import MIN, pork, small_menu
from timerboard.core.commands import HearAlarm, MoveEating, Undo
from timerboard.core.menu import HandsFrom

HELPER = (HandsFrom(from_s=None, pairs=1), HandsFrom(from_s=-40 * 60, pairs=2), HandsFrom(from_s=-10 * 60, pairs=1))
TOLD = "hands moved"


def helped(**more) -> DeskKitchen:
    """Opened at 14:00, eaten at 18:00; a helper from 17:20 to 17:50."""
    return DeskKitchen(small_menu(pork(), **more), eat_in=240)


def test_a_moved_meal_says_from_when_hands_are_counted_on_and_its_undo_says_it_again():
    kitchen = helped(hands=HELPER)
    kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 30 * MIN))
    assert kitchen.notice(TOLD) == "Hands move with the meal: 2 pairs from 17:50 and 1 pair from 18:20"
    kitchen.must(Undo())
    assert kitchen.notice(TOLD) == "Hands move with the meal: 2 pairs from 17:20 and 1 pair from 17:50"
    kitchen.must(HearAlarm(TOLD))
    assert not kitchen.notice(TOLD)


def test_who_has_come_is_not_told_of():
    kitchen = helped(hands=HELPER)
    kitchen.run(205)
    kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 30 * MIN))
    assert kitchen.notice(TOLD) == "Hands move with the meal: 1 pair from 18:20"


def test_the_same_hands_all_day_are_no_news():
    kitchen = helped()
    kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 30 * MIN))
    assert not kitchen.notice(TOLD)
