"""The kitchen that was used last, kept in the user's settings: a new meal begins in it."""

import json
from pathlib import Path
from typing import Any

import platformdirs

from timerboard.core.menu_written import Plain, Value, Written

from .menu_document import write_whole
from .menu_write import block

USUAL: Written = {
    "hands": "1",
    "places": {
        "oven": {"room": "2", "heat": "60-250 C", "preheat": "20 min"},
        "hob": {"room": "4"},
        "fridge": {"room": "6"},
        "counter": {},
    },
}
"""What most kitchens have; the first meal begins with it and changes what is otherwise."""


class KitchenStore:
    """`units` and `kitchen` of the last menu that was saved."""

    def __init__(self, folder: Path | None = None) -> None:
        self._path = (folder or platformdirs.user_config_path("timerboard", appauthor=False)) / "kitchen.json"

    def keep(self, kitchen: Written, units: str) -> None:
        """Remember a kitchen; where it cannot be kept the next meal simply begins with an older one."""
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            write_whole(self._path, json.dumps({"kitchen": kitchen, "units": units}).encode(), durable=False)
        except OSError:
            return

    def last(self) -> tuple[Written, str]:
        """The kitchen kept last and its units; the usual one when there is none that can be read."""
        try:
            told = json.loads(self._path.read_bytes())
            kitchen, units = _written(told["kitchen"]), str(told["units"])
            return (kitchen, units) if isinstance(kitchen, dict) and units in ("C", "F") else (USUAL, "C")
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            return USUAL, "C"


def new_meal(kitchen: Written, units: str) -> str:
    """The text of a meal that has no dishes yet, in a kitchen."""
    menu: dict[str, Value] = {"menu": "New meal", "serves": 4, "eat_at": "19:00", "units": units}
    menu |= {"kitchen": _value(kitchen), "dishes": []}
    return "\n".join(block(menu, 0)) + "\n"


def _written(told: Any) -> Written:  # noqa: ANN401 - whatever the file holds
    if isinstance(told, dict):
        return {str(key): _written(value) for key, value in told.items()}
    return [_written(one) for one in told] if isinstance(told, list) else str(told)


def _value(written: Written) -> Value:
    if isinstance(written, dict):
        return {key: _value(held) for key, held in written.items()}
    return [_value(one) for one in written] if isinstance(written, list) else Plain(written)
