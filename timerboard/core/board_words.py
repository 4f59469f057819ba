"""What a cook types into the board's one-line entries, read into values. Quick timers have `quick_timer.py`."""

import re
from typing import Literal

from .quick_timer import length_s
from .values import MS, Moment

Units = Literal["C", "F"]

READING = re.compile(r"(-?\d{1,3}(?:[.,]\d+)?)\s*°?\s*([cf])?$", re.IGNORECASE)
SHIFT = re.compile(r"([+\-−])\s*(.+)$|(.+?)\s+(later|sooner|earlier)$", re.IGNORECASE)
COLDEST_C, HOTTEST_C = -40.0, 400.0


def reading_c(text: str, units: Units) -> float:
    """Degrees Celsius of '71', '71,5', '71 °C' or '160 F'; a bare number is in the menu's `units`.

    Raises ValueError with words for the cook when it is no number, or none that food, oil or an oven can have.
    """
    found = READING.match(text.strip())
    if not found:
        raise ValueError(f"Write the temperature as a number, such as {'71' if units == 'C' else '160'}.")
    number = float(found[1].replace(",", "."))
    celsius = number if (found[2] or units).upper() == "C" else (number - 32) / 1.8
    if not COLDEST_C <= celsius <= HOTTEST_C:
        raise ValueError(f"{text.strip()} is no temperature of food, oil or an oven.")
    return round(celsius, 2)


def shifted(text: str, eat: Moment) -> Moment | None:
    """The moment of eating moved by '+10', '-5 min', '15 min later' or '10 sooner'; None for any other words."""
    found = SHIFT.match(text.strip())
    if not found:
        return None
    length = length_s(found[2] or found[3])
    if length is None:
        return None
    sooner = found[1] in ("-", "−") or (found[4] or "").lower() in ("sooner", "earlier")
    return eat - length * MS if sooner else eat + length * MS
