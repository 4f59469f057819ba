"""The editor's menu texts: read whole with every fault, patched piece by piece, and kept in a file."""

import contextlib
import hashlib
import os
import tempfile
from pathlib import Path as File

from timerboard.core.faults import MenuFaults, Path
from timerboard.core.menu_written import Value, Written
from timerboard.desk.editor_ports import EditRefused, Reading, Stamp

from . import menu_patch
from .menu_file import MOST_BYTES, read_menu
from .menu_local import locally
from .menu_spots import spots_of, written

BOM = "\ufeff"


class MenuDocument:
    """Keeps the desk's `MenuTexts` port."""

    def outline(self, text: str) -> Written | None:
        """What stands where, without judging it."""
        root = spots_of(text) if text.strip() else None
        return written(root) if root is not None else ("" if not text.strip() else None)

    def read(self, text: str) -> Reading:
        """A text as a menu, with all that is wrong with it. Never raises."""
        document = self.outline(text)
        try:
            loaded = read_menu(text)
        except MenuFaults as found:
            return Reading(text, document, None, found.faults)
        return Reading(text, document, loaded.menu, (), loaded.warnings)

    def set_value(self, text: str, path: Path, value: Value) -> str:
        """The text with a value at a path."""
        quick = locally(lambda lines, there: menu_patch.set_value(lines, there, value), text, path)
        return menu_patch.set_value(text, path, value) if quick is None else quick

    def remove(self, text: str, path: Path) -> str:
        """The text without what stands at a path."""
        quick = locally(menu_patch.remove, text, path) if path[:1] == ("dishes",) else None
        return menu_patch.remove(text, path) if quick is None else quick

    def insert(self, text: str, path: Path, at: int, value: Value) -> str:
        """One entry more in a list."""
        return menu_patch.insert(text, path, at, value)

    def move(self, text: str, path: Path, at: int, to: int) -> str:
        """One entry of a list at another position."""
        return menu_patch.move(text, path, at, to)

    def rename(self, text: str, path: Path, name: str) -> str:
        """Another name for a key."""
        return menu_patch.rename(text, path, name)


class MenuOnDisk:
    """Keeps the desk's `MenuStore` port. A byte order mark at the beginning is kept."""

    def __init__(self, path: File) -> None:
        self.path = path
        self._mark = ""

    @property
    def name(self) -> str:
        """What the file is called."""
        return self.path.name

    def load(self) -> tuple[str, Stamp | None]:
        """Its text and stamp."""
        try:
            if self.path.exists() and not self.path.is_file():  # a pipe or a device might never end
                raise EditRefused(f"{self.name} is a folder or a device, and no menu file")
            with self.path.open("rb") as file:
                raw = file.read(MOST_BYTES + 4)
        except FileNotFoundError:
            return "", None
        except (OSError, ValueError) as trouble:
            if isinstance(trouble, EditRefused):
                raise
            raise EditRefused(f"{self._called} cannot be opened ({_reason(trouble)})") from None
        if len(raw) > MOST_BYTES + 3:
            raise EditRefused(f"{self.name} is too large to be a menu: 1 MiB is the most")
        try:
            text = raw.decode()
        except UnicodeDecodeError:
            raise EditRefused(f"{self.name} is no UTF-8 text: save it as UTF-8 first") from None
        self._mark = BOM if text.startswith(BOM) else ""
        return text.removeprefix(BOM), self._stamp(raw)

    def look(self, last: Stamp | None) -> Stamp | None:
        """Its stamp now; the content is read only when its time or size is another."""
        try:
            seen = self.path.stat()
            if last is not None and (seen.st_mtime_ns, seen.st_size) == (last.modified_ns, last.size):
                return last
            stamp = self._stamp(self.path.read_bytes())
        except FileNotFoundError:
            return None
        except OSError:
            return last  # what cannot be looked at now is looked at next time
        return last if last is not None and stamp.hash == last.hash else stamp

    def save(self, text: str) -> Stamp:
        """Keep the text, whole or not at all."""
        raw = (self._mark + text).encode(errors="replace")
        try:
            write_whole(self.path, raw, durable=True)
            return self._stamp(raw)
        except (OSError, ValueError) as trouble:
            raise EditRefused(f"{self._called} cannot be saved ({_reason(trouble)})") from None

    @property
    def _called(self) -> str:
        """The name for a sentence: one that no file can have may be very long."""
        return self.name if len(self.name) <= 60 else f"{self.name[:60]}…"

    def _stamp(self, raw: bytes) -> Stamp:
        seen = self.path.stat()
        return Stamp(seen.st_mtime_ns, seen.st_size, hashlib.sha256(raw).hexdigest())


def write_whole(path: File, raw: bytes, *, durable: bool) -> None:
    """Write beside the file and put it in its place in one move; the file keeps its rights. Raises OSError."""
    target = File(os.path.realpath(path))
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    beside = File(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
            file.flush()
            if durable:
                os.fsync(file.fileno())
        with contextlib.suppress(OSError):
            beside.chmod(target.stat().st_mode & 0o777 if target.exists() else 0o644)
        beside.replace(target)
    except BaseException:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise


def _reason(trouble: OSError | ValueError) -> str:
    """Why, in the system's words; a ValueError comes of a name with a character that no name has."""
    if isinstance(trouble, OSError):
        return (trouble.strerror or "unknown trouble").lower()
    return "no file can be called so"
