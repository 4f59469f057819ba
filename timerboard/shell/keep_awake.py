"""Asks the system not to dim or sleep while a cook runs. It may refuse: then it is said.

On a thread of its own from asking to giving back: a message bus may take seconds for each way there is, or hang, and
wakepy's modes must be left by the thread that entered them.
"""

from contextlib import suppress
from threading import Event, Thread
from types import TracebackType

REFUSED = "the screen may go dark: this system did not agree to stay awake"
STOP_S = 0.5  # a lock that was not given back by then ends with the process


class KeepAwake:
    """Awake from `start` to `stop`. `trouble` says so when the system did not agree."""

    def __init__(self) -> None:
        self._asked: _Asked | None = None

    def start(self) -> None:
        """Ask; asking twice does no harm. Returns at once and never raises."""
        if self._asked is None:
            self._asked = _Asked()

    def stop(self) -> None:
        """Let the system sleep again. Never raises, and waits a moment at most."""
        asked, self._asked = self._asked, None
        if asked is not None:
            asked.leave()

    def answered(self) -> bool:
        """True once the system has said yes or no."""
        return self._asked is not None and self._asked.answered.is_set()

    def trouble(self) -> str:
        """Why the machine may fall asleep, for the cook; "" when it should not, or was not asked to stay awake."""
        return "" if self._asked is None or self._asked.agreed else REFUSED

    def __enter__(self) -> "KeepAwake":
        self.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.stop()


class _Asked:
    """One asking."""

    def __init__(self) -> None:
        self.agreed = False
        self.answered, self._done = Event(), Event()
        self._thread = Thread(target=self._hold, daemon=True, name="keep awake")
        self._thread.start()

    def leave(self) -> None:
        self._done.set()
        self._thread.join(STOP_S)

    def _hold(self) -> None:
        with suppress(Exception):  # a desktop that breaks in a way of its own has not agreed
            from wakepy import keep  # after the window shows

            with keep.presenting(on_fail="pass") as mode:
                self.agreed = bool(mode.active)
                self.answered.set()
                self._done.wait()
        self.answered.set()
