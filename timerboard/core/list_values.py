"""What is read before the cook: pages of groups of lines, for the terminal and for paper."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ListLine:
    """One line. `when` stands before it, `small` after or below it; `tick`: it has a box to tick off."""

    words: str
    when: str = ""
    small: str = ""
    tick: bool = True


@dataclass(frozen=True, slots=True)
class ListGroup:
    """Lines under a heading; the heading may be empty."""

    heading: str
    lines: tuple[ListLine, ...]


@dataclass(frozen=True, slots=True)
class ListPage:
    """One list. `note` says what holds for all of it."""

    title: str
    groups: tuple[ListGroup, ...]
    note: str = ""
