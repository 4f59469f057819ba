"""The Sound port: turns a rank and a dish into a burst and hands it to a player."""

from collections.abc import Callable

from timerboard.core.alarm_values import Rank

from .burst import burst, motif, motifs
from .players import Player, SilentPlayer


class BurstSound:
    """Keeps the promises of `desk.ports.Sound`: one burst at a time, the more pressing one wins."""

    def __init__(self, player: Player, now_ms: Callable[[], int], dishes: tuple[str, ...] = ()) -> None:
        self._player = player
        self._now_ms = now_ms
        self._motifs = motifs(dishes)
        self._rank: Rank | None = None

    def play(self, rank: Rank, dish: str, level: float) -> None:
        """Start a burst unless one of higher rank is still playing."""
        if self._rank is not None and self._player.busy() and self._rank > rank:
            return
        self._rank = rank
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
