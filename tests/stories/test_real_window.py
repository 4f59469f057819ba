"""The real program in a real window on a screen of its own, with real keys: killed, opened again, and two at once."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.stories.seen import kept, moment_now, shown
from tests.virtual_screen import end, virtual_screen
from timerboard.board.replies import BOUNCE_MS
from timerboard.core.events import Event

ROOT = Path(__file__).resolve().parents[2]
WITHIN_S = 60  # a busy machine is slow; nothing here waits for time to pass
MENU = """\
menu: Four pots
serves: 4
kitchen:
  places: {hob: {room: 6}}
dishes:
""" + "".join(
    f"  - dish: {dish}\n    hold: 6 h\n    steps:\n      - {{do: Simmer, on: hob, takes: {takes}, work: 1 min}}\n"
    for dish, takes in (
        ("Stock", "50-55 min"),
        ("Beans", "40-50 min"),
        ("Beetroot", "35-45 min"),
        ("Lentils", "25 min"),
    )
)


def wait_for(what: str, seen: Callable[[], object]) -> None:
    """Until it is so; AssertionError when that takes too long."""
    give_up = time.perf_counter() + WITHIN_S
    while not seen():
        assert time.perf_counter() < give_up, f"waited {WITHIN_S} s for {what}"


@dataclass
class Boards:
    """Starts real boards on one screen, with their folders in one place, and types to the one that is up."""

    folder: Path
    env: dict[str, str]
    eat_at: str
    running: list[subprocess.Popen[str]] = field(default_factory=list)
    place: tuple[str, ...] = ()

    def start(self) -> subprocess.Popen[str]:
        """`timerboard MENU`, as it is typed."""
        command = [sys.executable, "-m", "timerboard", str(self.folder / "pots.yaml"), "--eat-at", self.eat_at]
        words = ["--sound", "silent", "--theme", "dark"]
        pipe = subprocess.PIPE
        board = subprocess.Popen([*command, *words], cwd=ROOT, env=self.env, stdout=pipe, stderr=pipe, text=True)
        self.running.append(board)
        return board

    def up(self) -> subprocess.Popen[str]:
        """Start one, wait for its window, and bring the keys to it."""
        board = self.start()
        wait_for("the window", lambda: board.poll() is not None or self.window())
        assert board.poll() is None, board.communicate()
        number = self.window()
        self.type("windowfocus", "--sync", number)
        place = dict(line.split("=") for line in self.type("getwindowgeometry", "--shell", number).splitlines())
        self.place = tuple(place[name] for name in ("X", "Y", "WIDTH", "HEIGHT"))
        return board

    def window(self) -> str:
        """The number of the one visible window whose title is the menu's; "" while there is none."""
        found = subprocess.run(
            ["xdotool", "search", "--onlyvisible", "--name", "^Four pots for 4 - timerboard$"],
            env=self.env,
            capture_output=True,
            text=True,
            check=False,
        )
        return found.stdout.split()[0] if found.stdout.split() else ""

    def type(self, *words: str) -> str:
        """One command of xdotool: real key events of the X server, to whatever has the keys."""
        return subprocess.run(["xdotool", *words], env=self.env, capture_output=True, text=True, check=True).stdout

    @property
    def journal(self) -> Path:
        """The only cook in the folder."""
        (found,) = (self.folder / "data" / "timerboard" / "cooks").glob("*.cook")
        return found

    def events(self) -> tuple[Event, ...]:
        """What is durable by now."""
        return kept(self.journal)

    def press(self, kind: str, *keys: str) -> None:
        """Press keys one after another; wait until one more event of a kind is in the journal."""
        before, lifted = self.count(kind), time.perf_counter() + BOUNCE_MS / 1000
        wait_for("the finger", lambda: time.perf_counter() > lifted)  # sooner it would be a second touch by a wet one
        self.type("key", *keys)
        wait_for(f"{kind} after {keys}", lambda: self.count(kind) > before)

    def count(self, kind: str) -> int:
        """How many events of a kind are kept."""
        return sum(event.kind == kind for event in self.events())

    def look(self) -> dict[str, list[list[str]]]:
        """What the window shows, once it shows what the journal says (see `seen`). No ring of the keyboard is on it."""
        self.type("search", "--maxdepth", "0", "", "windowfocus")
        command = [sys.executable, "-m", "tests.stories.seen", str(self.journal), *self.place, str(WITHIN_S)]
        told = subprocess.run(command, cwd=ROOT, env=self.env, capture_output=True, text=True, check=False)
        assert told.returncode == 0, f"the window shows something else than its journal {told.stderr}"
        return json.loads(told.stdout)


@pytest.fixture
def boards(tmp_path: Path) -> Iterator[Boards]:
    server, display = virtual_screen("1600x900x24")
    assert server is not None, "these tests need Xvfb and xdotool"
    (tmp_path / "pots.yaml").write_text(MENU, encoding="utf-8")
    homes = {f"XDG_{name}_HOME": str(tmp_path / name.lower()) for name in ("DATA", "CONFIG", "STATE", "CACHE")}
    env = {**os.environ, **homes, "DISPLAY": display, "HOME": str(tmp_path), "TZ": "UTC"}
    for name in ("WAYLAND_DISPLAY", "QT_QPA_PLATFORM", "QT_SCALE_FACTOR", "DBUS_SESSION_BUS_ADDRESS"):
        env.pop(name, None)
    eat = datetime.fromtimestamp(time.clock_gettime(time.CLOCK_REALTIME), UTC) + timedelta(hours=2)
    made = Boards(tmp_path, env, eat.replace(second=0, microsecond=0).isoformat())
    yield made
    for board in made.running:
        if board.poll() is None:
            board.kill()
        board.communicate()
    end(server)


def test_five_answers_one_undone_killed_and_opened_again_the_same_strips_count_to_the_second(boards):
    board = boards.up()
    wait_for("the cook", lambda: boards.count("PlanAdopted"))
    for _ in range(4):
        boards.press("StepStarted", "1")
    boards.press("QuickTimerSet", "t", *"eggs", "space", "6", "colon", "3", "0", "Return")
    boards.press("QuickTimerSet", "t", *"tea", "space", "4", "Return")
    boards.press("EventUndone", "z")
    seen = boards.look()
    names = [strip[0] for strip in seen["strips"]]
    assert sorted(names) == ["Beans", "Beetroot", "Eggs", "Lentils", "Stock"]

    board.send_signal(signal.SIGKILL)
    board.wait(WITHIN_S)
    at_the_kill = boards.events()
    boards.up()
    wait_for("the cook taken up", lambda: boards.count("BoardReturned"))
    again = boards.look()
    now = moment_now(at_the_kill)
    assert boards.events()[: len(at_the_kill)] == at_the_kill
    assert [strip[:2] for strip in again["strips"]] == [strip[:2] for strip in seen["strips"]]
    unbroken = {strip.name: strip.countdown for strip in shown(at_the_kill, now).strips}
    for name, _, countdown, _ in again["strips"]:
        assert 0 <= seconds(countdown) - seconds(unbroken[name]) <= 4  # between the look and now
    gone = [seconds(was[2]) - seconds(strip[2]) for was, strip in zip(seen["strips"], again["strips"], strict=True)]
    assert max(gone) - min(gone) <= 1, "one countdown lost more than the others"


def seconds(countdown: str) -> int:
    return sum(int(part) * 60**place for place, part in enumerate(reversed(countdown.split(":"))))


def test_a_second_board_is_told_who_has_the_cook(boards):
    boards.up()
    wait_for("the cook", lambda: boards.count("PlanAdopted"))
    kept_by_the_first = boards.events()
    second = boards.start()
    _, told = second.communicate(timeout=WITHIN_S)
    assert second.returncode == 2
    assert "has this cook open; close it there first" in told
    assert str(boards.running[0].pid) in told
    assert "Traceback" not in told
    assert boards.events() == kept_by_the_first
