"""A recipe pasted as plain text: its title, yield, ingredients and method, in whatever style it was written."""

import re
from dataclasses import dataclass, field

from .recipe_lines import (
    LABEL,
    NUMBERED,
    SHORT,
    goes_on,
    heads,
    label_of,
    looks_ingredient,
    looks_method,
    parted,
    tidy,
    unmarked,
    unnumbered,
)
from .recipe_numbers import AMOUNT, amount
from .recipe_times import find_times
from .recipe_values import Paragraph, Recipe, Section
from .values import Seconds

_YIELD = re.compile(
    r"^\W*(?:(?P<people>serves|serving|servings|feeds|for|portions|enough for)|(?P<made>makes|yields?|yield))\b\s*:?\s*"
    r"(?:about|approximately|around|up to)?\s*(?P<n>[0-9]{1,4}|[a-z]+)(?:\s*(?:-|–|to|or)\s*[0-9a-z]+)?\b(?P<rest>.*)$",
    re.IGNORECASE,
)
_YIELD_AFTER = re.compile(
    r"^\W*(?P<n>[0-9]{1,4})\s+(?:servings?|portions?|people|person|covers|guests)\b.{0,20}$", re.I
)
_TIME_LINE = re.compile(
    r"\b(?P<what>prep(?:aration)?|hands[- ]on|active|cook(?:ing)?|bak(?:e|ing)|total|ready in|rest(?:ing)?"
    r"|chill(?:ing)?|proving|roasting)(?:\s+times?)?\s*[:–—-]?\s*(?=[0-9½¼¾a-z])",
    re.IGNORECASE,
)
_IN_TITLE = re.compile(r"\s*\((?P<words>[^()]*[0-9][^()]*)\)\s*$")
_NEED = re.compile(r"^you(?: will|['’]ll) need:?\s+(?P<rest>.+)$", re.IGNORECASE)


@dataclass(slots=True)
class _Sorted:
    """Lines as they were sorted."""

    title: str = ""
    serves: int | None = None
    yields: str = ""
    ingredients: list[str] = field(default_factory=list)
    sections: list[tuple[str, list[str]]] = field(default_factory=list)
    before: list[str] = field(default_factory=list)
    after: list[str] = field(default_factory=list)
    hands_s: Seconds | None = None
    cooking_s: Seconds | None = None
    heading: str = ""  # of the ingredients: 'for the sauce'
    heading_told: bool = True  # it stands beside an ingredient

    def head(self, words: str) -> None:
        """Begin a part of the ingredients; a heading that headed nothing is kept as a note."""
        if not self.heading_told:
            self.before.append(self.heading)
        self.heading, self.heading_told = words, not words


def read_recipe_text(text: str) -> Recipe:
    """The recipe in a text. Never raises: what cannot be told apart is kept as a note."""
    lines = [tidy(line) for line in text.replace("\r\n", "\n").replace("\r", "\n").split("\n")]
    found = _Sorted()
    part = "top"
    labelled = any(label_of(line) in ("ingredients", "method") for line in lines)
    fresh = True
    for line in lines:
        if not line:
            fresh = True
            continue
        part = _take(found, line, part, labelled, fresh)
        fresh = False
    found.head("")
    return Recipe(
        title=found.title,
        serves=found.serves,
        yields=found.yields,
        ingredients=tuple(found.ingredients),
        method=tuple(Section(head, tuple(map(Paragraph, body))) for head, body in found.sections if head or body),
        before=tuple(found.before),
        after=tuple(found.after),
        hands_s=found.hands_s,
        cooking_s=found.cooking_s,
    )


def _take(found: _Sorted, line: str, part: str, labelled: bool, fresh: bool) -> str:
    """Sort one line; gives the part that it leaves us in."""
    if label := label_of(line):
        _opened(found, line, label)
        return label
    bare = unmarked(line)
    if not bare:
        return part
    if not found.title and part == "top":
        _take_title(found, bare)
        return part
    if (need := _NEED.match(bare)) is not None and part in ("top", "ingredients"):
        found.ingredients += parted(need["rest"].rstrip("."))
        found.before.append(bare)
        return "ingredients"
    if part in ("top", "ingredients", "after") and _said_first(found, bare) and part != "after":
        return part
    if part == "after":
        found.after.append(bare)
        return part
    if part == "method":
        _method_line(found, line, unnumbered(line), fresh)
        return part
    return _unlabelled(found, line, part, labelled, fresh)


def _take_title(found: _Sorted, line: str) -> None:
    """The title, without a yield that stands in brackets after it."""
    aside = _IN_TITLE.search(line)
    if aside is not None and aside.start() and _yield(found, aside["words"]):
        found.before.append(aside["words"])
        line = line[: aside.start()]
    name, *more = re.split(r"\s+[-–—|•]\s+", line)
    told = [piece for piece in more if _said_first(found, piece)]
    found.title = " - ".join([name, *(piece for piece in more if piece not in told)])


def _opened(found: _Sorted, line: str, label: str) -> None:
    match = LABEL[label].match(unmarked(line).strip("*_=#~ "))
    rest = match["rest"].strip() if match else ""
    aside = (match["aside"] or "").strip() if match else ""
    if aside:
        _keep_aside(found, aside)
    if label == "method":
        found.sections.append(("", [rest] if rest else []))
    elif label == "ingredients" and rest:
        found.ingredients += parted(rest)
    elif label == "after":
        found.after.append(unmarked(line))


def _keep_aside(found: _Sorted, aside: str) -> None:
    if not _said_first(found, aside):
        found.before.append(aside)


def _said_first(found: _Sorted, line: str) -> bool:
    """Yields and times above the method. They are notes as well, so that no word is lost."""
    told = False
    if len(line) <= 120:
        for piece in re.split(r"\s*[|·•;]\s*|\s{2,}|,\s+(?=[A-Za-z]+(?: time)?:)|\.\s+", line):
            told = _yield(found, piece) or _times(found, piece) or told
    if told:
        found.before.append(line)
    return told


def _yield(found: _Sorted, line: str) -> bool:
    match = _YIELD.match(line) or _YIELD_AFTER.match(line)
    if match is None or found.serves is not None or len(line) > SHORT:
        return False
    number = match["n"].lower()
    if not number.isdecimal() and AMOUNT.fullmatch(number) is None:
        return False
    count = int(amount(number))
    groups = match.groupdict()
    if (groups.get("people") or "").lower() == "for" and not re.match(
        r"\s*(?:people|persons|\W*$)", groups["rest"] or ""
    ):
        return False
    if not 1 <= count <= 100_000:
        return False
    if groups.get("made") and not re.search(r"servings?|portions?|people", groups["rest"] or ""):
        found.yields = found.yields or " ".join(line.split())
        return True
    found.serves = count
    return True


def _times(found: _Sorted, line: str) -> bool:
    told = False
    for match in _TIME_LINE.finditer(line):
        times = find_times(line[match.end() : match.end() + 40])
        if not times or times[0].start > 6 or len(line) > 90 or (match.start() > 3 and ":" not in line):
            continue
        told, what = True, match["what"].lower()
        if what.startswith(("prep", "hands", "active")):
            found.hands_s = found.hands_s or times[0].high
        elif what.startswith(("cook", "bak", "roast")):
            found.cooking_s = found.cooking_s or times[0].high
    return told


def _unlabelled(found: _Sorted, line: str, part: str, labelled: bool, fresh: bool) -> str:
    """A line above the method, where nothing or only 'Ingredients' is written over it."""
    bare = unmarked(line)
    if heads(bare):
        found.head(bare.rstrip(":"))
        return "ingredients"
    methodic = looks_method(line, bare)
    if part == "ingredients" and labelled and not methodic:
        lines = parted(bare) if re.search("[;|•]", bare) else [bare]
        found.ingredients += [_with_heading(found, one) for one in lines]
    elif methodic and not (labelled and part == "top" and not found.ingredients):
        found.sections.append(("", []))
        _method_line(found, line, bare, fresh)
        return "method"
    elif looks_ingredient(bare) or (part == "ingredients" and len(bare) <= SHORT and not bare.endswith(".")):
        found.ingredients += [_with_heading(found, one) for one in parted(bare)]
        return "ingredients"
    else:
        found.before.append(bare)
    return part


def _with_heading(found: _Sorted, line: str) -> str:
    found.heading_told = True
    heading = (
        found.heading[:1].lower() + found.heading[1:] if found.heading.lower().startswith("for") else found.heading
    )
    return f"{line} ({heading})" if heading else line


def _method_line(found: _Sorted, line: str, bare: str, fresh: bool) -> None:
    """A paragraph of the method, the next line of one that was wrapped, or a heading."""
    if not found.sections:
        found.sections.append(("", []))
    if heads(bare) and not find_times(bare) and not NUMBERED.match(line):
        found.sections.append((bare, []))
        return
    body = found.sections[-1][1]
    if body and not fresh and bare == line and goes_on(body[-1], bare):
        body[-1] = f"{body[-1]} {bare}"
    else:
        body.append(bare)
