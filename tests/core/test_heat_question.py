"""What a running cook knows of a joint."""

import pytest

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.commands import StartStep, TakeReading
from timerboard.core.heat_question import heat_question, shape_of, weight_kg
from timerboard.core.menu import Dish, Use

ROAST = step("Pork shoulder", "Roast", minutes(180, 220), uses=(Use(place="hob"),), heat_c=160.0, pull_at_c=80.0)
PORK = Dish(name="Pork shoulder", ingredients=("2 tbsp fennel seed", "2.4 kg pork shoulder, skin on"), steps=(ROAST,))


def test_a_running_step_is_asked_about_with_all_that_is_known():
    kitchen = Kitchen(small_menu(PORK), plan=False)
    assert heat_question(kitchen.cook, ROAST.id, kitchen.now) is None
    kitchen.must(StartStep(ROAST.id))
    kitchen.wait(60)
    kitchen.must(TakeReading(ROAST.id, 22.0), TakeReading(ROAST.id, 158.0, "oven"))
    found = heat_question(kitchen.cook, ROAST.id, kitchen.now)
    assert found is not None
    assert (found.pull_c, found.oven_c, found.weight_kg, found.shape) == (80.0, 160.0, 2.4, "sphere")
    assert [r.celsius for r in found.readings] == [22.0]
    assert found.now - found.started == 60 * 60_000


@pytest.mark.parametrize(
    ("line", "kg"),
    [
        ("2,4 kg pork shoulder", 2.4),
        ("5 lb pork shoulder", 2.268),
        ("800 g pork neck", 0.8),
        ("200 g butter", None),
        ("salt", None),
    ],
)
def test_weights(line, kg):
    found = weight_kg(Dish(name="Pork shoulder", ingredients=(line,), steps=(ROAST,)))
    assert found == (pytest.approx(kg, abs=0.001) if kg else None)


@pytest.mark.parametrize(("name", "shape"), [("Beef steaks", "slab"), ("Rolled loin", "cylinder"), ("Rib", "sphere")])
def test_shapes(name, shape):
    assert shape_of(Dish(name=name, steps=(ROAST,))) == shape
