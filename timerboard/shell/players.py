"""What a player of bursts promises, and the one that plays nothing.

Three implementations keep the same promises (`tests/shell/test_player_promises.py`): miniaudio, simpleaudio in a helper
process, and silence.
"""

from collections.abc import Callable
from typing import Protocol


class Player(Protocol):
    """Plays one burst at a time, as 16-bit mono PCM at `burst.RATE`."""

    handed: Callable[[], None]
    """Called when the first sample of a burst goes to the device, maybe on another thread: it must not wait."""

    def play(self, pcm: bytes) -> None:
        """Start a burst in place of any that plays, and return at once. Never raises."""

    def arm(self, pcm: bytes, due: Callable[[], bool], begun: Callable[[], None]) -> None:
        """Have a burst begin by itself as soon as `due`, in place of any that plays and of the one armed before.

        Both callables may be called on another thread and must not wait; `begun` when its first sample is taken. A
        player that cannot do this does nothing: the burst is then played when somebody looks.
        """

    def went(self) -> bool:
        """True when the burst that was armed last has begun."""

    def disarm(self) -> bool:
        """Take the armed burst back; True when it has begun."""

    def stop(self) -> None:
        """Silence now."""

    def busy(self) -> bool:
        """True while a burst is being played."""

    def tend(self, now_ms: int) -> None:
        """Look after the device: called about once a second; reopens what was lost. Never raises."""

    def trouble(self) -> str:
        """Empty while sound reaches a device as far as the system tells; else why not, in words."""

    def close(self) -> None:
        """Let go of the device. Twice does no harm."""


def nobody_asks() -> None:
    """For whoever does not want to know when a burst begins."""


class SilentPlayer:
    """Plays nothing and says so, or plays nothing because that was asked for."""

    def __init__(self, why: str = "") -> None:
        self._why = why
        self.handed = nobody_asks

    def play(self, pcm: bytes) -> None:
        """Nothing to hear."""

    def arm(self, pcm: bytes, due: Callable[[], bool], begun: Callable[[], None]) -> None:
        """Nothing to hear then either."""

    def went(self) -> bool:
        """It never begins."""
        return False

    def disarm(self) -> bool:
        """It never begins."""
        return False

    def stop(self) -> None:
        """Nothing to stop."""

    def busy(self) -> bool:
        """Never."""
        return False

    def tend(self, now_ms: int) -> None:
        """Nothing to look after."""

    def trouble(self) -> str:
        """Why it is silent; empty when that was wished."""
        return self._why

    def close(self) -> None:
        """Nothing held."""
