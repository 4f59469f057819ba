"""What is known of a joint before its core has been read: from the menu's span, from its weight, or from neither."""

import math
from dataclasses import replace

import numpy as np

from .food_properties import LEAN_MEAT, properties
from .heat_model import BETWEEN, DIMENSIONS, PLACE, USUAL, Allowance, Before, joints
from .heat_series import Shape
from .heat_values import HeatQuestion
from .values import Span

_USUAL_OVEN_C = 180.0
_USUAL_START_C, _USUAL_START_SD = 9.0, 6.0  # between fridge and kitchen
_TOLD_START_SD = 2.0
_LIKELY_S, _ANY_LOG_SD = 5400.0, 0.9
_MENU_LOG_SD = 0.28
"""How far a menu's time is off beyond its own range (one standard deviation of the log): common practice, no table."""
_WEIGHT_LOG_SD = 0.6
"""The same for a time reckoned from weight alone: shape, bone and fat are unknown."""


def before(question: HeatQuestion, allowance: Allowance = USUAL) -> Before:
    """Everything known beforehand, with its spread."""
    oven = _USUAL_OVEN_C if question.oven_c is None else question.oven_c
    told = question.start_c is not None
    shape = Shape(question.shape)
    place, place_sd = BETWEEN[shape]
    bare = Before(
        pull_c=question.pull_c,
        pull_s=_LIKELY_S,
        pull_log_sd=_ANY_LOG_SD,
        oven_c=oven,
        start_c=question.start_c if question.start_c is not None else _USUAL_START_C,
        start_sd=_TOLD_START_SD if told else _USUAL_START_SD,
        shape=shape,
        place=place,
        place_sd=place_sd,
        allowance=allowance,
    )
    seconds, spread = _pull_time(question, bare)
    return replace(bare, pull_s=seconds, pull_log_sd=spread)


def _pull_time(question: HeatQuestion, bare: Before) -> tuple[float, float]:
    """The time to the pull and its log spread: what menu and weight say, weighed by how sure each is."""
    said = [_by_span(question.span)] if question.span and question.span.likely > 0 else []
    if question.weight_kg:
        said.append((math.log(_by_weight(question.weight_kg, bare)), _WEIGHT_LOG_SD))
    if not said:
        return bare.pull_s, bare.pull_log_sd
    trust = sum(sd**-2 for _, sd in said)
    return math.exp(sum(mean / sd**2 for mean, sd in said) / trust), trust**-0.5


def _by_span(span: Span) -> tuple[float, float]:
    """A written range is taken to hold four cooks in five."""
    own = math.log(max(span.high, 1) / max(span.low, 1)) / 2.563
    return math.log(span.likely), math.hypot(own, _MENU_LOG_SD)


def _by_weight(weight_kg: float, bare: Before) -> float:
    """Seconds for a sphere of lean meat of that weight in the middle of all thinkable surroundings."""
    meat = properties(LEAN_MEAT, 40.0)
    radius = math.cbrt(3 * weight_kg / (4 * math.pi * meat.density))
    middle = joints(np.zeros((1, DIMENSIONS)), replace(bare, place=PLACE[bare.shape]))
    return float(middle.fourier[0]) * radius**2 / meat.diffusivity
