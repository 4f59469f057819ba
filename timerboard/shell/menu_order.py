"""In which order a menu's keys are written when a new one is put in among those that are there."""

from collections.abc import Sequence

from timerboard.core.faults import Path

_MENU = ("menu", "serves", "eat_at", "in_hand", "units", "kitchen", "courses", "table", "dishes")
_DISH = ("dish", "course", "hold", "keep", "ingredients", "steps")
_STEP = (
    *("do", "id", "on", "heat", "heat_within", "takes", "lasts", "batches", "work", "ahead", "wait", "within"),
    *("until", "pull_at", "makes", "needs", "after", "shut", "hazard", "person", "keep", "note", "cues"),
)
_SMALL: dict[str, tuple[str, ...]] = {
    "kitchen": ("hands", "closed", "places"),
    "hands": ("from", "pairs"),
    "cues": ("do", "every", "at", "times", "work"),
    "batches": ("count", "each", "recover"),
    "work": ("start", "end"),
    "after": ("step", "wait", "within"),
}


def before_key(holder: Path, key: str, names: Sequence[str]) -> int | None:
    """After which of the keys there (by position) a new one goes; None: before them all."""
    order = _order(holder)
    if key not in order:
        return len(names) - 1
    rank = order.index(key)
    earlier = [n for n, name in enumerate(names) if name in order and order.index(name) < rank]
    return max(earlier) if earlier else None


def _order(holder: Path) -> tuple[str, ...]:
    match holder:
        case ():
            return _MENU
        case ("dishes", _):
            return _DISH
        case ("dishes", _, "steps", _):
            return _STEP
        case ("kitchen", "places", _):
            return ("room", "heat", "preheat")
        case ("courses", _):
            return ("eat", "until")
    names = [part for part in holder if isinstance(part, str)]
    return _SMALL.get(names[-1], ()) if names else ()
