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

from timerboard.core.alarm_values import Rank

RATE = 48_000
LEAD_S = 0.3
PARTIALS = (1.0, 0.8, 0.65, 0.5, 0.4, 0.3, 0.22)  # amplitude of the 1st to 7th harmonic
PEAK = 0.89  # of full scale at level 1: 1 dB of head room
SCALE_HZ = (261.63, 311.13, 349.23, 392.00, 466.16)  # C minor pentatonic, equal temperament at A4 = 440 Hz


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
    """A motif for each dish, all different: a later dish whose notes are taken gets the next free order.

    Danger and soon play the first two notes only, so those differ too as long as there are pairs of notes (twenty).
    """
    orders = tuple(permutations(SCALE_HZ, 4))
    given: dict[str, tuple[float, ...]] = {}
    for dish in dishes:
        first = orders.index(motif(dish))
        turned = orders[first:] + orders[:first]
        pairs = {notes[:2] for notes in given.values()}
        free = [notes for notes in turned if notes not in given.values()]
        own = [notes for notes in free if notes[:2] not in pairs]
        given[dish] = next(iter(own or free), motif(dish))
    return given


@lru_cache(maxsize=64)
def burst(rank: Rank, notes: tuple[float, ...], level: float = 1.0) -> bytes:
    """A whole burst as signed 16-bit mono PCM at RATE, lead silence included. `level` in (0, 1] scales its peak."""
    from .waves import pcm

    pulses = RHYTHM.get(rank, RHYTHM[Rank.SOON])
    tones = [(notes[p.note % len(notes)] * 2**p.octave, p.length_s, p.gap_s) for p in pulses]
    return pcm(tones, LEAD_S, level)


def length_s(pcm: bytes) -> float:
    """How long a burst lasts, in seconds."""
    return len(pcm) / 2 / RATE
