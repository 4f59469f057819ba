"""Names and lengths as cooks write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from timerboard.core.board_words import reading_c, shifted
from timerboard.core.commands import SetQuickTimer
from timerboard.core.quick_timer import quick_timer


@pytest.mark.parametrize(
    ("text", "name", "length"),
    [
        ("eggs 6:30", "eggs", 390),
        ("  tea   4 min ", "tea", 240),
        ("dough 1 h 10", "dough", 4200),
        ("dough 1h10", "dough", 4200),
        ("dough 1 h 10 min", "dough", 4200),
        ("bread 1:05:00", "bread", 3900),
        ("90 s", "timer", 90),
        ("5", "timer", 300),
        ("tray 2 10 min", "tray 2", 600),
        ("tart 6m30s", "tart", 390),
        ("rice 12,5 min", "rice", 750),
        ("soup 100:00", "soup", 6000),
    ],
)
def test_a_name_and_a_length_are_read(text, name, length):
    assert quick_timer(text) == SetQuickTimer(name, length)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "such as eggs 6:30"),
        ("eggs", "no time in 'eggs'"),
        ("eggs 0:00", "one second"),
        ("brine 25 h", "a day"),
        pytest.param(f"brine {'9' * 400} h", "a day", id="four hundred digits"),
    ],
)
def test_what_is_no_timer_is_refused_in_words(text, told):
    with pytest.raises(ValueError, match=told):
        quick_timer(text)


@given(st.integers(0, 23), st.integers(0, 59), st.integers(0, 59))
def test_a_clock_length_is_read_back(hours, minutes, seconds):
    length = hours * 3600 + minutes * 60 + seconds
    if length:
        assert quick_timer(f"stock {hours}:{minutes:02}:{seconds:02}") == SetQuickTimer("stock", length)


def said_or_length(text):
    try:
        return quick_timer(text).length_s
    except ValueError as refusal:
        return str(refusal)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_in_a_sentence(text):
    found = said_or_length(text)
    assert found > 0 if isinstance(found, int) else found.endswith(".")


@pytest.mark.parametrize(
    ("text", "units", "celsius"),
    [
        ("71", "C", 71.0),
        ("71,5", "C", 71.5),
        ("71.5 °C", "F", 71.5),
        ("212", "F", 100.0),
        ("32 f", "C", 0.0),
        ("-18", "C", -18.0),
    ],
)
def test_a_reading_is_read_in_its_unit(text, units, celsius):
    assert reading_c(text, units) == pytest.approx(celsius)


@pytest.mark.parametrize("text", ["", "hot", "7 1", "710", "-80", "71 K"])
def test_what_is_no_reading_is_refused(text):
    with pytest.raises(ValueError, match=r"number|no temperature"):
        reading_c(text, "C")


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("+10", 10), ("-5 min", -5), ("−5", -5), ("15 min later", 15), ("10 sooner", -10), ("1 h later", 60)],
)
def test_eating_is_shifted(text, minutes):
    assert shifted(text, 1_000_000) == 1_000_000 + minutes * 60_000


@pytest.mark.parametrize("text", ["18:45", "", "later", "+ soon"])
def test_other_words_are_no_shift(text):
    assert shifted(text, 0) is None
