"""A wake-up may come late, never lost, and always on the window's own thread."""

import threading
import time

import pytest
from pytestqt.qtbot import QtBot

from timerboard.shell.clock import SystemClock
from timerboard.shell.wake import HIDDEN_MS, PRECISE_MS, SHOWN_MS, Heartbeat, QtWake


@pytest.fixture
def wake(qapp):
    made = QtWake(SystemClock())
    yield made
    made.stop()


class Looks:
    """Notes when it was called, and by which thread."""

    def __init__(self) -> None:
        self.at: list[float] = []
        self.threads: set[int] = set()

    def __call__(self) -> None:
        self.at.append(time.perf_counter())
        self.threads.add(threading.get_ident())


def busy(seconds: float) -> None:
    """The window's thread computes and answers nobody, as a long paint or a slow disk makes it."""
    end = time.perf_counter() + seconds
    while time.perf_counter() < end:
        sum(range(1000))


def test_a_near_moment_is_met_by_the_precise_timer(wake, qtbot: QtBot):
    looks, begun = Looks(), time.perf_counter()
    wake.at(120, looks)
    qtbot.waitUntil(lambda: bool(looks.at), timeout=20_000)
    assert 0.115 <= looks.at[0] - begun <= 0.5


def test_a_farther_moment_comes_by_the_scheduler_on_the_windows_thread(wake, qtbot: QtBot):
    looks, begun = Looks(), time.perf_counter()
    wake.at(PRECISE_MS, looks)
    qtbot.waitUntil(lambda: bool(looks.at), timeout=20_000)
    assert looks.at[0] - begun >= PRECISE_MS / 1000 - 0.02
    assert looks.threads == {threading.get_ident()}


def test_a_window_busy_for_longer_than_the_default_grace_loses_nothing(wake, qtbot: QtBot):
    looks = Looks()
    wake.at(PRECISE_MS, looks)
    busy(PRECISE_MS / 1000 + 1.5)
    assert looks.at == []
    qtbot.waitUntil(lambda: bool(looks.at), timeout=20_000)
    assert len(looks.at) == 1


def test_a_new_moment_replaces_the_one_before(wake, qtbot: QtBot):
    old, new = Looks(), Looks()
    wake.at(50, old)
    wake.at(PRECISE_MS + 50, old)
    wake.at(100, new)
    qtbot.waitUntil(lambda: bool(new.at), timeout=20_000)
    assert old.at == []
    assert wake._scheduler.get_jobs() == []


def test_asked_for_nothing_it_keeps_nothing(wake):
    wake.at(60_000, Looks())
    assert len(wake._scheduler.get_jobs()) == 1
    wake.at(None, Looks())
    assert wake._scheduler.get_jobs() == []
    assert not wake._precise.isActive()


def test_a_wake_up_that_is_on_its_way_when_it_stops_is_not_heard(wake, qapp):
    looks = Looks()
    wake.at(0, looks)
    wake._posted.call.emit()
    wake.stop()
    qapp.processEvents()
    assert looks.at == []


def test_a_thousand_askings_leave_one_job_and_no_threads(wake):
    before = threading.active_count()
    for delay in range(1000):
        wake.at(10_000 + delay, Looks())
    assert len(wake._scheduler.get_jobs()) == 1
    assert threading.active_count() == before


def test_the_heartbeat_is_a_second_while_shown_and_a_quarter_minute_while_not(qtbot: QtBot):
    looks = Looks()
    heart = Heartbeat(looks)
    assert heart.every_ms == SHOWN_MS
    qtbot.waitUntil(lambda: bool(looks.at), timeout=20_000)
    heart.shown(False)
    assert heart.every_ms == HIDDEN_MS
    heart.stop()
