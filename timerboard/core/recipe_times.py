"""Lengths of time in a sentence of a recipe: where they stand, how long, and what they are the length of."""

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from .recipe_numbers import AMOUNT, amount
from .values import Seconds

_UNITS = {"s": 1, "m": 60, "h": 3600, "d": 86_400, "w": 604_800, "n": 0}
_UNIT = re.compile(
    r"\s*[-‑]?\s*(?:(?:more|extra|further)\s+)?(?:(?P<s>seconds?|secs?)|(?P<m>minutes?|mins?)|(?P<h>hours?|hrs?)|(?P<d>days?)|(?P<w>weeks?))\b\.?",
    re.IGNORECASE,
)
_SHORT = re.compile(r"\s?(?:(?P<s>s)|(?P<m>m)|(?P<h>h))(?![\w’'])")  # only straight after a figure: '30 s', '2h'
_TO = re.compile(r"\s*(?:-|–|—|‑|\bto\b|\bor\b)\s*", re.IGNORECASE)
_AND_A = re.compile(r"\s*(?:,?\s*and\s+a\s+(?P<part>half|quarter|bit))\b", re.IGNORECASE)
_NEXT = re.compile(r"\s*(?:,|and|&)?\s*", re.IGNORECASE)
_OR_TWO = re.compile(r"\s+or\s+(?P<more>two|three|four|so)\b", re.IGNORECASE)
_BETWEEN = re.compile(r"between\s+$", re.IGNORECASE)
_AND = re.compile(r"\s*and\s*", re.IGNORECASE)
_OVERNIGHT = re.compile(r"\b(?:overnight|through the night)\b", re.IGNORECASE)
_FEW = re.compile(r"\b(?:a few|several) (?:(?P<m>minutes?|mins?)|(?P<h>hours?)|(?P<s>seconds))\b", re.IGNORECASE)
_EACH = re.compile(r"\b(?:every|each) (?P<half>half[- ](?:an )?)?(?P<u>minute|hour|day|week)\b", re.IGNORECASE)
OVERNIGHT_S = (8 * 3600, 16 * 3600)
LONGEST_S = 7 * 86_400


class Role(Enum):
    """What a length says of its step."""

    LENGTH = "how long it takes"
    LEAST = "at least"
    MOST = "at most"
    EVERY = "between two small jobs"
    AFTER = "since the step before began"
    LAST = "before the end"
    AHEAD = "before something else"
    KEEPS = "how long it keeps"
    PER_WEIGHT = "for every kilogram or pound"


@dataclass(frozen=True, slots=True)
class Found:
    """A length in a sentence: [start, end) of its characters, least and most seconds."""

    start: int
    end: int
    low: Seconds
    high: Seconds
    role: Role
    guessed: bool = False  # the words name no exact time: 'overnight', 'a few minutes'


def find_times(text: str) -> tuple[Found, ...]:
    """Every length in a sentence, in order. Never raises."""
    found: list[Found] = []
    at = 0
    while (start := AMOUNT.search(text, at)) is not None:
        read = _range(text, start.start()) if _free(text, start.start()) else None
        if read is None:
            at = start.end()
            continue
        low, high, at = read
        if 0 < low <= high <= LONGEST_S:
            found.append(_in_context(text, start.start(), at, low, high))
    found += [_loose(text, m, OVERNIGHT_S) for m in _OVERNIGHT.finditer(text)]
    found += [_loose(text, m, _few(m)) for m in _FEW.finditer(text)]
    found += [_each(m) for m in _EACH.finditer(text)]
    return tuple(sorted(found, key=lambda f: f.start))


def _free(text: str, at: int) -> bool:
    """True where a number may begin: not within a word or another number."""
    return at == 0 or not (text[at - 1].isalnum() or (text[at - 1] in ".,/" and text[max(0, at - 2)].isdigit()))


def _range(text: str, at: int) -> tuple[Seconds, Seconds, int] | None:
    first = _length(text, at)
    if first is not None:
        low, end = first
        if (more := _OR_TWO.match(text, end)) is not None:
            return _or_more(text, at, low, more)
        second = _second(text, at, end)
        return (low, second[0], second[1]) if second is not None and second[0] >= low else (low, low, end)
    bare = AMOUNT.match(text, at)
    if bare is None or bare[0].lower() in ("a", "an"):
        return None
    second = _second(text, at, bare.end())
    if second is None:
        return None
    unit = _last_unit(text, second[1])
    low = round(amount(bare[0]) * unit)
    return (low, second[0], second[1]) if 0 < low <= second[0] else None


def _second(text: str, at: int, end: int) -> tuple[Seconds, int] | None:
    """The high end of a range, after '-', 'to' or 'or', or 'between ... and'."""
    sep = _TO.match(text, end)
    if sep is None and _BETWEEN.search(text[:at]):
        sep = _AND.match(text, end)
    return None if sep is None else _length(text, sep.end())


def _or_more(text: str, at: int, low: Seconds, more: re.Match[str]) -> tuple[Seconds, Seconds, int]:
    """'a minute or two': one to two; 'an hour or so': about an hour."""
    times = {"two": 2, "three": 3, "four": 4}.get(more["more"].lower(), 1)
    return low, low * times, more.end()


def _length(text: str, at: int) -> tuple[Seconds, int] | None:
    """Seconds of '1 hr 10 min', 'an hour and a half', and where it ends."""
    total, smallest, end = Fraction(0), 1 << 40, at
    while (piece := _piece(text, end if end == at else _after_joint(text, end))) is not None:
        count, unit, stop = piece
        if unit >= smallest:
            break
        total, smallest, end = total + count * unit, unit, stop
        if (part := _AND_A.match(text, end)) is not None:
            share = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}.get(part["part"].lower(), Fraction(0))
            total, end = total + share * unit, part.end()
    return None if end == at or total <= 0 else (max(1, round(total)), end)


def _after_joint(text: str, at: int) -> int:
    joint = _NEXT.match(text, at)
    return at if joint is None else joint.end()


def _piece(text: str, at: int) -> tuple[Fraction, int, int] | None:
    number = AMOUNT.match(text, at)
    if number is None:
        return None
    unit = _UNIT.match(text, number.end())
    if unit is None and number[0][-1].isdigit():
        unit = _SHORT.match(text, number.end())
    if unit is None or _no_time(number[0], unit, text):
        return None
    return amount(number[0]), _UNITS[_kind(unit)], unit.end()


def _kind(unit: re.Match[str]) -> str:
    return next(name for name, value in unit.groupdict().items() if value)


def _no_time(number: str, unit: re.Match[str], text: str) -> bool:
    """'a second bowl' and 'two day old bread' are no lengths."""
    second = number.lower() in ("a", "an") and _kind(unit) == "s"
    return second or re.match(r"[-\s]?old\b", text[unit.end() :]) is not None


def _last_unit(text: str, end: int) -> int:
    """The unit that stands last before `end`: it holds for the bare number before it."""
    units = [_UNITS[_kind(m)] for m in _UNIT.finditer(text[:end])]
    short = re.search(r"[0-9]\s?([smh])$", text[:end])
    return _UNITS[short[1]] if short is not None else units[-1]


def _few(match: re.Match[str]) -> tuple[Seconds, Seconds]:
    if match["s"]:
        return 20, 40
    return (180, 300) if match["m"] else (2 * 3600, 4 * 3600)


def _each(match: re.Match[str]) -> Found:
    """'Every hour', 'every half hour': no number is written."""
    seconds = _UNITS[match["u"][0].lower()] // (2 if match["half"] else 1)
    return Found(match.start(), match.end(), seconds, seconds, Role.EVERY)


def _loose(text: str, match: re.Match[str], span: tuple[Seconds, Seconds]) -> Found:
    found = _in_context(text, match.start(), match.end(), *span)
    return Found(found.start, found.end, found.low, found.high, found.role, guessed=True)


_BEFORE: tuple[tuple[Role, str], ...] = (
    (Role.EVERY, r"\b(?:every|each)(?: about)?$"),
    (Role.LAST, r"\b(?:for|in|during) the (?:last|final)$|\bwith$(?<=\blast with)"),
    (Role.AFTER, r"\bafter(?: the first| about| around)?$|\bfor the first$"),
    (Role.KEEPS, r"\b(?:keeps?|keep well|stored?|lasts?)(?: \w+){0,6} for(?: up to| about)?$|\bwithin(?: about)?$"),
    (Role.LEAST, r"\b(?:at least|a minimum of|minimum|no less than)$"),
    (Role.MOST, r"\b(?:up to|at most|no more than|no longer than|maximum|a maximum of)$"),
)
_AFTERWARDS: tuple[tuple[Role, str], ...] = (
    (Role.PER_WEIGHT, r"^\s*(?:per|for every|for each|a)\s+(?:[0-9]+\s*)?(?:kg|kilo|kilogram|lb|pound|g\b)"),
    (Role.LAST, r"^\s*(?:before|from) (?:the end|it is done|it's done|they are done|the end of)"),
    (Role.AHEAD, r"^\s*(?:before|ahead|in advance|beforehand|earlier)\b"),
    (Role.EVERY, r"^\s*intervals\b"),
)
_TIMES = {"once": 1, "twice": 2, "two": 2, "three": 3, "four": 4, "2": 2, "3": 3, "4": 4}
_TIMES_A = re.compile(r"\b(once|twice|(?:two|three|four|[2-4]) times)$")
_FOR = re.compile(r"\bfor(?: at least| about| around| up to| another| a further| a minimum of| approximately)*$")
_SIDES = re.compile(
    r"^\s*(?:on (?:each|both|the other)|per|each|a|for each|either) sides?\b|^\s*on either side", re.IGNORECASE
)
_OTHER = re.compile(r"^\s*on the other side", re.IGNORECASE)


def _in_context(text: str, start: int, end: int, low: Seconds, high: Seconds) -> Found:
    before, after = text[max(0, start - 60) : start].rstrip().lower(), text[end : end + 40].lower()
    roles = [role for role, pattern in _AFTERWARDS if re.search(pattern, after)]
    if Role.AHEAD in roles and _FOR.search(before):  # 'rest for 30 minutes before carving' is how long it rests
        roles.remove(Role.AHEAD)
    roles += [role for role, pattern in _BEFORE if re.search(pattern, before)]
    if (often := _TIMES_A.search(before)) is not None:  # 'twice a day'
        share = _TIMES[often[1].split()[0]]
        return Found(start, end, max(1, low // share), max(1, high // share), Role.EVERY)
    sides = 2 if _SIDES.match(after) and not _OTHER.match(after) else 1
    return Found(start, end, low * sides, min(high * sides, LONGEST_S), roles[0] if roles else Role.LENGTH)
