"""A device is judged by how fast it takes frames."""

import pytest

from timerboard.shell.pull_watch import AWAY_MS, PullWatch

RATE = 48_000


def looked(share, seconds=6, watch=None, start_ms=0, frames=0):
    watch = watch or PullWatch(RATE)
    said = ""
    for second in range(seconds + 1):
        said = watch.look(start_ms + second * 1000, frames + round(second * RATE * share))
    return watch, said


def test_frames_at_real_time_are_no_trouble():
    assert looked(1.0)[1] == ""
    assert looked(0.9)[1] == ""


@pytest.mark.parametrize("lost_ms", range(0, 4000, 250))
def test_a_device_that_takes_nothing_is_noticed_within_five_seconds_whenever_it_goes(lost_ms):
    watch = PullWatch(RATE)
    lost_at = 20_000 + lost_ms
    said_at = next(at for at in range(0, 60_000, 1000) if watch.look(at, min(at, lost_at) * RATE // 1000))
    assert lost_at < said_at <= lost_at + 4_000


def test_a_board_that_slept_does_not_blame_the_device():
    watch, _ = looked(1.0)
    assert watch.look(6_000 + AWAY_MS + 60_000, 6 * RATE) == ""
    assert looked(1.0, watch=watch, start_ms=72_000, frames=6 * RATE)[1] == ""


def test_a_window_that_was_busy_for_a_second_and_a_half_does_not_either():
    watch, _ = looked(1.0)
    assert watch.look(8_500, round(8.5 * RATE)) == ""


def test_a_driver_that_swallows_everything_at_once_is_called_so():
    assert looked(50.0, seconds=4)[1] == "the sound driver plays into nothing"


def test_a_new_device_clears_the_word_only_once_frames_flow_again():
    watch, _ = looked(0.0)
    watch.restart()
    assert watch.look(10_000, 0) != ""
    assert looked(1.0, watch=watch, start_ms=10_000)[1] == ""
