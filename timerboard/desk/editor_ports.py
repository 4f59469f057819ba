"""What the editor's desk needs of the world: menu texts that can be read and patched, their file, and a side file."""

from dataclasses import dataclass
from typing import Protocol

from timerboard.core.faults import Fault, Path
from timerboard.core.menu import Menu
from timerboard.core.menu_written import Value, Written


class EditRefused(ValueError):
    """A change that cannot be made to this text, or a file that cannot be read or kept; `said` is for the cook."""

    def __init__(self, said: str) -> None:
        super().__init__(said)
        self.said = said


@dataclass(frozen=True, slots=True)
class Reading:
    """A menu text as read. `document` None: it is no readable YAML and can only be changed as text."""

    text: str
    document: Written | None
    menu: Menu | None
    faults: tuple[Fault, ...] = ()
    warnings: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Stamp:
    """How a file was when it was last looked at: cheap to compare, and its content's hash to be sure."""

    modified_ns: int
    size: int
    hash: str


class MenuTexts(Protocol):
    """Reads and patches menu texts. Every change raises EditRefused when it cannot be written."""

    def read(self, text: str) -> Reading:
        """A text as a menu, with all that is wrong with it. Never raises."""

    def outline(self, text: str) -> Written | None:
        """What stands where, without judging it: the `document` of a reading, at once. Never raises."""

    def set_value(self, text: str, path: Path, value: Value) -> str:
        """The text with a value at a path; what is missing on the way is written too."""

    def remove(self, text: str, path: Path) -> str:
        """The text without what stands at a path."""

    def insert(self, text: str, path: Path, at: int, value: Value) -> str:
        """One entry more in a list."""

    def move(self, text: str, path: Path, at: int, to: int) -> str:
        """One entry of a list at another position."""

    def rename(self, text: str, path: Path, name: str) -> str:
        """Another name for a key."""


class MenuStore(Protocol):
    """A menu's own file."""

    @property
    def name(self) -> str:
        """What the file is called, for the window's title."""

    def load(self) -> tuple[str, Stamp | None]:
        """Its text and stamp; ('', None) when there is no file yet. Raises EditRefused when it cannot be read."""

    def look(self, last: Stamp | None) -> Stamp | None:
        """Its stamp now; `last` itself when nothing changed, None when there is no file. Never raises."""

    def save(self, text: str) -> Stamp:
        """Keep the text, whole or not at all. Raises EditRefused."""


@dataclass(frozen=True, slots=True)
class Aside:
    """What a side file keeps: the text as last edited, and the text it began from.

    `named` are names that were being typed: their paths, and what was there before. What calls them so follows only
    when the box is left, so whoever takes the text up has to see to that.
    """

    text: str
    base: str
    named: tuple[tuple[Path, str], ...] = ()


class SideFile(Protocol):
    """Keeps unsaved work beside the menu's file, so that a crash loses nothing."""

    def keep(self, aside: Aside, *, durable: bool) -> None:
        """Put it down whole; `durable`: also through a loss of power. Raises EditRefused."""

    def take(self) -> Aside | None:
        """What was kept; None when nothing was, or when it cannot be read."""

    def drop(self) -> None:
        """Nothing is unsaved any more. Never raises."""
