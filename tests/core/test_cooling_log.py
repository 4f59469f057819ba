"""The cooling log in words: two stages, what is not read yet, what stands out, what was put away, by which clock."""

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.commands import DoCue, EndStep, StartStep, TakeReading
from timerboard.core.cooling_log import cooling_log, entry_lines, record_lines
from timerboard.core.events import ClockStepped
from timerboard.core.food_clocks import PUT_AWAY
from timerboard.core.menu import Dish, Use

SIMMER = "Bean stew/Simmer"
STEW = Dish(name="Bean stew", steps=(step("Bean stew", "Simmer", minutes(30), uses=(Use(place="hob"),)),))


def cooled(*readings: tuple[float, float]) -> Kitchen:
    """A stew taken off the hob, then read so many minutes later each time."""
    kitchen = Kitchen(small_menu(STEW), eat_in=60, plan=False)
    kitchen.must(StartStep(SIMMER))
    kitchen.wait(30)
    kitchen.must(EndStep(SIMMER))
    for after, celsius in readings:
        kitchen.wait(after)
        kitchen.must(TakeReading(SIMMER, celsius, confirmed=True))
    return kitchen


def told(kitchen: Kitchen) -> list[str]:
    return [line.rpartition(": ")[2] for line in entry_lines(kitchen.cook, STEW, kitchen.now)]


def test_what_never_was_hot_has_no_log():
    assert told(cooled((0, 50.0), (20, 30.0))) == []


def test_a_stage_is_not_read_yet_until_its_limit_and_then_no_reading_shows_it():
    kitchen = cooled((0, 90.0), (20, 55.0))
    kitchen.wait(120)
    assert told(kitchen) == ["not read yet.", "not read yet."]
    kitchen.now += 1
    assert told(kitchen) == ["no reading shows it.", "not read yet."]
    kitchen.wait(240)
    assert told(kitchen) == ["no reading shows it.", "no reading shows it."]


def test_a_stage_that_was_read_says_after_how_long_and_whether_that_meets_it():
    assert told(cooled((0, 90.0), (20, 55.0), (120, 21.0), (240, 5.0))) == [
        "read after 2 h · met.",
        "read after 6 h · met.",
    ]
    assert told(cooled((0, 90.0), (20, 55.0), (121, 21.0), (240, 5.0))) == [
        "read after 2 h 1 min · not met.",
        "read after 6 h 1 min · not met.",
    ]


def test_seventy_degrees_fahrenheit_are_the_middle_and_forty_one_the_end():
    """FDA Food Code 2022, 3-501.14(A): 135 to 70 °F (21.1 °C) within 2 h, to 41 °F (5 °C) within 6 h in all."""
    (entry,) = cooling_log((kitchen := cooled((0, 90.0), (20, 55.0), (60, 22.0), (60, 5.1))).cook, kitchen.now)
    assert (entry.first.took_s, entry.whole.took_s) == (7200, None)


def test_cooling_is_counted_from_the_last_hot_reading_on():
    (entry,) = cooling_log((kitchen := cooled((0, 90.0), (10, 50.0), (10, 57.3), (10, 50.0))).cook, kitchen.now)
    assert len(entry.readings) == 1


def test_the_printed_record_says_what_stands_out_and_what_was_put_away_by_the_clock_as_it_was_set():
    kitchen = cooled()
    since = kitchen.now
    (standing, follow) = record_lines(kitchen.cook, kitchen.now)
    clock = f"{since // 3_600_000 % 24:02d}:{since // 60_000 % 60:02d}"
    assert standing.startswith(f"Bean stew: out of the heat since {clock}")
    assert "local code" in follow
    kitchen.take(ClockStepped(**kitchen.stamp(), by_ms=3_600_000, offset_ms=3_600_000))
    later = f"{(since // 3_600_000 + 1) % 24:02d}:{since // 60_000 % 60:02d}"
    assert f"since {later}" in record_lines(kitchen.cook, kitchen.now)[0]
    kitchen.must(DoCue(SIMMER, PUT_AWAY))
    assert record_lines(kitchen.cook, kitchen.now)[0] == f"Bean stew: put away {later}"


def test_nothing_to_say_is_no_line():
    kitchen = Kitchen(small_menu(STEW), plan=False)
    assert record_lines(kitchen.cook, kitchen.now) == ()
