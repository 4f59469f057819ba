"""A joint in an oven, reduced to seven numbers, for many thinkable joints at once.

The core of a sphere (cylinder, slab) follows its surroundings through the modes of `heat_series`:
dm_n/dF = lambda_n^2 (T_around - m_n), core = sum A_n m_n, F = alpha t / L^2. A wet surface evaporates and behaves
as if the air were near its wet-bulb temperature; as it dries, what it feels rises towards the air of the oven:
T_around(F) = E1 - (E1 - E0) exp(-kappa F). With that the modes have a closed form. The linear surface (Biot number),
E0, E1 and kappa are effective numbers, fitted, not measured. Time is tied to the answer: every thinkable joint carries
the moment at which its core reaches the pull temperature, and its diffusivity follows from that.

Source of the modes: see `heat_series`. Wet-bulb range of roasting meat 55 to 80 °C: common practice, no table.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from .heat_series import Floats, Shape, amplitudes, eigenvalues, mode

MODES = 6
DIMENSIONS = 7
LEAST_RISE_C = 1.0
"""What a joint feels at last lies at least so far above the pull temperature: cooler ones never get there."""

_BIOT_GRID = np.geomspace(0.2, 60.0, 160)
_HALVINGS = 16  # of a log range of 10: to 0.02 %
_LONGEST_FOURIER = 30.0


@dataclass(frozen=True, slots=True)
class Before:
    """What is known before any reading. `pull_s`: seconds from the start to the pull; `pull_log_sd`: its log spread."""

    pull_c: float
    pull_s: float
    pull_log_sd: float
    oven_c: float
    start_c: float
    start_sd: float
    shape: Shape = Shape.SPHERE


@dataclass(frozen=True, slots=True)
class Joints:
    """Thinkable joints, one per row of the standard-normal coordinates they were made from."""

    pull_s: Floats  # seconds from the start until the core is at the pull temperature
    fourier: Floats  # Fourier number at that moment
    biot: Floats
    start_c: Floats
    first_c: Floats  # E0: what the surface feels at first
    last_c: Floats  # E1: and at last
    drying: Floats  # kappa
    squares: Floats  # lambda_n^2, one row per joint; the last column stands for all higher modes
    weights: Floats  # A_n at the tip of the probe
    shape: Shape

    def picked(self, rows: NDArray[np.intp]) -> "Joints":
        """Only those rows, in that order."""
        return _joined({name: getattr(self, name)[rows] for name in COLUMNS}, self.shape)


COLUMNS = tuple(f.name for f in fields(Joints) if f.name != "shape")


@lru_cache(maxsize=4)
def _tables(shape: Shape) -> tuple[Floats, Floats]:
    lam = eigenvalues(shape, _BIOT_GRID, MODES)
    return lam, amplitudes(shape, lam)


def modes(shape: Shape, biot: Floats, tip: Floats) -> tuple[Floats, Floats]:
    """lambda_n^2 and A_n, read off a fine table; a last column takes what is left of the weight, and decays faster."""
    lam, weight = _tables(shape)
    place = np.interp(np.log(biot), np.log(_BIOT_GRID), np.arange(len(_BIOT_GRID)))
    below = np.minimum(place.astype(int), len(_BIOT_GRID) - 2)
    part = (place - below)[:, np.newaxis]
    lam = lam[below] * (1 - part) + lam[below + 1] * part
    weight = weight[below] * (1 - part) + weight[below + 1] * part
    weight = weight * mode(shape, lam, tip[:, np.newaxis])
    rest = 1.0 - weight.sum(axis=1, keepdims=True)
    return np.hstack([lam**2, (lam[:, -1:] + np.pi / 2) ** 2]), np.hstack([weight, rest])


def _squash(z: Floats) -> Floats:
    return np.asarray(1.0 / (1.0 + np.exp(-z)))


def joints(z: Floats, before: Before) -> Joints:
    """Thinkable joints from coordinates that are independent and standard normal before any reading."""
    biot = np.clip(2.0 * np.exp(z[:, 1]), _BIOT_GRID[0], _BIOT_GRID[-1])
    start = before.start_c + before.start_sd * z[:, 2]
    floor = min(55.0, before.oven_c - 10.0)
    first = floor + (before.oven_c - floor) * _squash(1.3 * z[:, 3])
    least = np.maximum(first, before.pull_c + LEAST_RISE_C)
    last = least + np.maximum(before.oven_c - least, 0.0) * _squash(1.3 * z[:, 4] + 0.2)
    drying = 2.0 * np.exp(1.2 * z[:, 5])
    squares, weights = modes(before.shape, biot, np.minimum(0.25 * np.abs(z[:, 6]), 0.8))
    pull_s = before.pull_s * np.exp(before.pull_log_sd * z[:, 0])
    raw = Joints(pull_s, np.ones_like(pull_s), biot, start, first, last, drying, squares, weights, before.shape)
    return Joints(
        pull_s, _fourier_at(raw, before.pull_c), biot, start, first, last, drying, squares, weights, before.shape
    )


def together(parts: Sequence[Joints]) -> Joints:
    """Several sets of one shape as one."""
    return _joined({name: np.concatenate([getattr(part, name) for part in parts]) for name in COLUMNS}, parts[0].shape)


def _joined(columns: dict[str, Floats], shape: Shape) -> Joints:
    return Joints(**columns, shape=shape)


def mode_temperatures(joint: Joints, fourier: Floats) -> Floats:
    """m_n at Fourier numbers of shape (joints, times): shape (joints, times, modes)."""
    square = joint.squares[:, np.newaxis, :]
    drying = joint.drying[:, np.newaxis, np.newaxis]
    at = fourier[:, :, np.newaxis]
    decay = np.exp(-square * at)
    gap = square - drying
    gap = np.where(np.abs(gap) < 1e-6, 1e-6, gap)
    lag = square / gap * (np.exp(-drying * at) - decay)
    start, first, last = (c[:, np.newaxis, np.newaxis] for c in (joint.start_c, joint.first_c, joint.last_c))
    return np.asarray(start * decay + last * (1 - decay) - (last - first) * lag)


def profile_at_pull(joint: Joints, places: Floats) -> Floats:
    """Temperatures from middle (0) to surface (1) at the moment of the pull; shape (joints, places)."""
    lam, weight = np.sqrt(joint.squares[:, :-1]), amplitudes(joint.shape, np.sqrt(joint.squares[:, :-1]))
    form = weight[:, :, np.newaxis] * mode(joint.shape, lam[:, :, np.newaxis], places)
    temperatures = mode_temperatures(joint, joint.fourier[:, np.newaxis])[:, 0, :]
    known = np.einsum("jm,jmx->jx", temperatures[:, :-1], form)
    return np.asarray(known + temperatures[:, -1:] * (1.0 - form.sum(axis=1)))


def core_at(joint: Joints, fourier: Floats) -> Floats:
    """Core temperatures at Fourier numbers of shape (joints, times)."""
    return np.asarray(np.einsum("jtm,jm->jt", mode_temperatures(joint, fourier), joint.weights))


def core_after(joint: Joints, seconds: Floats) -> Floats:
    """Core temperatures so many seconds after the start; shape (joints, times)."""
    return core_at(joint, joint.fourier[:, np.newaxis] * seconds[np.newaxis, :] / joint.pull_s[:, np.newaxis])


def _fourier_at(joint: Joints, celsius: float) -> Floats:
    """The Fourier number at which each core is at `celsius`: halving on a log scale, all joints at once."""
    low = np.full_like(joint.pull_s, np.log(1e-3))
    high = np.full_like(joint.pull_s, np.log(_LONGEST_FOURIER))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        below = core_at(joint, np.exp(middle)[:, np.newaxis])[:, 0] < celsius
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.asarray(np.exp((low + high) / 2))
