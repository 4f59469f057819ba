"""What height does to boiled steps, and to nothing else."""

import pytest

from tests.kitchen import fritters, minutes, pork, small_menu, step
from timerboard.core.altitude import at_height, boiling_at_c, boiling_c, is_boiled, longer, pressure_pa
from timerboard.core.menu import Batches, Cue, Dish, Use
from timerboard.core.values import Span

POTATOES = Dish(
    name="Potatoes",
    steps=(
        step("Potatoes", "Peel", minutes(10)),
        step(
            "Potatoes",
            "Boil",
            minutes(20, 25),
            after=["Peel"],
            uses=(Use(place="hob"),),
            cues=(Cue(do="Stir", at_s=600),),
        ),
    ),
)


def test_at_sea_level_the_menu_stays_as_it_is():
    menu = small_menu(POTATOES, pork())
    assert at_height(menu, boiling_at_c(0.0)) is menu


def test_only_boiled_steps_get_longer_and_by_the_stated_rule():
    menu = small_menu(POTATOES, pork(), fritters())
    high = at_height(menu, 95.0)
    times = longer(95.0)
    assert times == pytest.approx(1 + 0.07 * (99.974 - 95.0), abs=1e-4)
    changed = [s for s in menu.steps if high.steps[s] != menu.steps[s]]
    assert changed == ["Potatoes/Boil"]
    boil = high.steps["Potatoes/Boil"]
    assert (boil.span.low, boil.span.high) == (1620, 2010)  # 1618 s and 2022 s, as cooks write lengths: half minutes
    assert boil.cues[0].at_s == 810  # 809 s


@pytest.mark.parametrize(
    ("do", "boiled"),
    [("Simmer", True), ("Parboil", True), ("Blanch and drain", True), ("Roast", False), ("Boiler room", False)],
)
def test_which_steps_hang_on_boiling_water(do, boiled):
    assert is_boiled(step("X", do, minutes(5), uses=(Use(place="hob"),))) is boiled


def test_an_oven_or_a_thermometer_sets_a_step_free_of_it():
    assert not is_boiled(step("X", "Braise", minutes(5), uses=(Use(place="oven"),)))
    assert not is_boiled(step("X", "Poach", minutes(5), uses=(Use(place="hob"),), pull_at_c=60.0))


@pytest.mark.parametrize("bad", [-1000.0, 9000.0])
def test_heights_where_nobody_cooks_are_refused(bad):
    with pytest.raises(ValueError, match="height"):
        pressure_pa(bad)


def test_pressures_where_water_does_not_boil_are_refused():
    with pytest.raises(ValueError, match="boils"):
        boiling_c(100.0)


def test_loads_that_are_boiled_take_longer_each_and_their_pauses_do_not():
    loads = Batches(count=3, each=Span(low=240, likely=300, high=360), recover=Span(low=60, likely=90, high=120))
    span = Span(low=840, likely=1080, high=1320)
    boil = step("Dumplings", "Boil", span, uses=(Use(place="hob"),), batches=loads)
    longer_boil = at_height(small_menu(Dish(name="Dumplings", steps=(boil,))), 95.0).steps["Dumplings/Boil"]
    each, times = longer_boil.batches.each, longer(95.0)
    assert each.likely == pytest.approx(300 * times, abs=15)  # as cooks write lengths
    assert longer_boil.batches.recover == loads.recover
    assert longer_boil.span.low == 3 * each.low + 2 * 60
    assert longer_boil.span.likely == 3 * each.likely + 2 * 90
    assert longer_boil.span.high == 3 * each.high + 2 * 120
