"""What one look over a whole menu tells about its steps, worked out once for all of them."""

from dataclasses import dataclass
from functools import cached_property

from .menu import Link, Menu, Step

HOBS = frozenset(
    "barbecue burner burners cooker fryer grill hob plancha ring rings stove stovetop wok".split()  # noqa: SIM905
)
"""Words that name a place with live heat even when no step there says how hot."""

ALONE = frozenset({"oven", "ovens", "fridge", "freezer", "smoker", "box", "warmer"})
"""Words that name a place that may run through closed hours."""

FLAME_C = 60.0
"""Notes of less heat (a proving bowl, a fridge) are no flame: nothing there catches or boils over."""


@dataclass(frozen=True)
class Survey:
    """A menu, and what its steps are to one another."""

    menu: Menu

    @cached_property
    def followers(self) -> dict[str, list[tuple[Step, Link]]]:
        """For every step what follows it, and by which link."""
        found: dict[str, list[tuple[Step, Link]]] = {step: [] for step in self.menu.steps}
        for step in self.menu.steps.values():
            for link in step.links:
                found.setdefault(link.step, []).append((step, link))
        return found

    @cached_property
    def kept_shut(self) -> frozenset[str]:
        """Places that some step asks to keep shut."""
        return frozenset(use.place for step in self.menu.steps.values() if step.shut_s for use in step.uses)

    @cached_property
    def hearths(self) -> frozenset[str]:
        """Places with live heat: named like a hob, or where some step has its hot pan."""
        named = {place.name for place in self.menu.places if named_hob(place.name)}
        return frozenset(named | {h for s in self.menu.steps.values() if (h := self._hearth(s)) is not None})

    def _hearth(self, step: Step) -> str | None:
        """The place where a step has its hot pan; None when it has none, or when its heat is an oven's."""
        if step.heat_c is None or step.heat_c < FLAME_C:
            return None
        places = [self.menu.place(use.place) for use in step.uses]
        if any(place is not None and place.heat is not None for place in places):
            return None
        limited = [p.name for p in places if p is not None and p.room is not None and not _runs_alone(p.name)]
        return next((name for name in limited if named_hob(name)), limited[0] if limited else None)


def _runs_alone(place: str) -> bool:
    """True for what the menu format lets run with nobody there."""
    return bool(ALONE & set(place.lower().split()))


def named_hob(place: str) -> bool:
    """True when the name of a place says that it is a hob or its like."""
    return bool(HOBS & set(place.lower().split()))
