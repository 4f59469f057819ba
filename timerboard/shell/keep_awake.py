"""Asks the system not to dim or sleep while a cook runs. It may refuse: then it is said."""

from types import TracebackType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wakepy import Mode

REFUSED = "the screen may go dark: this system did not agree to stay awake"


class KeepAwake:
    """Awake from `start` to `stop`. `trouble` says so when the system did not agree."""

    def __init__(self) -> None:
        self._mode: Mode | None = None
        self._trouble = ""

    def start(self) -> None:
        """Ask; asking twice does no harm. Never raises."""
        if self._mode is not None:
            return
        from wakepy import keep  # after the window shows

        mode = keep.presenting(on_fail="pass")
        try:
            mode.__enter__()
        except Exception:
            self._trouble = REFUSED
            return
        self._mode = mode
        self._trouble = "" if mode.active else REFUSED

    def stop(self) -> None:
        """Let the system sleep again. Never raises; a lock that cannot be given back ends with the process."""
        mode, self._mode, self._trouble = self._mode, None, ""
        if mode is not None:
            try:
                mode.__exit__(None, None, None)
            except Exception:
                return

    def trouble(self) -> str:
        """Why the machine may fall asleep, for the cook; "" when it should not."""
        return self._trouble

    def __enter__(self) -> "KeepAwake":
        self.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.stop()
