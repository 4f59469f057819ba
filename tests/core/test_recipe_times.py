"""Lengths of time as recipes write them. Seconds on the right are plain arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from timerboard.core.recipe_times import Role, find_times

MIN, HOUR = 60, 3600


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("bake for 25 to 30 minutes", 25 * MIN, 30 * MIN),
        ("bake for about an hour and a half", 90 * MIN, 90 * MIN),
        ("1½ hours", 90 * MIN, 90 * MIN),
        ("1 1/2 hrs", 90 * MIN, 90 * MIN),
        ("one and a half hours", 90 * MIN, 90 * MIN),
        ("1.5 hours", 90 * MIN, 90 * MIN),
        ("1,5 hours", 90 * MIN, 90 * MIN),
        ("20–25 mins", 20 * MIN, 25 * MIN),
        ("20 - 25 min.", 20 * MIN, 25 * MIN),
        ("a further 10 min", 10 * MIN, 10 * MIN),
        ("for another 5 minutes", 5 * MIN, 5 * MIN),
        ("20 more minutes", 20 * MIN, 20 * MIN),
        ("half an hour", 30 * MIN, 30 * MIN),
        ("three quarters of an hour", 45 * MIN, 45 * MIN),
        ("an hour and a quarter", 75 * MIN, 75 * MIN),
        ("1 hour 20 minutes", 80 * MIN, 80 * MIN),
        ("1 hr and 20 mins", 80 * MIN, 80 * MIN),
        ("1h 20m", 80 * MIN, 80 * MIN),
        ("45 min to 1 hour", 45 * MIN, HOUR),
        ("1 hr 45 min - 2 hrs", 105 * MIN, 2 * HOUR),
        ("between 1 and 1½ hours", HOUR, 90 * MIN),
        ("between 40 minutes and an hour", 40 * MIN, HOUR),
        ("three to four hours", 3 * HOUR, 4 * HOUR),
        ("5 or 6 minutes", 5 * MIN, 6 * MIN),
        ("a minute or two", MIN, 2 * MIN),
        ("an hour or so", HOUR, HOUR),
        ("a couple of minutes", 2 * MIN, 2 * MIN),
        ("90 seconds", 90, 90),
        ("30s", 30, 30),
        ("a 12-hour soak", 12 * HOUR, 12 * HOUR),
        ("forty-five minutes", 45 * MIN, 45 * MIN),
        ("5-7 days", 5 * 86_400, 7 * 86_400),
        ("2-3 minutes on each side", 4 * MIN, 6 * MIN),
        ("90 seconds a side", 180, 180),
    ],
)  # fmt: skip
def test_a_length_is_read_as_a_cook_means_it(text, low, high):
    (found,) = find_times(text)
    assert (found.low, found.high, found.guessed) == (low, high, False)


@pytest.mark.parametrize(("text", "low", "high"), [("chill overnight", 8 * HOUR, 16 * HOUR), ("a few mins", 180, 300)])
def test_loose_words_are_lengths_that_are_marked_as_guessed(text, low, high):
    (found,) = find_times(text)
    assert (found.low, found.high, found.guessed) == (low, high, True)


@pytest.mark.parametrize(
    "text",
    ["a second bowl", "in a second, larger pan", "two day old bread", "3-day-old rice", "200 g butter", "gas mark 4",
     "180C", "add 2", "one egg", "12 rolls", "0 minutes", "9 weeks", "20 to", "minutes", ""],
)  # fmt: skip
def test_what_is_no_length_is_not_taken_for_one(text):
    assert find_times(text) == ()


@pytest.mark.parametrize(
    ("text", "role"),
    [
        ("baste every 20 minutes", Role.EVERY),
        ("skim at 20 minute intervals", Role.EVERY),
        ("rest for at least 30 minutes", Role.LEAST),
        ("keep in the fridge for up to 2 days", Role.KEEPS),
        ("leave for up to 2 hours", Role.MOST),
        ("after 20 minutes, turn them", Role.AFTER),
        ("add them for the last 10 minutes", Role.LAST),
        ("an hour before cooking", Role.AHEAD),
        ("made up to 2 days ahead", Role.AHEAD),
        ("rest for 20 minutes before carving", Role.LENGTH),
        ("20 minutes per 500 g", Role.PER_WEIGHT),
        ("15 minutes for every pound", Role.PER_WEIGHT),
    ],
)
def test_the_words_around_a_length_say_what_it_is_the_length_of(text, role):
    (found,) = find_times(text)
    assert found.role is role


@given(st.text(alphabet="0123456789½¼ -–to/.,minhouraday ", max_size=40))
def test_any_text_is_searched_without_trouble_and_lengths_lie_in_it(text):
    ends = 0
    for found in find_times(text):
        assert 0 < found.low <= found.high
        assert 0 <= found.start < found.end <= len(text)
        ends = max(ends, found.end)
