"""A dish taken out of another menu while cooking: found by its name, refused in words."""

from pathlib import Path

import pytest

from timerboard.core.faults import Unreadable
from timerboard.core.late_dish import adopted
from timerboard.shell.late_dish_file import dish_in
from timerboard.shell.menu_file import load_menu

SAMPLES = Path(__file__).parents[2] / "sample_menus"
SUPPER, FRITTERS = SAMPLES / "solstice-supper.yaml", SAMPLES / "fritter-night.yaml"


def test_a_dish_of_a_file_joins_another_menu():
    dish = adopted(dish_in(FRITTERS, "green  LEAVES"), load_menu(SUPPER).menu)
    assert dish.name == "Green leaves"
    assert [step.do for step in dish.steps] == ["Wash and spin", "Dress"]


@pytest.mark.parametrize(
    ("path", "name", "said"),
    [
        (FRITTERS, "green beens", "there is no dish 'green beens' in fritter-night.yaml; did you mean Green leaves?"),
        (SAMPLES / "none.yaml", "rolls", "none.yaml: there is no such file"),
    ],
)
def test_what_cannot_be_found_is_said(path, name, said):
    with pytest.raises(Unreadable) as refused:
        dish_in(path, name)
    assert str(refused.value).startswith(said)
