"""Boiling points against IAPWS-IF97 through iapws and CoolProp, and against published advice."""

import iapws
import pytest
from CoolProp import CoolProp

from timerboard.core.altitude import boiling_at_c, boiling_c, pressure_pa


# IAPWS R7-97, table 36 (memory; iapws agrees)
@pytest.mark.parametrize(("mpa", "kelvin"), [(0.1, 372.755919), (1.0, 453.035632), (10.0, 584.149488)])
def test_the_release_s_own_check_values(mpa, kelvin):
    assert boiling_c(mpa * 1e6) + 273.15 == pytest.approx(kelvin, abs=5e-7)


@pytest.mark.parametrize("pascal", [2000.0, 20_000.0, 59_546.0, 84_311.0, 101_325.0, 200_000.0])
def test_both_libraries_agree(pascal):
    assert boiling_c(pascal) == pytest.approx(iapws.iapws97._TSat_P(pascal / 1e6) - 273.15, abs=1e-6)
    assert boiling_c(pascal) == pytest.approx(CoolProp.PropsSI("T", "P", pascal, "Q", 0, "Water") - 273.15, abs=0.02)


# US Standard Atmosphere 1976 (computed with fluids 1.3.1): feet, kPa, and IF97's boiling point in °C
@pytest.mark.parametrize(
    ("feet", "kpa", "celsius"),
    [
        (0, 101.325, 99.974),
        (2000, 94.214, 97.948),
        (5000, 84.311, 94.904),
        (7500, 76.720, 92.363),
        (10_000, 69.695, 89.816),
    ],
)
def test_heights(feet, kpa, celsius):
    assert pressure_pa(feet * 0.3048) / 1000 == pytest.approx(kpa, abs=0.003)
    assert boiling_at_c(feet * 0.3048) == pytest.approx(celsius, abs=0.002)


# foodsafety.gov, high altitude (read): 212 °F at sea level, 198 °F at 7,500 ft; Colorado State: 203 °F at 5,000 ft
@pytest.mark.parametrize(("feet", "fahrenheit"), [(0, 212), (5000, 203), (7500, 198)])
def test_published_advice_in_whole_degrees(feet, fahrenheit):
    assert boiling_at_c(feet * 0.3048) * 1.8 + 32 == pytest.approx(fahrenheit, abs=0.34)
