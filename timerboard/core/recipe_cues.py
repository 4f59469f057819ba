"""Small jobs while something runs: 'basting every 30 minutes', 'turn halfway through', 'stirring now and then'."""

import re
from dataclasses import dataclass

from .recipe_times import Found, Role
from .recipe_verbs import CUE_VERBS, JOBS, VERBS
from .values import Seconds

_NAMES = "|".join(sorted((*JOBS, *CUE_VERBS), key=len, reverse=True))
_JOB = re.compile(rf"\b(?P<verb>{_NAMES})\b(?P<rest>[^,.;()]*)", re.IGNORECASE)
_HALFWAY = re.compile(r"\b(?:half[- ]?way|half way)(?: through)?\b|\bat half[- ]time\b", re.IGNORECASE)
_NOW_AND_THEN = re.compile(
    r"\b(?:occasionally|from time to time|now and (?:then|again)|once in a while|every so often|regularly|frequently"
    r"|often)\b",
    re.IGNORECASE,
)
_OFTEN = re.compile(r"regularly|frequently|often$", re.IGNORECASE)
_TRAILING = re.compile(
    r"\s*\b(?:every|each|after|about|once|twice|at|and|then|or|for the (?:last|final)|for the|for|in the|with the"
    r"|until.*|so that.*|to (?:stop|prevent|make|ensure).*)\s*$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class CueFound:
    """A small job: exactly one of `every_s`, `at_s`, `before_end_s`, `halfway`. `guess` says what was not written."""

    do: str
    every_s: Seconds = 0
    at_s: Seconds = 0
    before_end_s: Seconds = 0
    halfway: bool = False
    guess: str = ""


def cues_in(clause: str, times: tuple[Found, ...]) -> tuple[CueFound, ...]:
    """The small jobs that a clause speaks of."""
    found: list[CueFound] = []
    for time in times:
        if time.role is Role.EVERY and (do := _named(clause, time.start, time.end)):
            found.append(CueFound(do, every_s=time.low))
    half = _HALFWAY.search(clause)
    if half is not None and (do := _named(clause, half.start(), half.end())):
        found.append(CueFound(do, halfway=True))
    loose = _NOW_AND_THEN.search(clause)
    if loose is not None and not found and (do := _named(clause, loose.start(), loose.end())):
        often = 180 if _OFTEN.search(loose[0]) else 300
        found.append(CueFound(do, every_s=often, guess=f"the recipe says {loose[0].lower()}"))
    return tuple({cue.do.lower(): cue for cue in found}.values())


def cue_after(clause: str, times: tuple[Found, ...], *, participles: bool = False) -> CueFound | None:
    """'After 30 minutes, turn the potatoes' or 'brush with glaze for the last 10 minutes': a job at one moment.

    With `participles` only words like 'brushing' count: beside a step's own time they tell a small job from a step.
    """
    time = next((t for t in times if t.role in (Role.AFTER, Role.LAST)), None)
    if time is None:
        return None
    do = _named(clause, time.start, time.end, participles)
    if not do and not participles:
        do = _any_job(clause[time.end :]) or _any_job(clause[: time.start])
    if not do:
        return None
    return CueFound(do, at_s=time.low) if time.role is Role.AFTER else CueFound(do, before_end_s=time.high)


def _named(clause: str, start: int, end: int, participles: bool = False) -> str:
    """The job whose words stand nearest before a time, else the first after it."""
    fits = [m for m in _JOB.finditer(clause) if not participles or m["verb"].lower() in JOBS]
    before = [m for m in fits if m.start() < start]
    after = next((m for m in fits if m.start() >= end), None)
    match = before[-1] if before and not clause[before[-1].end() : start].strip(" ,").count(",") else after
    if match is None:
        return ""
    return _imperative(match["verb"], match["rest"] if match is after else clause[match.end("verb") : start])


def _imperative(verb: str, rest: str) -> str:
    do = f"{JOBS.get(verb.lower(), verb.lower())} {_bare(_HALFWAY.sub('', _NOW_AND_THEN.sub('', rest)))}".strip()
    return (do[:1].upper() + do[1:])[:60].strip().replace("/", " or ")


def _bare(words: str) -> str:
    """Words without what leads to a time at their end."""
    words = " ".join(words.split()).strip(" ,;:.")
    while (cut := _TRAILING.search(words)) is not None:
        words = words[: cut.start()].strip(" ,;:.")
    return words


def _any_job(clause: str) -> str:
    """The job of any kind that a clause begins with: 'add the potatoes'."""
    words = clause.lstrip(" ,")
    first = re.match(r"[^\W_]+", words)
    if first is None or first[0].lower() not in VERBS:
        return ""
    rest = _bare(re.split(r"[,.;()]| and (?:cook|roast|bake|simmer|continue|return)\b| until ", words)[0])
    return (rest[:1].upper() + rest[1:])[:60].strip().replace("/", " or ")
