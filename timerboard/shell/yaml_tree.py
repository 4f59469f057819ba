"""A YAML 1.2 text as plain values with the position of each, or faults in words.

It works on the parser's events, so that no tag can construct an object, no nesting can exhaust the stack, and an alias
is counted for all that it stands for.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, NoReturn
from unicodedata import category

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.events import (
    AliasEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)
from ruamel.yaml.reader import ReaderError

from timerboard.core.faults import Fault, MenuFaults, Path, Positions

from .yaml_words import syntax_fault

MOST_DEPTH = 24
MOST_NODES = 200_000
MOST_CHARACTERS = 1 << 20
# YAML 1.2 core schema (yaml.org/spec/1.2.2, 10.3.2); times such as 18:30 and yes/no stay words
_INT = re.compile(r"[-+]?[0-9]{1,18}|0x[0-9a-fA-F]{1,15}|0o[0-7]{1,20}")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")
_WORDS: dict[str, bool | None] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL")),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}


@dataclass(slots=True)
class Node:
    """A value with its position; `size` is nodes and characters with every alias written out."""

    line: int
    column: int
    value: Any = None
    entries: "list[tuple[Node | None, Node]] | None" = None  # of a list (key None) or a mapping
    mapping: bool = False
    size: tuple[int, int] = (1, 0)
    anchor: str | None = None
    key: "Node | None" = None  # a mapping's key that waits for its value


@dataclass(slots=True)
class _Tree:
    """The tree as it grows: `open` are the containers around the present event, outermost first."""

    root: Node | None = None
    open: list[Node] = field(default_factory=list)
    anchors: dict[str, Node] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    count: int = 0


@dataclass(frozen=True, slots=True)
class _Where:
    """Positions by path as they are gathered, and the faults found on the way."""

    values: dict[Path, tuple[int, int]]
    keys: dict[Path, tuple[int, int]]
    faults: list[Fault]


def read_tree(text: str) -> tuple[object, Positions, tuple[Fault, ...]]:
    """The document's plain values, where they stand, and faults that leave it readable (tags, doubled keys).

    Raises MenuFaults when it is no single YAML document that could be a menu.
    """
    tree = _Tree()
    for event in _events(text):
        _take(tree, event)
    if tree.root is None:
        _refuse(1, 1, "the file is empty", "begin with 'menu: ' and its title")
    positions = _Where({}, {}, tree.faults)
    document = _plain(tree.root, (), positions)
    return document, Positions(positions.values, positions.keys), tuple(tree.faults)


def _events(text: str) -> Iterator[Event]:
    try:
        # ruamel's scanner runs ahead; whatever it trips over is the text's fault and is said with its position
        yield from YAML(typ="safe", pure=True).parse(text)
    except MarkedYAMLError as trouble:
        raise MenuFaults((syntax_fault(trouble, text),)) from None
    except ReaderError as trouble:
        before = text[: trouble.position]
        line, column = before.count("\n") + 1, trouble.position - before.rfind("\n")
        _refuse(line, column, "a character that cannot be written in YAML stands here", "take it out", cause=None)


def _refuse(line: int, column: int, wrong: str, right: str = "", cause: None = None) -> NoReturn:
    raise MenuFaults((Fault(line, column, wrong, right),)) from cause


def _take(tree: _Tree, event: Event) -> None:
    """Add what one event says."""
    line, column = event.start_mark.line + 1, event.start_mark.column + 1
    match event:
        case DocumentStartEvent() if tree.root is not None:
            _refuse(line, column, "a second document begins here", "keep one menu to a file: take out the '---'")
        case AliasEvent():
            _put(tree, _aliased(tree, event, line, column))
        case ScalarEvent():
            _fault_tag(tree, event, line, column)
            _put(tree, _scalar(tree, event, line, column))
        case SequenceStartEvent() | MappingStartEvent():
            _fault_tag(tree, event, line, column)
            _open(tree, event, line, column)
        case SequenceEndEvent() | MappingEndEvent():
            _close(tree)


def _fault_tag(tree: _Tree, event: ScalarEvent | CollectionStartEvent, line: int, column: int) -> None:
    if event.ctag is not None and str(event.ctag) != "!":
        wrong = f"a tag stands here: {str(event.ctag)[:40]}"
        tree.faults.append(Fault(line, column, wrong, "take it out; a menu has no tags"))


def _scalar(tree: _Tree, event: ScalarEvent, line: int, column: int) -> Node:
    text: str = event.value
    odd = next((c for c in text if category(c) in ("Cs", "Cc") and c not in "\n\t\r\x85"), None)
    if odd is not None:
        wrong = f"a control character (U+{ord(odd):04X}) stands in this text"
        tree.faults.append(Fault(line, column, wrong, "take it out"))
    plain = event.implicit[0]
    return Node(line, column, _resolved(text) if plain else text, size=(1, len(text)), anchor=event.anchor)


def _resolved(text: str) -> object:
    if text in _WORDS:
        return _WORDS[text]
    if _INT.fullmatch(text):
        return int(text, 0 if text[:2] in ("0x", "0o") else 10)
    if _FLOAT.fullmatch(text) and len(text) < 40:
        return float(text)
    return text


def _open(tree: _Tree, event: CollectionStartEvent, line: int, column: int) -> None:
    if len(tree.open) >= MOST_DEPTH:
        _refuse(line, column, "lists and keys are nested too deep here", "a menu needs no more than eight levels")
    mapping = isinstance(event, MappingStartEvent)
    tree.open.append(Node(line, column, entries=[], mapping=mapping, anchor=event.anchor))


def _close(tree: _Tree) -> None:
    node = tree.open.pop()
    inner = [part.size for pair in node.entries or () for part in pair if part is not None]
    node.size = (1 + sum(n for n, _ in inner), sum(c for _, c in inner))
    _put(tree, node)


def _put(tree: _Tree, node: Node) -> None:
    """A finished node becomes the root, the next entry of the list around it, or a key or value of the mapping."""
    if node.anchor:
        tree.anchors[node.anchor] = node
    tree.count += 1
    if max(tree.count, node.size[0]) > MOST_NODES or node.size[1] > MOST_CHARACTERS:
        _refuse(node.line, node.column, "this is more than a menu can hold", "take lists and aliases out of it")
    if not tree.open:
        tree.root = node
        return
    holder = tree.open[-1]
    entries = holder.entries if holder.entries is not None else []
    if not holder.mapping:
        entries.append((None, node))
    elif holder.key is None:
        holder.key = _key(tree, node)
    else:
        entries.append((holder.key, node))
        holder.key = None


def _key(tree: _Tree, node: Node) -> Node:
    if node.entries is not None:
        _refuse(node.line, node.column, "a list or a group of keys stands where one key should be", "write key: value")
    return node


def _aliased(tree: _Tree, event: AliasEvent, line: int, column: int) -> Node:
    known = tree.anchors.get(event.anchor)
    if known is None:
        _refuse(line, column, f"'*{event.anchor}' refers to nothing above it", "write the text itself")
    # the position is where the words stand, so that a fault in them is shown there
    return Node(known.line, known.column, known.value, known.entries, known.mapping, known.size)


def _plain(node: Node, path: Path, where: _Where) -> object:
    """Plain values of a node; its depth was limited when it was read, aliases may add to it."""
    where.values[path] = (node.line, node.column)
    if len(path) > 2 * MOST_DEPTH:
        _refuse(node.line, node.column, "lists and keys are nested too deep here", "write it out without aliases")
    if node.entries is None:
        return node.value
    if not node.mapping:
        return [_plain(inner, (*path, n), where) for n, (_, inner) in enumerate(node.entries)]
    found: dict[str, object] = {}
    for key, inner in node.entries:
        if key is None:
            continue
        here = (*path, _key_name(key))
        if here[-1] in found:
            wrong = f"the key '{str(here[-1])[:40]}' stands here a second time"
            right = f"keep one of them; the first is in line {where.keys[here][0]}"
            where.faults.append(Fault(key.line, key.column, wrong, right, here))
            continue
        where.keys[here] = (key.line, key.column)
        found[str(here[-1])] = _plain(inner, here, where)
    return found


def _key_name(key: Node) -> str:
    """Keys are names: one that reads as a number keeps its writing, one that reads as nothing is empty."""
    return "" if key.value is None else str(key.value)
