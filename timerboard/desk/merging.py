"""Two texts that grew from one, joined line by line where they did not touch the same lines (a three-way merge)."""

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class _Hunk:
    """Lines [start, end) of the base gave way to `lines`."""

    start: int
    end: int
    lines: tuple[str, ...]


def merged(base: str, mine: str, theirs: str) -> str | None:
    """The text with both sides' changes; None when both changed the same lines, or lines that touch, differently.

    Changes that touch are not joined either: two entries added at one place have no order of their own.
    """
    if theirs in (mine, base):
        return mine
    if base == mine:
        return theirs
    lines = base.splitlines(keepends=True)
    ours, others = list(_hunks(lines, mine)), list(_hunks(lines, theirs))
    both = sorted({*ours, *others}, key=lambda hunk: (hunk.start, hunk.end))
    for one, other in pairwise(both):
        if other.start < one.end or other.start == one.start or (other.start == one.end and _sides(one, other, ours)):
            return None
    out, at = [], 0
    for hunk in both:
        out += [*lines[at : hunk.start], *hunk.lines]
        at = hunk.end
    return "".join([*out, *lines[at:]])


def _sides(one: _Hunk, other: _Hunk, ours: list[_Hunk]) -> bool:
    return (one in ours) != (other in ours)


def _hunks(lines: list[str], text: str) -> Iterator[_Hunk]:
    new = text.splitlines(keepends=True)
    for what, a, b, c, d in SequenceMatcher(None, lines, new, autojunk=False).get_opcodes():
        if what != "equal":
            yield _Hunk(a, b, tuple(new[c:d]))
