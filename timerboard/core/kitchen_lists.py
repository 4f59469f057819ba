"""Everything that is read before the cook: questions, shopping, preparation, the oven card, thawing."""

from .list_values import ListLine, ListPage
from .menu import Menu
from .menu_questions import question_page
from .oven_card import oven_card
from .plan import Plan
from .prep_list import prep_list
from .shopping import shopping
from .thaw import thaw_list


def kitchen_lists(menu: Menu, plan: Plan, zone: str) -> tuple[ListPage, ...]:
    """The lists that have something on them. The plan's axis is Unix seconds; `zone` is an IANA name."""
    pages = (
        question_page(menu),
        thaw_list(menu, plan, zone),
        shopping(menu),
        prep_list(menu, plan, zone),
        oven_card(menu, plan, zone),
    )
    return tuple(page for page in pages if any(group.lines for group in page.groups))


def list_lines(pages: tuple[ListPage, ...]) -> tuple[str, ...]:
    """The lists as plain lines, for the terminal."""
    lines: list[str] = []
    for page in pages:
        lines += ["", page.title.upper()] if lines else [page.title.upper()]
        lines += [page.note] if page.note else []
        for group in page.groups:
            lines += [f"-- {group.heading}"] if group.heading else []
            lines += [_line(line) for line in group.lines]
    return tuple(lines)


def _line(line: ListLine) -> str:
    box = "[ ]" if line.tick else "   "
    return " ".join(part for part in (box, line.when, line.words, f"({line.small})" if line.small else "") if part)
