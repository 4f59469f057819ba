"""The lethality curve and the rules against published tables. Sources beside each."""

import math

import pytest

from timerboard.core.food_kind import FoodKind
from timerboard.core.lethality import log_reduction, time_at
from timerboard.core.safety_rules import COOKING, GROUND_ROWS, LIMITS, REHEATED, ROAST_ROWS, Whose, celsius

# USDA FSIS Appendix A (Jan 1999, updated Jun 1999), cooked beef, 6.5 logs: °F, seconds. All 28 rows from 130 to 157 °F.
APPENDIX_A = [
    (130, 6720), (131, 5340), (132, 4260), (133, 3360), (134, 2700), (135, 2160), (136, 1680), (137, 1380),
    (138, 1080), (139, 900), (140, 720), (141, 540), (142, 480), (143, 360), (144, 300), (145, 240), (146, 169),
    (147, 134), (148, 107), (149, 85), (150, 67), (151, 54), (152, 43), (153, 34), (154, 27), (155, 22), (156, 17),
    (157, 14),
]  # fmt: skip


def rounded_up(fahrenheit: int, seconds: float) -> int:
    """To the minute below 146 °F, to the second from there: as the table is printed."""
    return math.ceil(seconds / 60) * 60 if fahrenheit < 146 else math.ceil(seconds)


@pytest.mark.parametrize(("fahrenheit", "seconds"), APPENDIX_A)
def test_the_beef_table_by_the_integral(fahrenheit, seconds):
    needed = time_at(fahrenheit, 6.5)
    assert rounded_up(fahrenheit, needed) == seconds
    held = [(0.0, celsius(fahrenheit)), (needed, celsius(fahrenheit))]
    assert log_reduction(held) == pytest.approx(6.5, rel=1e-9)


# FDA Food Code 3-401.11(B)(2), every row (three state copies agree); (A)(2) by the same curve at 5 logs
FOOD_CODE_ROASTS = {
    130: 112, 131: 89, 133: 56, 135: 36, 136: 28, 138: 18, 140: 12, 142: 8, 144: 5, 145: 4,
}  # minutes  # fmt: skip
FOOD_CODE_SECONDS = {147: 134, 149: 85, 151: 54, 153: 34, 155: 22, 157: 14, 158: 0}


def test_every_row_of_the_food_codes_roasts():
    assert dict(ROAST_ROWS) == {f: 60 * m for f, m in FOOD_CODE_ROASTS.items()} | FOOD_CODE_SECONDS
    for fahrenheit, seconds in ROAST_ROWS:
        if seconds:
            assert rounded_up(fahrenheit, time_at(fahrenheit, 6.5)) == seconds


def test_instant_is_a_convention_and_the_curve_still_asks_for_seconds():
    assert dict(ROAST_ROWS)[158] == 0
    assert time_at(158, 6.5) == pytest.approx(10.6, abs=0.05)
    assert time_at(158, 5.0) == pytest.approx(8.2, abs=0.1)


def test_minced_meat_is_the_same_curve_at_five_logs():
    """3-401.11(A)(2): 145 °F 3 min, 150 °F 1 min, 155 °F 17 s (South Carolina Reg. 61-25; 17 s since 2017)."""
    assert GROUND_ROWS == ((145, 180), (150, 60), (155, 17), (158, 0))
    assert [rounded_up(145, time_at(145, 5)), rounded_up(145, time_at(150, 5)), math.ceil(time_at(155, 5))] == [
        180,
        60,
        17,
    ]


# closed form of the integral over straight segments: points (s, °C), logs
@pytest.mark.parametrize(
    ("points", "logs"),
    [
        (((0, 60), (720, 60)), 6.998099),
        (((0, 50), (3600, 70)), 265.85196),
        (((0, 55), (1800, 63), (2700, 60)), 34.980006),
        (((0, celsius(130)), (6720, celsius(130))), 6.539079),
    ],
)
def test_ramps_and_holds(points, logs):
    assert log_reduction(points, 32.553846, 62.777778, 5.558333) == pytest.approx(logs, rel=1e-5)


# UK FSA equivalents to 70 °C for 2 min (D 70 °C 0.3333 min, z 7.5 °C): published s, never under the curve's
@pytest.mark.parametrize(("at_c", "seconds"), [(60, 2700), (65, 600), (70, 120), (75, 30), (80, 6)])
def test_the_uk_table_is_on_the_careful_side_of_its_own_curve(at_c, seconds):
    assert log_reduction(((0, at_c), (seconds, at_c)), 20.0, 70.0, 7.5) >= 6.0 - 1e-9


# USDA FSIS, Safe Minimum Internal Temperature Chart, 14 Apr 2025 (read on fsis.usda.gov): °F and rest in s
@pytest.mark.parametrize(
    ("kind", "fahrenheit", "rest_s"),
    [
        ("poultry", 165, 0),
        ("stuffed food", 165, 0),
        ("minced meat", 160, 0),
        ("eggs", 160, 0),
        ("meat in one piece", 145, 180),
        ("fish", 145, 0),
    ],
)
def test_the_chart(kind, fahrenheit, rest_s):
    rules = [r for r in COOKING if r.whose is Whose.FSIS and kind in r.kinds]
    assert [(r.fahrenheit, r.hold_s) for r in rules] == [(fahrenheit, rest_s)]


# FDA Food Code 3-401.11(A)(1) to (3), 3-403.11(A) (state adoptions): °F and seconds. UK FSA, equivalents to 70 °C for
# 2 min: 70 °C 2 min, 75 °C 30 s, 80 °C 6 s.
@pytest.mark.parametrize(
    ("whose", "kind", "rows"),
    [
        (Whose.FOOD_CODE, "poultry", [(165, 15)]),
        (Whose.FOOD_CODE, "stuffed food", [(165, 15)]),
        (Whose.FOOD_CODE, "game", [(165, 15)]),
        (Whose.FOOD_CODE, "eggs", [(155, 17)]),
        (Whose.FOOD_CODE, "fish", [(145, 15)]),
        (Whose.UK, "poultry", [(158, 120), (167, 30), (176, 6)]),
        (Whose.UK, "minced meat", [(158, 120), (167, 30), (176, 6)]),
    ],
)
def test_the_other_rows_of_the_codes(whose, kind, rows):
    assert [(r.fahrenheit, r.hold_s) for r in COOKING if r.whose is whose and kind in r.kinds] == rows


def test_what_was_cooled_is_heated_to_165_f_for_15_s_again():
    assert (REHEATED.fahrenheit, REHEATED.hold_s, set(REHEATED.kinds)) == (165, 15, set(FoodKind))


def test_poultry_has_no_row_under_165_f_in_the_american_rules():
    """The poultry time tables were not read in full: none of their rows may pass any food."""
    rules = [r for r in COOKING if "poultry" in r.kinds and r.whose is not Whose.UK]
    assert min(r.fahrenheit for r in rules) == 165


# FDA Food Code 3-501.14, 3-501.16, 3-501.19, 3-403.11, 3-501.13 (state texts); USDA FSIS 2 h / 1 h rule
@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("hot", 135), ("cold", 41), ("out", 2), ("out_hot_room", 1), ("hot_room", 90), ("time_control", 4),
        ("cool_first", 2), ("cool_all", 6), ("cool_middle", 70), ("reheat", 165), ("reheat_hold", 15),
        ("reheat_within", 2),
        ("thaw_cold", 41), ("thaw_water", 70), ("thaw_above", 4), ("thaw_change", 30),
        ("come_up", 6), ("hot_home", 140),
    ],
)  # fmt: skip
def test_limits(name, value):
    assert LIMITS[name].value == value


# The same texts, as a cook reads them: 135 °F 57.2 °C, 41 °F 5 °C, 70 °F 21.1 °C, 90 °F 32.2 °C, 165 °F 73.9 °C
@pytest.mark.parametrize(
    ("name", "celsius_"), [("hot", 57.2), ("cold", 5.0), ("cool_middle", 21.1), ("hot_room", 32.2), ("reheat", 73.9)]
)
def test_limits_of_temperature_in_celsius(name, celsius_):
    assert LIMITS[name].celsius == pytest.approx(celsius_, abs=0.05)


@pytest.mark.parametrize(
    ("name", "seconds"), [("out", 7200), ("out_hot_room", 3600), ("thaw_change", 1800), ("reheat_hold", 15)]
)
def test_limits_of_time_in_seconds(name, seconds):
    assert LIMITS[name].seconds == seconds


def test_which_limits_are_least_and_which_are_most():
    """Holding hot, heating again and a hot room are at or above; times and cold are at most."""
    assert {name for name, limit in LIMITS.items() if not limit.most} == {
        "hot", "hot_home", "hot_room", "reheat", "reheat_hold",
    }  # fmt: skip
