"""Makes the board heard: asks which burst is due and plays each once, and says who calls behind it."""

from collections.abc import Iterable

from timerboard.core.alarm_values import Alarm, Rank
from timerboard.core.cook import Cook
from timerboard.core.sounding import Sounding, sounding
from timerboard.core.values import Moment

from .ports import Sound, Voice


class Sounder:
    """Plays what `sounding` tells. It remembers only which burst it played last."""

    def __init__(self, sound: Sound, voice: Voice | None = None, ceiling: float = 1.0) -> None:
        self._sound = sound
        self._voice = voice
        self._played = ""
        self._silent = True
        self.ceiling = ceiling

    def look(self, alarms: Iterable[Alarm], cook: Cook, now: Moment) -> tuple[Sounding, bool]:
        """What sounds at `now`, and whether a burst was begun. What was answered while it played falls silent."""
        due = sounding(alarms, cook, now, self.ceiling)
        if due.alarm is None:
            self._fall_silent()
            return due, False
        if due.key == self._played:
            return due, False
        self._played, self._silent = due.key, False
        self._sound.play(due.alarm.rank, due.alarm.dish, due.level)
        self._say(due.alarm, due.burst)
        return due, True

    def hear(self, rank: Rank) -> None:
        """'Hear it': one rank's burst as it will sound at its loudest; no alarm is made."""
        self._silent = False
        self._sound.play(rank, "", self.ceiling)

    def trouble(self) -> str:
        """Why bursts do not reach anyone, "" when they do as far as is known."""
        return self._sound.trouble()

    def close(self) -> None:
        """Let go of the devices."""
        self._sound.close()
        if self._voice:
            self._voice.close()

    def _say(self, alarm: Alarm, burst: int) -> None:
        """The first call and every fourth are said, so that a voice does not talk over the kitchen."""
        if self._voice and burst % 4 == 0:
            self._voice.say(f"{alarm.sentence}." if not alarm.where else f"{alarm.sentence}, {alarm.where}.")

    def _fall_silent(self) -> None:
        if not self._silent:
            self._sound.hush()
        self._silent = True
