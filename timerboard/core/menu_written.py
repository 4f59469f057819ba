"""A menu as it is written, part by part: what an editor reads from a text and what it puts back."""

from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class Plain:
    """Characters to be written without quotes where YAML reads them back so: '25', '25 min', 'all', '18:30'."""

    text: str


Value: TypeAlias = bool | int | str | Plain | list["Value"] | dict[str, "Value"] | None
"""What is put into a text. A str is words: '12' gets quotes so that it stays words."""

Written: TypeAlias = str | list["Written"] | dict[str, "Written"]
"""What stands in a text: every single value as its characters, without quotes."""


def at(document: Written | None, path: tuple[str | int, ...]) -> Written | None:
    """What stands at a path of a document; None when nothing does."""
    found: Written | None = document
    for part in path:
        if isinstance(found, dict) and isinstance(part, str):
            found = found.get(part)
        elif isinstance(found, list) and isinstance(part, int) and 0 <= part < len(found):
            found = found[part]
        else:
            return None
    return found


def words_at(document: Written | None, path: tuple[str | int, ...]) -> str:
    """The characters of a single value at a path; '' when there is none."""
    found = at(document, path)
    return found if isinstance(found, str) else ""


def entries_at(document: Written | None, path: tuple[str | int, ...]) -> list[Written]:
    """The entries of a list at a path; none when there is no list."""
    found = at(document, path)
    return found if isinstance(found, list) else []


def keys_at(document: Written | None, path: tuple[str | int, ...]) -> tuple[str, ...]:
    """The keys of a group at a path; none when there is no group."""
    found = at(document, path)
    return tuple(found) if isinstance(found, dict) else ()
