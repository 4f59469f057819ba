"""A dish from one line: lengths that no step has are refused as in a menu file."""

import pytest

from tests.kitchen import small_menu
from timerboard.core.faults import Unreadable
from timerboard.core.late_dish import late_dish


@pytest.mark.parametrize(
    "part", ["8 days", "12 min, hold 9999999999 h", "12 min, rest 1-8 days", "99999999999999999 h"]
)
def test_nothing_takes_longer_than_seven_days(part):
    with pytest.raises(Unreadable) as told:
        late_dish(f"rolls, {part}", small_menu())
    assert "is too long" in told.value.wrong
    assert told.value.right == "write at most 7 days"


def test_seven_days_are_possible():
    dish = late_dish("brine, 7 days, hold 7 days", small_menu())
    assert (dish.steps[0].span.high, dish.hold_s) == (604_800, 604_800)


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ("", "a dish needs a name"),
        ("rolls", "how long do the rolls take"),
        ("Pork, 5 min", "there is a dish called Pork already"),
        ("a/b, 5 min", "cannot be told from a step"),
        ("rolls, 5 min, 6 min", "there are two of the time"),
        ("rolls, 5 min, oven 900 C", "no kitchen temperature"),
        ("rolls, 5 min, oven 300 C", "the oven goes from 60 °C to 250 °C"),
        ("rolls, 5 min, oven x3", "has room for 2"),
    ],
)
def test_what_cannot_be_read_is_said(line, wrong):
    with pytest.raises(Unreadable) as told:
        late_dish(line, small_menu())
    assert wrong in told.value.wrong
    assert told.value.right
