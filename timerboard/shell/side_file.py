"""Unsaved work beside a menu file: written whole at every edit, so that a crash loses nothing."""

import contextlib
import hashlib
import json
from pathlib import Path

import platformdirs

from timerboard.desk.editor_ports import Aside, EditRefused

from .menu_document import write_whole


def unsaved_folder() -> Path:
    """Where unsaved work is kept on this system."""
    return platformdirs.user_state_path("timerboard", appauthor=False) / "unsaved"


class SideOnDisk:
    """Keeps the desk's `SideFile` port, in a folder of its own: the menu's folder may be read-only or shared."""

    def __init__(self, menu: Path, folder: Path | None = None) -> None:
        place = str(menu.absolute())
        name = hashlib.sha256(place.encode(errors="surrogateescape")).hexdigest()[:16]
        self._path = (folder or unsaved_folder()) / f"{menu.stem[:40]}-{name}.json"

    def keep(self, aside: Aside, *, durable: bool) -> None:
        """Put it down whole."""
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            raw = json.dumps({"text": aside.text, "base": aside.base, "named": aside.named}).encode()
            write_whole(self._path, raw, durable=durable)
        except OSError as trouble:
            said = (trouble.strerror or "unknown trouble").lower()
            raise EditRefused(f"unsaved work cannot be kept beside the file ({said}): save often") from None

    def take(self) -> Aside | None:
        """What was kept; a file that makes no sense is left out."""
        try:
            told = json.loads(self._path.read_bytes())
            named = tuple((tuple(path), str(name)) for path, name in told.get("named", ()))
            return Aside(str(told["text"]), str(told["base"]), named)
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return None

    def drop(self) -> None:
        """Nothing is unsaved any more."""
        with contextlib.suppress(OSError):
            self._path.unlink(missing_ok=True)
