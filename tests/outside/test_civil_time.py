"""Civil time against the time zone database (IANA tzdata, through zoneinfo): gaps and folds, both hemispheres.

The transitions are listed by hand from tzdata's rules; each was also printed with `zdump -v`.
"""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.civil import CivilDoubt, clock_words, resolve_eat_at

# (zone, a civil time that is skipped, its two readings in UTC)
GAPS = [
    ("Europe/Berlin", "2026-03-29 02:30", "2026-03-29 00:30", "2026-03-29 01:30"),  # last Sunday of March, 01:00 UTC
    ("Europe/Lisbon", "2026-03-29 01:30", "2026-03-29 00:30", "2026-03-29 01:30"),
    ("Pacific/Auckland", "2026-09-27 02:30", "2026-09-26 13:30", "2026-09-26 14:30"),  # last Sunday of September
    ("America/Santiago", "2026-09-06 00:30", "2026-09-06 03:30", "2026-09-06 04:30"),  # first Sunday after 1 September
    ("Australia/Lord_Howe", "2026-10-04 02:15", "2026-10-03 15:15", "2026-10-03 15:45"),  # half an hour
]
# (zone, a civil time that comes twice, when it comes in UTC)
FOLDS = [
    ("Europe/Berlin", "2026-10-25 02:30", "2026-10-25 00:30", "2026-10-25 01:30"),
    ("Europe/Lisbon", "2026-10-25 01:30", "2026-10-25 00:30", "2026-10-25 01:30"),
    ("Pacific/Auckland", "2026-04-05 02:30", "2026-04-04 13:30", "2026-04-04 14:30"),
    ("America/Santiago", "2026-04-04 23:30", "2026-04-05 02:30", "2026-04-05 03:30"),
    ("Australia/Lord_Howe", "2026-04-05 01:45", "2026-04-04 14:45", "2026-04-04 15:15"),
]


def utc(written: str) -> int:
    return round(datetime.fromisoformat(written).replace(tzinfo=UTC).timestamp())


@pytest.mark.parametrize(("zone", "written", "one", "other"), GAPS)
def test_a_time_in_a_gap_is_asked_about(zone, written, one, other):
    doubt = resolve_eat_at(written, zone, 0)
    assert isinstance(doubt, CivilDoubt)
    assert "does not exist, because the clocks go forward" in doubt.said
    assert {moment for _, moment in doubt.choices} == {utc(one), utc(other)}
    assert len({words for words, _ in doubt.choices}) == 2


@pytest.mark.parametrize(("zone", "written", "one", "other"), FOLDS)
def test_a_time_in_a_fold_is_asked_about(zone, written, one, other):
    doubt = resolve_eat_at(written, zone, 0)
    assert isinstance(doubt, CivilDoubt)
    assert "comes twice, because the clocks go back" in doubt.said
    assert [moment for _, moment in doubt.choices] == [utc(one), utc(other)]


@pytest.mark.parametrize(("zone", "written", "one", "other"), GAPS + FOLDS)
def test_a_time_alone_is_asked_about_on_such_a_day(zone, written, one, other):
    hours_before = (min(utc(one), utc(other)) - 2 * 3600) * 1000
    doubt = resolve_eat_at(written.split()[1], zone, hours_before)
    assert isinstance(doubt, CivilDoubt)
    assert {moment for _, moment in doubt.choices} == {utc(one), utc(other)}


def clock_day(ms: int, zone: str) -> str:
    return f"{datetime.fromtimestamp(ms // 1000, ZoneInfo(zone)):%Y-%m-%d}"


@settings(max_examples=150)
@given(
    st.integers(1_600_000_000, 2_000_000_000),
    st.sampled_from(["Europe/Berlin", "Pacific/Auckland", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Santiago"]),
)
def test_every_moment_is_found_again_by_its_civil_time(moment, zone):
    """Whole minutes: what the clock shows names the moment, or is in doubt with the moment among its choices."""
    moment -= moment % 60
    shown = f"{clock_day(moment * 1000, zone)} {clock_words(moment * 1000, zone)}"
    found = resolve_eat_at(shown, zone, 0)
    assert found == moment or (isinstance(found, CivilDoubt) and moment in [m for _, m in found.choices])
