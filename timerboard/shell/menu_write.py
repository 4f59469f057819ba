"""Values as YAML, the way a menu is written by hand: plain words where they can be, small groups on one line."""

import json
import re

from timerboard.core.menu_written import Plain, Value

from .menu_spots import spots_of

LONGEST_FLOW = 100
_PLAIN = re.compile(r"[^\W_](?:[^\x00-\x1f\x7f-\x9f:#\[\]{},&*!|>'\"%@`\\]|(?<=\S):(?=\S))*")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ufeff\ufffe\uffff\u2028\u2029]")
_LONE = re.compile(r"[\ud800-\udfff]")
_OTHER_THAN_TEXT = re.compile(
    r"~|null|Null|NULL|true|True|TRUE|false|False|FALSE|[-+.0-9][-+.0-9eExXoO_a-fA-F]*", re.ASCII
)
_NOT_FIRST = tuple("-?:,[]{}#&*!|>'\"%@` \t")


def scalar(value: bool | int | str | Plain | None, style: str = "", *, in_flow: bool = False) -> str:
    """One value on one line, in the quotes that stood there before where it had some."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    text = _LONE.sub("\ufffd", value.text if isinstance(value, Plain) else value)
    if isinstance(value, Plain) and style not in ("'", '"') and _reads_plain(text, in_flow):
        return text
    if style == "'" and "\n" not in text and not _CONTROL.search(text):
        return "'" + text.replace("'", "''") + "'"
    if style != '"' and _reads_plain(text, in_flow) and not _OTHER_THAN_TEXT.fullmatch(text):
        return text
    return _quoted(text)


def _quoted(text: str) -> str:
    return _CONTROL.sub(lambda c: f"\\u{ord(c[0]):04X}", json.dumps(text, ensure_ascii=False))


def _reads_plain(text: str, in_flow: bool) -> bool:
    """True when these characters, without quotes, are read back as they are."""
    if not text or text != text.strip() or "\n" in text or _CONTROL.search(text):
        return False
    if _PLAIN.fullmatch(text) and not text.endswith(":"):
        return True
    if text.startswith(_NOT_FIRST) and not re.match(r"-[^\s,\[\]{}]", text):
        return False
    read = spots_of(f"[{text}]" if in_flow else f"a: {text}")
    if read is None or len(read.entries) != 1:
        return False
    found = read.entries[0][1]
    return found.kind == "scalar" and not found.style and found.value == text


def flow(value: Value) -> str:
    """A value on one line."""
    if isinstance(value, list):
        return "[" + ", ".join(flow(one) for one in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key_text(key, True)}: {flow(one)}".rstrip() for key, one in value.items()) + "}"
    return scalar(value, in_flow=True)


def key_text(name: str, in_flow: bool = False) -> str:
    """A key, quoted where it must be."""
    return scalar(Plain(name), in_flow=in_flow) if name else '""'


def small(value: Value, column: int = 0) -> bool:
    """True for what is written on one line: single values, lists of them, groups without groups of their own."""
    if isinstance(value, dict):
        held = value.values()
        fits = all(not isinstance(v, dict | list) or (isinstance(v, dict) and small(v)) for v in held)
    elif isinstance(value, list):
        fits = all(not isinstance(v, dict | list) for v in value)
    else:
        return True
    return fits and column + len(flow(value)) <= LONGEST_FLOW


def block(value: Value, indent: int, name: str = "") -> list[str]:
    """Lines of a group or list of several lines, each with `indent` spaces before it; a list's entries get dashes."""
    space = " " * indent
    if isinstance(value, dict):
        return [line for key, one in value.items() for line in _pair(key, one, indent)]
    if isinstance(value, list):
        lines: list[str] = []
        for one in value:
            lines += item(one, indent, as_block=name in ("dishes", "steps"))
        return lines
    return [space + scalar(value)]


def item(value: Value, indent: int, *, as_block: bool) -> list[str]:
    """Lines of one entry of a list, its dash first."""
    space = " " * indent
    if isinstance(value, dict) and value and (as_block or not small(value, indent + 2)):
        first, *rest = block(value, indent + 2)
        return [f"{space}- {first.lstrip()}", *rest]
    return [f"{space}- {flow(value) if isinstance(value, dict | list) else scalar(value)}".rstrip()]


def _pair(key: str, value: Value, indent: int) -> list[str]:
    start = f"{' ' * indent}{key_text(key)}:"
    nested = isinstance(value, dict | list) and bool(value)
    if nested and (key in ("dishes", "steps", "kitchen", "courses", "places", "cues") or not small(value, len(start))):
        return [start, *block(value, indent + 2, key)]
    shown = flow(value) if isinstance(value, dict | list) else scalar(value)
    return [f"{start} {shown}".rstrip()]
