"""What may put this machine to sleep while a cook runs: asked aside, told once when it is known."""

from collections.abc import Callable

from timerboard.core.words import upper_first

from .aside import Aside
from .keep_awake import KeepAwake
from .lid import lid_warning

PATIENT = 5  # looks, about a second apart; a system that has not agreed by then has not agreed


class StayingUp:
    """Awake from `begin` to `end`; `news`, asked at every look, tells once what the cook has to know."""

    def __init__(self, lid: Callable[[], str] = lid_warning) -> None:
        self._awake, self._lid_warning = KeepAwake(), lid
        self._lid: Aside[str] | None = None
        self._looks = 0
        self._told = False

    def begin(self) -> None:
        """Ask the system; what it says comes later."""
        self._awake.start()
        self._lid = Aside(self._lid_warning, "lid")

    def news(self) -> str:
        """Words for the cook, once; "" before anything is known and when all is well."""
        if self._lid is None or self._told:
            return ""
        self._looks += 1
        lid = self._lid.found()
        if self._looks <= PATIENT and (lid is None or not self._awake.answered()):
            return ""
        self._told = True
        return ". ".join(upper_first(words) for words in (self._awake.trouble(), lid or "") if words)

    def end(self) -> None:
        """Let the machine sleep again."""
        self._awake.stop()
