"""Small entries of one kind (places, hands, courses, cues, links) as rows of boxes, and what a box's line changes.

A list may be written short: `hands: 2`, `after: drain`, `after: [drain]`. Rows are shown the same for all ways, and
what is short stays short for as long as it can say what it has to.
"""

from .faults import Path
from .menu_boxes import shown, typed
from .menu_form import Field, Rows, Shape
from .menu_written import Plain, Value, Written, at

Change = tuple[str, Path, Value]
"""What to do ('set', 'remove' or 'rename'), where, and with what."""

_SHORT = {"after": "step", "hands": "pairs"}  # the column that a short entry stands for


def rows_of(rows: Rows, document: Written | None, base: Path) -> list[list[str]]:
    """The lines of every box, a list for each entry."""
    written = at(document, (*base, *rows.at))
    if rows.keyed:
        return [_keyed_row(rows, name, held) for name, held in written.items()] if isinstance(written, dict) else []
    if isinstance(written, str):
        return [_row(rows, written)] if written else []
    return [_row(rows, entry) for entry in written] if isinstance(written, list) else []


def entry_path(rows: Rows, document: Written | None, base: Path, row: int) -> Path:
    """Where an entry stands, for its faults."""
    path = (*base, *rows.at)
    written = at(document, path)
    if isinstance(written, dict):
        names = list(written)
        return (*path, names[row]) if row < len(names) else path
    return (*path, row) if isinstance(written, list) else path


def box_change(rows: Rows, document: Written | None, base: Path, row: int, column: int, line: str) -> Change:  # noqa: PLR0917
    """What a line typed into a box changes."""
    path, field = entry_path(rows, document, base, row), rows.columns[column]
    if rows.keyed and column == 0:
        return "rename", path, line.strip()
    value = typed(field.shape, line)
    entry = at(document, path)
    if isinstance(entry, dict) or (rows.keyed and entry is not None):
        if value is None and not _needed(rows, field):
            return _without(rows, path, entry, field)
        return "set", (*path, *field.at), "" if value is None else value
    if field.at == (_SHORT.get(str(rows.at[-1])),):
        return "set", path, "" if value is None else value
    return _lengthened(rows, path, entry, field, value)


def _needed(rows: Rows, field: Field) -> bool:
    return field is rows.columns[0]


def _without(rows: Rows, path: Path, entry: Written | None, field: Field) -> Change:
    """A link without its times is short again."""
    short = _SHORT.get(str(rows.at[-1]))
    left = {key for key in entry if key != field.at[0]} if isinstance(entry, dict) else set()
    if str(rows.at[-1]) == "after" and short and left == {short} and isinstance(entry, dict):
        return "set", path, shown(Shape.WORDS, entry[short])
    return "remove", (*path, *field.at), None


def _lengthened(rows: Rows, path: Path, entry: Written | None, field: Field, value: Value) -> Change:
    """A short entry that has to say more becomes a group of keys."""
    if value in (None, Plain("start")):
        return "set", path, _short_value(rows, entry)
    if rows.at[-1] == "hands":
        return "set", path, [{"from": value, "pairs": _short_value(rows, entry)}]
    group: dict[str, Value] = {"step": shown(Shape.WORDS, entry), str(field.at[0]): value}
    return "set", path, group if isinstance(path[-1], int) else [group]


def _short_value(rows: Rows, entry: Written | None) -> Value:
    words = shown(Shape.WORDS, entry)
    return Plain(words) if rows.at[-1] == "hands" else words


def added(rows: Rows, document: Written | None, base: Path) -> Change:
    """What one entry more changes: it begins with as little as can be."""
    path = (*base, *rows.at)
    written = at(document, path)
    if rows.keyed:
        names = written if isinstance(written, dict) else {}
        name = next(n for n in (rows.one, *(f"{rows.one} {k}" for k in range(2, 9999))) if n not in names)
        return "set", (*path, name), _beginning(rows)
    entry: Value = _beginning(rows)
    if rows.at[-1] == "hands":
        first: Value = {"from": Plain("start"), "pairs": Plain(written if isinstance(written, str) else "1")}
        if not isinstance(written, list):
            return "set", path, [first, entry]
    if isinstance(written, str) and written:
        return "set", path, [written, entry]
    count = len(written) if isinstance(written, list) else 0
    return "set", (*path, count), entry


def _beginning(rows: Rows) -> Value:
    match str(rows.at[-1]):
        case "courses":
            return {"eat": Plain("0 min")}
        case "hands":
            return {"from": Plain("-30 min"), "pairs": Plain("2")}
        case "cues":
            return {"do": "", "every": Plain("10 min")}
        case "after":
            return ""
    return {}


def _row(rows: Rows, entry: Written) -> list[str]:
    if isinstance(entry, dict):
        return [shown(field.shape, at(entry, field.at)) for field in rows.columns]
    short = _SHORT.get(str(rows.at[-1]))
    start = "start" if rows.at[-1] == "hands" else ""
    return [
        shown(field.shape, entry) if field.at == (short,) else (start if not n else "")
        for n, field in enumerate(rows.columns)
    ]


def _keyed_row(rows: Rows, name: str, held: Written) -> list[str]:
    return [name, *(shown(field.shape, at(held, field.at)) for field in rows.columns[1:])]
