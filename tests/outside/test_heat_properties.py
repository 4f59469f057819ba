"""Choi and Okos against published checks and against CoolProp's food components. Sources beside each number."""

import pytest
from CoolProp import CoolProp

from timerboard.core.food_properties import Composition, properties

LAMB = Composition(water=0.7342, protein=0.2029, fat=0.0525, ash=0.0106)
MEAT = Composition(water=0.7283, protein=0.2078, fat=0.05, ash=0.0102)


def test_the_lamb_of_the_refrigeration_handbook():
    """ASHRAE Refrigeration, Thermal Properties of Foods, Example 2 (memory): cp 3.59 kJ/kg K between 10 and 0 °C."""
    cp = (properties(LAMB, 10.0).heat_capacity + properties(LAMB, 0.0).heat_capacity) / 2
    assert cp / 1000 == pytest.approx(3.59, abs=0.005)
    assert 150 * cp * 10 / 1000 == pytest.approx(5390, rel=0.002)  # kJ to cool 150 kg of it by 10 °C


# lean meat 72.83/20.78/5.00/1.02 %, computed with another program: (°C, rho, k, cp, alpha)
@pytest.mark.parametrize(
    ("celsius", "rho", "k", "cp", "alpha"),
    [
        (10, 1053.22, 0.497505, 3585.57, 1.3174e-7),
        (40, 1045.80, 0.535033, 3599.12, 1.42146e-7),
        (70, 1032.87, 0.562867, 3618.87, 1.50586e-7),
    ],
)
def test_lean_meat(celsius, rho, k, cp, alpha):
    got = properties(MEAT, celsius)
    assert (got.density, got.conductivity, got.heat_capacity) == pytest.approx((rho, k, cp), rel=2e-5)
    assert got.diffusivity == pytest.approx(alpha, rel=2e-5)


def test_water_is_near_the_steam_tables():
    """IAPWS-IF97 (computed with iapws 1.5.5): cp 4.1848, 4.1828, 4.2050 kJ/kg K at 20, 60, 90 °C; k 0.598 at 20 °C."""
    for celsius, cp in ((20, 4.1848), (60, 4.1828), (90, 4.2050)):
        assert properties(Composition(water=1), celsius).heat_capacity / 1000 == pytest.approx(cp, rel=0.0022)
    assert properties(Composition(water=1), 20).conductivity == pytest.approx(0.598, rel=0.01)


@pytest.mark.parametrize("celsius", [5.0, 60.0, 95.0])
@pytest.mark.parametrize(
    ("component", "name"),
    [("protein", "FoodProtein"), ("fat", "FoodFat"), ("carbohydrate", "FoodCarbohydrate"), ("ash", "FoodAsh")],
)
def test_dry_components_are_coolprops(component, name, celsius):
    got = properties(Composition(**{component: 1.0}), celsius)
    theirs = [CoolProp.PropsSI(key, "T", celsius + 273.15, "P", 101_325, f"INCOMP::{name}") for key in ("D", "C", "L")]
    assert (got.density, got.heat_capacity, got.conductivity) == pytest.approx(tuple(theirs), rel=2e-4)
