"""What a verdict leans on and what not: the lowest row, the last reading, the right readings; and its words."""

import pytest

from tests.kitchen import MIN
from timerboard.core.cook import Reading
from timerboard.core.food_kind import FoodKind
from timerboard.core.safety import Verdict, least, needs_words, verdicts
from timerboard.core.safety_rules import COOKING, REHEATED, Whose, celsius

CODE = frozenset({Whose.FOOD_CODE})
CHART = frozenset({Whose.FSIS})


def judged(kind: FoodKind, whose: frozenset[Whose], *pairs: tuple[float, float], now: float | None = None) -> Verdict:
    """The one verdict of one code on readings of (minutes, degrees)."""
    taken = [Reading(round(at * MIN), degrees) for at, degrees in pairs]
    at = round((now if now is not None else max((m for m, _ in pairs), default=0)) * MIN)
    (found,) = verdicts(kind, taken, at, whose=whose)
    return found


@pytest.mark.parametrize(("fahrenheit", "minutes", "met"), [(135, 60, False), (136, 28.2, True), (136, 27.8, False)])
def test_the_lowest_row_that_is_leant_on_is_136_f_for_28_minutes(fahrenheit, minutes, met):
    """Food Code 3-401.11(B)(2): 136 °F 28 min. The row of 135 °F (36 min) is under those that a study confirmed."""
    at = celsius(fahrenheit)
    assert judged(FoodKind.WHOLE_MEAT, CODE, (0, at), (minutes, at)).met is met


def test_a_table_counts_no_time_after_the_last_reading_and_a_rest_does():
    once = ((0, 64.0),)
    assert not judged(FoodKind.WHOLE_MEAT, CODE, *once, now=30).met
    assert judged(FoodKind.WHOLE_MEAT, CHART, *once, now=30).met


def test_a_hold_that_is_no_rest_is_not_counted_on_after_the_last_reading():
    assert not judged(FoodKind.POULTRY, CODE, (0, 74.0), now=5).met
    assert judged(FoodKind.POULTRY, CODE, (0, 74.0), (0.25, 74.0), now=5).met


def test_oil_that_is_hot_says_nothing_of_the_core():
    oil = [Reading(0, 180.0, "oil"), Reading(5 * MIN, 180.0, "oil")]
    found = verdicts(FoodKind.POULTRY, oil, 5 * MIN)
    assert not any(verdict.met for verdict in found)
    assert all("No reading is there yet" in verdict.said for verdict in found)


def test_minced_meat_is_reckoned_to_five_logs_and_a_roast_to_six_and_a_half():
    assert judged(FoodKind.GROUND, CODE, (0, 70.0)).logs == (0.0, 5.0)
    assert judged(FoodKind.WHOLE_MEAT, CODE, (0, 70.0)).logs == (0.0, 6.5)


def test_a_row_called_instant_still_asks_for_the_seconds_of_the_curve():
    """At 70 °C (158 °F, 'instant') 6.5 logs take 10.6 s on the curve of FSIS Appendix A; 5 s are 3.1 of them."""
    short = judged(FoodKind.WHOLE_MEAT, CODE, (0, 70.0), (5 / 60, 70.0))
    assert not short.met
    assert "The table is met; reckoned along the readings it is 3.1 of 6.5 logs" in short.said
    assert judged(FoodKind.WHOLE_MEAT, CODE, (0, 70.0), (11 / 60, 70.0)).met


def test_a_hold_that_was_kept_counts_though_it_cooled_and_came_back_since():
    """15 s at 74 °C, then 70 °C, then one reading at 74 °C; a rest of 3 min at 63 °C likewise."""
    assert judged(FoodKind.POULTRY, CODE, (0, 74.0), (0.25, 74.0), (1, 70.0), (2, 74.0)).met
    assert judged(FoodKind.WHOLE_MEAT, CHART, (0, 63.0), (3, 63.0), (4, 61.0), (5, 63.0), now=5).met


def test_a_rule_of_a_code_that_nobody_chose_does_not_count():
    """The UK's 70 °C for 2 min would pass poultry under 165 °F; for meat in one piece it gives nothing."""
    assert {v.rule.whose for v in verdicts(FoodKind.POULTRY, [], 0, whose=frozenset())} == CHART | CODE
    assert least(FoodKind.WHOLE_MEAT, frozenset({Whose.UK})).fahrenheit == 145


def test_minutes_after_the_last_reading_are_not_told_as_held_by_a_table():
    assert "The readings show 1 min of it" in judged(FoodKind.WHOLE_MEAT, CODE, (0, 64.0), (1, 64.0), now=30).said


@pytest.mark.parametrize(
    ("pairs", "words"),
    [
        ((), "No reading is there yet"),
        (((0, 60.0),), "No reading is at it yet"),
        (((0, 74.0),), "One reading is at it; for how long was not read"),
        (((0, 74.0), (0.1, 74.0)), "The readings show 6 s of it"),
        (((0, 74.0), (0.25, 74.0)), "The readings meet it"),
    ],
)
def test_what_is_lacking_is_said(pairs, words):
    assert words in judged(FoodKind.POULTRY, CODE, *pairs).said


def test_the_hottest_row_that_was_reached_is_told_else_the_coolest():
    assert judged(FoodKind.WHOLE_MEAT, CODE, (0, 40.0)).rule.fahrenheit == 136
    assert judged(FoodKind.WHOLE_MEAT, CODE, (0, 40.0), (1, 62.0)).rule.fahrenheit == 142
    assert judged(FoodKind.WHOLE_MEAT, CODE, (0, 62.0), (1, 40.0)).rule.fahrenheit == 142


@pytest.mark.parametrize(
    ("kind", "whose", "fahrenheit", "hold_s"),
    [
        (FoodKind.WHOLE_MEAT, CODE, 145, 240),  # the coolest row of no more than four minutes
        (FoodKind.WHOLE_MEAT, CHART | CODE, 145, 180),  # a chart's figure goes before a table
        (FoodKind.GROUND, CODE, 145, 180),
        (FoodKind.GROUND, CHART | CODE, 160, 0),
        (FoodKind.FISH, CHART | CODE, 145, 0),
        (FoodKind.EGGS, CHART | CODE, 160, 0),
        (FoodKind.POULTRY, frozenset({Whose.UK}), 158, 120),
    ],
)
def test_what_a_pull_is_measured_against(kind, whose, fahrenheit, hold_s):
    rule = least(kind, whose)
    assert rule is not None
    assert (rule.fahrenheit, rule.hold_s) == (fahrenheit, hold_s)


def test_a_rule_in_words():
    chart = {
        kind: next(r for r in COOKING if r.whose is Whose.FSIS and kind in r.kinds)
        for kind in FoodKind
        if kind is not FoodKind.PLANT
    }
    assert needs_words(chart[FoodKind.POULTRY], "C") == "73.9 °C"
    assert needs_words(chart[FoodKind.WHOLE_MEAT], "C") == "62.8 °C and a rest of 3 min"
    assert needs_words(REHEATED, "F") == "165 °F for 15 s"
    row = least(FoodKind.WHOLE_MEAT, CODE)  # a row is read for its whole time; only the chart speaks of a rest
    assert needs_words(row, "C") == "62.8 °C for 4 min"
