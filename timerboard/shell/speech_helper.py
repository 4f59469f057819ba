"""The process that holds the system's voices (QtTextToSpeech): its engines may take long to start, hang or crash.

Protocol, in lines: a sentence comes in on standard input, an empty line means be quiet; `ready` goes out once there is
a voice, `said` after each sentence, also one that was cut short. It ends with its input; with NO_VOICE at once where
there is none (the `mock` engine says nothing and does not count).
"""

import sys
import threading
from io import TextIOWrapper
from typing import Any, TextIO

from PySide6.QtCore import QCoreApplication, QObject, Signal

NO_VOICE = 3


class _Lines(QObject):
    """What comes in, handed from the thread that waits for it to the one that speaks."""

    came = Signal(str)
    ended = Signal()

    def read(self, source: TextIO) -> None:
        try:
            for line in source:
                self.came.emit(line.strip())
        finally:  # a helper that hears nothing any more must not stay: the board would wait for it
            self.ended.emit()


def main(source: TextIO) -> int:
    """Speak until the input ends."""
    if isinstance(source, TextIOWrapper):  # sentences come in UTF-8, whatever the system's own encoding is
        source.reconfigure(encoding="utf-8", errors="replace")
    application = QCoreApplication(sys.argv[:1])
    speech, states = _engine()
    if speech is None:
        return NO_VOICE
    quiet = (states.Ready, states.Error)
    speech.stateChanged.connect(lambda state: _say("said") if state in quiet else None)
    lines = _Lines()
    lines.came.connect(lambda line: speech.say(line) if line else speech.stop())
    lines.ended.connect(application.quit)
    _say("ready")
    threading.Thread(target=lines.read, args=(source,), daemon=True).start()
    return application.exec()


def _engine() -> tuple[Any, Any]:
    """(a voice, the names of its states); (None, None) where there is none."""
    try:
        from PySide6.QtTextToSpeech import QTextToSpeech
    except ImportError:
        return None, None
    for name in QTextToSpeech.availableEngines():
        speech = None if name == "mock" else QTextToSpeech(name)
        if speech is not None and speech.state() != QTextToSpeech.State.Error:
            return speech, QTextToSpeech.State
    return None, None


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(sys.stdin))
