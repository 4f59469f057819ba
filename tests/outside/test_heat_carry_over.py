"""Carry-over against 39 measured roasts.

Source: B. Lowe, Experimental Cookery (1930s edition), table of average cooking losses and time by kind of meat: mean
weight in lb, minutes per lb, pulled at, peak. No oven temperature is given: 160 °C is taken (boiled ham: 100 °C).
"""

from statistics import mean

import numpy as np
import pytest

from timerboard.core.heat_before import before
from timerboard.core.heat_fit import fit
from timerboard.core.heat_rest import carry_over
from timerboard.core.heat_values import HeatQuestion
from timerboard.core.values import Span

ROASTS = [
    ("prime ribs, well done", 3, 10.42, 22.5, 76, 80, 160),
    ("prime ribs, medium", 5, 12.11, 21.7, 65, 70, 160),
    ("ham, boiled", 5, 20.86, 20.6, 71, 74, 100),
    ("ham, roasted", 7, 18.13, 25.6, 72, 77, 160),
    ("veal leg", 6, 17.85, 29.0, 71, 75, 160),
    ("lamb leg", 4, 6.67, 28.0, 79, 80, 160),
    ("pork loin", 9, 8.26, 26.3, 83, 85, 160),
]


def rise(pounds, minutes, pull, oven):
    span = Span.of(round(pounds * minutes * 60))
    question = HeatQuestion(step="x", started=0, now=0, readings=(), pull_c=pull, oven_c=oven, span=span)
    none = np.array([])
    return carry_over(fit(before(question), none, none), pull, 22.0)


@pytest.mark.parametrize(("meat", "roasts", "pounds", "minutes", "pull", "peak", "oven"), ROASTS)
def test_the_measured_peak_lies_in_the_band(meat, roasts, pounds, minutes, pull, peak, oven):
    found = rise(pounds, minutes, pull, oven)
    assert found.low_c - 0.5 <= peak <= found.high_c + 0.5  # peaks are printed in whole degrees
    assert 0 < found.after_s <= 2700


def test_the_mean_rise_is_the_measured_one():
    """Weighted mean of the 39: 3.4 °C."""
    rises = [(n, rise(lb, m, pull, oven).likely_c - pull) for _, n, lb, m, pull, _, oven in ROASTS]
    assert sum(n * r for n, r in rises) / sum(n for n, _ in rises) == pytest.approx(3.4, abs=1.0)
    assert mean(r for _, r in rises) > 0


def test_a_hotter_oven_and_a_bigger_joint_coast_further():
    assert rise(10, 20, 60, 220).likely_c > rise(10, 20, 60, 120).likely_c
    assert rise(10, 20, 60, 160).likely_c > rise(1, 30, 60, 160).likely_c
