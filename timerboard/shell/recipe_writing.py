"""A dish taken from a recipe as menu text, alone or put into a menu; what was guessed is marked with a comment."""

from timerboard.core.faults import MenuFaults, Path
from timerboard.core.menu_written import Plain, Value
from timerboard.core.recipe_values import Guess, TakenDish
from timerboard.desk.editor_ports import EditRefused

from . import menu_patch
from .menu_file import read_menu
from .menu_lines import after_line
from .menu_spots import Spot, spot_at, spots_of
from .menu_write import block


def menu_text(dishes: tuple[TakenDish, ...]) -> str:
    """A whole menu of these dishes, for a kitchen with the places they use."""
    first = dishes[0]
    places: dict[str, Value] = {}
    for taken in dishes:
        places.update({name: place for name, place in taken.places.items() if name not in places})
    whole: dict[str, Value] = {
        "menu": first.name,
        "serves": first.serves,
        "units": first.units,
        "kitchen": {"hands": 1, "places": places},
        "dishes": [_renamed(taken, _free_name(taken.name, [t.name for t in dishes[:n]])) for n, taken in
                   enumerate(dishes)],
    }  # fmt: skip
    text = "\n".join(block(whole, 0)) + "\n"
    if first.serves_guess:
        text = _mark(text, [(("serves",), first.serves_guess)])
    return _mark(text, [((*_dish(n), *g.path), g.said) for n, taken in enumerate(dishes) for g in taken.guesses])


def merged_text(text: str, dishes: tuple[TakenDish, ...]) -> tuple[str, tuple[str, ...]]:
    """A menu's text with the dishes added at its end, and what there is to say about it.

    Comments and order of the menu stay. Raises EditRefused when it cannot be patched, MenuFaults when the result could
    not be cooked from (an oven that does not go so hot).
    """
    menu = read_menu(text).menu
    said: list[str] = []
    marks: list[tuple[Path, str]] = []
    names = [dish.name for dish in menu.dishes]
    known = {place.name.casefold() for place in menu.places}
    for n, taken in enumerate(dishes, start=len(names)):
        name = _free_name(taken.name, names)
        names.append(name)
        for place, form in taken.places.items():
            if place not in known:
                text = menu_patch.set_value(text, ("kitchen", "places", place), form)
                known.add(place)
                said.append(f"the kitchen now has a place '{place}'")
        text = menu_patch.insert(text, ("dishes",), n, _renamed(taken, name))
        if menu.table is not None:
            text = menu_patch.insert(text, ("table",), len(menu.table) + n - len(menu.dishes), name)
        marks += [((*_dish(n), *guess.path), guess.said) for guess in taken.guesses]
        if taken.serves != menu.serves and not taken.serves_guess:
            said.append(f"'{name}' is written for {taken.serves}, the menu for {menu.serves}: check the quantities")
    text = _mark(text, marks)
    read_menu(text)
    return text, tuple(said)


def _dish(n: int) -> Path:
    return ("dishes", n)


def _renamed(taken: TakenDish, name: str) -> Value:
    return {**taken.dish, "dish": name}


def _free_name(name: str, taken: list[str]) -> str:
    folded = {" ".join(one.casefold().split()) for one in taken}
    number, free = 1, name
    while " ".join(free.casefold().split()) in folded:
        number += 1
        free = f"{name} {number}"
    return free


def _mark(text: str, marks: list[tuple[Path, str]]) -> str:
    """The text with '# guessed: ...' at the end of the line where each value ends; two on one line share it."""
    root = spots_of(text)
    lines: dict[int, list[str]] = {}
    for path, said in marks:
        spot = _line_of(root, path)
        if spot is not None:
            words = lines.setdefault(_line_end(text, spot), [])
            if (told := " ".join(said.split())) not in words:
                words.append(told)
    for end in sorted(lines, reverse=True):
        text = f"{text[:end]}  # guessed: {'; '.join(lines[end])}{text[end:]}"
    return text


def _line_of(root: Spot | None, path: Path) -> int | None:
    """Where the line to be marked is: the value's own when it stands on one line, else the line of its key."""
    holder = spot_at(root, path[:-1]) if root is not None else None
    if holder is None:
        return None
    key, value = holder.entry(str(path[-1]))
    if key is None or value is None:
        return None
    return value.start if value.flow or value.kind == "scalar" else key.start


def _line_end(text: str, at: int) -> int:
    end = after_line(text, at)
    return end - len(text[at:end]) + len(text[at:end].rstrip("\r\n"))


__all__ = ["EditRefused", "Guess", "MenuFaults", "Plain", "menu_text", "merged_text"]
