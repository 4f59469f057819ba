"""How much the heaviest thing in a list of ingredients weighs: what a time 'per kilo' is counted for."""

import re
from collections.abc import Iterable

from .recipe_numbers import FIGURES, amount

KILOS = {"kg": 1.0, "kilo": 1.0, "kilos": 1.0, "kilogram": 1.0, "kilograms": 1.0, "g": 0.001, "gram": 0.001,
         "grams": 0.001, "gr": 0.001, "lb": 0.45359237, "lbs": 0.45359237, "pound": 0.45359237,
         "pounds": 0.45359237, "oz": 0.028349523, "ounce": 0.028349523, "ounces": 0.028349523}  # fmt: skip
"""Kilograms in a unit; the pound of 0.45359237 kg is exact (international yard and pound agreement, 1959)."""

_WEIGHT = re.compile(
    rf"(?P<n>{FIGURES.pattern})\s*(?P<u>{'|'.join(sorted(KILOS, key=len, reverse=True))})\b", re.IGNORECASE
)


def kilos_in(line: str) -> float | None:
    """The weight that an ingredient's line gives, in kilograms: the first one written; None when there is none."""
    found = _WEIGHT.search(line)
    return None if found is None else float(amount(found["n"])) * KILOS[found["u"].lower()]


def heaviest_kilos(lines: Iterable[str]) -> float | None:
    """The heaviest thing of a list, in kilograms to the nearest ten grams; None when nothing has a weight."""
    weights = [kilos for line in lines if (kilos := kilos_in(line)) is not None]
    return round(max(weights), 2) if weights else None
