"""A dish out of a menu file, for a cook that goes on already."""

from pathlib import Path

from timerboard.core.faults import MenuFaults, Unreadable
from timerboard.core.menu import Dish
from timerboard.core.menu_misreadings import nearest
from timerboard.core.menu_names import fold_name

from .menu_file import load_menu


def dish_in(path: Path, name: str) -> Dish:
    """The dish of that name in a menu file. Raises Unreadable with the reader's words."""
    try:
        menu = load_menu(path).menu
    except MenuFaults as faults:
        fault = faults.faults[0]
        raise Unreadable(f"{path.name}: {fault.wrong}", fault.right) from None
    dish = next((one for one in menu.dishes if fold_name(one.name) == fold_name(name)), None)
    if dish is None:
        names = [one.name for one in menu.dishes]
        close = nearest(name, names)
        right = f"did you mean {close}?" if close else f"it has {', '.join(names)}"
        raise Unreadable(f"there is no dish '{name.strip()}' in {path.name}", right)
    return dish
