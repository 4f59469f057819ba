"""The answer to a heat question: when to pull, how sure, what it coasts to, and the curve to draw.

It takes some 30 ms of arithmetic and loads numpy and scipy: ask it away from the window, in the planner's process;
`pull_guess.predict_pull` draws a straight line until it has answered.
"""

import numpy as np

from .heat_before import before
from .heat_fit import Weighed, fit
from .heat_model import LEAST_RISE_C, USUAL, Allowance, core_after
from .heat_rest import carry_over
from .heat_sense import fitting, plateau, reached
from .heat_series import Floats
from .heat_values import CurvePoint, HeatQuestion, PullForecast
from .values import MS, Moment

BAND = (0.1, 0.5, 0.9)
PLATEAU_LATER = 1.5
DOUBTFUL_SDS = 4.5
DOUBTFUL_LEAST_C = 5.0
NEVER_S = 7 * 86_400
_POINTS = 24
_DRAWN = 240


def forecast_pull(question: HeatQuestion, allowance: Allowance = USUAL) -> PullForecast:
    """When the core reaches `pull_c`, with the band that holds four times in five. Deterministic."""
    there = reached(question)
    if there is None and question.oven_c is not None and question.oven_c < question.pull_c + 2 * LEAST_RISE_C:
        return _never(question, "the oven is not hot enough for that")
    seconds = np.array([(r.at - question.started) / MS for r in question.readings])
    celsius = np.array([r.celsius for r in question.readings])
    together = fitting(question)
    odd = np.array([r not in together for r in question.readings], dtype=bool)
    weighed = fit(before(question, allowance), seconds, celsius, odd)
    if there is None:
        early, at, late = _moments(question, weighed, allowance)
        if at - question.started >= NEVER_S * MS:
            return _never(question, "it rises too slowly for that")
    else:
        early = at = late = there.at
    rest = carry_over(weighed, max(question.pull_c, there.celsius if there else 0.0), question.room_c)
    return PullForecast(
        step=question.step,
        pull_c=question.pull_c,
        readings=len(question.readings),
        at=at,
        early=early,
        late=late,
        why="it has got there" if there else "",
        plateau=plateau(question),
        doubtful=_doubtful(question, weighed, seconds, celsius),
        peak_c=round(rest.likely_c, 1),
        peak_low_c=round(rest.low_c, 1),
        peak_high_c=round(rest.high_c, 1),
        peak_after_s=rest.after_s,
        curve=_curve(question, weighed, late),
    )


def _moments(question: HeatQuestion, weighed: Weighed, allowance: Allowance) -> tuple[Moment, Moment, Moment]:
    """Early, likely and late moment of the pull. What should already have happened counts as now."""
    last_s = (question.readings[-1].at - question.started) / MS if question.readings else 0.0
    left = (weighed.joints.pull_s - last_s) * np.exp(allowance.left_log_sd * weighed.spare)
    found = np.minimum(weighed.quantiles(last_s + left, BAND), NEVER_S)
    if plateau(question):  # how long it stands still is not in the readings: the late end goes further out
        found[2] = last_s + PLATEAU_LATER * (found[2] - last_s)
    early, at, late = (max(question.now, question.started + round(float(s) * MS)) for s in found)
    return early, at, late


def _never(question: HeatQuestion, why: str) -> PullForecast:
    return PullForecast(
        step=question.step,
        pull_c=question.pull_c,
        readings=len(question.readings),
        at=None,
        early=None,
        late=None,
        why=why,
        plateau=plateau(question),
    )


def _doubtful(question: HeatQuestion, weighed: Weighed, seconds: Floats, celsius: Floats) -> tuple[Moment, ...]:
    """Moments of readings far from what all of them together say."""
    if len(seconds) < 3:
        fit_in = fitting(question)
        return tuple(r.at for r in question.readings if r not in fit_in)
    cores = core_after(weighed.joints, seconds)
    mean = weighed.weights @ cores
    sd = np.sqrt(weighed.weights @ (cores - mean) ** 2 + 1.0)
    off = np.abs(celsius - mean)
    far = (off > DOUBTFUL_SDS * sd) & (off > DOUBTFUL_LEAST_C)
    return tuple(r.at for r, doubt in zip(question.readings, far, strict=True) if doubt)


def _curve(question: HeatQuestion, weighed: Weighed, late: Moment) -> tuple[CurvePoint, ...]:
    """The fitted core from the start to a little past the late end of the band."""
    until = max((late - question.started) / MS, 60.0)
    seconds = np.linspace(0.0, min(until, NEVER_S), _POINTS)
    bands = np.quantile(core_after(weighed.some(_DRAWN), seconds), BAND, axis=0).T
    return tuple(
        CurvePoint(
            at=question.started + round(float(s) * MS),
            low_c=round(float(low), 1),
            likely_c=round(float(likely), 1),
            high_c=round(float(high), 1),
        )
        for s, (low, likely, high) in zip(seconds, bands, strict=True)
    )
