"""The machine's own clocks and its sleep: read once, compared with what the system says elsewhere."""

import time
from pathlib import Path

import pytest

from tests.waiting import until
from timerboard.shell import clock as clock_module
from timerboard.shell import keep_awake
from timerboard.shell.clock import SystemClock
from timerboard.shell.keep_awake import KeepAwake


def test_the_kitchen_clock_is_the_systems_uptime_sleep_included():
    """proc(5): /proc/uptime counts seconds since boot, and is CLOCK_BOOTTIME."""
    uptime = float(Path("/proc/uptime").read_text().split()[0])
    assert abs(SystemClock().kitchen_ms() / 1000 - uptime) < 0.5


def test_the_kitchen_clock_is_the_one_that_counts_sleep(monkeypatch):
    asked = []
    monkeypatch.setattr(clock_module.time, "clock_gettime_ns", lambda which: asked.append(which) or 7_000_000)
    assert SystemClock().kitchen_ms() == 7
    assert set(asked) == {time.CLOCK_BOOTTIME}


def test_a_boot_keeps_its_name():
    assert SystemClock().boot == SystemClock().boot != ""


def test_without_a_boot_id_the_minute_of_the_boot_is_its_name(monkeypatch, tmp_path):
    monkeypatch.setattr(clock_module, "BOOT_ID", tmp_path / "none")
    assert SystemClock().boot.startswith("booted in minute ")


def test_a_zone_that_cannot_be_told_is_utc(monkeypatch):
    def fails() -> str:
        raise LookupError("two zones are set")

    monkeypatch.setattr(clock_module.tzlocal, "get_localzone_name", fails)
    assert SystemClock().zone() == "UTC"


class FakeMode:
    """A way to stay awake that works, refuses, or breaks."""

    def __init__(self, active: bool = True, breaks: bool = False) -> None:
        self.active, self.breaks, self.left = active, breaks, 0

    def __enter__(self):
        if self.breaks:
            raise OSError("no message bus")
        return self

    def __exit__(self, *_):
        self.left += 1
        if self.breaks:
            raise OSError("no message bus")


def begun(awake):
    awake.start()
    until(awake.answered)


@pytest.mark.parametrize(("mode", "said"), [(FakeMode(), ""), (FakeMode(active=False), keep_awake.REFUSED)])
def test_staying_awake_is_asked_once_and_given_back_once(monkeypatch, mode, said):
    monkeypatch.setattr("wakepy.keep.presenting", lambda **_: mode)
    awake = KeepAwake()
    with awake:
        begun(awake)
        assert awake.trouble() == said
    awake.stop()
    assert mode.left == 1
    assert awake.trouble() == ""


def test_a_broken_desktop_is_said_and_nothing_raises(monkeypatch):
    monkeypatch.setattr("wakepy.keep.presenting", lambda **_: FakeMode(breaks=True))
    awake = KeepAwake()
    begun(awake)
    assert awake.trouble() == keep_awake.REFUSED
    awake.stop()
