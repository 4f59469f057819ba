"""Bursts through simpleaudio, in a helper process.

simpleaudio may end its process at the end of playback (it does on Python 3.12 and later), so it never lives in the
board's: the helper may die, is started again for the next burst, and the board goes on. Installed by the extra of the
same name, below Python 3.12 only.
"""

import importlib.util
import sys

from PySide6.QtCore import QProcess

from .burst import RATE

TRIES = 3  # deaths in a row before it is called broken
START_MS = 2_000


def available() -> bool:
    """True where the extra is installed and Python is old enough for it."""
    return sys.version_info < (3, 12) and importlib.util.find_spec("simpleaudio") is not None


class SimpleaudioPlayer:
    """Keeps the promises of `players.Player`, as far as a process that may die can."""

    def __init__(self) -> None:
        self._process = QProcess()
        self._process.setProcessChannelMode(QProcess.ProcessChannelMode.SeparateChannels)
        self._process.readyReadStandardOutput.connect(self._hear)
        self._process.finished.connect(self._ended)
        self._deaths = 0
        self._waiting = 0  # bursts sent whose end was not reported
        self._trouble = ""
        self._closed = False
        self._start()

    def play(self, pcm: bytes) -> None:
        """Send a burst: a length in four bytes, then the samples."""
        if self._process.state() == QProcess.ProcessState.NotRunning:
            self._start()
        self._waiting += 1
        self._process.write(len(pcm).to_bytes(4, "little") + pcm)

    def stop(self) -> None:
        """A length of nought means stop."""
        self._waiting = 0
        if self._process.state() == QProcess.ProcessState.Running:
            self._process.write(bytes(4))

    def busy(self) -> bool:
        """True until the helper has reported the end."""
        return self._waiting > 0

    def tend(self, now_ms: int) -> None:
        """Start the helper again when it has died; ask it whether a device still opens."""
        if self._process.state() == QProcess.ProcessState.NotRunning and not self._closed:
            self._start()

    def trouble(self) -> str:
        """Empty, or what the helper said, or that it keeps dying."""
        return self._trouble

    def close(self) -> None:
        """End the helper."""
        self._closed = True
        self._process.closeWriteChannel()
        if self._process.state() != QProcess.ProcessState.NotRunning and not self._process.waitForFinished(START_MS):
            self._process.kill()
            self._process.waitForFinished(START_MS)

    def _start(self) -> None:
        self._process.start(sys.executable, ["-m", "timerboard.shell.simpleaudio_helper", str(RATE)])

    def _hear(self) -> None:
        for line in bytes(self._process.readAllStandardOutput().data()).decode(errors="replace").splitlines():
            self._waiting = max(0, self._waiting - 1)
            self._deaths = 0
            self._trouble = "" if line == "played" else line

    def _ended(self) -> None:
        if self._closed:
            return
        self._waiting = 0
        self._deaths += 1
        if self._deaths >= TRIES:
            self._trouble = "the sound helper keeps failing"
