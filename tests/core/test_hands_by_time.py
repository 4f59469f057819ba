"""Hands that come and go by time: they move with the meal, and who has come stays."""

from tests.fakes import OPENING
from tests.kitchen import MIN, Kitchen, pork, small_menu
from timerboard.core.commands import MoveEating, StartStep, Undo
from timerboard.core.hands_by_time import hands_moved, hands_of_cook
from timerboard.core.menu import HandsFrom
from timerboard.core.question import question_of_cook

HELPER = (HandsFrom(from_s=None, pairs=1), HandsFrom(from_s=-40 * 60, pairs=2), HandsFrom(from_s=-10 * 60, pairs=1))


def helped() -> Kitchen:
    """Eaten after 240 min; a helper from minute 200 to minute 230."""
    return Kitchen(small_menu(pork(), hands=HELPER), eat_in=240)


def changes(kitchen: Kitchen) -> list[tuple[float, int]]:
    """(minutes after the opening, pairs) of every change but the first."""
    return [((change.at * 1000 - OPENING) / MIN, change.pairs) for change in hands_of_cook(kitchen.cook)[1:]]


def test_what_is_to_come_is_counted_on_as_long_before_the_new_meal():
    kitchen = helped()
    kitchen.wait(60)
    kitchen.must(MoveEating(kitchen.cook.eat_at + 30 * MIN))
    assert changes(kitchen) == [(230, 2), (260, 1)]
    kitchen.must(MoveEating(kitchen.cook.eat_at - 60 * MIN))
    assert changes(kitchen) == [(170, 2), (200, 1)]


def test_a_helper_who_has_come_stays_when_the_meal_moves_later():
    kitchen = helped()
    kitchen.wait(205)
    kitchen.must(MoveEating(kitchen.cook.eat_at + 30 * MIN))
    assert changes(kitchen) == [(200, 2), (260, 1)]
    assert question_of_cook(kitchen.cook, kitchen.now).hands == hands_of_cook(kitchen.cook)


def test_nobody_was_there_before_it_was_said():
    """Two hours earlier: the helper would have come 15 min ago. The soonest is now."""
    kitchen = helped()
    kitchen.wait(95)
    kitchen.must(MoveEating(kitchen.cook.eat_at - 120 * MIN))
    assert changes(kitchen) == [(95, 2), (110, 1)]


def test_a_move_that_was_taken_back_moves_nobody():
    kitchen = helped()
    kitchen.must(MoveEating(kitchen.cook.eat_at + 30 * MIN))
    kitchen.must(Undo())
    assert changes(kitchen) == [(200, 2), (230, 1)]


def test_what_a_move_does_to_hands_can_be_told():
    kitchen = helped()
    kitchen.wait(205)
    before = kitchen.cook
    kitchen.must(StartStep("Pork/Salt"))
    assert hands_moved(before, kitchen.cook, kitchen.now) == ()
    kitchen.must(MoveEating(kitchen.cook.eat_at + 30 * MIN))
    assert hands_moved(before, kitchen.cook, kitchen.now) == ((1, OPENING + 260 * MIN),)
