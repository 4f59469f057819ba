"""Real players against a captured ALSA device: a file fed through a pipe that reads at the speed of sound."""

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
RATE = 48_000

# Reads what ALSA writes no faster than it would sound: without it the null device swallows everything at once.
PACER = """
import os, select, sys, time
out = open(sys.argv[1], "ab", buffering=0)
rate, got, begun = 96_000, 0, None
while True:
    part = os.read(0, 1920)
    if not part:
        break
    begun = begun or time.perf_counter()
    out.write(part)
    got += len(part)
    ahead = got / rate - (time.perf_counter() - begun)
    if ahead > 0:
        select.select([], [], [], ahead)
"""

CHILD = """
import sys, time, select
from PySide6.QtCore import QCoreApplication, QEventLoop
app = QCoreApplication([])
from timerboard.core.alarm_values import Rank
from timerboard.shell.burst import motif
from timerboard.shell.clock import SystemClock
from timerboard.shell.sound import BurstSound, best_player
player = best_player(sys.argv[1])
clock = SystemClock()
sound = BurstSound(player, clock.kitchen_ms)
def spin(seconds):
    end = time.perf_counter() + seconds
    while time.perf_counter() < end:
        app.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 20)
        select.select([], [], [], 0.01)
"""


@dataclass(frozen=True)
class Run:
    """What a child said, and the sound that came out of it."""

    out: str
    code: int
    samples: np.ndarray


def alsa_config(folder: Path, *, paced: bool = True) -> dict[str, str]:
    """An environment whose only sound device is a file (or, not paced, one that swallows everything)."""
    pacer, sound = folder / "pacer.py", folder / "out.raw"
    pacer.write_text(PACER)
    target = f'"|{sys.executable} {pacer} {sound}"'
    slave = 'type file\n  format raw\n  slave.pcm "nothing"\n  file ' + target if paced else "type null"
    config = folder / "asound.conf"
    config.write_text(
        f"pcm.cap {{\n  {slave}\n}}\npcm.nothing {{ type null }}\n"
        'pcm.!default { type plug slave { pcm "cap" format S16_LE channels 1 rate 48000 } }\n'
    )
    return {**os.environ, "ALSA_CONFIG_PATH": str(config), "PYTHONPATH": str(ROOT)}


def play(player: str, script: str, folder: Path, *, paced: bool = True, device: bool = True) -> Run:
    """Run `script` in a child that has `sound`, `player`, `spin(seconds)`; gives what was captured."""
    env = alsa_config(folder, paced=paced)
    if not device:
        empty = folder / "none.conf"
        empty.write_text("# no device\n")
        env["ALSA_CONFIG_PATH"] = str(empty)
    done = subprocess.run(
        [sys.executable, "-c", CHILD + script, player], env=env, capture_output=True, text=True, timeout=60, check=False
    )
    raw = folder / "out.raw"
    data = raw.read_bytes() if raw.exists() else b""
    return Run(
        done.stdout + done.stderr, done.returncode, np.frombuffer(data[: len(data) // 2 * 2], "<i2").astype(float)
    )
