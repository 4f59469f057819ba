"""What the board remembers from cook to cook: one small JSON file in the user's configuration folder."""

import json
import os
from collections.abc import Mapping
from pathlib import Path

import platformdirs


def settings_path() -> Path:
    """Where the settings are on this system; the file need not be there."""
    return platformdirs.user_config_path("timerboard", appauthor=False) / "settings.json"


class SettingsFile:
    """Keeps the promises of `desk.ports.Memory`. A broken or read-only file costs a setting."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._kept = self._read()

    def recall(self) -> Mapping[str, object]:
        """Everything that was remembered."""
        return dict(self._kept)

    def remember(self, name: str, value: float | bool | str | list[str]) -> None:
        """Keep a value: a new file is written beside the old one and takes its place."""
        self._kept = {**self._kept, name: value}
        beside = self._path.with_suffix(".new")
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            beside.write_text(json.dumps(self._kept, ensure_ascii=False, indent=1), encoding="utf-8")
            os.replace(beside, self._path)  # noqa: PTH105  the same on every system, and over an old file
        except OSError:
            return

    def _read(self) -> dict[str, object]:
        try:
            kept = json.loads(self._path.read_text(encoding="utf-8"))
        except (OSError, ValueError, RecursionError):
            return {}
        return kept if isinstance(kept, dict) else {}
