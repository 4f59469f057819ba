"""The Sound port: turns a rank and a dish into a burst and hands it to a player."""

from collections import deque
from collections.abc import Callable
from functools import partial

from timerboard.core.alarm_values import Rank

from .burst import burst, motif, motifs
from .players import Player, SilentPlayer

MOST_BEGUN = 64


class BurstSound:
    """Keeps the promises of `desk.ports.Sound`: one burst at a time, the more pressing one wins.

    `plays` counts bursts; `begun` gives which of them the device has begun to take since it was last asked, and when.
    """

    def __init__(self, player: Player, now_ms: Callable[[], int], dishes: tuple[str, ...] = ()) -> None:
        self._player = player
        self._now_ms = now_ms
        self._motifs = motifs(dishes)
        self._rank: Rank | None = None
        self._ahead: tuple[str, Rank] | None = None
        self.plays = 0
        self._begun: deque[tuple[int, int]] = deque(maxlen=MOST_BEGUN)
        player.handed = self._handed

    @property
    def off(self) -> bool:
        """True when silence was asked for."""
        return isinstance(self._player, SilentPlayer) and not self._player.trouble()

    def learn(self, dishes: tuple[str, ...]) -> None:
        """Give each of these dishes a melody of its own."""
        self._motifs = motifs(dishes)

    def begun(self) -> list[tuple[int, int]]:
        """(number of the burst, kitchen ms) of every burst whose first sample was taken, each once.

        Not of one that began by itself and that nobody has found begun yet: whose it is, is not known before.
        """
        told = []
        while self._begun and self._begun[0][0] <= self.plays:
            told.append(self._begun.popleft())
        return told

    def _handed(self) -> None:
        self._note(self.plays)

    def _note(self, number: int) -> None:
        """Maybe on the device's own thread: note and go."""
        self._begun.append((number, self._now_ms()))

    def play(self, rank: Rank, dish: str, level: float) -> None:
        """Start a burst unless one of higher rank is still playing."""
        if self._rank is not None and self._player.busy() and self._rank > rank:
            return
        self._rank = rank
        self.plays += 1
        self._player.play(self._burst(rank, dish, level))

    def arm(self, name: str, rank: Rank, dish: str, level: float, at_ms: int) -> None:
        """A burst that begins by itself in the stream's own time, however busy the window is just then."""
        self._ahead = None
        if self._rank is not None and self._player.busy() and self._rank > rank:
            self._player.disarm()
            return
        self._ahead = (name, rank)
        begun = partial(self._note, self.plays + 1)
        self._player.arm(self._burst(rank, dish, level), lambda: self._now_ms() >= at_ms, begun)

    def went(self) -> str:
        """Its name once it has begun: from then on it counts as played."""
        return self._played_ahead() if self._ahead is not None and self._player.went() else ""

    def disarm(self) -> str:
        """Take it back; its name when it was too late for that."""
        if self._ahead is not None and self._player.disarm():
            return self._played_ahead()
        self._ahead = None
        return ""

    def _played_ahead(self) -> str:
        assert self._ahead is not None
        (name, self._rank), self._ahead = self._ahead, None
        self.plays += 1
        return name

    def _burst(self, rank: Rank, dish: str, level: float) -> bytes:
        return burst(rank, self._motifs.get(dish) or motif(dish), round(level, 2))

    def hush(self) -> None:
        """Stop what plays now."""
        self._player.stop()

    def trouble(self) -> str:
        """Look after the device, then say what is wrong with it: called at every look, about once a second."""
        self._player.tend(self._now_ms())
        return self._player.trouble()

    def close(self) -> None:
        """Let go of the device."""
        self._player.close()


def best_player(wanted: str = "auto") -> Player:
    """The player of that name (`auto`, `miniaudio`, `simpleaudio`, `silent`); silence with a reason where none is."""
    if wanted == "silent":
        return SilentPlayer()
    if wanted in ("auto", "miniaudio"):
        try:
            from .miniaudio_player import MiniaudioPlayer

            return MiniaudioPlayer()
        except ImportError:
            if wanted == "miniaudio":
                return SilentPlayer("miniaudio is not installed")
    from .simpleaudio_player import SimpleaudioPlayer, available

    return SimpleaudioPlayer() if available() else SilentPlayer("no player of sound is installed")
