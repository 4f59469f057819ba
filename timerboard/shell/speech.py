"""Sentences said aloud, one after another and only behind the burst: an addition to it, never a replacement.

The system's voices are used where they exist: QtTextToSpeech when it is installed, else espeak-ng; each in a process of
its own, so that one that is slow to start or hangs holds no window up. Without either the board stays quiet and makes
no fuss.
"""

import importlib.util
import shutil
import sys
from collections import deque
from collections.abc import Callable, Sequence
from typing import Protocol

from PySide6.QtCore import QProcess

MOST_WAITING = 4  # older sentences are dropped from speech, never from the board
WORDS_A_MINUTE = "150"  # a little slower than espeak-ng's own 175: kitchens are loud; common practice, no source
STOP_MS = 500
LONGEST_START, LONGEST_SENTENCE = 10, 30  # looks, about a second apart
HELPER = (sys.executable, "-m", "timerboard.shell.speech_helper")


class Speaker(Protocol):
    """Says one sentence at a time."""

    def start(self, sentence: str) -> None:
        """Begin a sentence and return at once."""

    def busy(self) -> bool:
        """True until it has been said."""

    def stop(self) -> None:
        """Be quiet now."""

    def close(self) -> None:
        """Be quiet for good."""


class EspeakSpeaker:
    """espeak-ng as a process of its own; the sentence goes in on standard input, so no word is taken for an option."""

    def __init__(self, program: str) -> None:
        self._program = program
        self._process = QProcess()

    def start(self, sentence: str) -> None:
        """Begin a sentence."""
        self._process.start(self._program, ["-s", WORDS_A_MINUTE, "--stdin"])
        self._process.write(sentence.encode())
        self._process.closeWriteChannel()

    def busy(self) -> bool:
        """True while the process runs."""
        return self._process.state() != QProcess.ProcessState.NotRunning

    def stop(self) -> None:
        """End the process."""
        if self.busy():
            self._process.kill()
            self._process.waitForFinished(STOP_MS)

    def close(self) -> None:
        """End the process."""
        self.stop()


class SystemSpeaker:
    """The system's own voices, in a helper process; `otherwise` speaks once the helper has failed."""

    def __init__(self, otherwise: Speaker | None, helper: Sequence[str] = HELPER) -> None:
        self._otherwise = otherwise
        self._speaking = False
        self._looks = 0
        self._ready = False
        self._process = QProcess()
        self._process.readyReadStandardOutput.connect(self._hear)
        self._process.start(helper[0], list(helper[1:]))

    def start(self, sentence: str) -> None:
        """Begin a sentence."""
        if self._helps():
            self._speaking, self._looks = True, 0
            self._process.write(" ".join(sentence.split()).encode() + b"\n")
        elif self._otherwise is not None:
            self._otherwise.start(sentence)

    def busy(self) -> bool:
        """True while it speaks, and while it starts; one that takes too long for that is ended."""
        if not self._helps():
            return self._otherwise is not None and self._otherwise.busy()
        if not self._ready or self._speaking:
            self._looks += 1
            if self._looks > (LONGEST_SENTENCE if self._ready else LONGEST_START):
                self._end()
                return False
        return not self._ready or self._speaking

    def stop(self) -> None:
        """Be quiet now."""
        if self._helps() and self._speaking:
            self._process.write(b"\n")
        if self._otherwise is not None:
            self._otherwise.stop()

    def close(self) -> None:
        """End the helper."""
        self.stop()
        self._end()

    def _helps(self) -> bool:
        return self._process.state() != QProcess.ProcessState.NotRunning

    def _end(self) -> None:
        if self._helps():
            self._process.kill()
            self._process.waitForFinished(STOP_MS)

    def _hear(self) -> None:
        for line in bytes(self._process.readAllStandardOutput().data()).decode(errors="replace").split():
            self._ready = True
            if line == "said":
                self._speaking = False


class QueuedVoice:
    """Keeps the promises of `desk.ports.Voice`: sentences wait for the burst and for each other."""

    def __init__(self, speaker: Speaker | None, sound_busy: Callable[[], bool]) -> None:
        self._speaker = speaker
        self._sound_busy = sound_busy
        self._queue: deque[str] = deque(maxlen=MOST_WAITING)
        self.on = speaker is not None

    @property
    def able(self) -> bool:
        """True where there is a voice at all."""
        return self._speaker is not None

    def say(self, sentence: str) -> None:
        """Queue a sentence; one that waits already is not queued twice."""
        if self.on and sentence not in self._queue:
            self._queue.append(sentence)
        self.tend()

    def tend(self) -> None:
        """Begin the next sentence when nothing sounds: called at every look."""
        if self._speaker and self._queue and not self._sound_busy() and not self._speaker.busy():
            self._speaker.start(self._queue.popleft())

    def switch(self) -> bool:
        """Speech off or on again by one key; tells which. Off ends the sentence that is being said."""
        self.on = not self.on and self._speaker is not None
        if not self.on:
            self._queue.clear()
            if self._speaker:
                self._speaker.stop()
        return self.on

    def close(self) -> None:
        """Be quiet for good."""
        self._queue.clear()
        if self._speaker:
            self._speaker.close()


def best_speaker() -> Speaker | None:
    """The best voice of this system, or None."""
    program = shutil.which("espeak-ng")
    other = EspeakSpeaker(program) if program else None
    return SystemSpeaker(other) if importlib.util.find_spec("PySide6.QtTextToSpeech") is not None else other
