"""A joint in an oven, reduced to eight numbers, for many thinkable joints at once.

The core follows its surroundings through the modes of `heat_series`: dm_n/dF = lambda_n^2 (T_around - m_n),
core = sum A_n m_n, F = alpha t / L^2. A wet surface evaporates and behaves as if the air were near its wet-bulb
temperature; as it dries, what it feels rises: T_around(F) = E1 - (E1 - E0) exp(-kappa F). With that the modes have a
closed form. Time is tied to the answer: every thinkable joint carries the moment at which its core reaches the pull
temperature, and its diffusivity follows from that.

What is thinkable comes from physics, not from curves: E0, E1, kappa and the Biot number follow from a balance of heat
at the surface (`heat_surface`) for heat-transfer coefficients, vapour, wetness and drying within the ranges below, and
from the properties of lean meat (`food_properties`).
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from .food_properties import LEAN_MEAT, properties
from .heat_modes import LEAST_BIOT, MOST_BIOT, modes
from .heat_series import Floats, Shape, amplitudes, mode
from .heat_surface import LATENT, strengthened, tends_to

DIMENSIONS = 8
LEAST_RISE_C = 1.0
"""What a joint feels at last lies at least so far above the pull temperature: cooler ones never get there."""

H, H_LOG_SD = 20.0, 0.45
"""W/m2 K from oven to a joint of SIZE_M, convection and radiation: 10 to 15 in still ovens, 20 to 40 with a fan.
From memory of texts on ovens; no table was at hand."""
SIZE_M, SMALLER = 0.06, 0.3
"""Small bodies take up more: h goes with size to the power of -1/4 (free) to -0.4 (forced convection); from memory."""
VAPOUR_PA, VAPOUR_LOG_SD, MOST_VAPOUR_PA = 4000.0, 0.7, 40_000.0
"""Vapour in the oven: a kitchen's 1.5 kPa and what the food gives off. An estimate."""
WET, WET_LOG_SD = 0.06, 0.7
"""How wet a surface stays once it has dried: 2 to 20 % of a wet one, as water comes after from inside. An estimate."""
DRY_KG, DRY_LOG_SD = 0.5, 0.8
"""kg/m2 that are lost before a surface has dried to a third: a roast's loss is 1 to 3 kg/m2 in all. An estimate."""
RISING = 0.5
"""What a surface feels rises about half as fast as it dries: its temperature goes with the log of its wetness."""
TIP, MOST_TIP = 0.2, 0.8
"""How far a probe's tip is from the middle, as a share of the way out: one standard deviation. Common practice."""
PLACE = {Shape.SLAB: 0.0, Shape.CYLINDER: 1.0, Shape.SPHERE: 2.0}
BETWEEN = {Shape.SLAB: (0.0, 0.3), Shape.CYLINDER: (1.0, 0.3), Shape.SPHERE: (1.0, 0.8)}
"""Where between slab (0), cylinder (1) and sphere (2) a joint lies, and its standard deviation. Flat and long ones are
told by words; a sphere is what is left, and that may be anything: taken for round for certain, flat and long joints
were foretold a fifth of the time left too early half way (simulated roasts 20,000 to 20,099). Common practice."""
_LOG_FOURIER = np.log([0.73, 0.36, 0.25])
"""At a typical pull of slab, cylinder and sphere: one term, Bi 8, theta 0.3."""
_MEAT = properties(LEAN_MEAT, 50.0)

_HALVINGS, _CHORDS = 6, 2  # together to 0.001 °C
_LONGEST_FOURIER = 30.0


@dataclass(frozen=True, slots=True)
class Allowance:
    """How far things may be off. Chosen among a few by `tests/outside/left_out.py`, from simulated roasts and curves;
    only `walk` and `soft_c` are not what was chosen (0.15, 16): with these the band held more of the training roasts.

    `read_sd_c`: a reading from the core: probe and rounding. `walk`: variance (°C2) by which the model may stray from
    the core per degree that the core has risen. `left_log_sd`: spread of the time left that no reading shows: doors,
    the oven's swing. `soft_c`: how far above the pull what a joint feels at last must lie, about, as it does get there.
    """

    read_sd_c: float = 0.5
    walk: float = 0.3
    left_log_sd: float = 0.05
    soft_c: float = 12.0


USUAL = Allowance()


@dataclass(frozen=True, slots=True)
class Before:
    """What is known before any reading. `pull_s`: seconds from the start to the pull; `pull_log_sd`: its log spread.

    `place`, `place_sd`: where it lies between slab (0), cylinder (1) and sphere (2), as in BETWEEN.
    """

    pull_c: float
    pull_s: float
    pull_log_sd: float
    oven_c: float
    start_c: float
    start_sd: float
    shape: Shape
    place: float
    place_sd: float
    allowance: Allowance = USUAL


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

    def in_the_middle(self, pull_c: float) -> "Joints":
        """The same, exactly of their shape, the probe in the middle, pulled at `pull_c` (as far as each gets)."""
        squares, weights = modes(self.shape, self.biot, np.zeros_like(self.biot))
        centred = replace(self, squares=squares, weights=weights)
        return replace(centred, fourier=_fourier_at(centred, np.minimum(pull_c, self.last_c - LEAST_RISE_C / 2)))


COLUMNS = tuple(f.name for f in fields(Joints) if f.name != "shape")


def joints(z: Floats, before: Before) -> Joints:
    """Thinkable joints from coordinates that are independent and standard normal before any reading: time to the pull,
    heat-transfer coefficient, start, vapour, wetness, drying, tip, shape.
    """
    pull_s = before.pull_s * np.exp(before.pull_log_sd * z[:, 0])
    place = np.clip(before.place + before.place_sd * z[:, 7], 0.0, 2.0)
    size = np.sqrt(_MEAT.diffusivity * pull_s / np.exp(np.interp(place, list(PLACE.values()), _LOG_FOURIER)))
    h = H * (size / SIZE_M) ** -SMALLER * np.exp(H_LOG_SD * z[:, 1])
    start = before.start_c + before.start_sd * z[:, 2]
    vapour = np.minimum(VAPOUR_PA * np.exp(VAPOUR_LOG_SD * z[:, 3]), MOST_VAPOUR_PA)
    wet = np.clip(WET * np.exp(WET_LOG_SD * z[:, 4]), 0.005, 1.0)
    first = tends_to(before.oven_c, np.ones_like(wet), vapour)
    last = tends_to(before.oven_c, wet, vapour)
    biot = np.clip(h * strengthened(last, wet) * size / _MEAT.conductivity, LEAST_BIOT, MOST_BIOT)
    a_second = RISING * h * (before.oven_c - first) / LATENT / (DRY_KG * np.exp(DRY_LOG_SD * z[:, 5]))
    drying = np.clip(a_second * size**2 / _MEAT.diffusivity, 0.02, 300.0)
    tip = np.minimum(TIP * np.abs(z[:, 6]), MOST_TIP)
    squares, weights = modes(before.shape, biot, tip, place - PLACE[before.shape])
    last = _hot_enough(last, before)
    ones = np.ones_like(pull_s)
    raw = Joints(pull_s, ones, biot, start, first, last, drying, squares, weights, before.shape)
    return replace(raw, fourier=_fourier_at(raw, before.pull_c))


def _hot_enough(last: Floats, before: Before) -> Floats:
    """What is felt at last, bent upwards where it would not bring the core to the pull: cooks expect that it does."""
    least, soft = before.pull_c + LEAST_RISE_C, before.allowance.soft_c
    bent = least + soft * np.logaddexp(0.0, (last - least) / soft)
    return np.asarray(np.minimum(bent, max(before.oven_c, least)))


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
    """Temperatures from middle (0) to surface (1) at the moment of the pull; shape (joints, places). For joints
    exactly of their shape (`Joints.in_the_middle`).
    """
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


def _fourier_at(joint: Joints, celsius: Floats | float) -> Floats:
    """The Fourier number at which each core is at `celsius`: halving on a log scale, then chords through
    ln(E1 - core), which is nearly straight. All joints at once.
    """
    low, high = (np.full_like(joint.pull_s, np.log(edge)) for edge in (1e-3, _LONGEST_FOURIER))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        below = core_at(joint, np.exp(middle)[:, np.newaxis])[:, 0] < celsius
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    low, high = np.exp(low), np.exp(high)
    at_low, at_high, wanted = _left(joint, low), _left(joint, high), np.log(joint.last_c - celsius)
    for _ in range(_CHORDS):
        middle = _chord(low, high, at_low - wanted, at_high - wanted)
        at = _left(joint, middle)
        below = at > wanted
        low, at_low = np.where(below, middle, low), np.where(below, at, at_low)
        high, at_high = np.where(below, high, middle), np.where(below, at_high, at)
    return _chord(low, high, at_low - wanted, at_high - wanted)


def _left(joint: Joints, fourier: Floats) -> Floats:
    """ln(E1 - core)."""
    return np.asarray(np.log(np.maximum(joint.last_c - core_at(joint, fourier[:, np.newaxis])[:, 0], 1e-9)))


def _chord(low: Floats, high: Floats, at_low: Floats, at_high: Floats) -> Floats:
    """Where a straight line from a positive to a negative value is zero."""
    gap = at_low - at_high
    return np.asarray(low + np.clip(at_low / np.where(gap > 1e-12, gap, 1.0), 0.0, 1.0) * (high - low))
