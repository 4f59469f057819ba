"""What keeps food cold by its words, and what only sounds like it."""

import pytest

from tests.kitchen import minutes, small_menu, step
from timerboard.core.food_places import Kept, kept, kept_by_words
from timerboard.core.menu import Dish


@pytest.mark.parametrize("words", ["in its juices", "sliced, under foil", "in the rice cooker", "not chilled"])
def test_a_word_that_holds_another_keeps_nothing_cold(words):
    assert kept_by_words(words) is Kept.OUT


@pytest.mark.parametrize("words", ["on ice", "chilled", "in a cold room", "in the fridge"])
def test_words_of_the_cold_keep_cold(words):
    assert kept_by_words(words) is Kept.COLD


@pytest.mark.parametrize(
    ("do", "how"), [("Take the chill off", Kept.OUT), ("Take off the chill", Kept.OUT), ("Chill the dough", Kept.COLD)]
)
def test_a_chill_that_is_taken_off_is_not_cold(do, how):
    one = step("Pork", do, minutes(10))
    assert kept(small_menu(Dish(name="Pork", steps=(one,))), one) is how
