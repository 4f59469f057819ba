"""The kitchen clock through everything that happens to machines: set clocks, sleep, restarts, reboots."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.fakes import OPENING, HandClock
from tests.kitchen import opened, small_menu
from timerboard.core.events import BoardReturned, ClockStepped, Event
from timerboard.desk.kitchen_time import AWAY_MS, STEP_MS, KitchenTime, at_open, glance, returned

HOUR, DAY = 3600, 86_400


def begun(clock: HandClock) -> tuple[KitchenTime, list[Event]]:
    """A cook opened now, as the desk does it."""
    time = at_open(glance(clock))
    first = opened(small_menu(), time.moment(glance(clock)))
    return time, [first.model_copy(update={"boot": clock.boot, "booted": time.booted})]


def moment(time: KitchenTime, clock: HandClock) -> int:
    return time.moment(glance(clock))


def test_a_cook_begins_at_unix_time():
    clock = HandClock()
    time = at_open(glance(clock))
    assert moment(time, clock) == clock.wall_ms() == OPENING


@pytest.mark.parametrize("by", [-HOUR, DAY, 3, -3], ids=["an hour back", "a day on", "3 s on", "3 s back"])
def test_a_set_wall_clock_moves_no_moment_and_is_noticed(by):
    clock = HandClock()
    time = at_open(glance(clock))
    clock.advance(600)
    clock.step_wall(by)
    assert moment(time, clock) == OPENING + 600_000
    assert time.stepped_by(glance(clock)) == by * 1000
    told = time.after_step(by * 1000)
    assert told.stepped_by(glance(clock)) == 0
    assert moment(told, clock) == OPENING + 600_000


def test_two_seconds_are_drift_and_more_is_a_step():
    clock = HandClock()
    time = at_open(glance(clock))
    clock.step_wall(STEP_MS / 1000)
    assert time.stepped_by(glance(clock)) == 0
    clock.step_wall(0.001)
    assert time.stepped_by(glance(clock)) == STEP_MS + 1


def test_sleep_is_kitchen_time():
    clock = HandClock()
    time = at_open(glance(clock))
    clock.suspend(40 * 60)
    assert moment(time, clock) == OPENING + 40 * 60_000
    assert time.stepped_by(glance(clock)) == 0


def test_a_restart_in_the_same_boot_goes_on_exactly_even_when_the_wall_clock_was_set_meanwhile():
    clock = HandClock()
    time, events = begun(clock)
    clock.advance(100)
    clock.step_wall(-HOUR)
    back = returned(events, OPENING + 90_000, glance(clock))
    assert moment(back.time, clock) == moment(time, clock) == OPENING + 100_000
    assert back.away_ms == 10_000
    assert not back.rebooted
    assert back.time.stepped_by(glance(clock)) == -HOUR * 1000


def test_away_counts_from_the_last_look_or_else_from_the_last_event():
    clock = HandClock()
    _, events = begun(clock)
    clock.advance(600)
    assert returned(events, None, glance(clock)).away_ms == 600_000
    assert returned(events, OPENING + 420_000, glance(clock)).away_ms == 180_000


def test_after_a_reboot_the_gap_is_the_wall_clocks():
    clock = HandClock()
    _, events = begun(clock)
    clock.advance(100)
    clock.reboot(300)
    back = returned(events, OPENING + 100_000, glance(clock))
    assert back.rebooted
    assert not back.unsure
    assert back.away_ms == 300_000
    assert moment(back.time, clock) == OPENING + 400_000


def test_a_reboot_keeps_the_recorded_offset():
    clock = HandClock()
    _, events = begun(clock)
    stamp = {"seq": 2, "at": OPENING + 1000, "wall_ms": clock.wall_ms() - HOUR * 1000, "boot": clock.boot}
    clock.step_wall(-HOUR)
    clock.advance(1)
    events.append(ClockStepped(**stamp, board="b", by_ms=-HOUR * 1000, offset_ms=-HOUR * 1000))
    clock.reboot(60)
    assert moment(returned(events, None, glance(clock)).time, clock) == OPENING + 61_000


def test_a_wall_clock_that_went_back_over_a_reboot_never_turns_the_kitchen_clock_back():
    clock = HandClock()
    _, events = begun(clock)
    clock.advance(500)
    clock.reboot(-HOUR)
    back = returned(events, OPENING + 500_000, glance(clock))
    assert back.unsure
    assert back.away_ms == 0
    assert moment(back.time, clock) == OPENING + 500_000


def test_a_second_restart_after_a_reboot_knows_the_new_boot():
    clock = HandClock()
    _, events = begun(clock)
    clock.reboot(300)
    first = returned(events, None, glance(clock))
    stamp = {"seq": 2, "at": moment(first.time, clock), "wall_ms": clock.wall_ms(), "boot": clock.boot, "board": "b"}
    events.append(BoardReturned(**stamp, away_ms=300_000, rebooted=True, booted=first.time.booted))
    clock.advance(50)
    clock.step_wall(DAY)
    second = returned(events, None, glance(clock))
    assert not second.rebooted
    assert moment(second.time, clock) == OPENING + 350_000


@given(
    st.lists(
        st.one_of(
            st.tuples(st.just("advance"), st.integers(0, 10_000)),
            st.tuples(st.just("step_wall"), st.integers(-DAY, DAY)),
            st.tuples(st.just("suspend"), st.integers(0, 10_000)),
            st.tuples(st.just("restart"), st.just(0)),
        ),
        max_size=20,
    )
)
def test_within_a_boot_only_elapsed_time_moves_the_kitchen_clock(acts):
    clock = HandClock()
    time, events = begun(clock)
    elapsed = 0
    for act, seconds in acts:
        if act == "restart":
            time = returned(events, None, glance(clock)).time
        else:
            getattr(clock, act)(seconds)
            elapsed += seconds if act != "step_wall" else 0
        assert moment(time, clock) == OPENING + elapsed * 1000


def test_a_look_every_quarter_of_a_minute_is_no_absence():
    assert AWAY_MS >= 4 * 15_000
