"""The command that takes a recipe in: `import RECIPE [-o MENU.yaml] [--into MENU.yaml]`."""

import argparse
from pathlib import Path

from timerboard.core.faults import MenuFaults, Unreadable
from timerboard.core.recipe_dish import dish_of
from timerboard.core.recipe_values import Guess, Recipe, TakenDish
from timerboard.core.words import plural
from timerboard.desk.editor_ports import EditRefused
from timerboard.shell.menu_document import MenuOnDisk
from timerboard.shell.recipe_file import load_recipes
from timerboard.shell.recipe_writing import menu_text, merged_text
from timerboard.terminal import DONE, BadInput, complain, say


def take_in(asked: argparse.Namespace) -> int:
    """Read a recipe, and write it as a menu: to standard output, to a new file, or into a menu that is there."""
    dishes = tuple(dish_of(recipe) for recipe in _recipes(asked.recipe))
    if asked.into is not None:
        return _into(asked.into, dishes)
    text = menu_text(dishes)
    if asked.output is None:
        say([text.rstrip("\n")])
        complain(guesses_told(dishes))
        return DONE
    if _is_there(asked.output):
        raise BadInput(f"{asked.output}: this file is there already", f"to add to it: --into {asked.output}")
    _save(asked.output, text)
    say([f"{asked.output}: {_count(dishes)}", *guesses_told(dishes)])
    return DONE


def _recipes(path: Path) -> tuple[Recipe, ...]:
    try:
        return load_recipes(path)
    except Unreadable as trouble:
        raise BadInput(f"{path}: {trouble.wrong}: {trouble.right}") from None
    except OSError as trouble:
        raise BadInput(f"{path}: cannot be read ({(trouble.strerror or 'no reason is given').lower()})") from None
    except ValueError:
        raise BadInput(f"{path}: cannot be read") from None


def _into(path: Path, dishes: tuple[TakenDish, ...]) -> int:
    store = MenuOnDisk(path)
    try:
        text, stamp = store.load()
        if stamp is None:
            raise BadInput(f"{path}: there is no such menu", f"for a new one: -o {path}")
        merged, said = merged_text(text, dishes)
        store.save(merged)
    except EditRefused as refused:
        raise BadInput(f"{path}: {refused.said}") from None
    except MenuFaults as faults:
        raise BadInput(*(fault.said(str(path)) for fault in faults.faults), "nothing was changed") from None
    say([f"{path}: {_count(dishes)} added", *said, *guesses_told(dishes)])
    return DONE


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):  # no name for a file: saving says so
        return False


def _save(path: Path, text: str) -> None:
    try:
        MenuOnDisk(path).save(text)
    except EditRefused as refused:
        raise BadInput(f"{path}: {refused.said}") from None


def _count(dishes: tuple[TakenDish, ...]) -> str:
    steps = sum(len(steps) for taken in dishes if isinstance(steps := taken.dish["steps"], list))
    return f"{plural(len(dishes), 'dish')}, {plural(steps, 'step')}"


def guesses_told(dishes: tuple[TakenDish, ...]) -> list[str]:
    """What was guessed, for the cook to look over."""
    lines = []
    for taken in dishes:
        if taken.serves_guess:
            lines.append(f"serves {taken.serves} is a guess: {taken.serves_guess}")
        lines += [f"guessed: {_about(taken, guess)}: {guess.path[-1]}: {guess.said}" for guess in taken.guesses]
    return lines


def _about(taken: TakenDish, guess: Guess) -> str:
    """The step that a guess is about, else the dish."""
    steps = taken.dish["steps"]
    where = guess.path[1] if len(guess.path) > 2 else None
    step = steps[where] if isinstance(steps, list) and isinstance(where, int) else None
    return str(step["do"]) if isinstance(step, dict) else taken.name
