"""The real program in a process of its own, its sound device a file, its folders a test's own."""

import contextlib
import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np
import psutil

from tests.shell.sound_bench import ROOT, alsa_config
from timerboard.shell.clock import SystemClock

MENU = """\
menu: Boiled eggs
serves: 2
kitchen:
  places:
    hob: {room: 2}
dishes:
  - dish: Eggs
    hold: 10 min
    steps:
      - do: Boil
        on: hob
        lasts: 10 min
        work: 10 s
"""

WATCHED = """
import json, signal, sys
from timerboard import app
from timerboard.__main__ import main
show, told = app.Board.show, open(sys.argv[1], "w", buffering=1)
def watched(board):
    seen = []
    def look():
        view = board.desk.view()
        now = [view.foot.sound, view.danger, [n.text for n in view.notices if n.rank == 3]]
        if now not in seen[-1:]:
            seen.append(now)
            told.write(json.dumps([board._clock.kitchen_ms(), *now]) + "\\n")
    board.desk.listen(look)
    signal.signal(signal.SIGUSR1, lambda *_: board.window.close())
    show(board)
app.Board.show = watched
sys.exit(main(sys.argv[2:]))
"""


def kitchen_ms() -> int:
    """The machine's kitchen clock, as the board reads it."""
    return SystemClock().kitchen_ms()


class RealBoard:
    """`timerboard MENU --trace FILE`, everything it keeps under `folder`; its voice only notes what it is to say."""

    def __init__(self, folder: Path, *words: str, begins_in_s: int = 8) -> None:
        self.folder, self.trace, self.raw = folder, folder / "trace.jsonl", folder / "out.raw"
        self.config, self.states = folder / "asound.conf", folder / "states.jsonl"
        menu = folder / "eggs.yaml"
        menu.write_text(MENU, encoding="utf-8")
        voice = folder / "bin" / "espeak-ng"
        voice.parent.mkdir()
        voice.write_text(f"#!/bin/sh\n/bin/cat >> {folder}/said.txt\n")
        voice.chmod(0o755)
        eat = datetime.fromtimestamp(SystemClock().wall_ms() // 1000, UTC) + timedelta(minutes=10, seconds=begins_in_s)
        homes = {f"XDG_{name}_HOME": str(folder / name.lower()) for name in ("DATA", "CONFIG", "STATE", "CACHE")}
        env = {**alsa_config(folder), **homes, "HOME": str(folder), "PATH": str(voice.parent)}
        asked = [str(menu), "--eat-at", eat.isoformat(), "--trace", str(self.trace), "--no-notify", *words]
        self._errors = (folder / "stderr.txt").open("w")
        self.process = subprocess.Popen(
            [sys.executable, "-c", WATCHED, str(self.states), *asked], cwd=ROOT, env=env, stderr=self._errors
        )

    def lines(self, what: str, rank: str = "DUE") -> list[dict[str, Any]]:
        """The trace's lines of a kind."""
        return [line for line in _whole_lines(self.trace) if (line["what"], line["rank"]) == (what, rank)]

    def shown(self) -> tuple[int, str, bool, list[str]]:
        """Since when (kitchen ms) the board shows what of its sound: the foot's word, danger or not, danger notices."""
        lines = _whole_lines(self.states)
        return tuple(lines[-1]) if lines else (0, "", False, [])

    def said(self) -> str:
        """Everything the voice was given."""
        path = self.folder / "said.txt"
        return path.read_text() if path.exists() else ""

    def heard(self) -> np.ndarray:
        """Every sample that came out so far."""
        data = self.raw.read_bytes() if self.raw.exists() else b""
        return np.frombuffer(data[: len(data) // 2 * 2], "<i2").astype(float)

    def pull_the_plug(self) -> None:
        """The device is gone: none can be opened, and the one that was open ends."""
        self._config = self.config.read_text()
        self.config.write_text("# no device\n")
        for child in psutil.Process(self.process.pid).children(recursive=True):
            with contextlib.suppress(psutil.NoSuchProcess):
                if any("pacer.py" in word for word in child.cmdline()):
                    child.kill()

    def plug_in(self) -> None:
        """The device is back."""
        before = self.config.stat().st_mtime
        self.config.write_text(self._config)
        # ALSA reads its settings again only when the whole second of their change is another one
        os.utime(self.config, (before + 2, before + 2))

    def shut(self) -> int:
        """Close its window, as its cross does; gives how the program ended."""
        self.process.send_signal(signal.SIGUSR1)
        return self.process.wait(20)

    def end(self) -> str:
        """End it, and give what it complained of."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            with contextlib.suppress(subprocess.TimeoutExpired):
                self.process.wait(10)
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        self._errors.close()
        return (self.folder / "stderr.txt").read_text()


def _whole_lines(path: Path) -> list[Any]:
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    return [json.loads(line) for line in text.splitlines(keepends=True) if line.endswith("\n")]


@contextlib.contextmanager
def real_board(folder: Path, *words: str, begins_in_s: int = 8) -> Iterator[RealBoard]:
    """A board that is ended whatever happens, on the screen that is there."""
    assert os.environ.get("DISPLAY") or os.environ.get("QT_QPA_PLATFORM")
    board = RealBoard(folder, *words, begins_in_s=begins_in_s)
    try:
        yield board
    finally:
        board.end()
