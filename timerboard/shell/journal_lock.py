"""One writer for a cook: a lock of the operating system on a file beside the journal.

The system lets go of it when its holder dies, however that happens, so nothing is guessed from process numbers. The
file's text says who holds it and when a board last looked. `flock` is taken on an open file, not on a process, so
reading the text elsewhere does not drop it; on Windows the locked byte lies far behind the text for the same reason.
"""

import json
import os
import platform
import sys
from dataclasses import asdict, dataclass, replace
from io import FileIO
from pathlib import Path

from timerboard.core.values import Moment
from timerboard.desk.ports import HeldElsewhere, JournalTrouble

_TEXT_BYTES = 512
_FAR_BYTE = 1 << 30


@dataclass(frozen=True, slots=True)
class Holder:
    """Who writes a cook, and when that board last looked."""

    board: str
    pid: int
    host: str
    looked: Moment | None = None


def holder(path: Path) -> Holder | None:
    """What a lock file says; None when it says nothing that can be read. Whether it is held it does not tell."""
    try:
        told = json.loads(path.read_text(encoding="utf-8"))
        return Holder(**told)
    except (OSError, ValueError, TypeError):
        return None


def held_by(who: Holder | None) -> HeldElsewhere:
    """The trouble of a cook that another board writes."""
    board = f"the board on {who.host} (process {who.pid})" if who else "another board"
    return HeldElsewhere(f"{board} has this cook open; close it there first")


class CookLock:
    """Held from the moment it is made until `release`, or until the process is gone.

    Raises JournalTrouble when another board holds the cook, or when the folder cannot be written to.
    """

    def __init__(self, path: Path, board: str) -> None:
        self.path = path
        self.before = holder(path)
        self._me = Holder(board, os.getpid(), platform.node())
        self._file = _opened(path)
        try:
            _take(self._file)
        except OSError as taken:
            self._file.close()
            raise held_by(self.before) from taken
        self._write()

    def looked(self, at: Moment) -> None:
        """Note when the board last looked. A note that cannot be kept is no loss: it only dates an absence."""
        self._me = replace(self._me, looked=at)
        self._write()

    def release(self) -> None:
        """Let another board in. The file stays: removing it would let two boards lock two files of one name."""
        self._file.close()

    def _write(self) -> None:
        """Rewrite the text in one stroke of fixed length, so that a reader never meets half of it."""
        text = json.dumps(asdict(self._me)).encode().ljust(_TEXT_BYTES - 1) + b"\n"
        try:
            self._file.seek(0)
            self._file.write(text)
        except OSError:
            return


def _opened(path: Path) -> FileIO:
    try:
        path.touch()
        return path.open("r+b", buffering=0)
    except OSError as refused:
        raise JournalTrouble(f"the folder {path.parent} cannot be written to ({refused.strerror})") from refused


def _take(file: FileIO) -> None:
    """Lock at once or raise OSError."""
    if sys.platform == "win32":
        import msvcrt

        file.seek(_FAR_BYTE)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        import fcntl

        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
