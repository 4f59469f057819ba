"""A menu file on disk, or its text, into a menu. Whatever stands in the way is said with its line and column."""

import hashlib
import stat
from dataclasses import dataclass
from pathlib import Path as File

from timerboard.core.faults import Fault, MenuFaults, Positions
from timerboard.core.menu import Menu
from timerboard.core.menu_build import build_menu
from timerboard.core.menu_warnings import warnings_of

from .yaml_tree import read_tree

MOST_BYTES = 1 << 20
_TOO_LARGE = "a menu file is at most 1 MiB: make two menus of it"


@dataclass(frozen=True, slots=True)
class LoadedMenu:
    """A menu with its text as written, the text's SHA-256 (hex), its warnings, and where every part stands."""

    text: str
    hash: str
    menu: Menu
    warnings: tuple[Fault, ...]
    positions: Positions


def load_menu(path: File) -> LoadedMenu:
    """The menu in a file. Raises MenuFaults, also when there is no such file or it cannot be read."""
    try:
        kind = path.stat().st_mode
        if stat.S_ISREG(kind):
            return read_menu(_decoded(_bytes(path)))
    except FileNotFoundError:
        raise _refusal("there is no such file", "check the name and the folder") from None
    except OSError as trouble:
        said = (trouble.strerror or "no reason is given").lower()
        raise _refusal(f"this file cannot be opened ({said})", "check that you may read it") from None
    except ValueError as trouble:
        if isinstance(trouble, MenuFaults):
            raise
        raise _refusal("this file cannot be opened (its name has a character that no name has)", "rename it") from None
    if stat.S_ISDIR(kind):
        raise _refusal("this is a folder", "name the menu file in it")
    raise _refusal("this is not a file", "save the menu in a file")  # a pipe or a device might never end


def _bytes(path: File) -> bytes:
    """The file's bytes, but no more than tell that it is too large: a byte order mark is not counted."""
    with path.open("rb") as file:
        return file.read(MOST_BYTES + 4)


def read_menu(text: str) -> LoadedMenu:
    """The menu in a text. Raises MenuFaults."""
    text = text.removeprefix("\ufeff")
    try:
        raw = text.encode()
    except UnicodeEncodeError as trouble:
        raise MenuFaults(
            (_at(text, trouble.start, "half a character stands here", "save the file as UTF-8"),)
        ) from None
    if len(raw) > MOST_BYTES:
        raise _refusal("this file is too large", _TOO_LARGE)
    document, positions, faults = read_tree(text)
    menu = build_menu(document, positions, faults)
    return LoadedMenu(text, hashlib.sha256(raw).hexdigest(), menu, warnings_of(menu, positions), positions)


def _decoded(raw: bytes) -> str:
    raw = raw.removeprefix(b"\xef\xbb\xbf")
    if len(raw) > MOST_BYTES:
        raise _refusal("this file is too large", _TOO_LARGE)
    try:
        return raw.decode()
    except UnicodeDecodeError as trouble:
        before = raw[: trouble.start].decode()
        fault = _at(before, len(before), "this is not UTF-8 text", "save the file as UTF-8")
        raise MenuFaults((fault,)) from None


def _at(text: str, index: int, wrong: str, right: str) -> Fault:
    line = text.count("\n", 0, index) + 1
    return Fault(line, index - text.rfind("\n", 0, index), wrong, right)


def _refusal(wrong: str, right: str) -> MenuFaults:
    return MenuFaults((Fault(1, 1, wrong, right),))
