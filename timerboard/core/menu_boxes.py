"""Between what stands in a menu text and the line that a cook reads and writes in a box of the form.

`shown` and `typed` are each other's inverse for everything the menu allows: what a box shows and nobody touched is
written back as it was. What is no such thing (yet) is written as it was typed, and the reader says what is wrong.
"""

import re

from .menu_form import Shape
from .menu_written import Plain, Value, Written

_PARTS = re.compile(r"(.*\S)\s*(?:×|\bx)\s*([0-9]+)", re.IGNORECASE)
_END = re.compile(r"(?:(.+?)\s+at the (start|end)|(?:at the )?(start|end)\b:?\s*(.+))", re.IGNORECASE)


def shown(shape: Shape, written: Written | None) -> str:
    """The line for what stands in the text."""
    if written is None:
        return ""
    if isinstance(written, str):
        return " ".join(written.split()) if shape is Shape.NOTE and "\n" in written.strip() else written
    if isinstance(written, list):
        return _list(shape, [_one(part) for part in written])
    if shape is Shape.WORK and written and set(written) <= {"start", "end"}:
        return ", ".join(f"{_one(written[end])} at the {end}" for end in ("start", "end") if end in written)
    if shape is Shape.USES:
        return ", ".join(f"{place} x{_one(n)}" if _one(n) != "1" else place for place, n in written.items())
    return _one(written)


def _one(part: Written) -> str:
    if isinstance(part, str):
        return part
    if isinstance(part, list):
        return "[" + ", ".join(map(_one, part)) + "]"
    return "{" + ", ".join(f"{key}: {_one(value)}" for key, value in part.items()) + "}"


def _list(shape: Shape, parts: list[str]) -> str:
    if shape is Shape.LINES:
        return "\n".join(parts)
    return ("; " if any("," in part for part in parts) else ", ").join(parts)


def typed(shape: Shape, line: str) -> Value:
    """What is to stand in the text for a line; None when nothing is to stand there."""
    words = line.strip()
    if not words:
        return None
    match shape:
        case Shape.WORDS | Shape.NOTE:
            return words
        case Shape.NAMES:
            parts = words.split(";" if ";" in words else ",")
            return [part.strip() for part in parts if part.strip()] or None
        case Shape.LINES:
            return [part.strip() for part in words.splitlines() if part.strip()] or None
        case Shape.USES:
            return _uses(words)
        case Shape.WORK:
            return _work(words)
    return Plain(words)


def typed_over(shape: Shape, line: str, there: Written | None) -> Value:
    """The same over what stands there: a list of one entry that was written as one word stays one word."""
    value = typed(shape, line)
    if isinstance(value, list) and len(value) == 1 and isinstance(there, str):
        return value[0]
    return value


def _uses(words: str) -> Value:
    uses: dict[str, Value] = {}
    for part in (piece.strip() for piece in words.split(",")):
        found = _PARTS.fullmatch(part)
        if part:
            uses[found[1] if found else part] = Plain(found[2]) if found else 1
    first = next(iter(uses), "")
    return first if len(uses) == 1 and uses[first] == 1 else uses


def _work(words: str) -> Value:
    ends: dict[str, Value] = {}
    pieces = [piece for piece in re.split(r",|\band\b", words) if piece.strip()]
    for piece in pieces:
        found = _END.fullmatch(piece.strip())
        if found is None or (found[2] or found[3]).lower() in ends:
            return Plain(words)
        ends[(found[2] or found[3]).lower()] = Plain((found[1] or found[4]).strip())
    return {end: ends[end] for end in ("start", "end") if end in ends}
