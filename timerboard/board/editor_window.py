"""The menu editor: dishes and steps beside their fields, the live plan below. Cooks make a meal here, not in YAML."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QCloseEvent, QGuiApplication
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QMainWindow,
    QMessageBox,
    QPlainTextEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from timerboard.core.draft_words import menu_words, plan_words
from timerboard.core.faults import Path
from timerboard.core.menu import Menu
from timerboard.core.menu_written import Plain, entries_at
from timerboard.core.plan import Plan
from timerboard.core.plan_preview import hours_only
from timerboard.desk.editing import EditorDesk
from timerboard.desk.live_plan import CALLED_OFF, PLANNING

from . import look
from .editor_acts import Acts
from .editor_dress import fit, qt_palette, style_sheet
from .editor_fields import Fields
from .editor_notice import NoticeBar
from .editor_outline import Outline
from .plan_ribbon import PlanRibbon

MOST_PLAN_HOURS = 12
CANCEL, AGAIN = "Cancel planning", "Plan again"


@dataclass(frozen=True, slots=True)
class Hooks:
    """What the editor asks of the program around it; None: that is not offered here.

    cook:        opens the board on the saved menu.
    print_plan:  prints the plan as a run sheet, `print_lists` the lists behind it; `export` writes other forms.
    scale:       writes the desk's menu for so many people and says what to mind.
    saved:       hears of every save.
    save_as:     asks for a file and saves there; True when done.
    take_in:     adds the dishes of a recipe file to the desk's menu (None: of the text on the clipboard) and says what
                 was guessed; raises ValueError with words.
    open_other, new_meal: another window.
    """

    cook: Callable[[EditorDesk], None] | None = None
    print_plan: Callable[[EditorDesk], None] | None = None
    print_lists: Callable[[EditorDesk], None] | None = None
    export: Callable[[EditorDesk], None] | None = None
    scale: Callable[[EditorDesk, int], tuple[str, ...]] | None = None
    take_in: Callable[[EditorDesk, str | None], tuple[str, ...]] | None = None
    saved: Callable[[EditorDesk], None] | None = None
    save_as: Callable[[EditorDesk], bool] | None = None
    open_other: Callable[[], None] | None = None
    new_meal: Callable[[], object] | None = None
    closed: Callable[[], None] | None = None


class EditorWindow(QMainWindow):
    """A window on one menu. The desk is open already; `theme` None follows the system."""

    def __init__(self, desk: EditorDesk, hooks: Hooks | None = None, *, theme: str | None = None) -> None:
        super().__init__()
        self.desk, self.hooks = desk, hooks or Hooks()
        self._follows_system = theme is None
        self.palette_ = look.palette_named(theme) if theme else look.system_palette()
        self._told_plan: object = None
        self._build()
        self.acts = Acts(self)
        self._listen()
        self.dress(self.palette_)
        self.setMinimumSize(640, 420)
        fit(self, 1280, 800)
        self.show_desk()
        self.outline.choose(())

    def _build(self) -> None:
        self.notice = NoticeBar()
        self.outline = Outline(self.desk, self._chosen, self.notice.tell)
        self.fields = Fields(self.desk)
        self.ribbon = PlanRibbon(self._tapped)
        self.plan_line = QLabel()
        self.plan_line.setWordWrap(True)
        self.plan_button = QPushButton(CANCEL)
        self.plan_button.clicked.connect(lambda _=False: self._plan_button_pressed())
        self.text = QPlainTextEdit()
        self.text.setAccessibleName("The menu as text")
        self.text.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.text_trouble = QLabel()
        self.text_trouble.setProperty("role", "fault")
        self.text_trouble.setWordWrap(True)
        self.pages = QStackedWidget()
        self.pages.addWidget(self._form_page())
        self.pages.addWidget(_column(self.text_trouble, self.text))
        self.middle = QSplitter(Qt.Orientation.Vertical)
        self.middle.addWidget(self.pages)
        self.middle.addWidget(self._plan_pane())
        self.middle.setStretchFactor(0, 3)
        self.middle.setStretchFactor(1, 1)
        self.middle.setChildrenCollapsible(False)
        self.setCentralWidget(_column(self.notice, self.middle))

    def _form_page(self) -> QSplitter:
        across = QSplitter(Qt.Orientation.Horizontal)
        across.addWidget(self.outline)
        across.addWidget(self.fields)
        across.setStretchFactor(0, 2)
        across.setStretchFactor(1, 3)
        across.setSizes([400, 620])
        across.setChildrenCollapsible(False)
        return across

    def _plan_pane(self) -> QWidget:
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setWidget(self.ribbon)
        scroll.setMinimumHeight(90)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        told = QWidget()
        line = QHBoxLayout(told)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(self.plan_line, 1)
        line.addWidget(self.plan_button)
        return _column(told, scroll)

    def _listen(self) -> None:
        self.desk.listen(self.show_desk)
        self.text.textChanged.connect(self._text_typed)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._system_changed)
        self.statusBar()  # there from the beginning, so that its first words move nothing
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._hint)

    def _hint(self, _left: QWidget | None, entered: QWidget | None) -> None:
        """What a field is for, while the cook is in it: nobody rests a pointer on a box to learn that."""
        if isinstance(entered, QLineEdit | QPlainTextEdit) and self.isAncestorOf(entered):
            self.statusBar().showMessage(entered.toolTip())

    # what it shows

    def show_desk(self) -> None:
        """Show the desk as it is now."""
        desk, reading = self.desk, self.desk.reading
        self.setWindowTitle(f"{desk.name}[*] - timerboard")
        self.setWindowModified(desk.changed)
        unreadable = reading.document is None
        as_text = unreadable or self.acts.as_text.isChecked()
        self.acts.as_text.setEnabled(not unreadable)
        if self.acts.as_text.isChecked() != as_text:
            self.acts.as_text.setChecked(as_text)
        self.pages.setCurrentIndex(1 if as_text else 0)
        if as_text and self.text.toPlainText() != desk.text.replace("\r\n", "\n"):
            self._fill_text(desk.text)
        self.text_trouble.setText("\n".join(f"✕ {fault.said('line')}" for fault in reading.faults[:4]))
        self.text_trouble.setVisible(bool(reading.faults))
        if not as_text:
            self.outline.show_menu() if desk.judged else self.outline.show_selected()
            self.fields.show_at(self.outline.path)
        self.acts.refresh()
        self._show_plan()
        self._show_notice()

    def _fill_text(self, text: str) -> None:
        self.text.blockSignals(True)
        self.text.setPlainText(text)
        self.text.blockSignals(False)

    def _text_typed(self) -> None:
        ends = "\r\n" if "\r\n" in self.desk.text else "\n"
        self.desk.replace_text(self.text.toPlainText().replace("\n", ends))

    def _show_plan(self) -> None:
        planned, reading = self.desk.planned, self.desk.reading
        words = [menu_words(reading.menu, reading.faults, reading.warnings)]
        words.append(plan_words(planned.menu, planned.plan, planned.zone))
        words.append(planned.note.removesuffix("."))
        if planned.doing:
            words.append(planned.doing)
        self.plan_line.setText(" · ".join(word for word in words if word))
        self.plan_button.setText(AGAIN if planned.doing == CALLED_OFF else CANCEL)
        self.plan_button.setEnabled(planned.doing in {PLANNING, CALLED_OFF})
        stale = reading.menu is None or planned.menu != reading.menu
        key = (id(planned.plan), id(planned.menu), stale, planned.zone)
        if key == self._told_plan:
            return
        self._told_plan = key
        if planned.cooked is not None and isinstance(planned.plan, Plan):
            what = hours_only(planned.cooked, planned.plan, planned.zone, MOST_PLAN_HOURS)
            self.ribbon.show_plan(what, words[1], stale=stale)
        elif planned.plan is not None:
            self.ribbon.show_plan(None, words[1])

    def _plan_button_pressed(self) -> None:
        self.desk.plan_again() if self.desk.planned.doing == CALLED_OFF else self.desk.call_off_plan()

    def _show_notice(self) -> None:
        desk = self.desk
        if desk.outside is not None:
            said = "This file was changed elsewhere, in lines that you changed too."
            self.notice.ask(
                said,
                ("Keep mine", lambda: desk.choose_outside(theirs=False)),
                ("Take the other", lambda: desk.choose_outside(theirs=True)),
            )
        elif desk.trouble:
            self.notice.tell(desk.trouble[0].upper() + desk.trouble[1:] + ".")
        elif desk.said:
            self.statusBar().showMessage(desk.said, 6000)
            self.notice.tell(desk.said) if desk.recovered else self.notice.quiet()
        else:
            self.notice.quiet()

    # what is chosen

    def _chosen(self, path: Path) -> None:
        self.desk.settle()
        self.fields.show_at(path)
        self.acts.refresh()

    def _tapped(self, step: str) -> None:
        """A stretch of the plan: to its step."""
        menu = self.desk.planned.menu
        found = path_of_step(menu, step) if menu is not None else None
        if found is not None:
            self.outline.choose(found)

    def first_fault(self) -> None:
        """To the first thing that is wrong."""
        every = (*self.desk.reading.faults, *self.desk.reading.warnings)
        if every and not self.acts.as_text.isChecked():
            self.outline.choose(every[0].path)
            self.fields.form.reveal(every[0].path)

    # what is done

    def add_dish(self) -> None:
        """A dish after the one that is selected, with one step to fill in."""
        path = self.outline.path
        count = len(entries_at(self.desk.reading.document, ("dishes",)))
        place = int(path[1]) + 1 if len(path) > 1 else count
        self._added(("dishes",), place, {"dish": "", "steps": [{"do": ""}]}, "dish")

    def add_step(self) -> None:
        """A step after the one that is selected."""
        path = self.outline.path
        if len(path) < 2:
            return
        steps = (*path[:2], "steps")
        count = len(entries_at(self.desk.reading.document, steps))
        place = int(path[3]) + 1 if len(path) > 3 else count
        self._added(steps, place, {"do": "", "takes": Plain("10 min")}, "do")

    def _added(self, where: Path, place: int, value: dict, key: str) -> None:  # type: ignore[type-arg]
        refused = self.desk.insert(where, place, value)
        if refused:
            self.notice.tell(refused)
            return
        self.outline.choose((*where, place))
        self.fields.form.reveal((*where, place, key))

    def take_in(self, text: str | None) -> None:
        """Add what a recipe makes, select it, and say what was guessed; None asks for a file."""
        hook, before = self.hooks.take_in, self.desk.text
        if hook is None:
            return
        try:
            said = hook(self.desk, text)
        except ValueError as refused:
            self.notice.tell(str(refused))
            return
        if self.desk.text != before:
            count = len(entries_at(self.desk.reading.document, ("dishes",)))
            self.outline.choose(("dishes", count - 1))
        if said:
            QMessageBox.information(self, "Recipe taken in", "\n".join(said))

    def remove(self) -> None:
        """Take out what is selected; Undo brings it back."""
        path = self.outline.path
        if path:
            self.desk.remove(path)
            self.outline.setFocus()
            self.statusBar().showMessage("Removed. Ctrl+Z brings it back.", 6000)

    def shift(self, by: int) -> None:
        """Move what is selected up (-1) or down (1)."""
        path = self.outline.path
        if path:
            self.outline.move_to(path, int(path[-1]) + by)

    def undo(self) -> None:
        """Take back the last step, and show where."""
        if self.desk.undo():
            self._go_to_last()

    def redo(self) -> None:
        """Do it again, and show where."""
        if self.desk.redo():
            self._go_to_last()

    def _go_to_last(self) -> None:
        about = self.desk.last_about
        if isinstance(about, tuple) and about and about[0] == "dishes":
            self.outline.choose(about)

    def save(self) -> bool:
        """Save; a new meal asks where."""
        if self.desk.is_new and self.hooks.save_as is not None:
            done = self.hooks.save_as(self.desk)
        else:
            done = self.desk.save()
        if done and self.hooks.saved is not None:
            self.hooks.saved(self.desk)
        return done

    # how it looks

    def dress(self, palette: look.Palette) -> None:
        """Wear a palette."""
        self.palette_ = palette
        self.setPalette(qt_palette(palette))
        self.setStyleSheet(style_sheet(palette))
        self.ribbon.dress(palette)

    def next_theme(self) -> None:
        """Dark, light, high contrast."""
        self._follows_system = False
        self.dress(look.next_palette(self.palette_))

    def _system_changed(self) -> None:
        if self._follows_system:
            self.dress(look.system_palette())

    def changeEvent(self, event: QEvent) -> None:
        """Somebody came back to this window: perhaps from another program that changed the file."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.desk.look_outside()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about what is not saved."""
        self.desk.settle()
        if self.desk.changed and not self._may_close():
            event.ignore()
            return
        self.desk.close()
        if self.hooks.closed is not None:
            self.hooks.closed()
        event.accept()

    def _may_close(self) -> bool:
        kinds = QMessageBox.StandardButton
        asked = kinds.Save | kinds.Discard | kinds.Cancel
        answer = QMessageBox.question(self, "timerboard", f"Save what you changed in {self.desk.name}?", asked)
        if answer == kinds.Discard:
            self.desk.discard()
        return answer == kinds.Discard or (answer == kinds.Save and self.save())


def path_of_step(menu: Menu, step: str) -> Path | None:
    """Where a step (or a dish, by its name) stands in the menu file."""
    for d, dish in enumerate(menu.dishes):
        if dish.name == step:
            return ("dishes", d)
        for s, one in enumerate(dish.steps):
            if one.id == step:
                return ("dishes", d, "steps", s)
    return None


def _column(*widgets: QWidget) -> QWidget:
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(8, 6, 8, 6)
    column.setSpacing(6)
    for widget in widgets:
        column.addWidget(widget)
    return holder
