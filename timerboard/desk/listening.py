"""What the people at this board wish of its sound: how loud at most, spoken or not, whose answers; and do they hear it?

None of it belongs to the cook, so none of it is an event. What is worth keeping goes into the board's small memory.
"""

from collections.abc import Callable
from dataclasses import replace
from math import isfinite

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import AnswerAs, BoardWish, HearAlarm, HeardTest, Louder, PlaySound, SwitchVoice
from timerboard.core.view_values import Extras, Notice
from timerboard.core.words import dots

from .notices import Notices
from .ports import Memory
from .sounder import Sounder

SOUND_LOST = "lost sound"
HEAR_TEST = "hear-test"
STEP = 10  # percent
QUIETEST, LOUDEST = 20, 100
"""A ceiling can be low, never nought: silence is not a volume."""
MOST_NAMES = 8
LONGEST_NAME = 24


class Listening:
    """Keeps these wishes, and speaks of them in the foot and in notices."""

    def __init__(self, sounder: Sounder | None, memory: Memory | None, notices: Notices) -> None:
        self._sounder, self._memory, self._notices = sounder, memory, notices
        kept = memory.recall() if memory else {}
        self._percent = _percent(kept.get("loudest"))
        names = kept.get("names")
        self._names = [n for n in names if isinstance(n, str)][:MOST_NAMES] if isinstance(names, list) else []
        self.who = ""
        self._seen = ""  # the trouble with the sound that somebody has seen
        self._set_ceiling()
        voice = sounder.voice if sounder else None
        if voice and voice.on and kept.get("voice") is False:
            voice.switch()

    def wish(self, wish: BoardWish) -> str:
        """Do it; gives it in words."""
        rules: dict[type, Callable[..., str]] = {
            PlaySound: self._play,
            HeardTest: self._heard,
            Louder: self._louder,
            SwitchVoice: self._switch,
            AnswerAs: self._answer_as,
        }
        return rules[type(wish)](wish)

    def leave(self, key: str) -> bool:
        """Somebody has seen that the sound is lost; False when `key` is something else."""
        if key == SOUND_LOST:
            self._seen = self._trouble()
        return key == SOUND_LOST

    def told(self, extras: Extras) -> Extras:
        """The board's extras with everything about its sound."""
        trouble = self._trouble()
        if not trouble:
            self._seen = ""
        unseen = bool(trouble) and trouble != self._seen
        lost = (_lost(trouble, unseen),) if trouble else ()
        return replace(
            extras,
            sound=trouble,
            sound_state=dots(self._state(), self._voice()),
            sound_calls=unseen,
            who=self.who,
            names=tuple(self._names),
            notices=(*lost, *extras.notices),
        )

    def _trouble(self) -> str:
        return self._sounder.trouble() if self._sounder else ""

    def _state(self) -> str:
        if self._sounder is not None and self._sounder.off:
            return "sound off"
        return f"sound ok, {self._percent} %" if self._percent < LOUDEST else "sound ok"

    def _voice(self) -> str:
        voice = self._sounder.voice if self._sounder else None
        return ("voice on" if voice.on else "voice off") if voice and voice.able else ""

    def _play(self, _wish: PlaySound) -> str:
        """A due call at its loudest. Not while the sound is lost: that has its own line."""
        if self._sounder is None or self._sounder.off or self._trouble():
            return "there is no sound to test"
        self._sounder.hear(Rank.DUE)
        said = "A call was just played. Did you hear it from where you cook? + and - make calls louder and quieter"
        question = Notice(HEAR_TEST, said, Rank.NOTE, HeardTest(True), "yes", HeardTest(False), "no")
        self._notices.say(replace(question, again=PlaySound(), again_word="play again"))
        return "a call was played"

    def _heard(self, wish: HeardTest) -> str:
        self._notices.take_back(HEAR_TEST)
        if wish.heard:
            return "the call was heard"
        said = (
            "Nobody hears the board: turn its speaker up, plug one in, or bring the board nearer; + makes calls louder"
        )
        unheard = Notice(HEAR_TEST, said, Rank.DUE, HeardTest(True), "heard now", HearAlarm(HEAR_TEST), "watch it")
        self._notices.say(replace(unheard, again=PlaySound(), again_word="play again"))
        return "the call was not heard"

    def _louder(self, wish: Louder) -> str:
        self._percent = min(LOUDEST, max(QUIETEST, self._percent + wish.by * STEP))
        self._set_ceiling()
        self._keep("loudest", self._percent)
        if self._sounder:
            self._sounder.hear(Rank.SOON)
        return f"calls at {self._percent} % at most"

    def _switch(self, _wish: SwitchVoice) -> str:
        voice = self._sounder.voice if self._sounder else None
        if voice is None or not voice.able:
            return "this system has no voice"
        on = voice.switch()
        self._keep("voice", on)
        return "calls are spoken" if on else "calls are not spoken"

    def _answer_as(self, wish: AnswerAs) -> str:
        self.who = " ".join(wish.who.split())[:LONGEST_NAME]
        if self.who:
            self._names = [self.who, *(name for name in self._names if name != self.who)][:MOST_NAMES]
            self._keep("names", self._names)
        return f"{self.who} answers" if self.who else "nobody in particular answers"

    def _set_ceiling(self) -> None:
        if self._sounder:
            self._sounder.ceiling = self._percent / 100

    def _keep(self, name: str, value: float | bool | str | list[str]) -> None:
        if self._memory:
            self._memory.remember(name, value)


def _percent(kept: object) -> int:
    if isinstance(kept, int | float) and isfinite(kept):
        return min(LOUDEST, max(QUIETEST, round(kept)))
    return LOUDEST


def _lost(trouble: str, unseen: bool) -> Notice:
    """As loud as the screen can make it, and it stays when it was seen."""
    leave = HearAlarm(SOUND_LOST) if unseen else None
    text = f"Sound lost: {trouble}. Watch the board"
    return Notice(SOUND_LOST, text, Rank.DANGER, leave=leave, leave_word="Seen" if unseen else "")
