"""A device is judged by how fast it takes frames."""

from timerboard.shell.pull_watch import LOST_AFTER_MS, PullWatch

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


def test_a_device_that_takes_nothing_is_noticed_within_five_seconds():
    assert LOST_AFTER_MS <= 4000
    assert looked(0.0, seconds=4)[1] == "the sound device takes nothing any more"


def test_a_driver_that_swallows_everything_at_once_is_called_so():
    assert looked(50.0, seconds=4)[1] == "the sound driver plays into nothing"


def test_a_new_device_clears_the_word_only_once_frames_flow_again():
    watch, _ = looked(0.0)
    watch.restart()
    assert watch.look(10_000, 0) != ""
    assert looked(1.0, watch=watch, start_ms=10_000)[1] == ""
