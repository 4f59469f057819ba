"""An ingredient's line for more people or fewer: amounts with their units, rounded as a cook would measure them.

Units are converted by pint (1 tbsp = 3 tsp, 16 tbsp = 1 cup, 16 oz = 1 lb). The steps of rounding are common practice,
no source: scales show 5 g, spoons come in quarters, eggs come whole.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

_GLYPHS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_SHOWN = {Fraction(value): glyph for glyph, value in _GLYPHS.items()}
_ONE = r"[0-9]+[ ]?[½¼¾⅓⅔⅛⅜⅝⅞]|[0-9]+[ ][0-9]+/[0-9]+|[0-9]+/[0-9]+|[½¼¾⅓⅔⅛⅜⅝⅞]|[0-9]+(?:[.,][0-9]+)?"
_UNITS = {
    "g": "g", "gram": "g", "grams": "g", "kg": "kg", "ml": "ml", "cl": "cl", "dl": "dl", "l": "l", "litre": "l",
    "litres": "l", "liter": "l", "liters": "l", "tsp": "tsp", "teaspoon": "tsp", "teaspoons": "tsp", "tbsp": "tbsp",
    "tablespoon": "tbsp", "tablespoons": "tbsp", "cup": "cup", "cups": "cup", "oz": "oz", "ounce": "oz",
    "ounces": "oz", "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "fl oz": "fl oz", "pint": "pint",
    "pints": "pint", "quart": "quart", "quarts": "quart",
}  # fmt: skip
_UNIT = "|".join(sorted((re.escape(name) for name in _UNITS), key=len, reverse=True))
_AMOUNT = re.compile(rf"({_ONE})(?:\s*[-–]\s*({_ONE}))?(?:\s*({_UNIT})\b\.?)?", re.IGNORECASE)
_LATER = re.compile(
    rf",\s*({_ONE})(?:\s*[-–]\s*({_ONE}))?\s*({_UNIT})\b(?!\.?\s*(?:each|apiece|a piece))", re.IGNORECASE
)
_WHOLE = re.compile(r"\s*(?:\w+\s+){0,2}(?:eggs?|yolks?|whites?|cloves?|leaf|leaves|sprigs?|anchov\w+|sheets?)\b", re.I)
_NOUN = (
    "egg|yolk|white|clove|sprig|onion|shallot|apple|pear|lemon|lime|orange|cabbage|carrot|leek|shank|duck|chicken|tin"
)
_NOUNS = re.compile(rf"(\s*(?:egg |red |white |large |small |medium |spring )*)(?:({_NOUN})s?|(bunch)(?:es)?)\b")
_PLURALS = {"cup": "cups", "pint": "pints", "quart": "quarts"}


@dataclass(frozen=True, slots=True)
class ScaledLine:
    """The line, and by what share its first amount differs from the exact one (0.05: five in a hundred too much)."""

    line: str
    off: float = 0.0
    exact: str = ""


@lru_cache(maxsize=1)
def _registry() -> Any:  # noqa: ANN401 - pint has no types of its own here
    import pint

    return pint.UnitRegistry(cache_folder=None)


def scale_line(line: str, factor: Fraction) -> ScaledLine | None:
    """A line for `factor` times as many; None when it has no amount ('salt')."""
    found = _AMOUNT.match(line.strip())
    if found is None:
        return None
    rest = line.strip()[found.end() :]
    unit = _UNITS.get((found[3] or "").lower(), "")
    whole = not unit and bool(_WHOLE.match(rest))
    first, second = read_number(found[1]), read_number(found[2]) if found[2] else None
    exact = (second or first) * factor
    amount, got = _measured(first * factor, unit, whole)
    words = amount
    if second is not None:
        upper, got = _measured(second * factor, unit, whole)
        words = _range(amount, upper)
    rest = _LATER.sub(lambda m: _later(m, factor), rest)
    glue = "" if not unit or found[0][-1:] != "." else "."
    return ScaledLine(words + glue + _agreeing(rest, words), float(got / exact) - 1, plain(exact))


def _later(found: re.Match[str], factor: Fraction) -> str:
    """'1 red cabbage, 1 kg': the weight of it all grows too; '4 shanks, 350 g each' does not."""
    unit = _UNITS[found[3].lower()]
    words = _measured(read_number(found[1]) * factor, unit, False)[0]
    if found[2]:
        words = _range(words, _measured(read_number(found[2]) * factor, unit, False)[0])
    return f", {words}"


def _range(low: str, high: str) -> str:
    if low == high:
        return low
    low_number, _, low_unit = low.partition(" ")
    return f"{low_number}-{high}" if high.partition(" ")[2] == low_unit else f"{low} - {high}"


def read_number(text: str) -> Fraction:
    """'1 1/2', '1½', '0,5', '2/3' as a fraction."""
    for glyph, value in _GLYPHS.items():
        text = text.replace(glyph, f" {value}")
    return sum((_part(piece) for piece in text.replace(",", ".").split()), Fraction(0))


def _part(piece: str) -> Fraction:
    above, slash, below = piece.partition("/")
    return Fraction(above) / Fraction(below) if slash and Fraction(below) else Fraction(above)


def _measured(exact: Fraction, unit: str, whole: bool) -> tuple[str, Fraction]:
    """Words for an amount, and the amount they say, in the unit that was given."""
    if not unit:
        step = Fraction(1) if whole or exact >= 4 else Fraction(1, 2)
        return plain(_rounded(exact, step)), _rounded(exact, step)
    fit = _unit_for(exact, unit)
    there = _convert(exact, unit, fit)
    rounded = _rounded(there, _step(there, fit))
    fit_again = _unit_for(_convert(rounded, fit, unit), unit)
    shown = _convert(rounded, fit, fit_again)
    name = _PLURALS.get(fit_again, fit_again) if shown > 1 else fit_again
    return f"{_number(shown, fit_again)} {name}", _convert(rounded, fit, unit)


def _convert(amount: Fraction, unit: str, to: str) -> Fraction:
    if unit == to:
        return amount
    names = {"fl oz": "fluid_ounce"}
    units = _registry()
    ratio = units.Quantity(1, names.get(unit, unit)).to(names.get(to, to)).magnitude
    return amount * Fraction(ratio).limit_denominator(100_000)


def _unit_for(amount: Fraction, unit: str) -> str:
    """The unit that a cook would measure so much in."""
    ladders = (("g", "kg"), ("ml", "l"), ("tsp", "tbsp", "cup"), ("oz", "lb"))
    least: dict[str, Fraction | int] = {"kg": 1, "l": 1, "tbsp": 1, "cup": Fraction(1, 4), "lb": 1}
    ladder = next((one for one in ladders if unit in one), (unit,))
    if unit == "oz":
        return unit  # 20 oz of flour stay ounces
    fits = [u for u in ladder[1:] if _convert(amount, unit, u) >= least[u] and (u != "cup" or unit == "cup")]
    return fits[-1] if fits else ladder[0]


def _step(amount: Fraction, unit: str) -> Fraction:
    """The step of rounding for so much of a unit."""
    if unit in ("g", "ml"):
        return Fraction(1 if amount < 20 else 5 if amount < 100 else 10)
    if unit in ("kg", "l"):
        return Fraction(1, 20)
    if unit in ("tsp", "tbsp", "cup"):
        return Fraction(1, 4) if amount < 3 and unit != "tbsp" else Fraction(1, 2)
    return Fraction(1, 4) if amount < 4 else Fraction(1, 2)


def _rounded(amount: Fraction, step: Fraction) -> Fraction:
    """To the nearest step, half up, never to nothing."""
    return max(step, step * ((amount / step + Fraction(1, 2)).__floor__()))


def _number(amount: Fraction, unit: str) -> str:
    return f"{float(amount):g}" if unit in ("g", "kg", "ml", "l", "cl", "dl") else plain(amount)


def plain(amount: Fraction) -> str:
    """'1½', '3', '0.7'."""
    whole, part = divmod(amount, 1)
    if not part:
        return str(whole)
    if part in _SHOWN:
        return f"{whole or ''}{_SHOWN[part]}"
    return f"{float(round(amount, 1)):g}"


def _agreeing(rest: str, words: str) -> str:
    """'1 egg', '2 eggs'."""
    if not words[-1:].isdigit() and words[-1:] not in _GLYPHS:
        return rest
    one = words == "1" or (len(words) == 1 and words in _GLYPHS)
    noun = _NOUNS.match(rest)
    if noun is None:
        return rest
    word, ending = (noun[2], "s") if noun[2] else (noun[3], "es")
    return f"{noun[1]}{word}{'' if one else ending}{rest[noun.end() :]}"
