"""Is sound really going somewhere? Judged by how fast a device takes frames.

A device that takes none is gone; one that takes them far faster than they can sound is a driver that plays into
nothing. Pure: the caller says what time it is.
"""

from dataclasses import dataclass

LOST_AFTER_MS = 3_000  # under the 5 s in which a loss must be noticed, with a look each second
LEAST_SHARE = 0.2  # of real time: less is a stalled device
MOST_SHARE = 4.0  # of real time: more is no device at all


@dataclass
class PullWatch:
    """Compares frames taken with time gone by."""

    rate: int
    _since_ms: int | None = None
    _frames: int = 0
    _verdict: str = ""

    def restart(self) -> None:
        """A device was opened: count anew. The verdict stands until frames have flowed for long enough to lift it."""
        self._since_ms = None

    def look(self, now_ms: int, frames: int) -> str:
        """Empty while frames flow at about real time; else what is wrong. Judged every LOST_AFTER_MS."""
        if self._since_ms is None:
            self._since_ms, self._frames = now_ms, frames
        gone = now_ms - self._since_ms
        if gone >= LOST_AFTER_MS:
            share = (frames - self._frames) * 1000 / (gone * self.rate)
            self._since_ms, self._frames = now_ms, frames
            self._verdict = self._judge(share)
        return self._verdict

    @staticmethod
    def _judge(share: float) -> str:
        if share < LEAST_SHARE:
            return "the sound device takes nothing any more"
        if share > MOST_SHARE:
            return "the sound driver plays into nothing"
        return ""
