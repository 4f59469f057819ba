"""Durations against ISO 8601: the standard's own rules as quoted below, and the isodate library."""

from datetime import timedelta

import isodate
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.faults import Unreadable
from timerboard.core.quantities import parse_duration

# RFC 5545, 3.3.6, gives "P15DT5H0M20S" and "P7W" with their lengths in words; RFC 3339, Appendix A, quotes the grammar
# (dur-week, dur-day, dur-time). That the last number may have a fraction, after a comma or a full stop, is ISO
# 8601-1:2019, 5.5.2. All from memory; isodate reads each of them alike.
LISTED = [
    ("P15DT5H0M20S", 15 * 86_400 + 5 * 3600 + 20),
    ("P7W", 7 * 604_800),
    ("PT36H", 36 * 3600),
    ("P1DT12H", 36 * 3600),
    ("PT1H30M", 5400),
    ("PT0S", 0),
    ("PT0.5H", 1800),
    ("PT0,5H", 1800),
    ("P0.5D", 43_200),
    ("PT1M30.5S", 91),  # a half second is rounded up: times are whole seconds
]


@pytest.mark.parametrize(("written", "seconds"), LISTED)
def test_listed_durations_have_their_lengths(written, seconds):
    assert parse_duration(written) == seconds


@pytest.mark.parametrize(("written", "seconds"), LISTED)
def test_isodate_agrees_with_the_list(written, seconds):
    assert abs(isodate.parse_duration(written).total_seconds() - seconds) <= 0.5


@pytest.mark.parametrize(
    "written",
    ["P", "PT", "P1DT", "PT1", "P1H", "PT1D", "P1W2D", "PT1.5H30M", "P-1D", "PT1M1H", "PT 5M", "P0003-06-04T12:30:05"],
)
def test_what_the_grammar_does_not_allow_is_refused(written):
    with pytest.raises(Unreadable, match="not an ISO 8601 duration"):
        parse_duration(written)


@pytest.mark.parametrize("written", ["P1Y", "P2M", "P3Y6M4DT12H30M5S"])
def test_years_and_months_have_no_length(written):
    # isodate gives them as a Duration that is no timedelta, for the same reason
    assert not isinstance(isodate.parse_duration(written), timedelta)
    with pytest.raises(Unreadable, match="no fixed length"):
        parse_duration(written)


whole = st.integers(0, 400)


@settings(max_examples=150)
@given(st.tuples(whole, whole, whole, whole), st.integers(0, 15))
def test_isodate_reads_the_same_length(amounts, chosen):
    """Any choice of D, H, M and S, each once and in order."""
    parts = [f"{n}{unit}" for n, unit, bit in zip(amounts, "DHMS", (1, 2, 4, 8), strict=True) if chosen & bit]
    days = "".join(p for p in parts if p.endswith("D"))
    times = "".join(p for p in parts if not p.endswith("D"))
    written = f"P{days}" + (f"T{times}" if times else "")
    if written == "P":
        return
    assert parse_duration(written) == isodate.parse_duration(written).total_seconds()
