"""Alarm bursts, synthesised: rank is told by rhythm, the dish by melody.

Our own patterns. What follows practice for alarm sounds (secondary sources for IEC 60601-1-8 and MIL-STD-1472; nothing
here claims conformance): fundamentals of 150-1000 Hz, at least four harmonics in 300-4000 Hz within 15 dB of the
fundamental, raised-cosine attack over about a fifth of a pulse, bursts with gaps and never a continuous tone, a first
half second that differs from rank to rank. 300 ms of silence go first, because an idle output may swallow its start.
"""

import zlib
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from timerboard.core.alarm_values import Rank

RATE = 48_000
LEAD_S = 0.3
PARTIALS = (1.0, 0.8, 0.65, 0.5, 0.4, 0.3, 0.22)  # amplitude of the 1st to 7th harmonic
SCALE_HZ = (261.63, 311.13, 349.23, 392.00, 466.16)  # C minor pentatonic, equal temperament at A4 = 440 Hz
PEAK = 0.89  # of full scale at level 1: 1 dB of head room

Samples = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Pulse:
    """One sounded stretch: its note in the motif, its length and the gap after it, in seconds."""

    note: int
    length_s: float
    gap_s: float
    octave: int = 0


RHYTHM: dict[Rank, tuple[Pulse, ...]] = {
    # danger: hurried triplets that jump an octave, twice
    Rank.DANGER: tuple(
        Pulse(note, 0.085, gap, octave)
        for note, gap, octave in ((0, 0.05, 0), (0, 0.05, 1), (0, 0.16, 0), (1, 0.05, 0), (1, 0.05, 1), (1, 0.35, 0))
        * 2
    ),
    # due: a walking call of four notes, the third held
    Rank.DUE: (Pulse(0, 0.19, 0.11), Pulse(1, 0.19, 0.11), Pulse(2, 0.38, 0.14), Pulse(3, 0.22, 0.0)),
    # soon: one long low note and its neighbour
    Rank.SOON: (Pulse(0, 0.42, 0.2), Pulse(1, 0.3, 0.0)),
}


def motif(dish: str) -> tuple[float, ...]:
    """Four different notes, in Hz, that stand for a dish: the same name always calls with the same ones."""
    orders = tuple(permutations(SCALE_HZ, 4))
    return orders[zlib.crc32(dish.casefold().encode()) % len(orders)]


def motifs(dishes: tuple[str, ...]) -> dict[str, tuple[float, ...]]:
    """A motif for each dish, all different: a later dish whose notes are taken gets the next free order."""
    orders = tuple(permutations(SCALE_HZ, 4))
    given: dict[str, tuple[float, ...]] = {}
    for dish in dishes:
        first = orders.index(motif(dish))
        free = (orders[(first + k) % len(orders)] for k in range(len(orders)))
        given[dish] = next((notes for notes in free if notes not in given.values()), motif(dish))
    return given


@lru_cache(maxsize=64)
def burst(rank: Rank, notes: tuple[float, ...], level: float = 1.0) -> bytes:
    """A whole burst as signed 16-bit mono PCM at RATE, lead silence included. `level` in (0, 1] scales its peak."""
    parts: list[Samples] = [np.zeros(round(LEAD_S * RATE))]
    for pulse in RHYTHM.get(rank, RHYTHM[Rank.SOON]):
        parts.append(_tone(notes[pulse.note % len(notes)] * 2**pulse.octave, pulse.length_s))
        parts.append(np.zeros(round(pulse.gap_s * RATE)))
    wave = np.concatenate(parts)
    peak = float(np.max(np.abs(wave))) or 1.0
    scaled = wave / peak * PEAK * min(1.0, max(0.0, level)) * 32767
    return np.round(scaled).astype("<i2").tobytes()


def length_s(pcm: bytes) -> float:
    """How long a burst lasts, in seconds."""
    return len(pcm) / 2 / RATE


def _tone(hertz: float, seconds: float) -> Samples:
    at = np.arange(round(seconds * RATE)) / RATE
    wave = np.zeros_like(at)
    for order, amplitude in enumerate(PARTIALS, start=1):
        wave += amplitude * np.sin(2 * np.pi * hertz * order * at)
    return np.asarray(wave * _envelope(at.size), dtype=np.float64)


def _envelope(size: int) -> Samples:
    attack, decay = size // 5, size // 3
    shape = np.ones(size)
    shape[:attack] = 0.5 - 0.5 * np.cos(np.pi * np.arange(attack) / attack)
    shape[size - decay :] = 0.5 + 0.5 * np.cos(np.pi * np.arange(decay) / decay)
    return shape
