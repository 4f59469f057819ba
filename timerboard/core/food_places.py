"""Whether a step keeps its food hot, cold or out, from its places and its words."""

import re
from enum import Enum
from functools import lru_cache

from .menu import Menu, Step

# 'In its juices', 'sliced', a rice cooker and 'not chilled' keep nothing cold.
COLD_PLACES = re.compile(r"fridge|refrigerat|freez|larder|cellar|\bice\b|\bcold\b|(?<!not )\bchill|cool ?box")
HOT_PLACES = re.compile(
    r"hob|stove|oven|burner|ring|grill|griddle|barbecue|steamer|smoker|fryer|hot plate|warming|bain"
)
# A chill that is taken off ('off the chill', 'the chill off') warms.
COLD_WORDS = re.compile(
    r"\b(?:(?<!the )(?<!its )(?<!their )chill|refrigerate|freeze|ice bath|into the fridge|in the fridge)\b"
)
HOT_KEPT = re.compile(
    r"oven|lowest heat|low heat|flask|bain|double boiler|warming|over hot water|hot box|warm(?:ed)? box"
    r"|above (?:5[7-9]|[6-9]\d) ?°? ?c\b|above 1[4-9]\d ?°? ?f\b"
)
HOT_FROM_C = 57.0
"""135 °F: a place held at less does not keep food hot (FDA Food Code 2022, 3-501.16(A)(1))."""


class Kept(Enum):
    """How food is kept while a step runs."""

    HOT = "hot"
    COLD = "cold"
    OUT = "out"


def kept(menu: Menu, step: Step) -> Kept:
    """Hot: in or on something that heats, at 57 °C or more where the menu says how hot. Cold: where it is chilled."""
    return _kept(step, tuple(use.place for use in step.uses if _heats(menu, use.place)))


@lru_cache(maxsize=4096)
def _kept(step: Step, heating: tuple[str, ...]) -> Kept:
    if heating:
        return Kept.HOT if step.heat_c is None or step.heat_c >= HOT_FROM_C else Kept.OUT
    places = " ".join(use.place for use in step.uses).lower()
    if COLD_PLACES.search(places) or COLD_WORDS.search(step.do.lower()):
        return Kept.COLD
    return Kept.OUT


def kept_by_words(words: str) -> Kept:
    """How food waits, by a menu's `keep`: 'in the fridge', 'lidded, on the lowest heat', 'uncovered'."""
    said = words.lower()
    if COLD_PLACES.search(said) and not HOT_KEPT.search(said):
        return Kept.COLD
    return Kept.HOT if HOT_KEPT.search(said) else Kept.OUT


def _heats(menu: Menu, name: str) -> bool:
    place = menu.place(name)
    return (place is not None and place.heat is not None) or HOT_PLACES.search(name.lower()) is not None
