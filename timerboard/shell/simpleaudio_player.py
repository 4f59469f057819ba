"""Bursts through simpleaudio, in a helper process.

simpleaudio may end its process at the end of playback (it does on Python 3.12 and later), so it never lives in the
board's: the helper may die, is started again for the next burst, and the board goes on. Installed by the extra of the
same name, below Python 3.12 only.
"""

import importlib.util
import sys
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QProcess

from .burst import RATE
from .players import nobody_asks

TRIES = 3  # deaths in a row before it is called broken
START_MS = 2_000
PROBE_MS = 20
PROBE_EVERY_MS = 2_000
HANGS_MS = 1_000  # with a probe every 2 s and a look each second, a device that hangs is told within 5 s


def available() -> bool:
    """True where the extra is installed and Python is old enough for it."""
    return sys.version_info < (3, 12) and importlib.util.find_spec("simpleaudio") is not None


@dataclass
class _Sent:
    """A burst or a probe on its way: when it must have been reported, once somebody has told the time."""

    length_ms: int
    probe: bool
    until_ms: int | None = None


class SimpleaudioPlayer:
    """Keeps the promises of `players.Player`, as far as a process that may die can.

    Between bursts a stretch of silence asks whether the device still opens and still ends what it began.
    """

    def __init__(self) -> None:
        self.handed = nobody_asks
        self._process = QProcess()
        self._process.setProcessChannelMode(QProcess.ProcessChannelMode.SeparateChannels)
        self._process.readyReadStandardOutput.connect(self._hear)
        self._process.finished.connect(self._ended)
        self._deaths = 0
        self._count = 0  # bursts this helper was given, probes among them
        self._sent: dict[int, _Sent] = {}  # by number: whose end was not reported
        self._probed_ms: int | None = None
        self._trouble = ""
        self._closed = False
        self._start()

    def play(self, pcm: bytes) -> None:
        """Send a burst: a length in four bytes, then the samples."""
        self._give(pcm, probe=False)

    def arm(self, pcm: bytes, due: Callable[[], bool], begun: Callable[[], None]) -> None:
        """Not through a pipe: bursts begin when somebody looks."""

    def went(self) -> bool:
        """None was armed."""
        return False

    def disarm(self) -> bool:
        """None was armed."""
        return False

    def stop(self) -> None:
        """A length of nought means stop."""
        if self._process.state() == QProcess.ProcessState.Running and self.busy():
            self._process.write(bytes(4))
        for sent in self._sent.values():
            sent.probe = True

    def busy(self) -> bool:
        """True until the helper has reported the end of the last burst."""
        return any(not sent.probe for sent in self._sent.values())

    def tend(self, now_ms: int) -> None:
        """Start the helper again when it has died or hangs; ask it whether a device still opens."""
        if self._closed:
            return
        for sent in self._sent.values():
            sent.until_ms = sent.until_ms or now_ms + sent.length_ms + HANGS_MS
        if any(now_ms > (sent.until_ms or now_ms) for sent in self._sent.values()):
            self._trouble = "the sound device takes nothing any more"
            self._process.kill()  # `_ended` clears what was sent; the next look starts another
        elif self._process.state() == QProcess.ProcessState.NotRunning:
            self._start()
        elif not self._sent and (self._probed_ms is None or now_ms - self._probed_ms >= PROBE_EVERY_MS):
            self._probed_ms = now_ms
            self._give(bytes(2 * RATE * PROBE_MS // 1000), probe=True)

    def trouble(self) -> str:
        """Empty, or what became of the last burst or probe, or that the helper keeps dying."""
        return self._trouble

    def close(self) -> None:
        """End the helper."""
        self._closed = True
        self._process.closeWriteChannel()
        if self._process.state() != QProcess.ProcessState.NotRunning and not self._process.waitForFinished(START_MS):
            self._process.kill()
            self._process.waitForFinished(START_MS)

    def _give(self, pcm: bytes, *, probe: bool) -> None:
        if self._closed:
            return
        if self._process.state() == QProcess.ProcessState.NotRunning:
            self._start()
        self._count += 1
        self._sent[self._count] = _Sent(len(pcm) * 1000 // (2 * RATE), probe)
        self._process.write(len(pcm).to_bytes(4, "little") + pcm)

    def _start(self) -> None:
        self._count, self._sent = 0, {}
        self._process.start(sys.executable, ["-m", "timerboard.shell.simpleaudio_helper", str(RATE)])

    def _hear(self) -> None:
        for line in bytes(self._process.readAllStandardOutput().data()).decode(errors="replace").splitlines():
            word, _, number = line.partition(" ")
            if number.isdigit():
                self._told(word, int(number))

    def _told(self, word: str, number: int) -> None:
        sent = self._sent.get(number)
        if word == "begun":
            if sent is not None and not sent.probe:
                self.handed()
            return
        self._sent.pop(number, None)
        self._deaths = 0
        self._trouble = "" if word == "played" else "no sound device"

    def _ended(self) -> None:
        if self._closed:
            return
        self._sent = {}
        self._deaths += 1
        if self._deaths >= TRIES:
            self._trouble = "the sound helper keeps failing"
