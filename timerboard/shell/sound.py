"""The Sound port: turns a rank and a dish into a burst and hands it to a player."""

from collections import deque
from collections.abc import Callable

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
        """(number of the burst, kitchen ms) of every burst whose first sample was taken, each once."""
        return [self._begun.popleft() for _ in range(len(self._begun))]

    def _handed(self) -> None:
        """Maybe on the device's own thread: note and go."""
        self._begun.append((self.plays, self._now_ms()))

    def play(self, rank: Rank, dish: str, level: float) -> None:
        """Start a burst unless one of higher rank is still playing."""
        if self._rank is not None and self._player.busy() and self._rank > rank:
            return
        self._rank = rank
        self.plays += 1
        self._player.play(burst(rank, self._motifs.get(dish) or motif(dish), round(level, 2)))

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
