"""Is sound really going somewhere? Judged by how fast a device takes frames.

A device that takes none is gone; one that takes them far faster than they can sound is a driver that plays into
nothing. Pure: the caller says what time it is.
"""

from collections import deque
from dataclasses import dataclass, field

OVER_MS = 3_000  # under the 5 s in which a loss must be noticed, with a look each second
AWAY_MS = 6_000  # nobody looked for so long: the machine slept or the board hung, and the device may have slept too
LEAST_SHARE = 0.2  # of real time: less is a stalled device
MOST_SHARE = 4.0  # of real time: more is no device at all


@dataclass
class PullWatch:
    """Compares frames taken with time gone by, at every look over the last OVER_MS."""

    rate: int
    _looks: deque[tuple[int, int]] = field(default_factory=deque)  # (ms, frames), oldest first
    _verdict: str = ""
    judged: bool = False  # since the last restart

    def restart(self) -> None:
        """A device was opened: count anew. The verdict stands until frames have flowed for long enough to lift it."""
        self._looks.clear()
        self.judged = False

    def look(self, now_ms: int, frames: int) -> str:
        """Empty while frames flow at about real time; else what is wrong."""
        if self._looks and now_ms - self._looks[-1][0] > AWAY_MS:
            self._looks.clear()
        self._looks.append((now_ms, frames))
        while len(self._looks) > 1 and now_ms - self._looks[1][0] >= OVER_MS:
            self._looks.popleft()
        since, taken = self._looks[0]
        if now_ms - since >= OVER_MS:
            self.judged = True
            self._verdict = self._judge((frames - taken) * 1000 / ((now_ms - since) * self.rate))
        return self._verdict

    @staticmethod
    def _judge(share: float) -> str:
        if share < LEAST_SHARE:
            return "the sound device takes nothing any more"
        if share > MOST_SHARE:
            return "the sound driver plays into nothing"
        return ""
