"""Temperatures in a sentence of a recipe: of the oven, of the oil, or in the middle of the food."""

import re
from dataclasses import dataclass
from enum import Enum

from .quantities import parse_celsius

GAS_C = {
    "¼": 110, "1/4": 110, "½": 130, "1/2": 130, "1": 140, "2": 150, "3": 170, "4": 180, "5": 190, "6": 200, "7": 220,
    "8": 230, "9": 240, "10": 260,
}  # fmt: skip
"""Marks of a gas oven in °C: common practice, no source."""

OVEN_WORDS = {"very slow": 130, "slow": 150, "low": 150, "cool": 140, "moderate": 180, "medium": 180,
              "moderately hot": 200, "hot": 210, "very hot": 230}  # fmt: skip
"""Ovens in words, in °C: common practice, no source."""

_DEGREES = re.compile(
    r"(?<![\w.,])(?P<n>[0-9]{2,3}(?:\.[0-9])?)(?:\s*(?:-|–|to)\s*(?P<m>[0-9]{2,3}(?:\.[0-9])?))?\s*"
    r"(?:(?P<sign>°|º|˚|degrees?|deg\.?)\s*(?P<u>c|f|celsius|fahrenheit|centigrade)?|(?P<v>c|f|celsius|℃|℉))(?![\w’'])",
    re.IGNORECASE,
)
_GAS = re.compile(r"\bgas(?:\s+mark)?\s*(?P<mark>¼|½|1/[24]|10|[1-9])(?![0-9])", re.IGNORECASE)
_NAMED = re.compile(rf"\b(?P<name>{'|'.join(sorted(OVEN_WORDS, key=len, reverse=True))}) oven\b", re.IGNORECASE)
_FAN_AFTER = re.compile(r"^\s*\(?\s*(?:fan|convection)", re.IGNORECASE)
_FAN_BEFORE = re.compile(r"\b(?:fan|convection)(?:\s+ovens?)?\s*:?\s*$", re.IGNORECASE)
_INSIDE = re.compile(
    r"\b(?:reach\w*|reads?|reading|registers?|internal|core|probe|thermometer|at least|middle|centre|center|inside|"
    r"thickest)\b",
    re.IGNORECASE,
)
_OVEN = re.compile(r"\b(?:oven|preheat\w*|pre-heat\w*|bake|roast)\b", re.IGNORECASE)
_OIL = re.compile(r"\b(?:oil|fat|fryer|deep[- ]fry)\b", re.IGNORECASE)
_SUGAR = re.compile(r"\b(?:sugar|syrup|caramel|toffee|fudge|jam|marmalade|setting point|soft ball|crack)\b", re.I)
_WATER = re.compile(r"\b(?:water|milk|lukewarm|hand-hot)\b", re.IGNORECASE)


class HeatOf(Enum):
    """What a temperature is the temperature of."""

    OVEN = "oven"
    OIL = "oil"
    FOOD = "food"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Heat:
    """A temperature in a sentence. `written` is in the menu file's form: '180 C'."""

    start: int
    end: int
    written: str
    of: HeatOf
    fan: bool = False
    guess: str = ""  # what the recipe left open


def find_heats(text: str) -> tuple[Heat, ...]:
    """Every temperature in a sentence, in order. Never raises."""
    found = [_degrees(text, m) for m in _DEGREES.finditer(text)]
    found += [_gas(m) for m in _GAS.finditer(text)]
    found += [_named(m) for m in _NAMED.finditer(text)]
    return tuple(sorted((f for f in found if f is not None), key=lambda f: f.start))


def oven_heat(heats: tuple[Heat, ...]) -> Heat | None:
    """The one to set: degrees without fan before those with, a gas mark or a word only when there is nothing else."""
    ovens = [heat for heat in heats if heat.of is HeatOf.OVEN]
    return min(ovens, key=lambda h: (h.fan, bool(h.guess), h.start), default=None)


def _degrees(text: str, match: re.Match[str]) -> Heat | None:
    said = (match["u"] or match["v"] or "").lower()
    number = match["n"]
    unit = "F" if said[:1] in ("f", "℉") else "C"
    guess = ""
    if not said:
        unit = "F" if float(number) > 260 else "C"
        guess = "the recipe gives degrees without a scale"
    if match["m"]:
        guess = f"the recipe says {number} to {match['m']}"
    written = f"{number} {unit}"
    fan = bool(_FAN_AFTER.match(text[match.end() :]) or _FAN_BEFORE.search(text[: match.start()]))
    of = _of(text, match, parse_celsius(written) if float(number) < 600 else 999)
    if of is HeatOf.OVEN and fan:
        guess = "this is for a fan oven"
    return None if of is HeatOf.OTHER else Heat(match.start(), match.end(), written, of, fan, guess)


def _of(text: str, match: re.Match[str], celsius: float) -> HeatOf:
    before = text[max(0, match.start() - 70) : match.start()]
    around = before + text[match.end() : match.end() + 25]
    inside = _last(_INSIDE, before)
    if inside > max(_last(_OVEN, before), _last(_OIL, before)) and celsius <= (175 if _SUGAR.search(text) else 125):
        return HeatOf.FOOD
    if inside < 0 and celsius <= 100 and re.match(r"\s*(?:internal|in the (?:middle|centre|center)|core|inside)",
                                                  text[match.end() :], re.IGNORECASE):  # fmt: skip
        return HeatOf.FOOD
    if _OIL.search(around) and not _OVEN.search(around) and 120 <= celsius <= 230:
        return HeatOf.OIL
    if celsius <= 60 and (_WATER.search(around) or not _OVEN.search(text)):
        return HeatOf.OTHER
    return HeatOf.OVEN if 50 <= celsius <= 350 else HeatOf.OTHER


def _last(pattern: re.Pattern[str], text: str) -> int:
    return max((m.end() for m in pattern.finditer(text)), default=-1)


def _gas(match: re.Match[str]) -> Heat:
    mark = match["mark"]
    return Heat(match.start(), match.end(), f"{GAS_C[mark]} C", HeatOf.OVEN, guess=f"gas mark {mark}")


def _named(match: re.Match[str]) -> Heat:
    name = match["name"].lower()
    return Heat(
        match.start(), match.end(), f"{OVEN_WORDS[name]} C", HeatOf.OVEN, guess=f"the recipe says a {name} oven"
    )
