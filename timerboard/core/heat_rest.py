"""Carry-over: what the core coasts to after the pull, and when.

The temperatures inside at the pull are laid on the modes of a body that now gives heat to the room. That says how
the rise goes with size, oven and depth of heating, but pure conduction makes it four to five times too large, even
from a surface held to what wet meat can be: 39 measured roasts rose 3.4 °C on the mean, 1 to 5. It is scaled to those.
Measured means: B. Lowe, Experimental Cookery (1930s), cooking losses and times by kind of meat.
"""

from dataclasses import dataclass

import numpy as np

from .food_properties import LEAN_MEAT, properties
from .heat_fit import Weighed
from .heat_model import Joints, profile_at_pull
from .heat_modes import modes
from .heat_series import Floats, mode

WET_SURFACE_C = 92.0
"""The hottest that the outside of roasted meat is taken to be at the pull: under a crust it is wet."""
RESTING_H = 16.0
"""Heat given to a still kitchen, W/m2 K: convection and radiation about 10, evaporation the rest. Common practice."""
MEASURED_SHARE = (0.06, 0.223, 0.33)
"""Measured rise over conducted rise: for the weighted mean of the 39 roasts, between the least and the most of the
seven means (0.08 and 0.28), a little widened."""
PEAK_SHARE = 0.6
"""The peak comes the earlier for being lower: common practice (rests of 20 to 40 min), no table."""
_SOME = 64
_LONGEST_S = 2700.0
_PLACES = (np.arange(32) + 0.5) / 32


@dataclass(frozen=True, slots=True)
class CarryOver:
    """The highest core temperature: low and high end of the 80 % band, likely, and seconds after the pull."""

    low_c: float
    likely_c: float
    high_c: float
    after_s: int


def carry_over(weighed: Weighed, pull_c: float, room_c: float) -> CarryOver:
    """What a joint pulled at `pull_c` coasts to."""
    some = weighed.some(_SOME).in_the_middle(pull_c)
    seconds = np.linspace(0.0, _LONGEST_S, 46)
    cores = _resting(some, seconds, room_c)
    rise = np.maximum(cores.max(axis=1) - cores[:, 0], 0.0)
    low, likely, high = (share * float(np.median(rise)) for share in MEASURED_SHARE)
    after = PEAK_SHARE * float(np.median(seconds[cores.argmax(axis=1)]))
    return CarryOver(pull_c + low, pull_c + likely, pull_c + high, round(after / 60) * 60)


def _resting(joint: Joints, seconds: Floats, room_c: float) -> Floats:
    """Core temperatures so many seconds after the pull; shape (joints, times)."""
    meat = properties(LEAN_MEAT, 50.0)
    size = np.sqrt(meat.diffusivity * joint.pull_s / joint.fourier)
    biot = np.clip(RESTING_H * size / meat.conductivity, 0.21, 59.0)
    squares, _ = modes(joint.shape, biot, np.zeros_like(biot))
    lam = np.sqrt(squares[:, :-1])
    form = mode(joint.shape, lam[:, :, np.newaxis], _PLACES)
    shell = _PLACES ** {"slab": 0, "cylinder": 1, "sphere": 2}[joint.shape.value]
    inside = np.minimum(profile_at_pull(joint, _PLACES), WET_SURFACE_C) - room_c
    share = np.einsum("jx,jmx,x->jm", inside, form, shell) / np.einsum("jmx,jmx,x->jm", form, form, shell)
    fourier = joint.fourier[:, np.newaxis] * seconds / joint.pull_s[:, np.newaxis]
    decay = np.exp(-squares[:, :-1, np.newaxis] * fourier[:, np.newaxis, :])
    return np.asarray(room_c + np.einsum("jm,jmt->jt", share, decay))
