"""The forecast against roasts from an independent solution (finite volumes, scipy): noise, mistyped readings, doors.

Twelve roasts here; three hundred, with the figures printed, in tests/bench/bench_heat.py. Large joints are validated
against this simulation only: no open measured curve of one is known. The promise is that the 80 % band holds the truth
in 75 to 85 of 100 cases over two hundred roasts; forecasts of twelve roasts hang together so much that a good model is
seen between 65 and 95, so the limits here are wider. They were set after seeing results and only guard against getting
much worse; so do those on error and width. A reading at the pull gives no band ('pull now') and is judged by itself.
"""

from dataclasses import replace
from functools import cache
from statistics import mean, median

import numpy as np
import pytest

from tests.outside.roast_simulator import roast
from tests.outside.simulated_pulls import Asked, all_asked, asked
from timerboard.core.heat_series import Shape, theta

SEEDS = range(12)


@cache
def found() -> tuple[Asked, ...]:
    return tuple(a for seed in SEEDS for a in all_asked(roast(seed)) if not a.there)


def test_the_band_holds_the_truth_four_times_in_five():
    assert len(found()) > 45
    assert 0.68 <= mean(int(a.held) for a in found()) <= 0.92


def test_the_band_is_missed_on_either_side():
    assert mean(int(a.true > a.late) for a in found()) <= 0.2
    assert mean(int(a.true < a.early) for a in found()) <= 0.2


def test_the_forecast_is_not_early_or_late_as_a_rule():
    assert abs(median(a.error for a in found())) <= 0.12


def test_the_likely_moment_is_near():
    assert median(abs(a.error) for a in found() if a.share < 0.85) <= 0.25


def test_the_band_is_no_wider_than_it_must_be():
    assert median((a.late - a.early) / a.true for a in found() if a.share < 0.85) <= 0.9


def test_half_way_what_nobody_called_flat_or_long_is_not_foretold_too_early():
    """Roasts of all shapes, told as 'sphere', which is what is said when no word tells: an eighth of the time left at
    most. Taken for round for certain they were a fifth too early."""
    errors = []
    for seed in range(20_000, 20_024):
        one = roast(seed)
        read_s = tuple(share * one.pull_s for share in (0.25, 0.5))
        read_c = tuple(round(float(c)) for c in np.interp(read_s, one.seconds, one.core))
        errors.append(asked(replace(one, read_s=read_s, read_c=read_c), 2).error)
    assert abs(median(errors)) <= 0.125, median(errors)


@pytest.mark.parametrize("seed", [3, 8])
def test_the_more_readings_the_narrower(seed):
    one = roast(seed)
    first, last = asked(one, 2), asked(one, len(one.read_s) - 1)
    assert last.late - last.early < first.late - first.early


def test_the_simulator_itself_follows_the_exact_series():
    """A dry sphere, no door, no swing, stepped by the same finite volumes, must give the exact series' centre."""
    from scipy.integrate import solve_ivp

    cells, radius, alpha, k, h = 24, 0.05, 1.4e-7, 0.5, 20.0
    edges = np.linspace(0, radius, cells + 1)
    middle, face = (edges[1:] + edges[:-1]) / 2, edges**2
    volume = (edges[1:] ** 3 - edges[:-1] ** 3) / 3

    def rate(_, t):
        surface = (h * 160.0 + k * t[-1] / (radius - middle[-1])) / (h + k / (radius - middle[-1]))
        inner = alpha * np.diff(t) / np.diff(middle)
        flux = np.concatenate([[0.0], inner, [alpha * (surface - t[-1]) / (radius - middle[-1])]])
        return np.diff(face * flux) / volume

    run = solve_ivp(rate, (0, 4000), np.full(cells, 10.0), "LSODA", rtol=1e-7, atol=1e-7)
    exact = 160 - 150 * float(theta(Shape.SPHERE, h * radius / k, alpha * 4000 / radius**2))
    assert float(run.y[0, -1]) == pytest.approx(exact, abs=0.3)
