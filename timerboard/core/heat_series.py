"""Exact transient conduction in a slab, a cylinder and a sphere: the Fourier series for a body of one temperature that
is put at once into surroundings of another, with convection at its surface.

Dimensionless throughout: `biot` = h L / k, `fourier` = alpha t / L^2, `x` = place / L from 0 (middle) to 1 (surface),
theta = (T - T_around) / (T_start - T_around). L is the radius, or half the thickness of the slab.
Source: the classical solution by separation of variables, as in any heat-transfer text (Carslaw and Jaeger,
Conduction of Heat in Solids, 2nd ed., sections 3.11, 7.7 and 9.4).
"""

from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import j0, j1, jn_zeros

Floats = NDArray[np.float64]

ONE_TERM_FROM = 0.2
"""Fourier number from which the first term alone is within about 2 % (the usual limit in texts)."""

_NEARLY_INFINITE = 1e12
_HALVINGS = 60


class Shape(StrEnum):
    """What a piece of food is taken for."""

    SLAB = "slab"
    CYLINDER = "cylinder"
    SPHERE = "sphere"


def eigenvalues(shape: Shape, biot: ArrayLike, count: int) -> Floats:
    """The first `count` roots lambda_n for each Biot number (> 0, inf allowed); shape (..., count).

    Slab: lambda tan lambda = Bi. Cylinder: lambda J1 / J0 = Bi. Sphere: 1 - lambda cot lambda = Bi.
    Raises ValueError for a Biot number of zero or less.
    """
    bi = np.minimum(np.asarray(biot, dtype=float), _NEARLY_INFINITE)[..., np.newaxis]
    if np.any(bi <= 0):
        raise ValueError("a Biot number must be above zero")
    low, high = (np.broadcast_to(edge, (*bi.shape[:-1], count)).copy() for edge in _brackets(shape, count))
    at_low = np.sign(_characteristic(shape, low, bi))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        same = np.sign(_characteristic(shape, middle, bi)) == at_low
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    return np.asarray((low + high) / 2)


def _brackets(shape: Shape, count: int) -> tuple[Floats, Floats]:
    """Between which points each root lies, whatever the Biot number."""
    n = np.arange(count, dtype=np.float64)
    if shape is Shape.SLAB:
        return np.asarray(n * np.pi + 1e-9), np.asarray((n + 0.5) * np.pi)
    if shape is Shape.SPHERE:
        return np.asarray(n * np.pi + 1e-9), np.asarray((n + 1) * np.pi)
    starts = np.concatenate([[1e-9], jn_zeros(1, count)[: count - 1]])
    return starts, np.asarray(jn_zeros(0, count))


def _characteristic(shape: Shape, lam: Floats, bi: Floats) -> Floats:
    """Zero at the roots, without poles."""
    if shape is Shape.SLAB:
        return np.asarray(lam * np.sin(lam) - bi * np.cos(lam))
    if shape is Shape.SPHERE:
        return np.asarray(lam * np.cos(lam) + (bi - 1) * np.sin(lam))
    return np.asarray(lam * j1(lam) - bi * j0(lam))


def amplitudes(shape: Shape, lam: Floats) -> Floats:
    """A_n: how much of each mode the even starting temperature holds, as seen in the middle."""
    if shape is Shape.SLAB:
        return np.asarray(4 * np.sin(lam) / (2 * lam + np.sin(2 * lam)))
    if shape is Shape.SPHERE:
        return np.asarray(4 * (np.sin(lam) - lam * np.cos(lam)) / (2 * lam - np.sin(2 * lam)))
    return np.asarray(2 * j1(lam) / (lam * (j0(lam) ** 2 + j1(lam) ** 2)))


def mode(shape: Shape, lam: Floats, x: ArrayLike) -> Floats:
    """The form of a mode at `x`: 1 in the middle. Broadcasts `lam` against `x`."""
    at = lam * np.asarray(x, dtype=float)
    if shape is Shape.SLAB:
        return np.asarray(np.cos(at))
    if shape is Shape.SPHERE:
        return np.asarray(np.sinc(at / np.pi))
    return np.asarray(j0(at))


def mode_mean(shape: Shape, lam: Floats) -> Floats:
    """The mean of a mode over the volume."""
    if shape is Shape.SLAB:
        return np.asarray(np.sin(lam) / lam)
    if shape is Shape.SPHERE:
        return np.asarray(3 * (np.sin(lam) - lam * np.cos(lam)) / lam**3)
    return np.asarray(2 * j1(lam) / lam)


def theta(shape: Shape, biot: float, fourier: ArrayLike, x: float = 0.0, terms: int = 200) -> Floats:
    """Dimensionless temperature at `x` for each Fourier number (>= 0), by the full series."""
    lam = eigenvalues(shape, biot, terms)
    return _summed(lam, amplitudes(shape, lam) * mode(shape, lam, x), fourier)


def theta_mean(shape: Shape, biot: float, fourier: ArrayLike, terms: int = 200) -> Floats:
    """Mean dimensionless temperature; 1 minus this is the share of the heat that has gone over."""
    lam = eigenvalues(shape, biot, terms)
    return _summed(lam, amplitudes(shape, lam) * mode_mean(shape, lam), fourier)


def _summed(lam: Floats, weight: Floats, fourier: ArrayLike) -> Floats:
    decay = np.exp(-(lam**2) * np.asarray(fourier, dtype=float)[..., np.newaxis])
    return np.asarray((weight * decay).sum(axis=-1))


def one_term(shape: Shape, biot: float) -> tuple[float, float]:
    """(lambda_1, A_1): the pair that texts tabulate by Biot number."""
    lam = eigenvalues(shape, biot, 1)
    return float(lam[0]), float(amplitudes(shape, lam)[0])


def one_term_holds(fourier: float) -> bool:
    """Whether the first term alone is good enough."""
    return fourier >= ONE_TERM_FROM


def fourier_at(shape: Shape, biot: float, theta_wanted: float, x: float = 0.0) -> float:
    """The Fourier number at which `x` has come to `theta_wanted`: one term where that holds, else the series.

    Raises ValueError for a theta that is never passed (not between 0 and 1).
    """
    if not 0 < theta_wanted < 1:
        raise ValueError("theta must lie between 0 and 1")
    lam1, a1 = one_term(shape, biot)
    first = a1 * float(mode(shape, np.asarray(lam1), x))
    guess = float(np.log(first / theta_wanted)) / lam1**2 if first > theta_wanted else 0.0
    if guess >= 5 * ONE_TERM_FROM:  # so late that further terms are below rounding
        return guess
    low, high = 0.0, max(2 * guess, 2.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if float(theta(shape, biot, middle, x)) > theta_wanted else (low, middle)
    return (low + high) / 2
