"""Bursts through miniaudio, the default player.

One stream stays open and plays silence between bursts: a burst then starts within one buffer, a sleeping output is
awake already, and a device that has gone is noticed even when nothing has to be heard.
"""

import ctypes
import ctypes.util
import sys
from collections.abc import Generator

import miniaudio

from .burst import RATE
from .pull_watch import PullWatch

BUFFER_MS = 20
REOPEN_AFTER_MS = 2_000
DUMMY_NAMES = ("dummy output", "auto_null", "null output", "discard all samples")


class _Tape:
    """What the device pulls from, on its own thread: one burst, then silence. Swapped as a whole, so no lock."""

    def __init__(self) -> None:
        self.frames = 0
        self.playing: list[tuple[bytes, int]] = [(b"", 0)]  # one cell: (pcm, byte position)

    def take(self, frames: int) -> bytes:
        self.frames += frames
        pcm, position = self.playing[0]
        part = pcm[position : position + 2 * frames]
        if self.playing[0][0] is pcm:
            self.playing[0] = (pcm, position + len(part))
        return part + bytes(2 * frames - len(part))

    def stream(self) -> Generator[bytes, int, None]:
        frames = yield b""
        while True:
            frames = yield self.take(frames)


class MiniaudioPlayer:
    """Keeps the promises of `players.Player`."""

    def __init__(self, backends: list[miniaudio.Backend] | None = None) -> None:
        _quieten_alsa()
        self._backends = backends or [b for b in miniaudio.Backend if b.name not in ("NULL", "CUSTOM", "WEBAUDIO")]
        self._tape = _Tape()
        self._watch = PullWatch(RATE)
        self._device: miniaudio.PlaybackDevice | None = None
        self._trouble = ""
        self._tried_ms: int | None = None
        self._open()

    def play(self, pcm: bytes) -> None:
        """Start a burst in place of any that plays."""
        self._tape.playing[0] = (pcm, 0)

    def stop(self) -> None:
        """Silence from the next buffer on."""
        self._tape.playing[0] = (b"", 0)

    def busy(self) -> bool:
        """True until the last frame of the burst was handed over."""
        pcm, position = self._tape.playing[0]
        return position < len(pcm)

    def tend(self, now_ms: int) -> None:
        """Notice a device that takes nothing or takes too fast; try to open one again every two seconds."""
        if self._device is not None:
            self._trouble = self._watch.look(now_ms, self._tape.frames)
        if self._trouble and (self._tried_ms is None or now_ms - self._tried_ms >= REOPEN_AFTER_MS):
            self._tried_ms = now_ms
            self._reopen()

    def trouble(self) -> str:
        """Empty, or why nothing is heard."""
        return self._trouble

    def close(self) -> None:
        """Let go of the device; only ever called from the window's thread, as miniaudio asks."""
        device, self._device = self._device, None
        if device is not None:
            device.close()

    def _reopen(self) -> None:
        kept = self._trouble
        self.close()
        self._open()
        # a driver that swallows everything opens again without complaint: only frames at real time clear the word
        self._trouble = self._trouble or kept

    def _open(self) -> None:
        try:
            self._device = miniaudio.PlaybackDevice(
                nchannels=1, sample_rate=RATE, buffersize_msec=BUFFER_MS, backends=self._backends, app_name="timerboard"
            )
            stream = self._tape.stream()
            next(stream)
            self._device.start(stream)
        except miniaudio.MiniaudioError:
            self._device, self._trouble = None, "no sound device"
            return
        self._watch.restart()
        self._trouble = _dummy(self._device.backend)


def _dummy(backend: str) -> str:
    """A sound server with no card offers a device that swallows everything, and names it so."""
    if backend.upper() != "PULSEAUDIO":
        return ""
    try:
        names = [str(d["name"]).lower() for d in miniaudio.Devices([miniaudio.Backend.PULSEAUDIO]).get_playbacks()]
    except miniaudio.MiniaudioError:
        return ""
    only_dummies = bool(names) and all(any(word in name for word in DUMMY_NAMES) for name in names)
    return "the sound server has only a dummy output" if only_dummies else ""


def _say_nothing(*_details: object) -> None:
    """ALSA writes a page to the terminal for every device it does not find; the board says it in four words."""


_HANDLER = ctypes.CFUNCTYPE(None, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p)
_QUIET = _HANDLER(_say_nothing)  # kept here, because ALSA keeps only the address


def _quieten_alsa() -> None:
    name = ctypes.util.find_library("asound") if sys.platform == "linux" else None
    if name:
        ctypes.CDLL(name).snd_lib_error_set_handler(_QUIET)
