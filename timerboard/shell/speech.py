"""Sentences said aloud, one after another and only behind the burst: an addition to it, never a replacement.

The system's voices are used where they exist: QtTextToSpeech when it is installed (its `mock` engine says nothing and
does not count), else espeak-ng as a program of its own. Without either the board stays quiet and makes no fuss.
"""

import shutil
from collections import deque
from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QProcess

MOST_WAITING = 4  # older sentences are dropped from speech, never from the board
WORDS_A_MINUTE = "150"  # a little slower than espeak-ng's own 175: kitchens are loud; common practice, no source
STOP_MS = 500


class Speaker(Protocol):
    """Says one sentence at a time."""

    def start(self, sentence: str) -> None:
        """Begin a sentence and return at once."""

    def busy(self) -> bool:
        """True until it has been said."""

    def stop(self) -> None:
        """Be quiet now."""


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


class SystemSpeaker:
    """The system's own voices through QtTextToSpeech."""

    def __init__(self) -> None:
        from PySide6.QtTextToSpeech import QTextToSpeech

        engines = [name for name in QTextToSpeech.availableEngines() if name != "mock"]
        if not engines:
            raise ImportError("no engine but the mock one")
        self._speech = QTextToSpeech(engines[0])
        if self._speech.state() == QTextToSpeech.State.Error:
            raise ImportError(self._speech.errorString())
        self._speaking = QTextToSpeech.State.Speaking

    def start(self, sentence: str) -> None:
        """Begin a sentence."""
        self._speech.say(sentence)

    def busy(self) -> bool:
        """True while it speaks."""
        return bool(self._speech.state() == self._speaking)

    def stop(self) -> None:
        """Be quiet now."""
        self._speech.stop()


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
            self._speaker.stop()


def best_speaker() -> Speaker | None:
    """The best voice of this system, or None."""
    try:
        return SystemSpeaker()
    except ImportError:
        program = shutil.which("espeak-ng")
        return EspeakSpeaker(program) if program else None
