"""What is wrong with a menu, said for its reader."""

from dataclasses import dataclass

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
