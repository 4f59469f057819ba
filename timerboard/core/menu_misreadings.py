"""Pydantic's findings in kitchen words, and what is left of a menu without its unreadable parts.

What is left is read on, so that a cook hears of a wrong name at the end of the file together with a wrong time at its
beginning.
"""

import copy
from collections.abc import Iterable
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from . import menu_schema as schema
from .faults import MOST_FAULTS, Fault, Path, Positions, Unreadable

_EXAMPLES: dict[str, str] = {
    "menu": "menu: Solstice supper",
    "serves": "serves: 4",
    "dishes": "dishes: with a list of them under it, each beginning with '- dish: Gravy'",
    "dish": "dish: Gravy",
    "steps": "steps: with a list of them under it, each beginning with '- do: Simmer'",
    "do": "do: Simmer",
    "each": "each: 4 min",
    "count": "count: 4",
    "eat": "eat: 0 min",
    "step": "step: Drain",
    "from": "from: start, or from: -40 min",
    "pairs": "pairs: 2",
    "on": "on: oven, or on: {hob: 2}",
    "batches": "batches: {count: 4, each: 4 min, recover: 1 min}",
    "work": "work: 5 min, work: all or work: {start: 2 min}",
    "kitchen": "kitchen: with hands: and places: under it",
    "places": "places: {oven: {room: 2}}",
    "hands": "hands: 1",
    "courses": "courses: {main: {eat: 0 min}}",
    "cues": "cues: [{do: Stir, every: 10 min}]",
}
_ROUNDS = 4


def read_written(document: object, where: Positions) -> tuple["schema.WrittenMenu | None", list[Fault], set[Path]]:
    """The written menu, what could not be read of it, and the paths that were left out for that.

    None instead of a menu when nothing readable is left.
    """
    faults = [
        where.fault(path, f"'{path[-1]}' has nothing written after it", _EMPTY_RIGHT) for path in _empty(document, ())
    ]
    cut: set[Path] = {fault.path for fault in faults}
    rest: Any = document  # what is empty counts as left out, as pydantic takes it
    for _ in range(_ROUNDS):
        try:
            return schema.WrittenMenu.model_validate(rest), faults, cut
        except ValidationError as trouble:
            # context holds our own words; the input is not needed and may be large
            errors = [(_document_path(e["loc"]), e) for e in trouble.errors(include_url=False, include_input=False)]
        fresh = sorted((e for e in errors if not _below(e[0], cut)), key=lambda e: where.key(e[0]))
        faults += [_fault(path, error, where) for path, error in fresh[:MOST_FAULTS]]  # words for more cost time
        if not isinstance(rest, dict):
            return None, faults, cut
        rest = copy.deepcopy(rest)
        for path, _ in errors:
            cut.add(_to_cut(path))
            _cut(rest, _to_cut(path))
    return None, faults, cut


_EMPTY_RIGHT = "write its value, or leave the key out"


def _empty(part: object, path: Path) -> list[Path]:
    """Keys that need not be there, and are there with nothing after them."""
    if isinstance(part, list):
        return [found for n, inner in enumerate(part) for found in _empty(inner, (*path, n))]
    if not isinstance(part, dict):
        return []
    model = _model_at(path)
    fields = model.model_fields if model else {}
    here = [(*path, key) for key in part if part[key] is None and key in fields and not fields[key].is_required()]
    return here + [found for key, inner in part.items() for found in _empty(inner, (*path, key))]


def nearest(name: str, known: Iterable[str]) -> str:
    """The known name that is most like one that is not, or ''."""
    folded = {k.casefold(): k for k in known}
    close = get_close_matches(name.casefold(), folded, n=1, cutoff=0.55)
    return folded[close[0]] if close else ""


def _below(path: Path, cut: set[Path]) -> bool:
    return any(path[:n] in cut for n in range(1, len(path) + 1))


def _document_path(loc: tuple[int | str, ...]) -> Path:
    """Pydantic's location without the tags it adds for the kinds of a step's `work`."""
    if len(loc) > 5 and loc[2] == "steps" and loc[4] == "work":
        return (*loc[:5], *loc[6:])
    return tuple(part for part in loc if part != "[key]")


def _fault(path: Path, error: ErrorDetails, where: Positions) -> Fault:
    key = str(path[-1]) if path else ""
    kind = error["type"]
    if kind == "extra_forbidden":
        return _unknown_key(path, key, where)
    if kind == "missing":
        return where.fault(path[:-1], f"{_holder(path[:-1])} has no '{key}'", _write(key))
    own = error.get("ctx", {}).get("error")
    if isinstance(own, Unreadable):
        return where.fault(path, f"{_named(path)}{own.wrong}", own.right)
    return where.fault(path, *_wrong_shape(path, kind))


def _write(key: str) -> str:
    return f"write {_EXAMPLES.get(key, f'{key}: and its value')}"


def _named(path: Path) -> str:
    names = [str(part) for part in path if isinstance(part, str)]
    return f"{names[-1]}: " if names else ""


def _wrong_shape(path: Path, kind: str) -> tuple[str, str]:
    name = next((str(part) for part in reversed(path) if isinstance(part, str)), "")
    if not path:
        return "this is not a menu", "begin with 'menu: ' and its title, then 'serves:' and 'dishes:'"
    if kind == "list_type":
        return f"{name}: should be a list", _write(name)
    if kind in ("model_type", "dict_type", "model_attributes_type"):
        return f"{_holder(path)} should be written as keys and values", _write(_first_key(path) or name)
    return f"{name}: cannot be read", _write(name)


def _unknown_key(path: Path, key: str, where: Positions) -> Fault:
    model = _model_at(path[:-1])
    keys = [field.alias or name for name, field in model.model_fields.items()] if model else []
    close = nearest(key, keys)
    right = f"did you mean '{close}'?" if close else f"it may have {', '.join(keys)}"
    return where.fault(path, f"{_holder(path[:-1])} has no key '{key[:40]}'", right, at_key=True)


_HOLDERS: dict[type[BaseModel], tuple[str, str]] = {
    schema.WrittenMenu: ("a menu", "menu"),
    schema.WrittenKitchen: ("the kitchen", ""),
    schema.WrittenHands: ("an entry of hands", "from"),
    schema.WrittenPlace: ("a place", ""),
    schema.WrittenCourse: ("a course", "eat"),
    schema.WrittenDish: ("a dish", "dish"),
    schema.WrittenStep: ("a step", "do"),
    schema.WrittenCue: ("a cue", "do"),
    schema.WrittenBatches: ("batches", "count"),
    schema.WrittenEnds: ("work", ""),
    schema.WrittenLink: ("an entry of after", "step"),
}


def _model_at(path: Path) -> type[BaseModel] | None:
    match path:
        case ():
            return schema.WrittenMenu
        case ("kitchen",):
            return schema.WrittenKitchen
        case ("kitchen", "hands", _):
            return schema.WrittenHands
        case ("kitchen", "places", _):
            return schema.WrittenPlace
        case ("courses", _):
            return schema.WrittenCourse
        case ("dishes", _):
            return schema.WrittenDish
        case ("dishes", _, "steps", _):
            return schema.WrittenStep
        case ("dishes", _, "steps", _, "cues", _):
            return schema.WrittenCue
        case ("dishes", _, "steps", _, "batches"):
            return schema.WrittenBatches
        case ("dishes", _, "steps", _, "work"):
            return schema.WrittenEnds
        case ("dishes", _, "steps", _, "after", _):
            return schema.WrittenLink
    return None


def _holder(path: Path) -> str:
    model = _model_at(path)
    return _HOLDERS[model][0] if model else f"{path[-1]}:"


def _first_key(path: Path) -> str:
    model = _model_at(path)
    return _HOLDERS[model][1] if model else ""


# What stands in for a part that every menu, dish, course and step must have, so that the rest can be read.
_STAND_INS: dict[str | int, object] = {"menu": "?", "serves": 1, "dish": "?", "do": "?", "eat": "0 min"}
_EMPTY: dict[str | int, object] = {"dishes": [], "steps": []}


def _cut(document: dict[str, Any], path: Path) -> None:
    """Leave out the part at `path`; what must be there gets a stand-in. Dishes and steps keep their numbers."""
    holder: Any = document
    for part in path[:-1]:
        if not isinstance(holder, dict | list):
            return
        holder = holder.get(part) if isinstance(holder, dict) else holder[int(part)]
    key = path[-1]
    if isinstance(holder, list) and isinstance(key, int):
        holder[key] = {"do": "?"} if "steps" in path else {"dish": "?", "steps": []}
    elif isinstance(holder, dict):
        stand_in = {**_STAND_INS, **_EMPTY}.get(key)
        if stand_in is None or (key == "eat" and path[0] != "courses"):
            holder.pop(key, None)
        else:
            holder[key] = copy.copy(stand_in)


def _to_cut(path: Path) -> Path:
    """The part to leave out for a fault at `path`: a list other than of dishes or steps goes as a whole."""
    base = (4 if path[2:3] == ("steps",) and len(path) > 3 else 2) if path[0] == "dishes" and len(path) > 1 else 0
    rest = path[base:]
    if rest and rest[0] in _WHOLE:
        return path[: base + 1]
    first_number = next((n for n, part in enumerate(rest) if isinstance(part, int)), len(rest))
    return path[: base + first_number]


_WHOLE = ("after", "batches", "cues", "on", "work")
