"""A pull below what the rules ask for is asked about once, with the reason: the rule, the rest, the carry-over."""

import re
from collections.abc import Mapping

from .choices import food_kinds, whose_rules
from .cook import Cook
from .food_kind import FoodKind, food_kind
from .menu import Step
from .quantity_words import celsius_words
from .safety import least, needs_words
from .safety_rules import REHEATED, Whose

REHEAT = re.compile(r"\b(?:re-?heat|warm (?:it )?(?:up|through)|heat through)")
"""Words of a step that heats again what was cooked before."""

CARRY_OVER_C = (1.0, 5.0)
"""Least and most of the mean rises of 39 measured roasts (B. Lowe, Experimental Cookery, 1930s)."""


def pull_question(
    cook: Cook,
    step: Step,
    celsius: float | None,
    *,
    kinds: Mapping[str, FoodKind] | None = None,
    whose: frozenset[Whose] | None = None,
) -> str | None:
    """What to ask before this step is ended at `celsius` (None: never read); None when there is nothing to ask.

    `kinds` and `whose`: what dishes are and whose rules count; without them as the cook chose.
    Only steps with a pull temperature are asked about, and only food with raw animal parts or that is heated again.
    """
    dish = cook.menu.dish(step.dish)
    if dish is None or step.pull_at_c is None:
        return None
    kind = food_kind(dish, food_kinds(cook) if kinds is None else kinds)
    rule = REHEATED if REHEAT.search(step.do.lower()) else least(kind, whose_rules(cook) if whose is None else whose)
    if rule is None or (celsius is not None and celsius >= rule.celsius - 0.005):
        return None
    units = cook.menu.units
    food = "reheated food" if rule is REHEATED else kind
    asked = f"the rule for {food}: {needs_words(rule, units)} ({rule.whose})"
    if celsius is None:
        return f"No reading of the core is there, and there is {asked}. End it without one?"
    return f"{celsius_words(celsius, units)} is under {asked}. {_rest(celsius, rule.celsius)} End it now?"


def _rest(celsius: float, least_c: float) -> str:
    low, high = CARRY_OVER_C
    if celsius + high < least_c:
        return f"In a rest roasts rose {low:g} to {high:g} °C when measured: not enough."
    if celsius + low >= least_c:
        return "A rest is likely to bring it there: read it again then."
    return f"In a rest roasts rose {low:g} to {high:g} °C when measured: it may get there, read it again then."
