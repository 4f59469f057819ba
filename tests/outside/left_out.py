"""How the allowances of the pull forecast are chosen, and what a curve is foretold like that had no say in them.

Each of a few combinations is judged by how well its three quantiles (early, likely, late) foretell: the mean pinball
loss, a proper score, as a share of the time left (of simulated roasts: of the time left and five minutes, because near
the end the reading's noise is all there is). The combination with the least sum over simulated roasts and over the
measured curves that may speak is taken. A curve left out has no say; `()` leaves out both.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from statistics import mean

from tests.outside.beef_pulls import MENUS, PIECES, SHARES, moments
from tests.outside.roast_simulator import Roast
from tests.outside.simulated_pulls import asked
from timerboard.core.heat_model import Allowance

CHOICES = tuple(
    Allowance(read_sd_c=read, walk=walk, left_log_sd=left, soft_c=soft)
    for walk, read, left, soft in product((0.15, 0.3, 0.6), (0.5, 0.7), (0.05, 0.12), (8.0, 12.0, 16.0))
)
TRAINING_SEEDS = range(20_000, 20_040)
AT_LEAST_S = 300.0


@dataclass(frozen=True)
class Scores:
    """Mean loss on simulated roasts, and on each measured curve."""

    simulated: float
    curves: dict[str, float]

    def together(self, curves: Iterable[str]) -> float:
        """What is made as small as can be when these curves may speak."""
        speaking = [self.curves[piece] for piece in curves]
        return self.simulated + (mean(speaking) if speaking else 0.0)


def pinball(true: float, quantiles: Sequence[float]) -> float:
    """The loss of the quantiles 0.1, 0.5 and 0.9."""
    return sum(max(q * (true - x), (q - 1) * (true - x)) for q, x in zip((0.1, 0.5, 0.9), quantiles, strict=True))


def scores(allowance: Allowance, roasts: Sequence[Roast]) -> Scores:
    """Every second forecast of each roast, and every question about both curves."""
    simulated = [asked(one, n, allowance) for one in roasts for n in range(2, len(one.read_s) + 1, 2)]
    losses = [pinball(a.true, (a.early, a.at, a.late)) / (a.true + AT_LEAST_S) for a in simulated if not a.there]
    curves = {piece: mean(_curve(piece, allowance)) for piece in PIECES}
    return Scores(mean(losses), curves)


def _curve(piece: str, allowance: Allowance) -> Iterable[float]:
    for share, menu in product(SHARES, MENUS):
        true, *quantiles = moments(piece, share, menu, allowance)
        yield pinball(true, quantiles) / true


def chosen(table: dict[Allowance, Scores], speaking: Iterable[str]) -> Allowance:
    """The combination that foretells best what may speak."""
    curves = tuple(speaking)
    return min(table, key=lambda allowance: table[allowance].together(curves))
