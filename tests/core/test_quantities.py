"""Times and temperatures: what cooks write, and what is said when it cannot be read."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.faults import Unreadable
from timerboard.core.quantities import (
    celsius_words,
    countdown_words,
    duration_words,
    parse_celsius,
    parse_celsius_range,
    parse_degrees,
    parse_duration,
    parse_signed,
    parse_span,
    span_words,
)
from timerboard.core.values import Span


@pytest.mark.parametrize(
    ("written", "seconds"),
    [
        ("90 s", 90),
        ("15 min", 900),
        ("15min", 900),
        ("1 h 30 min", 5400),
        ("1.5 h", 5400),
        ("2 days", 172_800),
        ("1 day 2 h", 93_600),
        ("PT25M", 1500),
        ("0 min", 0),
        ("  3   hours ", 10_800),
        ("1.4 s", 1),  # whole seconds, rounded
    ],
)
def test_a_time_is_read_as_whole_seconds(written, seconds):
    assert parse_duration(written) == seconds


@pytest.mark.parametrize(
    ("written", "low", "likely", "high"),
    [
        ("25-30 min", 1500, 1700, 1800),  # two thirds of the way: 25 + 10/3 min
        ("25–30 min", 1500, 1700, 1800),  # an en dash
        ("3 h-3 h 40 min", 10_800, 12_400, 13_200),
        ("3-3.5 h", 10_800, 12_000, 12_600),
        ("10/12/20 min", 600, 720, 1200),
        ("50 min / 1 h / 2 h", 3000, 3600, 7200),
        ("PT20M-PT30M", 1200, 1600, 1800),
        ("45 s", 45, 45, 45),
    ],
)
def test_a_range_has_a_low_a_likely_and_a_high_end(written, low, likely, high):
    assert parse_span(written) == Span(low=low, likely=likely, high=high)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("25", "25 has no unit; write 25 min"),
        ("25 m", "'m' could be minutes or months; write 25 min"),
        ("25 mn", "'mn' is not a unit of time; write s, min, h or days"),
        ("1,5 h", "'1,5 h' has a comma; write 1.5 h"),
        ("30 min 1 h", "'30 min 1 h' has its units out of order; write the larger unit first: 1 h 30 min"),
        ("25-30 min", "'25-30 min' is a range; write one time here, as 25 min"),
        ("0.2 s", "'0.2 s' is less than a second; times are whole seconds: write 1 s"),
        ("P1M", "'P1M' has years or months, which have no fixed length; write days, as P2D"),
        ("soon", "'soon' is not a time; write it as 90 s, 25 min, 1 h 30 min, 2 days or PT25M"),
        ("", "nothing is written here; write a number and its unit, as 25 min or 180 C"),
    ],
)
def test_what_is_no_time_says_what_would_be(written, words):
    with pytest.raises(Unreadable) as told:
        parse_duration(written)
    assert str(told.value) == words


@pytest.mark.parametrize(
    ("written", "part"),
    [
        ("30-25 min", "goes from long to short"),
        ("5-6-7 min", "not a time or a range"),
        ("5/6 min", "not low/likely/high"),
        ("5 min-", "not a time or a range"),
        ("1-1 h 30 min", "a number without a unit"),
        ("-5 min", "not a time or a range"),
        ("9" * 100 + " min", "too long for a quantity"),
    ],
)
def test_what_is_no_range_is_refused_in_words(written, part):
    with pytest.raises(Unreadable, match=part):
        parse_span(written)


def test_a_moment_before_another_has_a_minus():
    assert [parse_signed(w) for w in ("-30 min", "−30 min", "90 min", "+1 h", "0 min")] == [-1800, -1800, 5400, 3600, 0]


@pytest.mark.parametrize(
    ("written", "celsius"),
    [("180 C", 180), ("180 °C", 180), ("180°C", 180), ("356 F", 180), ("-18 C", -18), ("62.5 c", 62.5), ("32 °F", 0)],
)
def test_a_temperature_is_read_in_celsius(written, celsius):
    assert parse_celsius(written) == celsius


def test_a_difference_of_temperatures_has_no_freezing_point():
    assert parse_degrees("18 F") == 10  # 18 Fahrenheit degrees are 10 Celsius degrees
    assert parse_degrees("10 C") == 10


@pytest.mark.parametrize(
    ("written", "low", "high"),
    [("60-250 C", 60, 250), ("60 C-250 °C", 60, 250), ("50–482 F", 10, 250), ("-20-8 C", -20, 8), ("180 C", 180, 180)],
)
def test_a_place_has_a_range_of_temperatures(written, low, high):
    assert parse_celsius_range(written) == (low, high)


@pytest.mark.parametrize(
    ("reader", "written", "words"),
    [
        (parse_celsius, "180", "180 has no unit; write 180 C or 180 F"),
        (parse_celsius, "hot", "'hot' is not a temperature; write 180 C or 356 F"),
        (parse_celsius, "900 C", "'900 C' is no kitchen temperature; write one from -90 C to 600 C"),
        (parse_degrees, "-5 C", "'-5 C' is no tolerance; write how far off is still good, as 10 C"),
        (
            parse_celsius_range,
            "250-60 C",
            "'250-60 C' goes from hot to cold; write the lower temperature first: 60-250 C",
        ),
        (parse_celsius_range, "1-2-3 C", "'1-2-3 C' is not a range of temperatures; write 60-250 C"),
    ],
)
def test_what_is_no_temperature_says_what_would_be(reader, written, words):
    with pytest.raises(Unreadable) as told:
        reader(written)
    assert str(told.value) == words


def test_times_are_said_as_cooks_write_them():
    said = [duration_words(s) for s in (0, 45, 90, 900, 5400, 86_400, 180_000, -1800)]
    assert said == ["0 min", "45 s", "1 min 30 s", "15 min", "1 h 30 min", "1 day", "2 days 2 h", "-30 min"]


def test_a_range_is_said_with_its_unit_once():
    assert span_words(1500, 1800) == "25-30 min"
    assert span_words(10_800, 13_200) == "3 h-3 h 40 min"
    assert span_words(600, 600) == "10 min"


def test_a_countdown_reads_zero_only_when_nothing_is_left():
    said = [countdown_words(ms) for ms in (1_260_000, 3_900_000, 1, 0, -130_900)]
    assert said == ["21:00", "1:05:00", "0:01", "0:00", "+2:10"]


def test_temperatures_are_said_in_the_menus_unit():
    said = [celsius_words(180, "C"), celsius_words(180, "F"), celsius_words(62.5, "C"), celsius_words(-0.01, "C")]
    assert said == ["180 °C", "356 °F", "62.5 °C", "0 °C"]


@given(st.integers(0, 14 * 86_400))
def test_a_time_said_and_read_again_is_the_same(seconds):
    assert parse_duration(duration_words(seconds)) == seconds


@given(st.integers(0, 7 * 86_400), st.integers(0, 7 * 86_400))
def test_a_range_said_and_read_again_is_the_same(one, other):
    low, high = sorted((one, other))
    span = parse_span(span_words(low, high))
    assert (span.low, span.high) == (low, high)
    assert span.low <= span.likely <= span.high


@settings(max_examples=200)
@given(st.text(max_size=30) | st.from_regex(r"[-0-9 .,/hminsCFPTD°]{1,20}", fullmatch=True))
def test_any_text_is_a_quantity_or_said_to_be_none(text):
    for reader in (parse_duration, parse_signed, parse_span, parse_celsius, parse_degrees, parse_celsius_range):
        trouble = None
        try:
            reader(text)
        except Unreadable as told:
            trouble = told
        assert trouble is None or (trouble.wrong and trouble.right)
