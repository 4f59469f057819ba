"""When a dish, a step, a place or a course gets another name, what calls it by the old one calls it by the new."""

from collections.abc import Iterator

from timerboard.core.faults import Path
from timerboard.core.menu_names import fold_name
from timerboard.core.menu_written import Value, Written, at, entries_at, words_at

Change = tuple[Path, Value]


def followers(document: Written | None, path: Path, old: str, new: str) -> Iterator[Change]:
    """What has to be set elsewhere when the name at a path went from `old` to `new`. Keys are not set but renamed:
    a change whose value is a string and whose path ends in that old key is one of `on`."""
    if not fold_name(old) or not fold_name(new) or fold_name(old) == fold_name(new):
        return
    match path:
        case ("dishes", _, "dish"):
            yield from _of_dish(document, old, new)
        case ("dishes", int() as dish, "steps", _, "do" | "id"):
            yield from _of_step(document, dish, old, new)
        case ("courses", _):
            for n, _ in enumerate(entries_at(document, ("dishes",))):
                if fold_name(words_at(document, ("dishes", n, "course"))) == fold_name(old):
                    yield ("dishes", n, "course"), new
        case ("kitchen", "places", _):
            yield from _of_place(document, old, new)


def steps_of(document: Written | None) -> Iterator[tuple[int, Path]]:
    """Every step's path, with the number of its dish."""
    for dish, _ in enumerate(entries_at(document, ("dishes",))):
        for step, _ in enumerate(entries_at(document, ("dishes", dish, "steps"))):
            yield dish, ("dishes", dish, "steps", step)


def _of_dish(document: Written | None, old: str, new: str) -> Iterator[Change]:
    for n, name in enumerate(entries_at(document, ("table",))):
        if isinstance(name, str) and fold_name(name) == fold_name(old):
            yield ("table", n), new
    for _, path, called in _links(document):
        dish, slash, step = called.partition("/")
        if slash and fold_name(dish) == fold_name(old):
            yield path, f"{new}/{step}"


def _of_step(document: Written | None, dish: int, old: str, new: str) -> Iterator[Change]:
    own = fold_name(words_at(document, ("dishes", dish, "dish")))
    for where, path, called in _links(document):
        if where == dish and fold_name(called) == fold_name(old):
            yield path, new
        of, slash, step = called.partition("/")
        if slash and fold_name(of) == own and fold_name(step) == fold_name(old):
            yield path, f"{of}/{new}"


def _links(document: Written | None) -> Iterator[tuple[int, Path, str]]:
    """Every name in an `after`: the dish it stands in, its path, and the name."""
    for dish, step in steps_of(document):
        path = (*step, "after")
        written = at(document, path)
        if isinstance(written, str) and written:
            yield dish, path, written
        for n, entry in enumerate(written if isinstance(written, list) else []):
            if isinstance(entry, str):
                yield dish, (*path, n), entry
            elif isinstance(entry, dict) and isinstance(called := entry.get("step"), str):
                yield dish, (*path, n, "step"), called


def _of_place(document: Written | None, old: str, new: str) -> Iterator[Change]:
    for _, step in steps_of(document):
        on = at(document, (*step, "on"))
        if isinstance(on, str) and fold_name(on) == fold_name(old):
            yield (*step, "on"), new
        elif isinstance(on, dict):
            yield from (((*step, "on", name), new) for name in on if fold_name(name) == fold_name(old))
