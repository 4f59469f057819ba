"""The kitchen is written once: the next new meal begins in the one that was used last."""

import pytest

from timerboard.core.menu_written import at
from timerboard.shell.kitchen_store import USUAL, KitchenStore, new_meal
from timerboard.shell.menu_document import MenuDocument

DOCUMENT = MenuDocument()
SMOKER = """\
menu: Ribs
serves: 4
units: F
kitchen:
  hands:
    - {from: start, pairs: 1}
    - {from: -20 min, pairs: 2}
  closed: 23:00-07:00
  places:
    smoker: {room: 1, heat: 180-300 F, preheat: 45 min}
    "back: left": {}
dishes:
  - dish: Ribs
    steps:
      - {do: Smoke, on: smoker, heat: 225 F, takes: 4-5 h}
"""


def test_a_new_meal_begins_in_the_kitchen_used_last(tmp_path):
    kitchen = at(DOCUMENT.read(SMOKER).document, ("kitchen",))
    KitchenStore(tmp_path).keep(kitchen, "F")
    text = new_meal(*KitchenStore(tmp_path).last())
    assert at(DOCUMENT.read(text).document, ("kitchen",)) == kitchen
    with_dish = DOCUMENT.insert(text, ("dishes",), 0, {"dish": "Ribs", "steps": [{"do": "Rub", "work": "5 min"}]})
    old, new = DOCUMENT.read(SMOKER).menu, DOCUMENT.read(with_dish).menu
    assert (new.places, new.hands, new.closed, new.units) == (old.places, old.hands, old.closed, "F")


def test_the_first_meal_begins_in_a_usual_kitchen(tmp_path):
    assert KitchenStore(tmp_path).last() == (USUAL, "C")
    reading = DOCUMENT.read(new_meal(USUAL, "C"))
    assert [fault.wrong for fault in reading.faults] == ["the menu has no dishes"]


@pytest.mark.parametrize("spoilt", ["{", "[]", '{"kitchen": [], "units": "C"}', '{"kitchen": {}, "units": "K"}', ""])
def test_a_spoilt_store_is_as_good_as_none(tmp_path, spoilt):
    (tmp_path / "kitchen.json").write_text(spoilt)
    assert KitchenStore(tmp_path).last() == (USUAL, "C")
