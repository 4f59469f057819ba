"""The calendar file against RFC 5545, section by section, and read back by `icalendar`."""

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import icalendar
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.civil import resolve_eat_at
from timerboard.core.question import question
from timerboard.core.run_sheet import run_sheet
from timerboard.planner.greedy import first_plan
from timerboard.shell.calendar import calendar_bytes
from timerboard.shell.menu_file import load_menu, read_menu

SAMPLES = sorted((Path(__file__).resolve().parents[2] / "sample_menus").glob("*.yaml"))
ZONE = "Europe/Paris"
NOW = 1_797_000_000_000

SLOW = """
menu: Slow supper
serves: 4
kitchen: {places: {oven: {room: 2, heat: 60-250 C, preheat: 20 min}, hob: {room: 2}}}
dishes:
  - dish: Shoulder
    hold: 1 h
    keep: wrapped
    steps:
      - {do: Rub, work: 10 min}
      - {do: Roast, on: oven, heat: 110 C, takes: 9-10 h, work: {start: 2 min, end: 2 min}, pull_at: 93 C}
"""


def planned(menu, day_and_time, zone=ZONE):
    eat_at = resolve_eat_at(day_and_time, zone, 0)
    assert isinstance(eat_at, int)
    plan = first_plan(question(menu, eat_at, zone))
    assert plan is not None
    return plan


def exported(menu, plan, now=NOW, zone=ZONE):
    return calendar_bytes(menu, plan, now, zone)


@pytest.fixture(scope="module", params=SAMPLES, ids=lambda p: p.stem)
def sample(request):
    menu = load_menu(request.param).menu
    plan = planned(menu, f"2026-12-21 {menu.eat_at}")
    return menu, plan, exported(menu, plan)


def test_lines_end_with_crlf_and_are_folded_at_75_octets(sample):
    """3.1: delimited by CRLF; SHOULD NOT be longer than 75 octets, excluding the line break."""
    data = sample[2]
    assert data.endswith(b"\r\n")
    lines = data.split(b"\r\n")
    assert b"\n" not in b"".join(lines)
    assert b"\r" not in b"".join(lines)
    assert max(map(len, lines)) <= 75
    for line in lines:
        line.decode("utf-8")  # a fold never cuts a character in two


def test_the_calendar_has_what_it_must_have(sample):
    """3.6: PRODID and VERSION are REQUIRED, once; 3.7.4: VERSION is 2.0."""
    calendar = icalendar.Calendar.from_ical(sample[2])
    assert calendar["VERSION"] == "2.0"
    assert calendar["PRODID"]
    assert sample[2].count(b"\r\nVERSION:") == sample[2].count(b"\r\nPRODID:") == 1


def test_every_event_has_what_it_must_have_and_nothing_twice(sample):
    """3.6.1: UID and DTSTAMP are REQUIRED; DTEND or DURATION, not both; 3.8.2.2: DTEND is after DTSTART."""
    calendar = icalendar.Calendar.from_ical(sample[2])
    assert calendar.errors == []
    for event in calendar.walk("VEVENT"):
        assert event.errors == []
        for name in ("UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "SEQUENCE", "TRANSP"):
            assert not isinstance(event[name], list), name
        assert "DURATION" not in event
        assert event.decoded("DTEND") > event.decoded("DTSTART")
        assert event["TRANSP"] in ("OPAQUE", "TRANSPARENT")  # 3.8.2.7
        assert 0 <= event["SEQUENCE"] <= 2**31 - 1  # 3.3.8


def test_times_are_utc(sample):
    """3.3.5, form 2: a date-time with UTC carries Z, and no TZID stands beside it (3.2.19)."""
    times = re.findall(rb"\r\n(DT(?:START|END|STAMP)[^\r]*)", sample[2])
    assert times
    assert all(re.fullmatch(rb"DT(?:START|END|STAMP):\d{8}T\d{6}Z", line) for line in times)


def test_every_event_has_one_display_alarm_before_it(sample):
    """3.6.6: a DISPLAY alarm MUST have ACTION, TRIGGER and DESCRIPTION; 3.8.6.3: before is a negative duration."""
    for event in icalendar.Calendar.from_ical(sample[2]).walk("VEVENT"):
        (alarm,) = event.walk("VALARM")
        assert alarm["ACTION"] == "DISPLAY"
        assert alarm["DESCRIPTION"] == event["SUMMARY"]
        assert alarm.decoded("TRIGGER") in (timedelta(minutes=-5), timedelta(minutes=-30))


def test_every_job_for_hands_is_an_event_at_its_time_and_uids_differ(sample):
    """3.8.4.7: the UID MUST be globally unique."""
    menu, plan, data = sample
    events = icalendar.Calendar.from_ical(data).walk("VEVENT")
    lines = [line for line in run_sheet(menu, plan, ZONE) if line.hands]
    assert sorted(event.decoded("DTSTART").timestamp() for event in events) == [line.at for line in lines]
    assert len({event["UID"] for event in events}) == len(events)
    assert {str(event["SUMMARY"]).partition(" (")[0] for event in events} == {line.what for line in lines}


def test_what_is_read_back_and_written_again_is_the_same(sample):
    data = sample[2]
    assert icalendar.Calendar.from_ical(data).to_ical() == data


def test_a_second_export_of_the_moved_meal_updates_the_first():
    """3.8.4.7 and 3.8.7.4: the same UIDs, a higher SEQUENCE and a later DTSTAMP."""
    menu = read_menu(SLOW).menu
    first = icalendar.Calendar.from_ical(exported(menu, planned(menu, "2026-12-21 18:30"))).walk("VEVENT")
    moved = planned(menu, "2026-12-21 19:15")
    second = icalendar.Calendar.from_ical(exported(menu, moved, NOW + 5000)).walk("VEVENT")
    old, new = ({str(e["UID"]): e for e in events} for events in (first, second))
    assert old.keys() == new.keys()
    for uid, event in old.items():
        assert new[uid]["SEQUENCE"] > event["SEQUENCE"]
        assert new[uid].decoded("DTSTAMP") > event.decoded("DTSTAMP")
        assert new[uid].decoded("DTSTART") - event.decoded("DTSTART") == timedelta(minutes=45)
        assert new[uid]["SUMMARY"] == event["SUMMARY"]


def test_another_menu_has_other_uids():
    menu = read_menu(SLOW).menu
    other = menu.model_copy(update={"title": "Another supper"})
    plan = planned(menu, "2026-12-21 18:30")
    uids = [
        {str(e["UID"]) for e in icalendar.Calendar.from_ical(exported(m, plan)).walk("VEVENT")} for m in (menu, other)
    ]
    assert uids[0].isdisjoint(uids[1])


@pytest.mark.parametrize(
    ("zone", "when", "hours"),
    [
        # clocks go forward in the night before (an hour is missing) and back (an hour comes twice); tz database rules:
        # the last Sundays of March and October at 01:00 UTC in the EU, the first Sunday of April in Sydney
        ("Europe/Paris", "2026-03-29 08:00", 1),
        ("Europe/Paris", "2026-10-25 08:00", -1),
        ("Australia/Sydney", "2026-04-05 08:00", -1),
    ],
)
def test_a_plan_over_a_change_of_clocks_keeps_real_lengths_and_local_times(zone, when, hours):
    menu = read_menu(SLOW).menu
    events = icalendar.Calendar.from_ical(exported(menu, planned(menu, when, zone), zone=zone)).walk("VEVENT")
    roast = next(e for e in events if str(e["SUMMARY"]).startswith("Roast"))
    table = next(e for e in events if str(e["SUMMARY"]).startswith("To the table"))
    assert table.decoded("DTSTART").astimezone(ZoneInfo(zone)).strftime("%Y-%m-%d %H:%M") == when
    start, end = (roast.decoded(name) for name in ("DTSTART", "DTEND"))
    assert end - start >= timedelta(hours=9)
    local = [moment.astimezone(ZoneInfo(zone)).replace(tzinfo=None) for moment in (start, end)]
    assert (local[1] - local[0]) - (end - start) == timedelta(hours=hours)


def test_a_job_long_before_the_meal_rings_earlier():
    menu = read_menu(SLOW).menu
    events = icalendar.Calendar.from_ical(exported(menu, planned(menu, "2026-12-21 18:30"))).walk("VEVENT")
    triggers = {str(e["SUMMARY"]).split()[0]: e.walk("VALARM")[0].decoded("TRIGGER") for e in events}
    assert triggers["Rub"] == timedelta(minutes=-30)
    assert triggers["To"] == timedelta(minutes=-5)


@given(st.text(min_size=1, max_size=80).filter(str.strip))
@settings(max_examples=60, deadline=None)
def test_any_words_survive_the_file_or_lose_only_control_characters(words):
    """3.3.11: TEXT escapes backslash, comma, semicolon and line breaks; control characters are not allowed."""
    menu = read_menu(SLOW).menu
    title = "".join(c for c in words if not 0xD800 <= ord(c) <= 0xDFFF) or "x"
    data = exported(menu.model_copy(update={"title": title}), PLAN)
    (event, *_) = icalendar.Calendar.from_ical(data).walk("VEVENT")
    assert max(map(len, data.split(b"\r\n"))) <= 75
    expected = "".join(c if c >= " " and c != "\x7f" else " " for c in title)
    assert str(event["CATEGORIES"].cats[0]) == expected


PLAN = planned(read_menu(SLOW).menu, "2026-12-21 18:30")


def test_the_time_of_export_is_the_stamp():
    """3.8.7.2: without METHOD's meaning of creation, DTSTAMP is when the instance was created."""
    menu = read_menu(SLOW).menu
    (event, *_) = icalendar.Calendar.from_ical(exported(menu, PLAN)).walk("VEVENT")
    assert event.decoded("DTSTAMP") == datetime.fromtimestamp(NOW // 1000, UTC)
