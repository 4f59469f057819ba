"""Tones added up from their partials. Apart from `burst.py`, because numpy is not loaded before a window shows."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from .burst import PARTIALS, PEAK, RATE

Samples = NDArray[np.float64]


def pcm(tones: Iterable[tuple[float, float, float]], lead_s: float, level: float) -> bytes:
    """Signed 16-bit mono PCM at RATE of (hertz, length, gap after it; both in seconds), silence of `lead_s` first."""
    parts: list[Samples] = [np.zeros(round(lead_s * RATE))]
    for hertz, length_s, gap_s in tones:
        parts.append(_tone(hertz, length_s))
        parts.append(np.zeros(round(gap_s * RATE)))
    wave = np.concatenate(parts)
    peak = float(np.max(np.abs(wave))) or 1.0
    scaled = wave / peak * PEAK * min(1.0, max(0.0, level)) * 32767
    return np.round(scaled).astype("<i2").tobytes()


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
