"""What is worth a look, and what is not."""

import pytest

from timerboard.core.faults import Positions
from timerboard.core.menu_build import build_menu
from timerboard.core.menu_warnings import warnings_of

NOWHERE = Positions({(): (1, 1)}, {})
KITCHEN = {"places": {"oven": {"room": 2, "heat": "30-250 C"}, "hob": {"room": 4}, "fridge": {}}}


def dish(name="Stew", *steps, **more):
    return {"dish": name, "steps": list(steps) or [{"do": "Chop", "work": "5 min"}], **more}


def told(*dishes, **more):
    written = {"menu": "Supper", "serves": 4, "kitchen": KITCHEN, "dishes": list(dishes), **more}
    found = warnings_of(build_menu(written, NOWHERE), NOWHERE)
    assert all(fault.warning for fault in found)
    return [f"{fault.wrong}; {fault.right}" for fault in found]


def step(**keys):
    return dish("Stew", {"do": "x", **keys})


def test_a_plain_menu_has_no_warning():
    assert told(dish()) == []


def test_made_and_not_needed_needed_and_not_made():
    assert told(step(work="5 min", makes=["fat"])) == ["nothing needs 'fat'; leave it out, or name it under needs"]
    assert told(step(work="5 min", needs=["fat"])) == ["no step makes 'fat'; it is taken as bought"]


def test_a_dish_that_is_not_on_a_given_table():
    (said,) = told(dish("Stew"), dish("Stock"), table=["stew"])
    assert said.startswith("'Stock' is not on the table")


@pytest.mark.parametrize(("length", "wide"), [("10-30 min", False), ("10-31 min", True)])
def test_a_range_over_three_times_its_low_end(length, wide):
    assert [s.split(";")[0] for s in told(step(takes=length))] == [f"{length} is a wide range"] * wide
    assert len(told(step(batches={"count": 2, "each": length}))) == wide


# FDA Food Code 2022, 3-501.19(B): 4 h in place of temperature; 3-501.16(A): hot at 57 C (135 F), cold at 5 C (41 F)
def test_a_hold_past_four_hours_is_questioned_with_the_numbers_and_their_source():
    (said,) = told(dish(hold="4 h 1 min", keep="lidded, on the lowest heat"))
    assert "'Stew' may stand ready for 4 h 1 min; keep it at 57 °C or above, or 5 °C or below" in said
    assert "Food Code 3-501.16" in said
    assert "within 4 h (Food Code 3-501.19)" in said
    assert told(dish(hold="4 h", keep="lidded, on the lowest heat")) == []


def test_the_numbers_are_in_the_menus_unit():
    (said,) = told(dish(hold="5 h", keep="warm"), units="F")
    assert "135 °F or above, or 41 °F or below" in said


def test_a_hold_past_two_hours_wants_to_know_how_it_is_kept():
    (said,) = told(dish(hold="2 h 1 min"))
    assert "2 h at most (USDA FSIS)" in said
    assert told(dish(hold="2 h")) == []


def test_what_is_kept_cold_may_stand():
    assert told(dish(hold="1 day", keep="in the fridge")) == []


def test_a_long_time_in_a_lukewarm_oven():
    (said,) = told(step(takes="5 h", on="oven", heat="45 C"))
    assert said.startswith("5 h at 45 °C is long in the danger zone")
    assert told(step(takes="5 h", on="oven", heat="110 C")) == []


def test_hot_oil_or_a_heated_pan_with_nobody_at_it():
    (oil,) = told(step(takes="5 min", on="hob", hazard="hot oil"))
    assert oil.startswith("hot oil: nobody is at 'x' for all of its time")
    (pan,) = told(step(takes="5 min", on="hob", heat="175 C"))
    assert pan.startswith("a heated pan: nobody is at 'x'")
    assert told(step(takes="5 min", on="hob", heat="175 C", work="all", hazard="hot oil")) == []
    assert (
        told(step(takes="5 min", on="hob", heat="175 C", cues=[{"do": "Look", "at": "halfway", "work": "30 s"}])) == []
    )


def test_a_hot_place_without_a_temperature():
    assert told(step(takes="5 min", on="oven"))[0].startswith("no heat is written for oven")


def test_a_cue_that_never_calls():
    (said,) = told(step(takes="30 min", cues=[{"do": "Stir", "every": "28 min"}]))
    assert said.startswith("'Stir' never calls: 28 min is in the last tenth of the step")
    assert told(step(takes="30 min", cues=[{"do": "Stir", "every": "27 min"}])) == []


def test_more_hands_than_an_hour_has():
    # three dishes that go straight to table with 25 min of hands each: 75 min before one moment, for one cook
    dishes = [dish(name, {"do": "Fry", "work": "25 min"}, hold="0 min") for name in "ABC"]
    (said,) = told(*dishes)
    assert said.startswith("1 h 15 min of hands are asked for in the hour before eating; there are 1 h to give")
    assert told(*dishes[:2]) == []
    assert told(*dishes, kitchen={"hands": [{"from": "start", "pairs": 1}, {"from": "-30 min", "pairs": 2}]}) == []


def test_a_hold_that_reaches_out_of_the_hour_asks_for_nothing_in_it():
    assert told(*(dish(name, {"do": "Fry", "work": "25 min"}, hold="1 h") for name in "ABC")) == []
