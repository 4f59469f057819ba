"""The modes of a body between slab, cylinder and sphere, read off fine tables for many Biot numbers at once.

Source of the modes: see `heat_series`. No joint is a slab, a cylinder or a sphere; one between two of them has modes
between theirs, and a probe off the middle sees each mode the weaker the higher it is.
"""

from functools import lru_cache

import numpy as np

from .heat_series import Floats, Shape, amplitudes, eigenvalues, mode

MODES = 6
LEAST_BIOT, MOST_BIOT = 0.2, 60.0
_BIOT_GRID = np.geomspace(LEAST_BIOT, MOST_BIOT, 160)
_ORDER = (Shape.SLAB, Shape.CYLINDER, Shape.SPHERE)


def modes(shape: Shape, biot: Floats, tip: Floats, between: Floats | None = None) -> tuple[Floats, Floats]:
    """lambda_n^2 and A_n, one row per body; a last column takes what is left of the weight, and decays faster.

    `tip`: place of the probe, 0 middle to 1 surface. `between`: so many shapes rounder (1) or flatter (-1).
    """
    lam, weight = _looked_up(shape, biot) if between is None else _blended(_ORDER.index(shape) + between, biot)
    weight = weight * mode(shape, lam, tip[:, np.newaxis])
    rest = 1.0 - weight.sum(axis=1, keepdims=True)
    return np.hstack([lam**2, (lam[:, -1:] + np.pi / 2) ** 2]), np.hstack([weight, rest])


def _blended(place: Floats, biot: Floats) -> tuple[Floats, Floats]:
    """Modes at a place from 0 (slab) to 2 (sphere)."""
    place = np.clip(place, 0.0, 2.0)[:, np.newaxis]
    lam, weight = np.zeros((2, len(biot), MODES))
    for i, shape in enumerate(_ORDER):
        share = np.maximum(1.0 - np.abs(place - i), 0.0)
        own_lam, own_weight = _looked_up(shape, biot)
        lam, weight = lam + share * own_lam, weight + share * own_weight
    return lam, weight


def _looked_up(shape: Shape, biot: Floats) -> tuple[Floats, Floats]:
    lam, weight = _tables(shape)
    place = np.interp(np.log(biot), np.log(_BIOT_GRID), np.arange(len(_BIOT_GRID)))
    below = np.minimum(place.astype(int), len(_BIOT_GRID) - 2)
    part = (place - below)[:, np.newaxis]
    return lam[below] * (1 - part) + lam[below + 1] * part, weight[below] * (1 - part) + weight[below + 1] * part


@lru_cache(maxsize=4)
def _tables(shape: Shape) -> tuple[Floats, Floats]:
    lam = eigenvalues(shape, _BIOT_GRID, MODES)
    return lam, amplitudes(shape, lam)
