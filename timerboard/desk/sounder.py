"""Makes the board heard: asks which burst is due and plays each once, and says who calls behind it."""

from collections.abc import Iterable

from timerboard.core.alarm_values import Alarm, Answered, Rank
from timerboard.core.alarms import pressing
from timerboard.core.cook import Cook
from timerboard.core.one_call import coming
from timerboard.core.sounding import Sounding, sounding
from timerboard.core.spoken import spoken
from timerboard.core.values import Moment

from .ports import Sound, Voice

SAID_EVERY = 4
"""The first burst of a call and every fourth are said, so that a voice does not talk over the kitchen."""


class Sounder:
    """Plays what `sounding` tells. It remembers only which burst it played last, and for whom."""

    def __init__(self, sound: Sound, voice: Voice | None = None, ceiling: float = 1.0) -> None:
        self._sound = sound
        self.voice = voice
        self._played: frozenset[str] = frozenset()
        self._armed: tuple[str, Rank, str, float, int] | None = None
        self._calls: frozenset[str] = frozenset()  # for whom it sounds; empty while nothing does
        self.ceiling = ceiling

    def look(self, alarms: Iterable[Alarm], cook: Cook, now: Moment, *, flood: bool = False) -> tuple[Sounding, bool]:
        """What sounds at `now`, and whether a burst was begun. What was answered while it played falls silent."""
        standing = tuple(alarms)
        due = sounding(standing, cook, now, self.ceiling)
        calling = {alarm.id for alarm in standing if alarm.answered is Answered.NOT}
        ahead = self._sound.went()
        on_time = bool(ahead) and ahead == due.key and due.key not in self._played
        if ahead:
            self._armed = None
        if ahead and not on_time:
            self._sound.hush()  # answered, or another burst fell due, before anybody looked
        if not on_time and (due.alarm is None or not self._calls <= calling):
            self._fall_silent()  # the rest of an answered burst would swallow the next one
        if due.alarm is None or due.key in self._played:
            return due, False
        self._played = due.covers | {due.key}
        self._calls = frozenset({due.alarm.id})
        if not on_time:
            self.look_no_further()  # its armed twin may begin any moment, and taking that back later would silence this
            self._sound.play(due.alarm.rank, due.alarm.dish, due.level)
        if due.burst % SAID_EVERY == 0:
            self._say(due, standing if flood else (), cook, now)
        return due, True

    def look_ahead(self, alarms: Iterable[Alarm], cook: Cook, at: Moment, at_ms: int) -> None:
        """Arm the burst that will fall due at `at`, which is `at_ms` on the clock of this boot.

        So that it is heard on time however busy the board is then; the look at that moment finds it begun. The one that
        is armed already is let be: taking it back and arming it again could miss its very moment.
        """
        due = sounding(alarms, cook, at, self.ceiling)
        wanted = None
        if due.alarm is not None and due.key not in self._played:
            wanted = (due.key, due.alarm.rank, due.alarm.dish, due.level, at_ms)
        if wanted == self._armed:
            return
        self.look_no_further()
        if wanted is not None:
            self._sound.arm(*wanted)
        self._armed = wanted

    def look_no_further(self) -> None:
        """Nothing is to begin by itself."""
        if self._armed is not None and self._sound.disarm():
            self._sound.hush()  # it began a moment ago, and nobody calls for it any more
        self._armed = None

    def hear(self, rank: Rank) -> None:
        """'Hear it': one rank's burst as it will sound at its loudest; no alarm is made."""
        self._sound.play(rank, "", self.ceiling)

    @property
    def off(self) -> bool:
        """True when silence was asked for."""
        return self._sound.off

    def trouble(self) -> str:
        """Why bursts do not reach anyone, "" when they do as far as is known."""
        return self._sound.trouble()

    def close(self) -> None:
        """Let go of the devices."""
        self._sound.close()
        if self.voice:
            self.voice.close()

    def _say(self, due: Sounding, flooding: tuple[Alarm, ...], cook: Cook, now: Moment) -> None:
        """One call with all its jobs; in a flood the most pressing call, and how many wait behind it."""
        if self.voice is None or due.alarm is None:
            return
        waiting = [a for a in flooding if a.rank >= Rank.DUE and a.answered is Answered.NOT]
        if waiting:
            self.voice.say(spoken(min(waiting, key=pressing), more=len(waiting) - 1))
        else:
            self.voice.say(spoken(due.alarm, (*due.others, *coming(cook, due.alarm, now))))

    def _fall_silent(self) -> None:
        if self._calls:
            self._sound.hush()
        self._calls = frozenset()
