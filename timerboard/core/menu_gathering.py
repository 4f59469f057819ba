"""What gathers while a menu is built: faults with their positions, and what the parts share."""

from dataclasses import dataclass, field

from .faults import MOST_FAULTS, Fault, Path, Positions
from .menu import Place


@dataclass(slots=True)
class Gathering:
    """Faults found so far. `cut` are paths that could not be read and were left out: no second fault for them."""

    where: Positions
    cut: frozenset[Path]
    units: str = "C"
    faults: list[Fault] = field(default_factory=list)
    menu_places: dict[str, Place] = field(default_factory=dict)
    items: dict[str, str] = field(default_factory=dict)  # what is made or needed: folded -> as first written

    def item(self, name: str) -> str:
        """Something made or needed, in the spelling in which it was first written."""
        return self.items.setdefault(" ".join(name.casefold().split()), name)

    def fault(self, path: Path, wrong: str, right: str = "", *, at_key: bool = False) -> None:
        """Add a fault at a path of the document."""
        self.faults.append(self.where.fault(path, wrong, right, at_key=at_key))

    @property
    def full(self) -> bool:
        """True when there are as many faults as are said: looking for more would only take time."""
        return len(self.faults) >= MOST_FAULTS

    def lost(self, path: Path) -> bool:
        """True when `path` or something around it had to be left out: what it would have said is not known."""
        return any(path[: len(c)] == c for c in self.cut)

    @property
    def names_lost(self) -> bool:
        """True when the name of a dish or step had to be left out, so that an unknown name may be that one."""
        return any(
            c[0] == "dishes" and (len(c) in (1, 2, 4) or c[-1] in ("do", "id", "dish", "steps")) for c in self.cut
        )

    def untouched(self, path: Path) -> bool:
        """True when nothing at or below `path`, nor any part around it, had to be left out."""
        return not any(c[: len(path)] == path or path[: len(c)] == c for c in self.cut)
