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
    """The text with both sides' changes; None when both changed the same lines differently.

    Lines added where the other side changed the line next to them are not joined either: they may belong together.
    """
    if theirs in (mine, base):
        return mine
    if base == mine:
        return theirs
    lines = base.splitlines(keepends=True)
    ours, others = list(_hunks(lines, mine)), list(_hunks(lines, theirs))
    both = sorted({*ours, *others}, key=lambda hunk: (hunk.start, hunk.end))
    if any(_clash(one, other) for one, other in pairwise(both)):
        return None
    out, at = [], 0
    for hunk in both:
        out += [*lines[at : hunk.start], *hunk.lines]
        at = hunk.end
    return "".join([*out, *lines[at:]])


def _clash(one: _Hunk, other: _Hunk) -> bool:
    """Two hunks in the order of the base that have no order of their own, or speak of the same lines.

    Lines of one side never clash with each other: there a line that stayed lies between any two hunks.
    """
    adds = one.start == one.end or other.start == other.end
    return other.start < one.end or other.start == one.start or (other.start == one.end and adds)


def _hunks(lines: list[str], text: str) -> Iterator[_Hunk]:
    new = text.splitlines(keepends=True)
    for what, a, b, c, d in SequenceMatcher(None, lines, new, autojunk=False).get_opcodes():
        if what != "equal":
            yield _Hunk(a, b, tuple(new[c:d]))
