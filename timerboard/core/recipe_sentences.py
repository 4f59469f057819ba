"""From a paragraph to sentences, and from a sentence to clauses that are each one job."""

import re
from dataclasses import dataclass

from .recipe_times import Found, Role, find_times
from .recipe_verbs import CUE_VERBS, JOBS, LEADING, SERVING, VERBS, Kind, Verb

_ABBREVIATED = re.compile(
    r"(?:\b(?:approx|min|mins|hr|hrs|sec|secs|no|vol|tbsp|tsp|oz|lb|lbs|e\.g|i\.e|etc|deg|temp|st|dr|incl|med|pt|qt)"
    r"|\b[ABDEGH-Z])\.$",
    re.IGNORECASE,
)
_END = re.compile(r"(?<=[.!?])[\"'”’)]*\s+(?=[\"'“‘(]*[^\W_a-z])")
_WORD = re.compile(r"[^\W_]+(?:[-’'][^\W_]+)*|[,;:()&–—]")
MOST_SENTENCE = 800
_STOPS = frozenset(",;:()–—")
_MAY_LEAD = frozenset(
    """and then or to now next first finally lastly meanwhile & also again simply just carefully please slowly once
    either before ready""".split()  # noqa: SIM905
)
_NOT_BEFORE = frozenset(
    """a an the this that of golden medium low high hot very good some any your my deep dark light pale with until
    in on from for its each more""".split()  # noqa: SIM905
)
_THINGS_TOO = frozenset(
    "butter flour bread oil ice shell bone stone core line smoke cream glaze salt toast quarter grill steam".split()  # noqa: SIM905
)
"""Words that are a thing unless they begin the clause or have an object: 'thicken with flour and butter'."""
_OBJECT = re.compile(r"\s+(?:the|a|an|it|them|with|for|in|on|under|until|both|each|well|over)\b", re.IGNORECASE)
JOINTS = re.compile(
    r"\s*;\s*|\s*[,.]?\s+(?:and\s+)?then,?\s+|\s*[–—]\s+|,\s+and\s+|\s+and\s+|,\s+(?!and\b|then\b)", re.IGNORECASE
)
_STRONG = re.compile(r"\s*;\s*|\s*[,.]?\s+(?:and\s+)?then,?\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Said:
    """A verb in a clause, with its place among the characters."""

    word: str
    start: int
    verb: Verb


def sentences(paragraph: str) -> tuple[str, ...]:
    """The sentences of a paragraph; every character but the spaces between them is kept."""
    out: list[str] = []
    for piece in _END.split(" ".join(paragraph.split())):
        if out and _ABBREVIATED.search(out[-1]) and not find_times(out[-1][-14:]):
            out[-1] = f"{out[-1]} {piece}"
        elif piece:
            out.append(piece)
    return tuple(part for sentence in out for part in _parted(sentence))


def _parted(sentence: str) -> list[str]:
    """A sentence of unreasonable length in parts that can be looked through quickly; no word is cut in two."""
    parts: list[str] = []
    rest = sentence
    while len(rest) > MOST_SENTENCE and (cut := rest.rfind(" ", 1, MOST_SENTENCE)) > 0:
        parts.append(rest[:cut])
        rest = rest[cut + 1 :]
    return [*parts, rest]


def verbs_in(clause: str) -> tuple[Said, ...]:
    """Verbs that tell somebody to do something, in order: 'brown' in 'golden brown' is none."""
    found: list[Said] = []
    before, led = "", False
    for match in _WORD.finditer(clause):
        word = match[0].lower()
        verb = VERBS.get(word)
        bare = word in _THINGS_TOO and bool(before) and not _OBJECT.match(clause, match.end())
        kept = word == "warm" and "keep" in clause[: match.start()].lower().split()
        if verb is not None and not bare and not kept and _tells(word, before, led):
            found.append(Said(word, match.start(), verb))
        led = led or word in LEADING
        before = word
    return tuple(found)


def _tells(word: str, before: str, led: bool) -> bool:
    if before in _NOT_BEFORE:
        return False
    if not before or before in _STOPS or before in _MAY_LEAD or before.endswith("ly") or before in LEADING:
        return True
    return led and before in ("it", "them")


def serves_only(clause: str) -> bool:
    """True when a sentence is about eating, not cooking: 'Serve with lemon wedges.'"""
    first = next((m[0].lower() for m in _WORD.finditer(clause) if m[0].lower() not in _MAY_LEAD), "")
    return first in SERVING and not any(s.verb.kind is not Kind.HANDS for s in verbs_in(clause))


def small_job(clause: str) -> bool:
    """True when a clause begins with a verb that can be a cue: 'Baste every 20 minutes'."""
    said = verbs_in(clause)
    first = next((m[0].lower() for m in _WORD.finditer(clause)), "")
    return bool(said and said[0].word in CUE_VERBS) or first in JOBS


def clauses(sentence: str) -> tuple[str, ...]:
    """Parts of a sentence that are jobs of their own: parted where each part has its own time, or at 'then'."""
    parts, rest = list[str](), sentence
    while (cut := _cut(rest)) is not None:
        parts.append(rest[: cut[0]])
        rest = rest[cut[1] :]
    return tuple(part.strip() for part in (*parts, rest) if part.strip())


def _cut(clause: str) -> tuple[int, int] | None:
    """Where a clause falls in two: (end of the first part, beginning of the second); None when it is one job."""
    times = [t for t in find_times(clause) if t.role in (Role.LENGTH, Role.LEAST, Role.MOST)]
    for joint in JOINTS.finditer(clause):
        if joint.start() < 4 or _within(joint, times):
            continue
        head, tail = clause[: joint.start()], clause[joint.end() :]
        second = verbs_in(tail)
        if not second or second[0].start > 25 or not verbs_in(head) or _first_word(tail) in JOBS:
            continue
        if _parts_times(joint, times) or (_STRONG.fullmatch(joint[0]) and _worth(head, tail)):
            return joint.start(), joint.end()
    return None


def _first_word(clause: str) -> str:
    found = _WORD.search(clause)
    return found[0].lower() if found else ""


def _within(joint: re.Match[str], times: list[Found]) -> bool:
    return any(t.start < joint.end() and joint.start() < t.end for t in times)


def _parts_times(joint: re.Match[str], times: list[Found]) -> bool:
    return any(t.end <= joint.start() for t in times) and any(t.start >= joint.end() for t in times)


def _worth(head: str, tail: str) -> bool:
    """At 'then' a sentence is parted when one side goes on by itself, or has a time of its own."""
    kinds = [{s.verb.kind for s in verbs_in(side)} for side in (head, tail)]
    by_itself = [bool(k & {Kind.HEAT, Kind.WAIT, Kind.PAN}) for k in kinds]
    return any(by_itself) or any(find_times(side) for side in (head, tail))
