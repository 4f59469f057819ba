"""Menu files that were cooked or edited lately, the last first; files that are gone are left out."""

import json
from pathlib import Path

import platformdirs

from .menu_document import write_whole

MOST = 8


class RecentMenus:
    """Kept in the user's state folder. What cannot be read or kept costs a list, nothing more."""

    def __init__(self, folder: Path | None = None) -> None:
        self._path = (folder or platformdirs.user_state_path("timerboard", appauthor=False)) / "recent.json"

    def note(self, menu: Path) -> None:
        """A menu was used now."""
        place = str(menu.absolute())
        names = [place, *(str(known) for known in self._known() if str(known) != place)][:MOST]
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            write_whole(self._path, json.dumps(names).encode(), durable=False)
        except OSError:
            return

    def files(self) -> tuple[Path, ...]:
        """Those that are still there."""
        return tuple(path for path in self._known() if path.is_file())

    def _known(self) -> list[Path]:
        try:
            told = json.loads(self._path.read_bytes())
        except (OSError, ValueError, RecursionError):
            return []
        return [Path(name) for name in told if isinstance(name, str)] if isinstance(told, list) else []
