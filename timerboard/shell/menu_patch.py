"""Changes to a menu text that touch nothing but what they are about: comments, order and quoting stay as they are.

Each takes a text and gives a text. What cannot be written raises EditRefused, and so does a result that could no longer
be read: the text is read again after each change.
"""

from difflib import SequenceMatcher

from timerboard.core.faults import Path
from timerboard.core.menu_written import Plain, Value
from timerboard.desk.editor_ports import EditRefused

from .menu_lines import after_line, column, joined, line_start, newline, with_lines
from .menu_lists import insert_item, move_item, remove_item
from .menu_order import before_key
from .menu_spots import Spot, spot_at, spots_of
from .menu_write import block, flow, key_text, scalar, small

BROKEN = "this text is no readable YAML: mend it as text first"
SHARED = "this part is written once and used twice (an alias): change it as text"
PRUNED = frozenset({"batches", "work", "kitchen", "courses", "places"})
"""Groups that go with their last key: `batches: {}` says nothing."""


def set_value(text: str, path: Path, value: Value) -> str:
    """The text with a value at a path; what is missing on the way is written too."""
    root = _root(text)
    spot = spot_at(root, path)
    if any(part is not None and part.kind == "alias" for part in (spot_at(root, path[:n]) for n in range(len(path)))):
        raise EditRefused(SHARED)
    if spot is not None:
        return _checked(_replaced(text, root, path, spot, value), path, value)
    if not path:
        return _checked(joined(text, block(value, 0)), path, value)
    *above, last = path
    holder = spot_at(root, tuple(above))
    if holder is None or not holder.entries:
        if holder is not None and holder.kind == "scalar" and holder.value:
            raise EditRefused(f"'{holder.value[:40]}' stands where a group of keys should be")
        return set_value(text, tuple(above), [value] if isinstance(last, int) else {str(last): value})
    if holder.kind == "list" or isinstance(last, int):
        return insert(text, tuple(above), len(holder.entries), value)
    return _checked(_with_key(text, root, tuple(above), last, value), path, value)


def remove(text: str, path: Path) -> str:
    """The text without what stands at a path; unchanged when nothing does."""
    root = _root(text)
    holder = spot_at(root, path[:-1])
    if spot_at(root, path) is None or holder is None:
        return text
    if len(holder.entries) == 1:
        if path[-2:-1] and path[-2] in PRUNED:
            return remove(text, path[:-1])
        return set_value(text, path[:-1], [] if holder.kind == "list" else {})
    if isinstance(path[-1], int):
        return _readable(remove_item(text, holder, path[-1]))
    return _readable(_without_key(text, holder, path[-1]))


def insert(text: str, path: Path, at: int, value: Value) -> str:
    """An entry more in the list at a path, which is written if there is none."""
    root = _root(text)
    spot = spot_at(root, path)
    if spot is None or not spot.entries:
        return set_value(text, path, [value])
    if spot.kind != "list":
        raise EditRefused(SHARED if spot.kind == "alias" else "this is not a list")
    return _readable(insert_item(text, spot, min(at, len(spot.entries)), value, str(path[-1])))


def move(text: str, path: Path, at: int, to: int) -> str:
    """The list at a path with one entry at another position."""
    spot = spot_at(_root(text), path)
    if spot is None or spot.kind != "list" or at == to:
        return text
    return _readable(move_item(text, spot, at, to))


def rename(text: str, path: Path, name: str) -> str:
    """Another name for the key at a path. EditRefused when it is taken."""
    root = _root(text)
    holder = spot_at(root, path[:-1])
    key, _ = holder.entry(str(path[-1])) if holder else (None, None)
    if holder is None or key is None or name == path[-1]:
        return text
    if holder.entry(name)[0] is not None:
        raise EditRefused(f"there is a '{name}' already")
    return _readable(text[: key.start] + key_text(name, holder.flow) + text[key.end :])


def raw(text: str, path: Path) -> str:
    """The characters at a path as they stand, '' when there is nothing."""
    root = spots_of(text)
    spot = spot_at(root, path) if root else None
    return text[spot.start : spot.end] if spot else ""


def _root(text: str) -> Spot:
    root = spots_of(text)
    if root is None:
        if text.strip():
            raise EditRefused(BROKEN)
        return Spot(0, 0, "scalar")
    return root


def _readable(text: str) -> str:
    if spots_of(text) is None:
        raise EditRefused(BROKEN)
    return text


def _checked(text: str, path: Path, value: Value) -> str:
    root = spots_of(text)
    found = spot_at(root, path) if root else None
    words = value.text if isinstance(value, Plain) else value
    if found is None or (isinstance(words, str) and found.value != words and "\ufffd" not in found.value):
        raise EditRefused(BROKEN)
    return text


def _in_flow(root: Spot, path: Path) -> bool:
    return any(spot is not None and spot.flow for spot in (spot_at(root, path[:n]) for n in range(len(path))))


def _replaced(text: str, root: Spot, path: Path, spot: Spot, value: Value) -> str:
    if isinstance(value, list) and spot.kind == "list" and spot.entries and value and _singles(value):
        return _list_made(text, path, spot, value)
    if not isinstance(value, list | dict):
        return _with_scalar(
            text, root, path, spot, scalar(value, spot.style if spot.value else "", in_flow=_in_flow(root, path))
        )
    if not path:
        return joined(text, block(value, 0))
    if _in_flow(root, path) or small(value, 20) or not isinstance(path[-1], str):
        return _with_scalar(text, root, path, spot, flow(value))
    start, indent = _after_key(text, root, path)
    end = after_line(text, max(spot.end, start))
    lines = joined(text, block(value, indent + 2, path[-1]))
    rest = text[spot.end : end].strip() if spot.end >= start else ""
    head = text[:start] + (f"  {rest}" if rest else "") + newline(text)
    return head + lines + text[end:]


def _singles(value: list[Value]) -> bool:
    return not any(isinstance(one, list | dict) for one in value)


def _after_key(text: str, root: Spot, path: Path) -> tuple[int, int]:
    """Where the colon of a key ends, and how far in its group stands."""
    holder = spot_at(root, path[:-1])
    key, _ = holder.entry(str(path[-1])) if holder else (None, None)
    if key is None:
        raise EditRefused(BROKEN)
    return text.index(":", key.end) + 1, column(text, key.start)


def _with_scalar(text: str, root: Spot, path: Path, spot: Spot, words: str) -> str:
    """One line's worth in the place of what was there, whatever that was."""
    start, end = spot.start, spot.end
    if spot.kind in ("map", "list") and not spot.flow and path and isinstance(path[-1], str):
        start, _ = _after_key(text, root, path)
    apart = " " if start and text[start - 1] in ":-," and words else ""
    return text[:start] + apart + words + text[end:]


def _list_made(text: str, path: Path, spot: Spot, wanted: list[Value]) -> str:
    """The list as wanted with the fewest changes: an entry that stays keeps its quotes and its comment."""
    have = [value.value for _, value in spot.entries]
    want = [one.text if isinstance(one, Plain) else str(one) for one in wanted]
    for what, a, b, c, d in reversed(SequenceMatcher(None, have, want, autojunk=False).get_opcodes()):
        if what == "equal":
            continue
        shared = min(b - a, d - c)
        for n in range(b - 1, a + shared - 1, -1):
            text = remove(text, (*path, n))
        for n in range(d - 1, c + shared - 1, -1):
            text = insert(text, path, a + shared, wanted[n])
        for n in range(shared):
            text = set_value(text, (*path, a + n), wanted[c + n])
    return text


def _with_key(text: str, root: Spot, path: Path, key: str, value: Value) -> str:
    holder = spot_at(root, path)
    if holder is None or holder.entries[0][0] is None:
        raise EditRefused(BROKEN)
    names = [k.value for k, _ in holder.entries if k is not None]
    previous = before_key(path, key, names)
    first_key = holder.entries[0][0]
    if holder.flow or _in_flow(root, (*path, key)):
        words = f"{key_text(key, True)}: {flow(value)}"
        if previous is None:
            return f"{text[: first_key.start]}{words}, {text[first_key.start :]}"
        after = holder.entries[previous][1].end
        return f"{text[:after]}, {words}{text[after:]}"
    indent = column(text, first_key.start)
    lines = block({key: value}, indent)
    if previous is None:
        put = joined(text, lines).lstrip() + " " * indent
        return text[: first_key.start] + put + text[first_key.start :]
    after = after_line(text, holder.entries[previous][1].end)
    return with_lines(text, after, joined(text, lines))


def _without_key(text: str, holder: Spot, name: str) -> str:
    at = next(n for n, (k, _) in enumerate(holder.entries) if k is not None and k.value == name)
    key, value = holder.entries[at]
    following = holder.entries[at + 1][0] if at + 1 < len(holder.entries) else None
    if key is None:
        return text
    if holder.flow:
        if at:
            return text[: holder.entries[at - 1][1].end] + text[value.end :]
        return text[: key.start] + text[following.start if following else value.end :]
    start, end = line_start(text, key.start), after_line(text, value.end)
    if not text[start : key.start].strip():
        return text[:start] + text[end:]
    if following is None:
        raise EditRefused(BROKEN)
    if "#" in text[value.end : following.start]:  # after a dash: the comments between stay
        return text[: key.start].rstrip(" ") + text[len(text[:end].rstrip("\r\n")) :]
    return text[: key.start] + text[following.start :]
