"""The shopping list: every dish's ingredients, one line for each thing where amounts can be added.

Weights add to weights, volumes to volumes, pieces to pieces (pint converts the units); what cannot be added stays as it
is written, one line beside the other. The total is rounded as `ingredient.py` rounds.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from .food_kind import FoodKind, kind_of_words
from .ingredient import read_number, scale_line
from .list_values import ListGroup, ListLine, ListPage
from .menu import Menu
from .words import lower_first, upper_first

_NUMBER = r"[0-9]+[ ]?[½¼¾⅓⅔⅛⅜⅝⅞]|[0-9]+[ ][0-9]+/[0-9]+|[0-9]+/[0-9]+|[½¼¾⅓⅔⅛⅜⅝⅞]|[0-9]+(?:[.,][0-9]+)?"
_UNITS = {
    **dict.fromkeys(("g", "gram", "grams"), "gram"),
    **dict.fromkeys(("kg", "kilo", "kilos", "kilogram", "kilograms"), "kilogram"),
    **dict.fromkeys(("oz", "ounce", "ounces"), "ounce"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "pound"),
    **dict.fromkeys(("ml", "millilitre", "millilitres", "milliliter", "milliliters"), "milliliter"),
    **dict.fromkeys(("cl",), "centiliter"),
    **dict.fromkeys(("dl",), "deciliter"),
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), "liter"),
    **dict.fromkeys(("tsp", "teaspoon", "teaspoons"), "teaspoon"),
    **dict.fromkeys(("tbsp", "tablespoon", "tablespoons"), "tablespoon"),
    **dict.fromkeys(("cup", "cups"), "cup"),
}
_LINE = re.compile(
    rf"^(?P<n>{_NUMBER})(?:\s*[-–]\s*(?P<m>{_NUMBER}))?"
    rf"(?:\s*(?P<u>{'|'.join(sorted(_UNITS, key=len, reverse=True))})\b\.?)?\s*(?:of\s+)?(?P<thing>[^\W\d_].*)$",
    re.IGNORECASE,
)
_LOW_END = re.compile(rf"^(?:{_NUMBER})\s*[-–]\s*(?=[0-9½¼¾⅓⅔⅛⅜⅝⅞])")
_ON_TAP = ("water", "cold water", "boiling water", "warm water", "hot water", "lukewarm water")
_FROZEN = re.compile(r"\bfrozen\b|\bfreezer\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Wanted:
    """An ingredient's line, read. `base` is its amount in grams, millilitres or pieces; `kind` says which."""

    line: str
    dish: str
    thing: str  # as compared: 'onion'
    amount: Fraction = Fraction(0)  # as written
    base: Fraction = Fraction(0)
    kind: str = ""  # "[mass]", "[volume]", "pieces", or '' when nothing can be added to it


def shopping(menu: Menu) -> ListPage:
    """What to buy: meat, fish and eggs; everything else; frozen things last, as they are bought last."""
    lines = [read_wanted(line, dish.name) for dish in menu.dishes for line in dish.ingredients]
    lines = [one for one in lines if one.thing not in _ON_TAP]
    merged = [_merged(same) for same in _gathered(lines)]
    groups = [
        ListGroup("Meat, fish and eggs", _sorted(m for m in merged if _section(m) == "animal")),
        ListGroup("Everything else", _sorted(m for m in merged if _section(m) == "other")),
        ListGroup("Frozen, last of all", _sorted(m for m in merged if _section(m) == "frozen")),
        ListGroup("Needed, and made by no step", tuple(_bought(menu))),
    ]
    note = f"For {menu.serves}. Look in the cupboard first."
    return ListPage("Shopping", tuple(group for group in groups if group.lines), note)


def read_wanted(line: str, dish: str) -> Wanted:
    """A line as amount, unit and thing; one without an amount keeps its words only. Never raises."""
    found = _LINE.match(" ".join(line.split()))
    if found is None:
        return Wanted(line, dish, _thing(line))
    amount = read_number(found["m"] or found["n"])
    unit = _UNITS.get((found["u"] or "").lower())
    thing = _thing(found["thing"])
    if amount <= 0 or re.search(r",\s*(?:about\s+)?[0-9]|\beach\b", line):
        return Wanted(line, dish, thing)  # '4 shanks, 350 g each' says two amounts
    if unit is None:
        return Wanted(line, dish, thing, amount, amount, "pieces")
    ratio, kind = _of_unit(unit)
    return Wanted(line, dish, thing, amount, amount * ratio, kind)


@lru_cache(maxsize=64)
def _of_unit(unit: str) -> tuple[Fraction, str]:
    """What one of a unit is in grams or millilitres, and which of the two."""
    import pint

    one = pint.UnitRegistry(cache_folder=None).Quantity(1, unit)
    base, kind = ("gram", "[mass]") if one.check("[mass]") else ("milliliter", "[volume]")
    return Fraction(one.to(base).magnitude).limit_denominator(1_000_000), kind


_PREPARED = re.compile(
    r"\s*(?:\(.*?\)|,.*$|\b(?:chopped|sliced|diced|grated|melted|softened|beaten|peeled|crushed|finely|roughly|fresh|"
    r"freshly|ground|large|medium|small|ripe)\b)\s*",
    re.IGNORECASE,
)


def _thing(words: str) -> str:
    """A thing as it is compared: without how it is cut, in the singular."""
    bare = " ".join(_PREPARED.sub(" ", words).casefold().split()) or " ".join(words.casefold().split())
    if not bare:
        return ""
    *before, last = bare.split()
    return " ".join([*before, _singular(last)])


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "sses", "xes")):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3 else word


def _gathered(lines: Iterable[Wanted]) -> list[list[Wanted]]:
    """Lines of one thing whose amounts can be added, in the order they first come. A line that says no amount stands
    with others that say none and are worded alike."""
    found: dict[tuple[str, str], list[Wanted]] = {}
    for one in lines:
        words = "" if one.kind else one.line.casefold()
        found.setdefault((one.thing + words, one.kind), []).append(one)
    return list(found.values())


def _merged(same: list[Wanted]) -> tuple[ListLine, list[Wanted]]:
    first = same[0]
    words = first.line
    if len(same) > 1 and first.kind:
        biggest = max(same, key=lambda one: (one.base / one.amount, one.amount))  # its unit and its number suit best
        factor = sum((one.base for one in same), Fraction(0)) / biggest.base
        scaled = scale_line(_without_ways(biggest.line), factor)
        words = scaled.line if scaled is not None else words
    dishes = list(dict.fromkeys(one.dish for one in same))
    small = ", ".join(lower_first(dish) for dish in dishes)
    if len(same) > 1 and len({one.line for one in same}) > 1:
        small = "; ".join(f"{one.line}: {lower_first(one.dish)}" for one in same)
    return ListLine(words, small=small), same


def _without_ways(line: str) -> str:
    """'1-2 onions, chopped' is '2 onions' when onions are bought for several dishes."""
    return _LOW_END.sub("", line.split(",", maxsplit=1)[0].strip())


def _section(merged: tuple[ListLine, list[Wanted]]) -> str:
    line = merged[0].words
    if _FROZEN.search(line):
        return "frozen"
    return "animal" if kind_of_words(line) not in (FoodKind.PLANT, FoodKind.STUFFED) else "other"


def _sorted(merged: Iterable[tuple[ListLine, list[Wanted]]]) -> tuple[ListLine, ...]:
    return tuple(line for line, _ in sorted(merged, key=lambda m: (m[1][0].thing, m[1][0].kind)))


def _bought(menu: Menu) -> Iterable[ListLine]:
    made = {item for step in menu.steps.values() for item in step.makes}
    needed: dict[str, list[str]] = {}
    for step in menu.steps.values():
        for item in step.needs:
            if item not in made:
                needed.setdefault(item, []).append(step.dish)
    for item, dishes in needed.items():
        yield ListLine(upper_first(item), small=", ".join(lower_first(dish) for dish in dict.fromkeys(dishes)))
