"""The forecast on two measured curves: beef at 175 °C, asked at a quarter, half and three quarters of the way.

The questions are in `beef_pulls.py`, and what 'left out' means in `left_out.py`. The choices below are what
`python -m tests.bench.bench_heat_left_out` prints. Honest to say: the form of the model and its physical ranges were
settled with both curves in sight; only the four allowances are chosen without the curve that is foretold. Built in is
what all data choose together, but for `walk` and `soft_c` (0.3, 12): with them the band held more of the training
roasts.

The first limit here was a median of 10 % of the time left at half way, and stands. The limits of the worst cases, of a
quarter and of three quarters of the way were never promised: they were written down after seeing what an earlier model
gave, a little above it, and only guard against getting worse. The worst cases are
those of a menu that is wrong by a third.
"""

from statistics import median

import pytest

from tests.outside.beef_pulls import MENUS, PIECES, asked, error, truth
from tests.outside.left_out import CHOICES
from timerboard.core.heat_model import USUAL, Allowance

SIMULATED_ONLY = Allowance(read_sd_c=0.5, walk=0.15, left_log_sd=0.05, soft_c=16.0)
OTHER_CURVE = dict.fromkeys(PIECES, SIMULATED_ONLY)
"""Each left out, or both: the same is chosen."""


def errors(share, by_piece):
    return [abs(error(piece, share, menu, by_piece[piece])) for piece in PIECES for menu in MENUS]


@pytest.mark.parametrize("by_piece", [dict.fromkeys(PIECES, USUAL), OTHER_CURVE])
def test_half_way_the_forecast_is_within_a_tenth_of_the_time_left(by_piece):
    """As built in; with the curve, or both, left out of the choice of allowances."""
    assert median(errors(0.5, by_piece)) <= 0.10


@pytest.mark.parametrize("by_piece", [dict.fromkeys(PIECES, USUAL), OTHER_CURVE])
def test_half_way_the_worst_case_is_within_a_quarter(by_piece):
    assert max(errors(0.5, by_piece)) <= 0.25


@pytest.mark.parametrize(("share", "usual", "worst"), [(0.25, 0.30, 0.55), (0.75, 0.20, 0.45)])
def test_at_a_quarter_and_at_three_quarters(share, usual, worst):
    for by_piece in (dict.fromkeys(PIECES, USUAL), OTHER_CURVE):
        assert median(errors(share, by_piece)) <= usual
        assert max(errors(share, by_piece)) <= worst


def test_the_band_holds_the_truth_about_four_times_in_five():
    found = [(asked(p, share, menu), truth(p) * 1000) for p in PIECES for share in (0.5, 0.75) for menu in MENUS]
    held = [(f.early or 0) <= true <= (f.late or 0) for f, true in found]
    assert sum(held) >= 9  # of 12


def test_the_band_shrinks():
    widths = [(f.late or 0) - (f.early or 0) for f in (asked("A", share, "right") for share in (0.25, 0.5, 0.75))]
    assert widths[0] > widths[1] > widths[2]


def test_what_is_built_in_is_one_of_the_choices():
    assert {USUAL, *OTHER_CURVE.values()} <= set(CHOICES)
