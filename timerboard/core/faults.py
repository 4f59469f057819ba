"""What is wrong with a menu, said for its reader."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

MOST_FAULTS = 50


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong (or, as a warning, worth a look), and where. Lines and columns count from 1."""

    line: int
    column: int
    wrong: str  # what is wrong
    right: str = ""  # what would be right
    path: tuple[str | int, ...] = ()  # where in the document: ("dishes", 0, "steps", 2, "takes")
    warning: bool = False

    def said(self, file: str) -> str:
        """`FILE:LINE:COLUMN: what is wrong; what would be right`."""
        tail = f"; {self.right}" if self.right else ""
        kind = "warning: " if self.warning else ""
        return f"{file}:{self.line}:{self.column}: {kind}{self.wrong}{tail}"


class MenuFaults(ValueError):
    """A menu that cannot be cooked as written; carries every fault found, at most MOST_FAULTS."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__(f"{len(faults)} faults")
        self.faults = faults


class Unreadable(ValueError):
    """A word or number that cannot be what it should be; `wrong` and `right` are for the reader."""

    def __init__(self, wrong: str, right: str = "") -> None:
        super().__init__(f"{wrong}; {right}" if right else wrong)
        self.wrong = wrong
        self.right = right


Path: TypeAlias = tuple[str | int, ...]
"""Where in the document: ("dishes", 0, "steps", 2, "takes")."""


@dataclass(frozen=True, slots=True)
class Positions:
    """Line and column (from 1) of every value and every key of a menu text, by path."""

    values: Mapping[Path, tuple[int, int]]
    keys: Mapping[Path, tuple[int, int]]

    def value(self, path: Path) -> tuple[int, int]:
        """Where a value stands; where it is not written, the nearest thing around it."""
        return self._nearest(self.values, path)

    def key(self, path: Path) -> tuple[int, int]:
        """Where a key stands; where there is none, the value around it."""
        return self.keys.get(path) or self.value(path)

    @staticmethod
    def _nearest(known: Mapping[Path, tuple[int, int]], path: Path) -> tuple[int, int]:
        return next((known[path[:n]] for n in range(len(path), -1, -1) if path[:n] in known), (1, 1))

    def fault(self, path: Path, wrong: str, right: str = "", *, at_key: bool = False, warning: bool = False) -> Fault:
        """A fault at a path."""
        line, column = self.key(path) if at_key else self.value(path)
        return Fault(line, column, wrong, right, path, warning)
