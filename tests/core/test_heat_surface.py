"""What a wet surface in hot air tends to."""

import numpy as np
import pytest

from timerboard.core.heat_modes import modes
from timerboard.core.heat_series import Shape
from timerboard.core.heat_surface import LEWIS, tends_to, vapour_pa


@pytest.mark.parametrize(("celsius", "pascal"), [(20.0, 2339), (60.0, 19_946), (100.0, 101_418)])
def test_vapour_pressure_is_that_of_steam_tables(celsius, pascal):
    """IF97, as iapws gives it; Magnus's formula is within half a per cent at kitchen warmth, three at boiling."""
    assert float(vapour_pa(np.array(celsius))) == pytest.approx(pascal, rel=0.03)


@pytest.mark.parametrize("air", [60.0, 110.0, 175.0, 250.0])
@pytest.mark.parametrize("wet", [0.005, 0.05, 0.3, 1.0])
def test_what_the_air_gives_is_what_evaporation_takes(air, wet):
    at = tends_to(air, np.array([wet]), np.array([3000.0]))
    taken = wet * LEWIS * (vapour_pa(at) - 3000.0)
    assert float(taken[0]) == pytest.approx(air - float(at[0]), abs=0.5)


def test_a_wet_thermometer_in_a_warm_room_reads_what_psychrometric_charts_say():
    """30 °C and 40 % relative humidity: 20 °C wet bulb (chart, from memory: 20.1)."""
    air_pa = 0.4 * vapour_pa(np.array([30.0]))
    assert float(tends_to(30.0, np.array([1.0]), air_pa)[0]) == pytest.approx(20.1, abs=0.7)


def test_drier_surfaces_tend_to_more():
    found = tends_to(175.0, np.array([1.0, 0.3, 0.1, 0.03, 0.005]), np.full(5, 3000.0))
    assert list(found) == sorted(found)
    assert 45 < found[0] < 60
    assert found[-1] < 175


def test_a_body_half_way_between_two_shapes_has_modes_between_theirs():
    biot, middle = np.array([5.0]), np.array([0.0])
    between = modes(Shape.CYLINDER, biot, middle, np.array([0.5]))[0][0, :-1]
    assert np.all(between > modes(Shape.CYLINDER, biot, middle)[0][0, :-1])
    assert np.all(between < modes(Shape.SPHERE, biot, middle)[0][0, :-1])


def test_the_weights_of_the_modes_sum_to_one():
    _, weights = modes(Shape.SLAB, np.array([0.3, 8.0, 59.0]), np.array([0.0, 0.3, 0.7]), np.array([-3.0, 0.2, 9.0]))
    assert weights.sum(axis=1) == pytest.approx([1, 1, 1])
