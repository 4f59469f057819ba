"""Bursts through miniaudio, the default player.

One stream stays open and plays silence between bursts: a burst then starts within one buffer, a sleeping output is
awake already, and a device that has gone is noticed even when nothing has to be heard.
"""

import atexit
import ctypes
import ctypes.util
import sys
from collections.abc import Callable, Generator
from threading import Lock, Thread
from typing import NamedTuple

import miniaudio

from .aside import PATIENCE_S, Aside
from .burst import RATE
from .players import nobody_asks
from .pull_watch import PullWatch

BUFFER_MS = 20
REOPEN_AFTER_MS = 2_000
NAMED_EVERY_MS = 4_000
MOST_CLOSING = 3
NO_ANSWER_MS = 2_000
CLOSED_WITHIN_S = 1.0
DUMMY_NAMES = ("dummy output", "auto_null", "null output", "discard all samples")


class _Burst(NamedTuple):
    """What is to be played, whom to tell when its first sample is taken, and for an armed one whether it is time."""

    pcm: bytes = b""
    begun: Callable[[], None] = nobody_asks
    due: Callable[[], bool] = bool


class _Opened(NamedTuple):
    """What came of opening a device: none at all, or one that is a dummy by its name, or simply one."""

    device: miniaudio.PlaybackDevice | None
    dummy: str = ""


SILENCE = _Burst()


class _Tape:
    """What the device pulls from, on its own thread: one burst, then silence.

    Both threads put something in the place of what plays, so each does it with the lock, held for microseconds: else
    the device, noting how far it has come, could write over a burst the window has just put there. The device never
    waits for it: when it is held, the next buffer, 20 ms later, is soon enough, and nothing of a burst is skipped.
    """

    def __init__(self) -> None:
        self.frames = 0
        self.playing: list[tuple[_Burst, int]] = [(SILENCE, 0)]  # one cell: (burst, byte position)
        self._armed: _Burst | None = None
        self._arming = Lock()

    def go_on(self) -> "_Tape":
        """A tape for another device, with what this one has still to play; the old device gets nothing more."""
        tape = _Tape()
        with self._arming:
            tape._armed, self._armed = self._armed, None
            tape.frames, tape.playing = self.frames, self.playing
            self.playing = [(SILENCE, 0)]
        return tape

    @property
    def waits(self) -> bool:
        """True while a burst is armed and has not begun."""
        return self._armed is not None

    def arm(self, burst: _Burst | None) -> bool:
        """Put a burst in the place of the armed one; True when that was still there."""
        with self._arming:
            waiting, self._armed = self._armed is not None, burst
        return waiting

    def put(self, burst: _Burst) -> None:
        """Put a burst in the place of the one that plays."""
        with self._arming:
            self.playing[0] = (burst, 0)

    def take(self, frames: int) -> bytes:
        self.frames += frames
        if not self._arming.acquire(blocking=False):
            return bytes(2 * frames)
        try:
            part, begun = self._wind(frames)
        finally:
            self._arming.release()
        begun()  # whoever is told may ask the tape something
        return part + bytes(2 * frames - len(part))

    def _wind(self, frames: int) -> tuple[bytes, Callable[[], None]]:
        """With the lock: what comes next of the burst, and whom to tell that it has begun."""
        if self._armed is not None and self._armed.due():
            self.playing[0], self._armed = (self._armed, 0), None
        burst, position = self.playing[0]
        part = burst.pcm[position : position + 2 * frames]
        self.playing[0] = (burst, position + len(part))
        return part, burst.begun if part and not position else nobody_asks

    def stream(self) -> Generator[bytes, int, None]:
        frames = yield b""
        while True:
            frames = yield self.take(frames)


class MiniaudioPlayer:
    """Keeps the promises of `players.Player`."""

    def __init__(self, backends: list[miniaudio.Backend] | None = None) -> None:
        _quieten_alsa()
        self._backends = backends or [b for b in miniaudio.Backend if b.name not in ("NULL", "CUSTOM", "WEBAUDIO")]
        self.handed = nobody_asks
        self._tape = _Tape()
        self._watch = PullWatch(RATE)
        self._device: miniaudio.PlaybackDevice | None = None
        self._trouble = ""
        self._dummy = ""
        self._named_ms = 0
        self._tried_ms: int | None = None
        self._closing: list[Thread] = []
        self._opening: Aside[_Opened] | None = None
        self._opening_ms: int | None = None  # when somebody first looked at what is still being opened
        self._naming: Aside[str] | None = None
        self._kept = ""
        self._closed = False
        atexit.register(self.close)  # a device that is still open when Python takes itself down waits for ever
        self._open()

    def play(self, pcm: bytes) -> None:
        """Start a burst in place of any that plays."""
        self._tape.put(_Burst(pcm, self._begun))

    def arm(self, pcm: bytes, due: Callable[[], bool], begun: Callable[[], None]) -> None:
        """The device's own thread looks for its moment with every buffer."""
        self._tape.arm(_Burst(pcm, begun, due))

    def went(self) -> bool:
        """True once the device's thread has begun it."""
        return not self._tape.waits

    def disarm(self) -> bool:
        """Take it back, unless it has begun."""
        return not self._tape.arm(None)

    def _begun(self) -> None:
        self.handed()

    def stop(self) -> None:
        """Silence from the next buffer on."""
        self._tape.put(SILENCE)

    def busy(self) -> bool:
        """True until the last frame of the burst was handed over."""
        burst, position = self._tape.playing[0]
        return position < len(burst.pcm)

    def tend(self, now_ms: int) -> None:
        """Notice a device that takes nothing or takes too fast; try to open one again every two seconds."""
        if self._opening is not None:
            self._wait_for_it(now_ms)
            return
        if self._device is not None:
            self._trouble = self._watch.look(now_ms, self._tape.frames)
            self._look_for_a_dummy(self._device, now_ms)
        known = self._device is None or self._watch.judged  # a device just opened gets its time to prove itself
        if self._trouble and known and (self._tried_ms is None or now_ms - self._tried_ms >= REOPEN_AFTER_MS):
            self._tried_ms = now_ms
            self._reopen()

    def trouble(self) -> str:
        """Empty, or why nothing is heard."""
        return self._trouble or self._dummy

    def close(self) -> None:
        """Let go of the device, and wait a moment for it to let go of us."""
        atexit.unregister(self.close)
        self._closed = True
        self._take_it()
        self._let_go()
        for closing in self._closing:
            closing.join(CLOSED_WITHIN_S)

    def _let_go(self) -> None:
        """Close on a thread of its own: a device that hangs would hold up the window for good.

        Never on the device's own thread, where closing waits for itself (as miniaudio says).
        """
        device, self._device = self._device, None
        if device is not None:
            closing = Thread(target=device.close, daemon=True, name="sound device closing")
            closing.start()
            self._closing.append(closing)

    def _reopen(self) -> None:
        kept = self._trouble
        self._let_go()
        self._closing = [closing for closing in self._closing if closing.is_alive()]
        if len(self._closing) >= MOST_CLOSING:
            return  # each of them hangs: one more would hang as well
        self._tape = self._tape.go_on()
        self._open(kept, patience_s=0)

    def _open(self, kept: str = "", patience_s: float = PATIENCE_S) -> None:
        """Begin to open a device; `kept` is the trouble that only frames at real time will lift.

        A driver that swallows everything opens again without complaint, and a sound server that hangs never answers.
        """
        tape = self._tape
        self._kept, self._opening_ms = kept, None
        self._opening = Aside(lambda: self._opened(tape), "sound device opening", patience_s)
        self._take_it()

    def _opened(self, tape: _Tape) -> _Opened:
        """On a thread of its own: a device that pulls from `tape`, and what is wrong with it by its name."""
        try:
            device = miniaudio.PlaybackDevice(
                nchannels=1, sample_rate=RATE, buffersize_msec=BUFFER_MS, backends=self._backends, app_name="timerboard"
            )
            stream = tape.stream()
            next(stream)
            device.start(stream)
        except Exception:  # whatever a driver comes up with: work aside must not raise, or it would never be found
            return _Opened(None)
        name = dummy(device.backend)
        if self._closed:  # nobody wants it any more; asked last, because naming may take long
            device.close()
            return _Opened(None)
        return _Opened(device, name)

    def _take_it(self) -> None:
        """Take the device that was opened, once it is there."""
        opened = self._opening.found() if self._opening is not None else None
        if opened is None:
            return
        self._opening = None
        self._device, self._dummy = opened.device, opened.dummy
        if opened.device is None:
            self._trouble = self._kept or "no sound device"
            return
        self._watch.restart()
        self._trouble = self._kept

    def _wait_for_it(self, now_ms: int) -> None:
        self._take_it()
        self._opening_ms = self._opening_ms or now_ms
        if self._opening is not None and now_ms - self._opening_ms >= NO_ANSWER_MS:
            self._trouble = self._trouble or "the sound system does not answer"
            self._kept = self._kept or self._trouble

    def _look_for_a_dummy(self, device: miniaudio.PlaybackDevice, now_ms: int) -> None:
        """A dummy takes frames as a speaker does: only its name tells, and a real output may come at any time."""
        if self._naming is None and now_ms - self._named_ms >= NAMED_EVERY_MS:
            self._named_ms, backend = now_ms, device.backend
            self._naming = Aside(lambda: dummy(backend), "sound devices named", patience_s=0)
        named = self._naming.found() if self._naming is not None else None
        if named is not None:
            self._dummy, self._naming = named, None


def dummy(backend: str) -> str:
    """A sound server with no card offers a device that swallows everything, and names it so."""
    if backend.upper() != "PULSEAUDIO":
        return ""
    try:
        names = [str(d["name"]).lower() for d in miniaudio.Devices([miniaudio.Backend.PULSEAUDIO]).get_playbacks()]
    except Exception:  # it is asked aside, where nothing may be raised; a device without a name is no dummy
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
