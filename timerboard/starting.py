"""From the start window to a board or an editor, and back."""

import argparse
import copy
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox

from timerboard.app import Board
from timerboard.board.look import system_palette
from timerboard.board.record_window import RecordWindow
from timerboard.board.start_window import Choices, MenuTile, StartWindow, Ways
from timerboard.boards import Planning, Unplanned, board_on
from timerboard.core.choices import menu_at
from timerboard.core.civil import CivilDoubt, resolve_eat_at
from timerboard.core.faults import MenuFaults
from timerboard.core.menu import Menu
from timerboard.core.plan import Plan
from timerboard.core.plan_preview import hours_only
from timerboard.core.question import question
from timerboard.core.words import plural, upper_first
from timerboard.desk.choosing import remembered_height
from timerboard.desk.ports import Clock, HeldElsewhere, JournalTrouble
from timerboard.editors import MENUS, Editors
from timerboard.past_cooks import cooks_listed, record_lines
from timerboard.planner.greedy import first_plan
from timerboard.recording import write_record
from timerboard.shell.menu_file import load_menu
from timerboard.shell.recent_menus import RecentMenus
from timerboard.shell.settings_file import SettingsFile, settings_path
from timerboard.terminal import DEFAULT_EAT_AT, BadInput

PICTURE_HOURS = 6


class Starting:
    """The start window and what it opens. Holds everything that must live as long as its windows."""

    def __init__(self, asked: argparse.Namespace, clock: Clock, *, comes_back: bool = True) -> None:
        """`comes_back` False: when the last editor is closed, that is the end."""
        self._asked, self._clock = asked, clock
        self._theme = None if asked.theme == "system" else asked.theme
        self.editors = Editors(clock, self._theme, self.cook, self._come_back if comes_back else None)
        self._quitting = _Quitting()
        self.board: Board | None = None
        self.window: StartWindow | None = None
        self._pictures: _Pictures | None = None
        self._planning: Planning | None = None

    def show(self) -> None:
        """The start window, with what there is now; nothing while a board is up."""
        if self.board is not None or self.window is not None:
            return
        menus = _Menus()
        lately = menus.tiles(RecentMenus().files())  # first: a sample that was cooked stands among what was cooked
        unfinished, past = cooks_listed(self._clock)
        choices = Choices(unfinished, past, lately, menus.tiles(sample_files()))
        ways = Ways(
            go_on=lambda key: self._open(Path(key), None),
            cook=lambda key: self.cook(Path(key)),
            edit=lambda key: self.edit(Path(key)),
            new_meal=lambda: self.edit(None),
            open_file=self._open_file,
            record=lambda key: self._record(Path(key)),
            closed=self._closed,
        )
        self.window = StartWindow(choices, ways, theme=self._theme)
        self._pictures = _Pictures(menus.read, self._clock, self.window)
        self.window.show()
        self._pictures.next()

    def _come_back(self) -> None:
        """The last editor was closed: here is where it was opened, unless the whole program is to end."""
        if not self._quitting.now:
            self.show()

    def cook(self, menu: Path) -> None:
        """The board on a menu file."""
        self._open(None, menu)

    def _open(self, journal: Path | None, menu: Path | None) -> None:
        asked = copy.copy(self._asked)
        asked.menu = menu
        self._up(lambda: board_on(asked, self._clock, journal))

    def _up(self, make: Callable[[], Board | Unplanned]) -> None:
        """Put up the board that is made, in place of every other window; what keeps it from that is said."""
        try:
            opened = make()
        except BadInput as bad:
            self._say("\n".join(bad.lines))
        except HeldElsewhere as held:
            self._say(f"{upper_first(held.said)}.")
        except JournalTrouble as kept:
            self._say(f"The cook cannot be kept: {kept.said}.")
        else:
            if isinstance(opened, Unplanned):
                self._plan(opened)
                return
            self.board = opened
            opened.show()
            self._leave()
            for editor in list(self.editors.windows):
                editor.close()

    def _plan(self, wanted: Unplanned) -> None:
        def heard(plan: Plan | None) -> None:
            if plan is not None and self.board is None:  # another menu's board may have gone up meanwhile
                self._up(lambda: wanted.board(plan))

        above = self.window or QApplication.activeWindow()
        self._planning = Planning(wanted, heard, theme=self._theme, parent=above)

    def edit(self, menu: Path | None) -> bool:
        """The editor on a menu file, on a copy of a sample, or on a new meal; False when it cannot be opened."""
        sample = menu is not None and menu in sample_files()
        opened = self.editors.open_copy(menu) if sample and menu else self.editors.open(menu)
        if opened is not None:
            if menu is not None and not sample:
                RecentMenus().note(menu)
            self._leave()
        return opened is not None

    def _record(self, path: Path) -> None:
        """What a past cook did, to read and to keep."""
        try:
            lines = record_lines(path)
        except BadInput as bad:
            self._say("\n".join(bad.lines))
            return

        def save() -> None:
            name, _ = QFileDialog.getSaveFileName(shown, "Save the record", f"{path.stem}.txt", "Text (*.txt)")
            if name:
                try:
                    write_record(lines, Path(name))
                except OSError as trouble:
                    self._say(f"{name} cannot be written ({(trouble.strerror or 'no reason is given').lower()}).")

        palette = self.window.palette_ if self.window is not None else system_palette()
        shown = RecordWindow(lines[0], lines[1:], save, palette, self.window)
        shown.open()

    def _open_file(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self.window, "Open a menu", "", MENUS)
        if name:
            self.edit(Path(name))

    def _leave(self) -> None:
        """Another window has come: this one goes."""
        window, self.window = self.window, None
        if window is not None:
            window.close()

    def _closed(self) -> None:
        self.window = None
        if self._pictures is not None:
            self._pictures.stop()

    def _say(self, words: str) -> None:
        QMessageBox.warning(self.window or QApplication.activeWindow(), "timerboard", words)


class _Quitting(QObject):
    """Whether the program is being ended: every window is then closed one after another, and none is to come instead.

    A cook who cancels that in an editor with changes has it forgotten.
    """

    def __init__(self) -> None:
        super().__init__()
        self.now = False
        application = QApplication.instance()
        if application is not None:
            application.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """See it come, and let it pass."""
        if event.type() == QEvent.Type.Quit:
            self.now = True
            QTimer.singleShot(0, self, self._forget)
        return super().eventFilter(watched, event)

    def _forget(self) -> None:
        self.now = False


class _Menus:
    """Menu files read once, by key; what cannot be read is no tile, and neither is a copy of one that there is."""

    def __init__(self) -> None:
        self.read: dict[str, Menu] = {}
        self._texts: set[str] = set()

    def tiles(self, files: tuple[Path, ...]) -> tuple[MenuTile, ...]:
        """A tile for each file that is a menu."""
        found = []
        for path in files:
            try:
                loaded = load_menu(path)
            except MenuFaults:
                continue
            if loaded.hash in self._texts:
                continue
            self._texts.add(loaded.hash)
            menu = self.read[str(path)] = loaded.menu
            said = f"{plural(len(menu.dishes), 'dish')} for {menu.serves}"
            found.append(MenuTile(str(path), menu.title, f"{said}, eaten {menu.eat_at}" if menu.eat_at else said))
        return tuple(found)


class _Pictures:
    """Plans for the tiles, one each time that the window has nothing else to do: the first plan is picture enough."""

    def __init__(self, menus: dict[str, Menu], clock: Clock, window: StartWindow) -> None:
        self._left, self._clock, self._window = list(menus.items()), clock, window
        self._height = remembered_height(SettingsFile(settings_path()))

    def next(self) -> None:
        """Paint the next one, once what is waiting to be shown or typed has been dealt with."""
        QTimer.singleShot(0, self._window, self._paint)

    def _paint(self) -> None:
        if not self._left:
            return
        key, menu = self._left.pop(0)
        zone, cooked = self._clock.zone(), menu_at(menu, self._height)
        eat_at = resolve_eat_at(menu.eat_at or DEFAULT_EAT_AT, zone, self._clock.wall_ms())
        plan = first_plan(question(cooked, eat_at.choices[0][1] if isinstance(eat_at, CivilDoubt) else eat_at, zone))
        if plan is not None:
            self._window.show_picture(key, hours_only(cooked, plan, zone, PICTURE_HOURS))
        self.next()

    def stop(self) -> None:
        """No more pictures."""
        self._left.clear()


def sample_files() -> tuple[Path, ...]:
    """The sample menus, beside the package in a checkout or inside it in a wheel."""
    here = Path(__file__).parent
    folders = (here / "_sample_menus", here.parent / "sample_menus")
    folder = next((folder for folder in folders if folder.is_dir()), here)
    return tuple(sorted(folder.glob("*.yaml")))


__all__ = ["Starting", "sample_files"]
