"""A step taken out of its dish and put into another: what called it by its name, and what it follows, is minded."""

from timerboard.core.faults import Path
from timerboard.core.menu_names import fold_name
from timerboard.core.menu_written import Plain, Value, Written, at, entries_at, words_at

from .editor_ports import EditRefused, MenuTexts
from .renaming import steps_of


def carried(texts: MenuTexts, text: str, source: Path, to: Path) -> tuple[str, Path]:
    """The text with the step at `source` before position `to` of another dish's steps, and where it then is.

    Raises EditRefused: where the dish would be left without a step, where a step of the same name is there already,
    and where the step is tied to others of its dish by name.
    """
    document = texts.outline(text)
    step, here = at(document, source), at(document, source[:2])
    there = at(document, to[:2])
    if not isinstance(step, dict) or there is None or here is None:
        raise EditRefused("this cannot be moved there")
    _judge(document, source, to)
    shared = _value(step)
    text = texts.insert(text, to[:-1], int(to[-1]), shared)
    return texts.remove(text, source), to


def _judge(document: Written | None, source: Path, to: Path) -> None:
    dish, other = words_at(document, (*source[:2], "dish")), words_at(document, (*to[:2], "dish"))
    names = _names(document, source)
    if len(entries_at(document, source[:-1])) < 2:
        raise EditRefused(f"{dish} would have no steps: move the others into it, or remove it")
    taken = {name for n, _ in enumerate(entries_at(document, to[:-1])) for name in _names(document, (*to[:-1], n))}
    if names & taken:
        raise EditRefused(f"{other} has a step of that name already: rename one of them first")
    for own, path in steps_of(document):
        linked = {fold_name(name) for name in _followed(document, path)}
        if path == source and linked:
            raise EditRefused(f"this step follows others by name: clear what it follows before it goes to {other}")
        qualified = {f"{fold_name(dish)}/{name}" for name in names}
        if path != source and ((own == source[1] and linked & names) or linked & qualified):
            raise EditRefused(f"'{words_at(document, (*path, 'do'))}' follows this step: change that first")


def _names(document: Written | None, step: Path) -> set[str]:
    return {fold_name(words) for key in ("do", "id") if (words := words_at(document, (*step, key)))}


def _followed(document: Written | None, step: Path) -> list[str]:
    """The names in a step's `after`."""
    written = at(document, (*step, "after"))
    entries = written if isinstance(written, list) else [written]
    told = (entry.get("step") if isinstance(entry, dict) else entry for entry in entries)
    return [name for name in told if isinstance(name, str) and name]


def _value(written: Written) -> Value:
    if isinstance(written, dict):
        return {key: _value(held) for key, held in written.items()}
    return [_value(one) for one in written] if isinstance(written, list) else Plain(written)
