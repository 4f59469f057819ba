"""The fit: thinkable joints weighed by the readings.

Population Monte Carlo: joints are drawn from what is known beforehand, weighed by how well they explain the readings,
and drawn again around the ones that do, every draw's weight corrected for where it was drawn from
(Cappé, Guillin, Marin, Robert 2004, J. Comput. Graph. Stat. 13:907). Errors of readings follow a Student-t
distribution, so that one mistyped figure loses its say (Lange, Little, Taylor 1989, JASA 84:881). No reduced model is
right everywhere: what it misses is taken to be a random walk over the core's own temperature, tied to the latest
reading (a time-changed Wiener process). So old readings say less about what comes than fresh ones, and neighbours err
together: where the core stands counts for less than how it goes on. Draws are fixed, so the same readings give the
same answer.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from .heat_model import DIMENSIONS, Allowance, Before, Joints, core_after, joints, together
from .heat_series import Floats

Flags = NDArray[np.bool_]

DRAWS = 1400
ROUNDS = 6
FREEDOM = 4.0
ODD_SD_C = 30.0
"""What a reading that does not go with the others may be off."""
MOST_BACK_C = 80.0
POOLED = 3
"""Rounds that count: the ones before only find the way."""
MOST_READINGS = 12
CENTRES = 50
NARROW = 0.75
DEFENCE = 11  # every so manyeth draw is still from the beginning; shares no factor with CENTRES
_ENOUGH = 80.0


@dataclass(frozen=True, slots=True)
class Weighed:
    """Joints and how much each is believed; `weights` sum to 1. `spare` is one more standard-normal figure for each."""

    joints: Joints
    weights: Floats
    spare: Floats

    def quantiles(self, values: Floats, shares: tuple[float, ...]) -> Floats:
        """Weighted quantiles of one value per joint."""
        order = np.argsort(values)
        below = np.cumsum(self.weights[order]) - 0.5 * self.weights[order]
        return np.asarray(np.interp(shares, below, values[order]))

    def some(self, count: int) -> Joints:
        """So many joints, picked evenly by how much they are believed; each then counts the same."""
        at = np.searchsorted(np.cumsum(self.weights), (np.arange(count) + 0.5) / count)
        return self.joints.picked(np.minimum(at, len(self.weights) - 1))


@lru_cache(maxsize=1)
def _draws() -> tuple[Floats, ...]:
    """Evenly spread standard-normal points for each round: an additive recurrence with the generalised golden ratio
    (Roberts 2018) through the inverse normal. One coordinate more than the model has.
    """
    size = DIMENSIONS + 1
    golden = 2.0
    for _ in range(60):
        golden = (1.0 + golden) ** (1.0 / (size + 1))
    steps = golden ** -np.arange(1, size + 1, dtype=float)
    points = (0.5 + np.arange(1, ROUNDS * DRAWS + 1)[:, np.newaxis] * steps) % 1.0
    normal = ndtri(np.clip(points, 1e-6, 1 - 1e-6))
    return tuple(normal[i * DRAWS : (i + 1) * DRAWS] for i in range(ROUNDS))


def fit(before: Before, seconds: Floats, celsius: Floats, odd: Flags | None = None) -> Weighed:
    """Weigh joints by readings taken `seconds` after the start; with none, it is what is known beforehand.

    `odd`: which readings do not go with the others; they hardly count.
    """
    keep = _chosen(len(seconds))
    odd = np.zeros(len(keep), dtype=bool) if odd is None else odd[keep]
    seconds, celsius = seconds[keep], celsius[keep]
    white = whitener(celsius, odd, before.allowance)
    points = _draws()
    z = points[0][:, :DIMENSIONS]
    joint = joints(z, before)
    target = log_likelihood(joint, seconds, celsius, white)
    if not len(seconds):
        return Weighed(joint, _weights(target), points[0][:, DIMENSIONS])
    log_weight, rounds = target, []
    for draws in points[1:]:
        source = _source(z, _tempered(log_weight))
        z = source.drawn(draws[:, :DIMENSIONS])
        joint = joints(z, before)
        target = log_likelihood(joint, seconds, celsius, white) - 0.5 * (z**2).sum(axis=1)
        log_weight = target - source.log_density(z)
        rounds.append((z, joint, target, source, draws[:, DIMENSIONS]))
    return _pooled(rounds[-POOLED:])


def _pooled(rounds: list[tuple[Floats, Joints, Floats, "Source", Floats]]) -> Weighed:
    """The last rounds together; each draw is weighed against all the sources it might have come from, so that no single
    one gets a weight beyond reason (deterministic mixture: Cornuet, Marin, Mira, Robert 2012, Scand. J. Stat. 39:798).
    """
    z = np.concatenate([r[0] for r in rounds])
    densities = [r[3].log_density(z) for r in rounds]
    log_weight = np.concatenate([r[2] for r in rounds]) - np.logaddexp.reduce(densities, axis=0)
    return Weighed(together([r[1] for r in rounds]), _weights(log_weight), np.concatenate([r[4] for r in rounds]))


def whitener(celsius: Floats, odd: Flags, allowance: Allowance) -> Floats:
    """The matrix that turns what readings miss, in °C, into independent figures of variance 1: the inverse of the
    Cholesky factor of their covariance, walk * min(back, back') + read_sd^2, `back` being how far the core has come
    since.
    """
    kept = celsius[~odd]
    last = kept[-1] if len(kept) else 0.0
    back = np.clip(last - celsius, 0.0, MOST_BACK_C)
    alone = np.where(odd, ODD_SD_C, allowance.read_sd_c) ** 2
    cover = allowance.walk * np.minimum(back[:, np.newaxis], back) + np.diag(alone)
    return np.asarray(np.linalg.inv(np.linalg.cholesky(cover)))


def log_likelihood(joint: Joints, seconds: Floats, celsius: Floats, white: Floats) -> Floats:
    """How well each joint explains the readings (Student-t, up to a constant)."""
    if not len(seconds):
        return np.zeros_like(joint.pull_s)
    off = np.einsum("jt,ut->ju", core_after(joint, seconds) - celsius, white)
    return np.asarray(-0.5 * (FREEDOM + 1) * np.log1p(off**2 / FREEDOM).sum(axis=1))


def _chosen(count: int) -> list[int]:
    """Which readings to use: all of a few, else an even spread with first and last."""
    if count <= MOST_READINGS:
        return list(range(count))
    return [round(i * (count - 1) / (MOST_READINGS - 1)) for i in range(MOST_READINGS)]


def _weights(log_weight: Floats) -> Floats:
    raw = np.exp(log_weight - log_weight.max())
    return np.asarray(raw / raw.sum())


def _tempered(log_weight: Floats) -> Floats:
    """Weights, flattened until they do not all lean on a few joints."""
    power = 1.0
    weights = _weights(log_weight)
    while 1.0 / (weights**2).sum() < _ENOUGH and power > 1e-3:
        power *= 0.6
        weights = _weights(power * log_weight)
    return weights


@dataclass(frozen=True, slots=True)
class Source:
    """Where a round is drawn from: normals of one shape around CENTRES joints, which can follow a bent cloud, and a
    share from what was known beforehand. `root`: the shape's Cholesky factor.
    """

    centres: Floats
    root: Floats

    def drawn(self, normal: Floats) -> Floats:
        """Coordinates from standard-normal ones."""
        rows = np.arange(len(normal))
        near = self.centres[rows % len(self.centres)] + np.einsum("id,kd->ik", normal, self.root)
        return np.where((rows % DEFENCE == 0)[:, np.newaxis], normal, near)

    def log_density(self, z: Floats) -> Floats:
        """Up to a constant that is the same for all sources."""
        inverse = np.linalg.inv(self.root)
        whitened, middles = (np.einsum("id,kd->ik", place, inverse) for place in (z, self.centres))
        square = (
            (whitened**2).sum(axis=1)[:, np.newaxis]
            - 2 * np.einsum("id,kd->ik", whitened, middles)
            + (middles**2).sum(axis=1)
        )
        near = np.log(np.exp(-0.5 * np.maximum(square, 0.0)).mean(axis=1) + 1e-300)
        near -= np.log(np.diag(self.root)).sum()
        wide = -0.5 * (z**2).sum(axis=1)
        return np.asarray(np.logaddexp(np.log(1 - 1 / DEFENCE) + near, wide - np.log(DEFENCE)))


def _source(z: Floats, weights: Floats) -> Source:
    """Around the joints that count."""
    picked = np.searchsorted(np.cumsum(weights), (np.arange(CENTRES) + 0.5) / CENTRES)
    spread = z - weights @ z
    covariance = NARROW**2 * np.einsum("i,id,ie->de", weights, spread, spread) + 1e-4 * np.eye(DIMENSIONS)
    return Source(z[np.minimum(picked, len(z) - 1)], np.asarray(np.linalg.cholesky(covariance), dtype=np.float64))
