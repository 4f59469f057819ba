"""How long a job is: its own time, the sum of two, a time for each kilogram, or what its verb usually takes."""

import re

from .recipe_job import LENGTHS, Job
from .recipe_sentences import Said
from .recipe_times import Found, Role
from .recipe_verbs import Kind

OUT_OF = re.compile(r"\b(?:out of|from) the (?:fridge|refrigerator|freezer)\b|\btake (?:\w+ )?out\b", re.IGNORECASE)
_SUMMED = re.compile(r"\b(?:then|followed by|plus|and (?:a )?(?:further|another))\b", re.IGNORECASE)
_LONGEST_S = 7 * 86_400


def set_length(job: Job, main: Said, lengths: list[Found], clause: str) -> None:
    """The job's span from the lengths that its clause speaks of, and what of it is a guess."""
    if not lengths:
        usual = main.verb.minutes
        job.span, job.timed = (round(60 * usual[0]), round(60 * usual[1])), False
        job.guessed_span = "the recipe gives no time"
        return
    first = lengths[0]
    if first.role is Role.PER_WEIGHT:
        job.per_kilo = _per_kilo(clause, first, lengths)
        job.span, job.guessed_span = (first.low, first.high), "the recipe counts it by weight"
        return
    same = [t for t in lengths if t.role is not Role.PER_WEIGHT]
    low, high = min(t.low for t in same), max(t.high for t in same)
    if len(same) > 1:
        job.guessed_span = "the recipe gives more than one time"
        if _SUMMED.search(clause[same[0].end : same[-1].start]):
            low, high = sum(t.low for t in same), sum(t.high for t in same)
        high = min(high, 3 * low)  # '30 minutes, or overnight': more than three times as long makes no plan
    if first.role is Role.LEAST and len(same) == 1:
        high, job.guessed_span = (low * 2 if job.kind is Kind.WAIT else low + low // 2), "the recipe gives the least"
    elif first.role is Role.MOST and len(same) == 1:
        low, job.guessed_span = max(1, high * 2 // 3), "the recipe gives the most"
    elif first.guessed:
        job.guessed_span = "the recipe gives no exact time"
    job.span = (min(low, _LONGEST_S), min(high, _LONGEST_S))


def set_tempering(job: Job, main: Said, times: tuple[Found, ...], clause: str) -> None:
    """What stands before it is cooked: 'take the lamb out of the fridge an hour before roasting'; what drains long."""
    early = next((t for t in times if t.role is Role.AHEAD), None)
    if early is not None and OUT_OF.search(clause) and not any(t.role in LENGTHS for t in times):
        job.kind, job.place, job.span, job.timed, job.guessed_span = (
            Kind.WAIT,
            "counter",
            (early.low, early.high),
            True,
            "",
        )
    if main.word == "drain" and job.timed and job.span[0] >= 300:
        job.kind = Kind.WAIT


def _per_kilo(clause: str, found: Found, lengths: list[Found]) -> tuple[int, int]:
    """Seconds for a kilogram, and the seconds on top ('plus 20 minutes')."""
    unit = re.match(
        r"\s*(?:per|for every|for each|a)\s+(?P<n>[0-9]+)?\s*(?P<u>kg|kilo\w*|lb|pound|g)", clause[found.end :], re.I
    )
    kilos = 1.0
    if unit is not None:
        kilos = int(unit["n"] or 1) * {"k": 1.0, "l": 0.4536, "p": 0.4536, "g": 0.001}[unit["u"][0].lower()]
    extra = next(
        (t.low for t in lengths if t is not found and re.search(r"plus|and|\+", clause[found.end : t.start])), 0
    )
    return round((found.low + found.high) / 2 / max(kilos, 0.05)), extra
