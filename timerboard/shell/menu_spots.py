"""Where every part of a menu text stands, from its first character to after its last, so that a text can be patched.

Indices count characters of the text. A part of block style ends after its last leaf: what follows (comments, empty
lines) belongs to nobody and is never touched by a patch of that part.
"""

import re
from collections import OrderedDict
from dataclasses import dataclass, field

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    Event,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
)

from timerboard.core.faults import Path
from timerboard.core.menu_written import Written

from .yaml_tree import MOST_DEPTH

_PROPERTIES = re.compile(r"(?:[&!]\S*[ \t]*)+")  # an anchor or a tag before the value itself


@dataclass(slots=True)
class Spot:
    """A part of the text: [start, end). `entries` of a list have no key."""

    start: int
    end: int
    kind: str  # "scalar", "map", "list" or "alias"
    name: str = ""  # of an anchor, or of what an alias stands for
    flow: bool = False
    style: str = ""  # of a scalar: "", "'", '"', "|" or ">"
    value: str = ""  # of a scalar: its characters without quotes
    entries: "list[tuple[Spot | None, Spot]]" = field(default_factory=list)
    key: "Spot | None" = None  # while it grows: a key that waits for its value

    def child(self, part: str | int) -> "Spot | None":
        """What a key or a position of this part holds."""
        if isinstance(part, int):
            return self.entries[part][1] if self.kind == "list" and 0 <= part < len(self.entries) else None
        return self.entry(part)[1]

    def entry(self, name: str) -> "tuple[Spot | None, Spot | None]":
        """A mapping's key and value of that name, or (None, None)."""
        found = ((k, v) for k, v in self.entries if k is not None and k.value == name)
        return next(found, (None, None))


_KNOWN: "OrderedDict[str, Spot | None]" = OrderedDict()
"""The texts seen last: a menu is read over and over while it is edited, and reading it is what takes long."""

MOST_KNOWN = 6


def spots_of(text: str) -> Spot | None:
    """The whole text's parts, not to be changed; None when it is no single YAML document or stands for nothing."""
    if text not in _KNOWN:
        know(text, read_spots(text))
    _KNOWN.move_to_end(text)
    return _KNOWN[text]


def know(text: str, root: Spot | None) -> None:
    """Remember where a text's parts stand, for one that was made out of parts that are known."""
    _KNOWN[text] = root
    while len(_KNOWN) > MOST_KNOWN:
        _KNOWN.popitem(last=False)


def read_spots(text: str) -> Spot | None:
    """As `spots_of`, read from the text itself."""
    growing: list[Spot] = []
    root: Spot | None = None
    try:
        for event in YAML(typ="safe", pure=True).parse(text):
            done = _take(event, growing, text)
            if len(growing) > MOST_DEPTH or (done is not None and not growing and root is not None):
                return None
            root = done if done is not None and not growing else root
    except YAMLError:
        return None
    return root


def spot_at(root: Spot, path: Path) -> Spot | None:
    """The part at a path, or None."""
    spot: Spot | None = root
    for part in path:
        spot = spot.child(part) if spot is not None else None
    return spot


def written(spot: Spot, anchors: dict[str, Written] | None = None) -> Written:
    """The characters of every single value; an alias stands for what it names."""
    known: dict[str, Written] = {} if anchors is None else anchors
    value: Written
    if spot.kind == "alias":
        return known.get(spot.name, "")
    if spot.kind == "map":
        value = {}
        for key, held in spot.entries:
            value.setdefault(key.value if key else "", written(held, known))
    else:
        value = [written(held, known) for _, held in spot.entries] if spot.kind == "list" else spot.value
    if spot.name:
        known[spot.name] = value
    return value


def _take(event: Event, growing: list[Spot], text: str) -> Spot | None:
    """Add what one event says; gives the part that it finished."""
    done: Spot | None = None
    if isinstance(event, CollectionStartEvent):
        kind = "map" if isinstance(event, MappingStartEvent) else "list"
        start, end = _own_start(event, text), event.end_mark.index
        growing.append(Spot(start, end, kind, event.anchor or "", bool(event.flow_style)))
    elif isinstance(event, CollectionEndEvent):
        done = growing.pop()
        done.end = event.end_mark.index if done.flow else tail(done)
    elif isinstance(event, ScalarEvent):
        done = _scalar(event, growing, text)
    elif isinstance(event, AliasEvent):
        done = Spot(event.start_mark.index, event.end_mark.index, "alias", event.anchor)
    if done is not None and growing:
        _put(growing[-1], done)
    return done


def _put(holder: Spot, done: Spot) -> None:
    if holder.kind == "list":
        holder.entries.append((None, done))
    elif holder.key is None:
        holder.key = done
    else:
        holder.entries.append((holder.key, done))
        holder.key = None


def _own_start(event: NodeEvent, text: str) -> int:
    """Where the value begins, after its anchor or tag."""
    start: int = event.start_mark.index
    named = event.anchor is not None or getattr(event, "ctag", None) is not None
    found = _PROPERTIES.match(text, start) if named else None
    return found.end() if found else start


def _scalar(event: ScalarEvent, growing: list[Spot], text: str) -> Spot:
    start, end = _own_start(event, text), event.end_mark.index
    style = event.style or ""
    if not style and not event.value:
        start = end = _empty_at(growing, start, text)
    elif style in ("|", ">"):
        end = len(text[:end].rstrip()) if text[start:end].strip() else end
    return Spot(start, end, "scalar", event.anchor or "", style=style, value=event.value)


def _empty_at(growing: list[Spot], start: int, text: str) -> int:
    """A value of no characters stands right after the colon or the dash that announces it."""
    before = growing[-1].key if growing and growing[-1].kind == "map" else None
    if before is not None:
        return text.index(":", before.end) + 1
    at = max(text.rfind("-", 0, start), text.rfind("[", 0, start), text.rfind(",", 0, start))
    return at + 1 if growing and at >= 0 else start


def tail(spot: Spot) -> int:
    """Where a part of block style ends: after its last leaf."""
    return max((value.end for _, value in spot.entries), default=spot.end)
