"""From what a cook calls a step to the step: names are matched without regard to capitals or spacing."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from .faults import Path, Unreadable
from .menu_misreadings import nearest
from .menu_schema import WrittenDish, WrittenStep


def fold_name(name: str) -> str:
    """A name as it is compared."""
    return " ".join(name.casefold().split())


@dataclass(frozen=True, slots=True)
class Named:
    """A step with its names: `id` is "dish/step", `name` is unique in its dish."""

    id: str
    dish: str
    name: str
    path: Path
    written: WrittenStep


@dataclass(slots=True)
class StepNames:
    """Every name by which a step can be called."""

    by_full: dict[str, list[Named]] = field(default_factory=dict)  # "dish/step"
    by_own_id: dict[str, list[Named]] = field(default_factory=dict)
    by_do: dict[str, list[Named]] = field(default_factory=dict)
    dishes: dict[str, str] = field(default_factory=dict)

    def add(self, step: Named) -> None:
        """Take in a step under its name, what it does and its own id."""
        for name in dict.fromkeys(fold_name(n) for n in (step.name, step.written.do, step.written.id) if n):
            self.by_full.setdefault(f"{fold_name(step.dish)}/{name}", []).append(step)
            self.by_do.setdefault(name, []).append(step)
        if step.written.id:
            self.by_own_id.setdefault(fold_name(step.written.id), []).append(step)
        self.dishes.setdefault(fold_name(step.dish), step.dish)

    def find(self, called: str, dish: str) -> Named:
        """The step that a step of `dish` calls so; Unreadable when there is none or more than one."""
        name = fold_name(called.replace(" /", "/").replace("/ ", "/"))
        found = self._called(name, dish)
        if not found and name.endswith(" 1"):
            found = self._called(name.removesuffix(" 1"), dish)[:1]  # the first of several of one name
        if len(found) > 1:
            choices = " or ".join(f"'{_numbered(step, found)}'" for step in found[:4])
            raise Unreadable(f"'{called}' could be {len(found)} steps of {found[0].dish}", f"write {choices}")
        if not found:
            raise self._not_found(called, name, dish)
        return found[0]

    def _called(self, name: str, dish: str) -> list[Named]:
        return self.by_full.get(f"{fold_name(dish)}/{name}") or self.by_full.get(name) or self.by_own_id.get(name, [])

    def _not_found(self, called: str, name: str, dish: str) -> Unreadable:
        wrong = f"there is no step '{called[:60]}'" + ("" if "/" in called else f" in {dish}")
        if elsewhere := self.by_do.get(name):
            return Unreadable(wrong, f"did you mean '{elsewhere[0].id}'?")
        if name in self.dishes:
            step = next(s for full, steps in self.by_full.items() for s in steps if s.dish == self.dishes[name])
            return Unreadable(wrong, f"name one of its steps, as '{step.id}'")
        own = [s.name for full, steps in self.by_full.items() for s in steps if s.dish == dish]
        close = nearest(called, own) or nearest(called, (s.id for steps in self.by_full.values() for s in steps))
        return Unreadable(
            wrong, f"did you mean '{close}'?" if close else "name a step of this dish, or write dish/step"
        )


def _numbered(step: Named, twins: list[Named]) -> str:
    return f"{step.name} 1" if step is twins[0] and fold_name(step.name) == fold_name(step.written.do) else step.name


def name_steps(dish: WrittenDish, dish_path: Path) -> Iterable[Named]:
    """A dish's steps with unique names: a second step of the same name gets a number, 'Turn 2'."""
    taken: set[str] = set()
    for n, step in enumerate(dish.steps):
        name = unique(step.id or step.do, taken)
        yield Named(f"{dish.dish}/{name}", dish.dish, name, (*dish_path, "steps", n), step)


def unique(name: str, taken: set[str]) -> str:
    """`name`, with the first free number added when it is taken; takes it."""
    number, free = 1, name
    while fold_name(free) in taken:
        number += 1
        free = f"{name} {number}"
    taken.add(fold_name(free))
    return free
