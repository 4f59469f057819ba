"""Editor windows with everything they need, joined: file, side file, planner, kitchens, and the way to the board."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QMessageBox

from timerboard.board.editor_window import EditorWindow, Hooks
from timerboard.core.faults import MenuFaults
from timerboard.core.menu_written import at, entries_at, keys_at, words_at
from timerboard.core.recipe_dish import dish_of
from timerboard.core.recipe_values import Recipe, TakenDish
from timerboard.core.scaling import scaled
from timerboard.desk.editing import EditorDesk
from timerboard.desk.editor_ports import EditRefused
from timerboard.desk.live_plan import LivePlan
from timerboard.desk.ports import Clock
from timerboard.exporting import export, print_lists, print_plan
from timerboard.shell.kitchen_store import KitchenStore, new_meal
from timerboard.shell.menu_document import MenuDocument, MenuOnDisk
from timerboard.shell.planner_process import PlannerProcess
from timerboard.shell.recipe_file import load_recipes, read_recipes
from timerboard.shell.recipe_writing import merged_text
from timerboard.shell.settings_file import SettingsFile, settings_path
from timerboard.shell.side_file import SideOnDisk
from timerboard.shell.wake import Heartbeat, QtWake
from timerboard.taking_in import guesses_told

Cook = Callable[[Path], None]
MENUS = "Menus (*.yaml *.yml)"
RECIPES = "Recipes (*.json *.html *.htm *.txt *.md);;Every file (*)"


class Editors:
    """Every editor window that is open. `cook` opens the board on a saved menu; `last_closed` hears of the last one."""

    def __init__(
        self, clock: Clock, theme: str | None, cook: Cook | None = None, last_closed: Callable[[], None] | None = None
    ) -> None:
        self._clock, self._theme, self._cook, self._last_closed = clock, theme, cook, last_closed
        self.windows: list[EditorWindow] = []
        self.kitchens = KitchenStore()

    def open(self, path: Path | None) -> EditorWindow | None:
        """A window on a file, or on a new meal; None when the file cannot be read, which was said."""
        return self._open(path or free_name(Path.cwd()), new_meal(*self.kitchens.last()))

    def open_copy(self, sample: Path) -> EditorWindow | None:
        """A window on a new meal that begins as a sample does: samples themselves stay as they are."""
        try:
            text, _ = MenuOnDisk(sample).load()
        except EditRefused as refused:
            QMessageBox.warning(None, "timerboard", refused.said)
            return None
        return self._open(free_name(Path.cwd(), f"my-{sample.stem}"), text)

    def _open(self, file: Path, beginning: str) -> EditorWindow | None:
        planner, wake, paths = PlannerProcess(), QtWake(self._clock), [file]
        plan = LivePlan(planner, wake, self._clock, SettingsFile(settings_path()))
        desk = EditorDesk(MenuDocument(), MenuOnDisk(file), SideOnDisk(file), plan, QtWake(self._clock))
        try:
            desk.open(beginning)
        except EditRefused as refused:
            planner.close()
            wake.stop()
            QMessageBox.warning(None, "timerboard", refused.said)
            return None
        heartbeat = Heartbeat(desk.look_outside)

        def closed() -> None:
            heartbeat.stop()
            planner.close()
            self.windows = [other for other in self.windows if other is not window]
            if not self.windows and self._last_closed is not None:
                self._last_closed()

        window = EditorWindow(desk, self._hooks(paths, closed), theme=self._theme)
        self.windows.append(window)
        window.show()
        return window

    def _hooks(self, paths: list[Path], closed: Callable[[], None]) -> Hooks:
        """`paths` holds the window's file, which saving under another name replaces."""
        cook = self._cook
        return Hooks(
            cook=(lambda _: cook(paths[0])) if cook is not None else None,
            print_plan=print_plan,
            print_lists=print_lists,
            export=lambda desk: export(desk, paths[0], self._clock),
            scale=scale,
            take_in=take_in,
            saved=self._saved,
            save_as=lambda desk: self._save_as(desk, paths),
            open_other=self._open_other,
            new_meal=lambda: self.open(None),
            closed=closed,
        )

    def _saved(self, desk: EditorDesk) -> None:
        """The kitchen of a menu that can be read is the one that the next new meal begins in."""
        document = desk.reading.document
        kitchen = at(document, ("kitchen",))
        if desk.reading.menu is not None and kitchen is not None:
            self.kitchens.keep(kitchen, words_at(document, ("units",)) or "C")

    def _open_other(self) -> None:
        name, _ = QFileDialog.getOpenFileName(None, "Open a menu", "", MENUS)
        if name:
            self.open(Path(name))

    def _save_as(self, desk: EditorDesk, paths: list[Path]) -> bool:
        name, _ = QFileDialog.getSaveFileName(None, "Save the menu", str(paths[0]), MENUS)
        if not name:
            return False
        file = Path(name) if Path(name).suffix else Path(name).with_suffix(".yaml")
        paths[0] = file
        return desk.save(MenuOnDisk(file), SideOnDisk(file))


def scale(desk: EditorDesk, people: int) -> tuple[str, ...]:
    """Write the desk's menu for so many people, as one step that can be taken back; gives what to mind."""
    desk.settle()
    desk.judge()
    menu = desk.reading.menu
    if menu is None:
        return ("Mend what cannot be read first.",)
    made = scaled(desk.reading.document, menu, people)
    desk.change(made.changes)
    return made.said


def take_in(desk: EditorDesk, text: str | None) -> tuple[str, ...]:
    """Add what a recipe makes to the desk's menu, as one step; gives what was guessed. Raises ValueError with words."""
    dishes = tuple(map(dish_of, read_recipes(text) if text is not None else _asked_recipes()))
    if not dishes:
        return ()
    desk.settle()
    desk.judge()
    if desk.reading.menu is None:
        return (*_into_draft(desk, dishes), *guesses_told(dishes))
    try:
        merged, said = merged_text(desk.text, dishes)
    except MenuFaults as faults:
        raise ValueError(f"This recipe does not fit: {faults.faults[0].wrong}.") from None
    desk.take_text(merged)
    return (*said, *guesses_told(dishes))


def _into_draft(desk: EditorDesk, dishes: tuple[TakenDish, ...]) -> tuple[str, ...]:
    """Into a menu that is not whole yet (a new meal has no dishes): as written, with the places that are missing."""
    for taken in dishes:
        known = {name.casefold() for name in keys_at(desk.reading.document, ("kitchen", "places"))}
        places = [(("kitchen", "places", name), form) for name, form in taken.places.items() if name not in known]
        count = len(entries_at(desk.reading.document, ("dishes",)))
        refused = desk.change([*places, (("dishes", count), taken.dish)])
        if refused:
            return (refused,)
    return ()


def _asked_recipes() -> tuple[Recipe, ...]:
    name, _ = QFileDialog.getOpenFileName(None, "Import a recipe", "", RECIPES)
    if not name:
        return ()
    try:
        return load_recipes(Path(name))
    except OSError as trouble:
        raise ValueError(f"{name} cannot be read ({(trouble.strerror or 'no reason is given').lower()}).") from None


def free_name(folder: Path, stem: str = "new-meal") -> Path:
    """A name for a new meal that no file has."""
    names = (folder / f"{stem}{tail}.yaml" for tail in ("", *(f"-{n}" for n in range(2, 9999))))
    return next(name for name in names if not name.exists())
