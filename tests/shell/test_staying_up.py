"""What may put the machine to sleep is asked aside: a bus, a lid, a way to stay awake that hang hold no window up."""

import socket
from threading import Event
from time import perf_counter

import pytest

from tests.waiting import until
from timerboard.shell import keep_awake
from timerboard.shell.aside import PATIENCE_S
from timerboard.shell.keep_awake import STOP_S
from timerboard.shell.lid import WARNING
from timerboard.shell.staying_up import PATIENT, StayingUp

AT_ONCE_S = 1.0  # generous to a busy machine; what hangs here hangs for good


class Mode:
    """A way to stay awake: agrees or not, once it is let."""

    def __init__(self, active=True, enter=None, leave=None):
        self.active, self.enter, self.leave, self.left = active, enter, leave, False

    def __enter__(self):
        assert self.enter is None or self.enter.wait(60)
        return self

    def __exit__(self, *_):
        assert self.leave is None or self.leave.wait(60)
        self.left = True


@pytest.fixture
def mode(monkeypatch):
    def take(mode):
        monkeypatch.setattr("wakepy.keep.presenting", lambda **_: mode)
        return mode

    return take


def test_what_is_known_is_told_once(mode):
    held = mode(Mode(active=False))
    staying = StayingUp(lambda: WARNING)
    assert staying.news() == ""
    staying.begin()
    assert until(staying.news) == f"The screen may go dark: this system did not agree to stay awake. {WARNING}"
    assert staying.news() == ""
    staying.end()
    assert held.left


def test_a_machine_without_a_lid_that_agrees_is_told_nothing(mode):
    mode(Mode())
    staying = StayingUp(lambda: "")
    staying.begin()
    until(staying._awake.answered)
    assert [staying.news() for _ in range(PATIENT + 2)] == [""] * (PATIENT + 2)
    staying.end()


def test_a_system_that_never_answers_has_not_agreed_and_holds_nothing_up(mode):
    hangs = Event()
    mode(Mode(enter=hangs))
    staying = StayingUp(lambda: WARNING)
    began = perf_counter()
    staying.begin()
    told = [staying.news() for _ in range(PATIENT + 2)]
    assert perf_counter() - began < PATIENCE_S + AT_ONCE_S
    assert [bool(words) for words in told] == [False] * PATIENT + [True, False]
    assert keep_awake.REFUSED[1:] in told[PATIENT]
    staying.end()
    assert perf_counter() - began < PATIENCE_S + STOP_S + AT_ONCE_S
    hangs.set()


def test_a_lid_that_never_answers_holds_nothing_up_and_is_not_spoken_of(mode):
    mode(Mode(active=False))
    hangs = Event()
    staying = StayingUp(lambda: WARNING if hangs.wait(60) else "")
    began = perf_counter()
    staying.begin()
    told = "".join(staying.news() for _ in range(PATIENT + 1))
    assert perf_counter() - began < PATIENCE_S + AT_ONCE_S
    assert told.casefold() == keep_awake.REFUSED
    staying.end()
    hangs.set()


def test_a_system_that_does_not_take_its_lock_back_is_left_behind(mode):
    hangs = Event()
    held = mode(Mode(leave=hangs))
    staying = StayingUp(lambda: "")
    staying.begin()
    until(staying._awake.answered)
    began = perf_counter()
    staying.end()
    assert perf_counter() - began < STOP_S + AT_ONCE_S
    assert not held.left
    hangs.set()


def test_a_bus_that_takes_the_call_and_says_nothing_holds_no_window_up(tmp_path, monkeypatch):
    """The real way to stay awake, and a bus whose first answer never comes."""
    with socket.socket(socket.AF_UNIX) as deaf:
        deaf.bind(str(tmp_path / "deaf"))
        deaf.listen()
        monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={tmp_path}/deaf")
        staying = StayingUp(lambda: "")
        began = perf_counter()
        staying.begin()
        told = [staying.news() for _ in range(PATIENT + 1)]
        staying.end()
        assert perf_counter() - began < PATIENCE_S + STOP_S + AT_ONCE_S
        assert told[PATIENT].casefold() == keep_awake.REFUSED
