"""What the desktop is asked while the real program cooks: a notification and its end, a screen that stays awake."""

import signal
import subprocess
from pathlib import Path

import pytest
from jeepney.bus_messages import message_bus
from jeepney.io.blocking import Proxy, open_dbus_connection

from tests.shell.private_bus import FakeService, needs_bus, private_bus
from tests.stories.real_board import RealBoard, real_board
from tests.waiting import until

pytestmark = needs_bus
AWAKE = "org.freedesktop.ScreenSaver"
NOTIFICATIONS = "org.freedesktop.Notifications"
START_S = 60  # a busy machine is slow; nothing here waits for time to pass


@pytest.fixture
def bus(tmp_path, monkeypatch):
    for name in ("XDG_CURRENT_DESKTOP", "XDG_SESSION_DESKTOP", "DESKTOP_SESSION"):
        monkeypatch.delenv(name, raising=False)
    folder = tmp_path / "bus-of-this-test"
    folder.mkdir()
    with private_bus(folder) as address:
        monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", address)
        yield address


@pytest.fixture
def screen_saver(bus):
    service = FakeService(bus, AWAKE, {"Inhibit": lambda *_: ("u", (7,)), "UnInhibit": lambda _cookie: ("", ())})
    yield service
    service.close()


def is_on(bus: str, name: str) -> bool:
    with open_dbus_connection(bus) as asking:
        return bool(Proxy(message_bus, asking).NameHasOwner(name)[0])


def press(board: RealBoard, key: str) -> None:
    """The key, typed into the board's window."""
    search = ["xdotool", "search", "--onlyvisible", "--pid", str(board.process.pid), "--name", "timerboard"]
    (window, *_) = subprocess.run(search, capture_output=True, text=True, check=True).stdout.split()
    subprocess.run(["xdotool", "windowfocus", "--sync", window, "key", key], check=True)


def test_a_call_is_notified_and_taken_away_when_it_is_answered_at_the_board(bus, tmp_path: Path):
    answers = {
        "GetCapabilities": lambda: ("as", ([],)),
        "Notify": lambda *_: ("u", (41,)),
        "CloseNotification": lambda _number: ("", ()),
    }
    desktop = FakeService(bus, NOTIFICATIONS, answers)
    with real_board(tmp_path, "--notify") as board:
        assert desktop.next(START_S)[0] == "GetCapabilities"
        member, body = desktop.next(START_S)
        assert (member, body[3]) == ("Notify", "Start: boil the eggs")
        press(board, "1")
        assert desktop.next() == ("CloseNotification", (41,))
    desktop.close()


def test_the_screen_is_kept_awake_until_the_board_closes(screen_saver, tmp_path: Path):
    with real_board(tmp_path, begins_in_s=3600) as board:
        assert screen_saver.next(START_S)[0] == "Inhibit"
        assert board.process.poll() is None
        assert screen_saver.asked.empty()
        assert board.shut() == 0
        assert screen_saver.next() == ("UnInhibit", (7,))


def test_a_board_that_is_killed_keeps_no_screen_awake(bus, screen_saver, tmp_path: Path):
    """Its lock lasts as long as its connection, and that ends with the process."""
    with real_board(tmp_path, begins_in_s=3600) as board:
        member, _body, who = screen_saver.asked.get(timeout=START_S)
        assert member == "Inhibit"
        assert is_on(bus, who)
        board.process.send_signal(signal.SIGKILL)
        until(lambda: not is_on(bus, who), 20, "the connection of a killed board ends")
