"""The generated menus of the benches: the text and the values are one menu."""

import pytest

from tests.bench.menus import feast_value, menu_text, menu_value
from tests.planner.minute_kitchens import EAT
from timerboard.core.check_plan import broken_rules
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import read_menu


@pytest.mark.parametrize(("seed", "dishes", "hands"), [(0, 12, 1), (1, 12, 2), (7, 24, 1)])
def test_the_text_reads_as_the_values(seed, dishes, hands):
    assert read_menu(menu_text(seed, dishes, hands)).menu == menu_value(seed, dishes, hands)


def test_a_supper_has_sixty_steps_and_two_oven_temperatures():
    menu = menu_value(4)
    heats = {s.heat_c for s in menu.steps.values() if any(u.place == "oven" for u in s.uses)}
    assert (len(menu.dishes), len(menu.steps), heats) == (12, 60, {160.0, 220.0})


@pytest.mark.parametrize(("seed", "dishes"), [(0, 24), (1, 32), (2, 40)])
def test_a_feast_in_sittings_can_be_cooked_by_one_pair_of_hands(seed, dishes):
    asked = question(feast_value(seed, dishes, 1), EAT, "UTC")
    made = first_plan(asked)
    assert len({t.dish for t in asked.tasks}) == dishes
    assert made is not None
    assert broken_rules(asked, made) == ()
