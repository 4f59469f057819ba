"""The editor's menus, keys and buttons: what each is called, its key, and when it can be had."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence
from PySide6.QtWidgets import QInputDialog, QMenu, QMessageBox, QToolBar

from timerboard.core.menu_written import words_at

if TYPE_CHECKING:
    from .editor_window import EditorWindow

Key = QKeySequence.StandardKey | str


class Acts:
    """Every action of a window."""

    def __init__(self, window: "EditorWindow") -> None:
        self._window = window
        hooks, bar = window.hooks, window.menuBar()
        file, edit, menu = (bar.addMenu(name) for name in ("&File", "&Edit", "&Menu"))
        self._add(file, "&New meal", hooks.new_meal, QKeySequence.StandardKey.New)
        self._add(file, "&Open…", hooks.open_other, QKeySequence.StandardKey.Open)
        self.save = self._add(file, "&Save", window.save, QKeySequence.StandardKey.Save)
        self._add(file, "Save &as…", self._with_desk(hooks.save_as), "Ctrl+Shift+S")
        file.addSeparator()
        taking = hooks.take_in is not None
        self.take_file = self._add(
            file, "&Import a recipe…", (lambda: window.take_in(None)) if taking else None, "Ctrl+I"
        )
        self.take_text = self._add(file, "Paste a &recipe…", self._paste if taking else None, "Ctrl+Shift+V")
        file.addSeparator()
        self.print = self._add(file, "&Print the run sheet…", self._with_desk(hooks.print_plan), "Ctrl+P")
        self.print_lists = self._add(file, "Print the &lists…", self._with_desk(hooks.print_lists), "Ctrl+Shift+P")
        self.export = self._add(file, "&Export…", self._with_desk(hooks.export), "Ctrl+E")
        file.addSeparator()
        self._add(file, "&Close", window.close, QKeySequence.StandardKey.Close)
        self.undo = self._add(edit, "&Undo", window.undo, "Ctrl+Z")
        self.redo = self._add(edit, "&Redo", window.redo, "Ctrl+Shift+Z")
        edit.addSeparator()
        self.add_dish = self._add(edit, "Add a &dish", window.add_dish, "Ctrl+D")
        self.add_step = self._add(edit, "Add a s&tep", window.add_step, "Ctrl+T")
        self.remove = self._add(edit, "Re&move", window.remove, "Ctrl+Backspace")
        self.up = self._add(edit, "Move u&p", lambda: window.shift(-1), "Ctrl+Shift+Up")
        self.down = self._add(edit, "Move do&wn", lambda: window.shift(1), "Ctrl+Shift+Down")
        self.up.setIconText("Up")
        self.down.setIconText("Down")
        edit.addSeparator()
        self.fault = self._add(edit, "To the first &fault", window.first_fault, "F8")
        self.cook = self._add(menu, "&Cook this", self._cook if hooks.cook else None, "Ctrl+Return")
        self.scale = self._add(menu, "&Scale…", self._scale if hooks.scale else None, "Ctrl+L")
        menu.addSeparator()
        self.as_text = self._add(menu, "As &text", window.show_desk, "Ctrl+Shift+T")
        self.as_text.setCheckable(True)
        self._add(menu, "&Light, dark, contrast", window.next_theme, "Ctrl+Shift+L")
        self._toolbar()

    def _add(self, menu: QMenu, name: str, act: Callable[[], object] | None, key: Key) -> QAction:
        action = QAction(name, self._window)
        if key:
            action.setShortcut(QKeySequence(key))
        action.setEnabled(act is not None)
        action.setVisible(act is not None)
        if act is not None:
            action.triggered.connect(lambda _=False: act())
        menu.addAction(action)
        return action

    def _with_desk(self, hook: Callable[..., object] | None) -> Callable[[], object] | None:
        return (lambda: hook(self._window.desk)) if hook is not None else None

    def _toolbar(self) -> None:
        bar = QToolBar("Tools")
        bar.setMovable(False)
        bar.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        groups = (
            (self.add_dish, self.add_step, self.remove, self.up, self.down),
            (self.undo, self.redo),
            (self.scale, self.save, self.cook),
        )
        for group in groups:
            for action in group:
                bar.addAction(action)
                keys = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
                name = action.text().replace("&", "")
                action.setToolTip(f"{name} ({keys})" if keys else name)
                button = bar.widgetForAction(action)
                button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
                button.setAccessibleName(name)
            if group is not groups[-1]:
                bar.addSeparator()
        self._window.addToolBar(bar)

    def refresh(self) -> None:
        """What can be had now."""
        window, desk = self._window, self._window.desk
        path, form = window.outline.path, not self.as_text.isChecked()
        self.undo.setEnabled(desk.can_undo)
        self.redo.setEnabled(desk.can_redo)
        self.save.setEnabled(desk.changed or desk.is_new)
        self.add_dish.setEnabled(form)
        self.add_step.setEnabled(form and len(path) > 1)
        for action in (self.remove, self.up, self.down):
            action.setEnabled(form and bool(path))
        self.fault.setEnabled(bool(desk.reading.faults or desk.reading.warnings))
        whole = desk.reading.menu is not None
        for action in (self.cook, self.print, self.print_lists, self.export, self.scale):
            action.setEnabled(whole and action.isVisible())
        for action in (self.take_file, self.take_text):
            action.setEnabled(desk.reading.document is not None and action.isVisible())

    def _cook(self) -> None:
        """Cooking begins from what is saved."""
        hook = self._window.hooks.cook
        if hook is not None and (not (self._window.desk.changed or self._window.desk.is_new) or self._window.save()):
            hook(self._window.desk)

    def _paste(self) -> None:
        """A recipe's text, as it was copied from somewhere."""
        there = QGuiApplication.clipboard().text()
        text, ok = QInputDialog.getMultiLineText(self._window, "Paste a recipe", "The recipe's text:", there)
        if ok and text.strip():
            self._window.take_in(text)

    def _scale(self) -> None:
        """Ask for how many, write it, and say what does not grow by itself."""
        window, hook = self._window, self._window.hooks.scale
        serves = words_at(window.desk.reading.document, ("serves",))
        people, ok = QInputDialog.getInt(
            window, "Scale", "For how many people?", int(serves) if serves.isdecimal() else 4, 1, 100_000
        )
        if ok and hook is not None:
            said = hook(window.desk, people)
            if said:
                QMessageBox.information(window, "Scaled", "\n\n".join(said))
