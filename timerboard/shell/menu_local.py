"""A change made in the lines of one step, one dish or one key alone: a key press need not read the whole text again.

YAML in block style is read the same wherever its lines stand, as long as what is above them ends as it did. So an
entry's lines are patched and checked under a head of their own, and put back; where its parts stand is known then too.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from timerboard.core.faults import Path
from timerboard.desk.editor_ports import EditRefused

from .menu_lines import after_line, line_start, newline
from .menu_spots import Spot, know, spot_at, spots_of, tail

DISH: Path = ("dishes", 0)
STEP: Path = ("dishes", 0, "steps", 0)
HEADS = {DISH: "dishes:\n", STEP: "dishes:\n- steps:\n"}


@dataclass(frozen=True, slots=True)
class Section:
    """Lines [start, end) of a text that hold one part (at `part`), and how they stand alone: below `head`, at `alone`,
    where `path` is what is to be changed."""

    start: int
    end: int
    part: Path
    head: str
    alone: Path
    path: Path


def locally(change: Callable[[str, Path], str], text: str, path: Path) -> str | None:
    """The text with a change at a path, made in the lines of its step, dish or key; None: it needs the whole text."""
    root = spots_of(text)
    section = section_of(text, root, path) if root is not None else None
    if root is None or section is None:
        return None
    lines = section.head + text[section.start : section.end]
    try:
        made = change(lines, section.path)
    except EditRefused:
        return None  # the whole text says better why
    grown = spots_of(made)
    part = spot_at(grown, section.alone) if grown is not None else None
    if grown is None or part is None or not made.startswith(section.head) or not _is_alone(grown, section.alone):
        return None
    whole = text[: section.start] + made[len(section.head) :] + text[section.end :]
    by = len(whole) - len(text)
    moved = _moved(part, section.start - len(section.head))
    left = [(k, v) for k, v in _entries(root, section.part) if k is not None and k.start >= section.end]
    moved.entries += [(_moved(key, by), _moved(value, by)) for key, value in left]  # a dish's steps
    moved.end = _moved(left[-1][1], by).end if left else moved.end
    know(whole, _grown(root, section.part, moved, section.end, by))
    return whole


def _entries(root: Spot, path: Path) -> "list[tuple[Spot | None, Spot]]":
    spot = spot_at(root, path)
    return spot.entries if spot is not None else []


def section_of(text: str, root: Spot, path: Path) -> Section | None:
    """The smallest part around a path that has lines of its own."""
    match path:
        case ("dishes", _, "steps", _, _, *_):
            return _entry(text, root, path, STEP) or _entry(text, root, path, DISH)
        case ("dishes", _, _, *_):
            return _entry(text, root, path, DISH)
        case (str(), *_) if path[0] != "dishes":
            return _key(text, root, path)
    return None


def _entry(text: str, root: Spot, path: Path, alone: Path) -> Section | None:
    """An entry of a block list: from its dash to the next one's."""
    depth = len(alone)
    holder, n = spot_at(root, path[: depth - 1]), path[depth - 1]
    above = [spot_at(root, path[:length]) for length in range(depth)]
    if holder is None or holder.kind != "list" or not isinstance(n, int) or not 0 <= n < len(holder.entries):
        return None
    if any(spot is None or spot.flow or spot.kind == "alias" for spot in above):
        return None
    own = holder.entries[n][1]
    following = holder.entries[n + 1][1] if n + 1 < len(holder.entries) else None
    if own.kind != "map" or not _after_dash(text, own) or (following and not _after_dash(text, following)):
        return None
    end = line_start(text, following.start) if following else after_line(text, own.end)
    if alone == DISH and path[depth] != "steps":
        end = _before_steps(text, own, end)
    head = HEADS[alone].replace("\n", newline(text))
    return Section(line_start(text, own.start), end, path[:depth], head, alone, (*alone, *path[depth:]))


def _before_steps(text: str, dish: Spot, end: int) -> int:
    """Where the steps of a dish begin, when they are its last key as is usual: they need not be read again."""
    key, _ = dish.entries[-1]
    usual = len(dish.entries) > 1 and key is not None and key.value == "steps"
    first = line_start(text, key.start) if usual and key is not None else end
    return first if usual and key is not None and not text[first : key.start].strip() else end


def _after_dash(text: str, spot: Spot) -> bool:
    """True for an entry that begins on the line of its own dash, without an anchor or a second dash."""
    return text[line_start(text, spot.start) : spot.start].strip() == "-"


def _key(text: str, root: Spot, path: Path) -> Section | None:
    """A key of the menu itself: from its line to the next key's."""
    if root.kind != "map" or root.flow:
        return None
    at = next((n for n, (key, _) in enumerate(root.entries) if key is not None and key.value == path[0]), None)
    if at is None:
        return None
    key, value = root.entries[at]
    following = root.entries[at + 1][0] if at + 1 < len(root.entries) else None
    if key is None or key.start != line_start(text, key.start) or value.kind == "alias":
        return None
    if following is not None and following.start != line_start(text, following.start):
        return None
    end = following.start if following is not None else after_line(text, max(value.end, key.end))
    return Section(key.start, end, path[:1], "", path[:1], path)


def _is_alone(grown: Spot, alone: Path) -> bool:
    """True when the lines still hold that one part and nothing beside it."""
    return all(len(spot.entries) == 1 for n in range(len(alone)) if (spot := spot_at(grown, alone[:n])) is not None)


def _moved(spot: Spot, by: int) -> Spot:
    """A part that stands so many characters further on."""
    entries = [(_moved(key, by) if key is not None else None, _moved(value, by)) for key, value in spot.entries]
    start, end = spot.start + by, spot.end + by
    return Spot(start, end, spot.kind, spot.name, spot.flow, spot.style, spot.value, entries)


def _grown(spot: Spot, path: Path, part: Spot, after: int, by: int) -> Spot:
    """A part with another one in it at a path; what stood from `after` on is moved."""
    if not path:
        return part
    entries: list[tuple[Spot | None, Spot]] = []
    found = False
    for n, (key, value) in enumerate(spot.entries):
        if not found and (key.value if key is not None else n) == path[0]:
            found = True
            entries.append((key, _grown(value, path[1:], part, after, by)))
        elif value.start >= after:
            entries.append((_moved(key, by) if key is not None else None, _moved(value, by)))
        else:
            entries.append((key, value))
    made = replace(spot, entries=entries)
    made.end = tail(made)
    return made
