"""Single lines of a pasted recipe: what they look like, whatever stands around them."""

import re

from .recipe_numbers import AMOUNT
from .recipe_sentences import sentences, serves_only, verbs_in
from .recipe_times import find_times

_LABELS: tuple[tuple[str, str], ...] = (
    (
        "ingredients",
        r"ingredients?(?: list)?|you will need|you['’]ll need|what you need|shopping list|for the shopping",
    ),
    (
        "method",
        r"method|directions?|instructions?|preparation(?: method)?|steps?|how to make(?: it)?|to make|procedure|what to"
        r" do|here['’]?s how(?: to (?:do|make) it)?|cooking(?: instructions)?",
    ),
    ("after", r"notes?|tips?|cook['’]?s notes?|to store|storage|variations?|make ahead|leftovers|nutrition"),
)
LABEL = {
    name: re.compile(rf"^(?:the )?(?:{words})\s*(?:\((?P<aside>[^)]*)\))?\s*(?P<colon>[:.–—-]|$)\s*(?P<rest>.*)$", re.I)
    for name, words in _LABELS
}
_MARKER = re.compile(
    r"^\s*(?:(?:step|stage)\s+(?:[0-9]{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\s*(?:[.:)–—-]\s*|$)"
    r"|\(?[0-9]{1,2}\s*[.)](?!\d)\s*|[0-9]{1,2}\s*[–—]\s+|[-*•◦▪‣–—·]\s+|\[[ xX]?\]\s*|☐\s*|#+\s*|>\s+)+",
    re.IGNORECASE,
)
NUMBERED = re.compile(r"^\s*(?:step\s+\w+\s*[.:)–—-]?|\(?[0-9]{1,2}\s*[.)](?!\d))(?:\s+\D|\s*$)", re.IGNORECASE)
_BARE_NUMBER = re.compile(r"[0-9]{1,2}\s+(?=(?P<word>[A-Z][a-z]+)\b)")
_MEASURES = frozenset(("tbsp", "tsp", "cups", "cup", "tablespoons", "tablespoon", "teaspoon", "teaspoons", "tins"))
_FOR_THE = re.compile(r"^(?:for|to) (?:the |a )?[^.!?]{2,50}:?$", re.IGNORECASE)
SHORT = 60
_PREHEAT = re.compile(r"\W*pre-?heat\b", re.IGNORECASE)
_HEADING = re.compile(r"^[^.!?;]{2,48}:$")


def tidy(line: str) -> str:
    """A line without the marks of bold text, its spaces single."""
    return " ".join(line.replace("**", "").replace("__", "").replace("\ufeff", "").split())


def unmarked(line: str) -> str:
    """A line without its number or bullet."""
    return _MARKER.sub("", line, count=1).strip()


def unnumbered(line: str) -> str:
    """A line of a method without its marker, and without a number that has no dot: '2 Meanwhile, heat the oil'."""
    bare = unmarked(line)
    found = _BARE_NUMBER.match(bare)
    return bare[found.end() :] if found is not None and found["word"].lower() not in _MEASURES else bare


def label_of(line: str) -> str:
    """Which part a line opens: 'ingredients', 'method', 'after', or ''."""
    bare = unmarked(line).strip("*_=#~ ")
    for name, pattern in LABEL.items():
        found = pattern.match(bare)
        if found is not None and (found["colon"] == ":" or not found["rest"]) and found["colon"] != "-":
            return name
    return ""


def parted(line: str) -> list[str]:
    """Ingredients written on one line; a comma within one ('2 onions, chopped') does not part it."""
    parts = re.split(r"\s*[;•|]\s*", line)
    if len(parts) > 1:
        return [part for part in parts if part]
    line = re.sub(r"\s+and\s+(?=[0-9½¼¾])", ", ", line)
    parts = re.split(
        r",\s+(?=(?:[0-9½¼¾⅓⅔]|a |an |some |pinch|salt|pepper|half )(?!.*\beach\b))", line, flags=re.IGNORECASE
    )
    return [part for part in parts if part]


def looks_ingredient(line: str) -> bool:
    """True when a line begins with an amount or a staple and is no sentence."""
    if len(line) > 110 or re.search(r"[.!?]\s+\S", line):
        return False
    starts = AMOUNT.match(line) is not None or re.match(
        r"(?:half|some|pinch|handful|salt|pepper|oil|butter)\b", line, re.I
    )
    return bool(starts) and not (verbs_in(line) and line.endswith("."))


def looks_method(line: str, bare: str) -> bool:
    """True when a sentence of the line begins by telling somebody to do something."""
    told = [_tells_first(sentence) for sentence in sentences(bare)[:4]]
    if not any(told):
        return False
    if NUMBERED.match(line):
        return True
    if looks_ingredient(bare) and not bare.endswith("."):
        return False
    return len(bare) > 40 or bare.endswith((".", ";")) or bool(find_times(bare))


def _tells_first(sentence: str) -> bool:
    said = verbs_in(sentence)
    return bool(said and said[0].start <= 40) or serves_only(sentence) or bool(_PREHEAT.match(sentence))


def goes_on(before: str, line: str) -> bool:
    """True when a line was only wrapped: the one before is long and does not end, or this one begins small."""
    ended = before.rstrip().endswith((".", "!", "?", ":"))
    return (not ended and (len(before) > 45 or line[:1].islower())) or (
        ended and len(before) > 60 and line[:1].islower()
    )


def heads(line: str) -> bool:
    """True for a heading inside the ingredients or the method: 'For the sauce:'."""
    named = _FOR_THE.match(line) is not None and (line.endswith(":") or not verbs_in(line))
    return named or _HEADING.match(line) is not None
