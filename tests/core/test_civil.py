"""When 'eat at 18:30' is."""

import pytest

from timerboard.core.civil import CivilDoubt, clock_words, day_clock_words, exact_moment, resolve_eat_at
from timerboard.core.faults import Unreadable

# 2026-06-10 12:00 UTC; Lisbon is an hour ahead of UTC in June
NOON_UTC = 1_781_092_800
LISBON = "Europe/Lisbon"


def test_a_time_alone_is_the_next_such_time():
    assert resolve_eat_at("18:30", LISBON, NOON_UTC * 1000) == NOON_UTC + 5 * 3600 + 1800  # 13:00 there now
    assert resolve_eat_at("12:59", LISBON, NOON_UTC * 1000) == NOON_UTC + 24 * 3600 - 60


def test_now_is_not_over():
    assert resolve_eat_at("13:00", LISBON, NOON_UTC * 1000) == NOON_UTC
    assert resolve_eat_at("13:00", LISBON, NOON_UTC * 1000 + 1) == NOON_UTC + 86_400


def test_a_day_and_a_time_are_taken_as_written_even_when_past():
    assert resolve_eat_at("2026-06-10 13:00", LISBON, 0) == NOON_UTC
    assert resolve_eat_at("2026-06-10T13:00", LISBON, NOON_UTC * 2000) == NOON_UTC


@pytest.mark.parametrize("written", ["24:00", "18:60", "18.30", "6 pm", "", "2026-02-30 18:00", "0001-01-01 00:00"])
def test_nonsense_is_refused_with_what_to_write(written):
    with pytest.raises(Unreadable) as told:
        resolve_eat_at(written, LISBON, NOON_UTC * 1000)
    assert told.value.right == "write 18:30 or 2026-12-21 18:30"


@pytest.mark.parametrize("zone", ["Nowhere/Land", "", "../etc/passwd", "Europe", "\x00"])
def test_an_unknown_zone_is_refused_in_words(zone):
    with pytest.raises(Unreadable, match="there is no time zone"):
        resolve_eat_at("18:30", zone, NOON_UTC * 1000)


def test_of_a_doubled_hour_only_what_is_to_come_counts():
    # Lisbon 2026-10-25: 01:30 comes at 00:30 UTC and again at 01:30 UTC
    first = 1_792_888_200
    assert isinstance(resolve_eat_at("01:30", LISBON, (first - 60) * 1000), CivilDoubt)
    assert resolve_eat_at("01:30", LISBON, (first + 60) * 1000) == first + 3600


def test_a_skipped_time_that_is_over_means_tomorrow():
    # Lisbon 2026-03-29: the clocks go from 01:00 to 02:00 at 01:00 UTC
    evening = 1_774_807_200  # 2026-03-29 18:00 UTC
    assert resolve_eat_at("01:30", LISBON, evening * 1000) == 1_774_830_600  # 2026-03-30 00:30 UTC


def test_a_moment_is_said_as_the_clock_shows_it():
    assert clock_words(NOON_UTC * 1000, LISBON) == "13:00"
    assert day_clock_words(NOON_UTC * 1000, LISBON, (NOON_UTC + 3600) * 1000) == "13:00"
    assert day_clock_words(NOON_UTC * 1000, LISBON, (NOON_UTC + 86_400) * 1000) == "Wed 13:00"
    assert day_clock_words(NOON_UTC * 1000, LISBON, (NOON_UTC + 9 * 86_400) * 1000) == "2026-06-10 13:00"


@pytest.mark.parametrize(
    ("written", "moment"),
    [
        ("2026-06-10T13:00+01:00", NOON_UTC),
        ("2026-06-10T12:00Z", NOON_UTC),
        ("2026-06-10T12:00:00.4+00:00", NOON_UTC),
        ("2026-06-10 13:00", None),
        ("18:30", None),
        ("2026-06-10T13:00+99:00", None),
        ("soup", None),
    ],
)
def test_a_time_with_an_offset_is_one_moment(written, moment):
    assert exact_moment(written) == moment


@pytest.mark.parametrize("year", ["0001", "1970", "9999"])
def test_a_year_that_nobody_eats_in_is_refused_however_it_is_written(year):
    for read in (exact_moment, lambda written: resolve_eat_at(written, LISBON, 0)):
        written = f"{year}-01-01T00:00" + ("+00:00" if read is exact_moment else "")
        with pytest.raises(Unreadable, match="is not a year to eat in"):
            read(written)


@pytest.mark.parametrize("year", ["1971", "9998"])
def test_the_first_and_the_last_year_to_eat_in(year):
    assert exact_moment(f"{year}-06-01T00:00+00:00") == resolve_eat_at(f"{year}-06-01 00:00", "UTC", 0)


@pytest.mark.parametrize(
    ("days", "words"),
    [(5, "Mon 13:00"), (6, "Tue 13:00"), (7, "2026-06-17 13:00"), (-6, "Thu 13:00"), (3, "Sat 13:00")],
)
def test_a_day_is_named_within_six_days(days, words):
    there = (NOON_UTC + days * 86_400) * 1000
    assert day_clock_words(there, LISBON, NOON_UTC * 1000) == words
