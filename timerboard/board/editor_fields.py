"""The form beside the outline: every field of what is selected there, with its faults."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QFrame, QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from timerboard.core.draft_words import NOTHING_YET, is_beginning
from timerboard.core.faults import Fault, Path
from timerboard.core.menu_boxes import shown, typed_over
from timerboard.core.menu_form import DISH, MENU, STEP, Field, Rows, Section, Shape, Tick
from timerboard.core.menu_offers import offers
from timerboard.core.menu_written import at
from timerboard.desk.editing import EditorDesk

from .editor_box import Box, said
from .editor_rows import RowsBox

COLUMNS = 3
MOST_WIDTH = 960
WIDE = frozenset({Shape.WORDS, Shape.NOTE, Shape.LINES, Shape.WORK, Shape.USES})


class TickBox(QCheckBox):
    """'None' as against 'as usual'."""

    def __init__(self, tick: Tick, desk: EditorDesk) -> None:
        super().__init__(tick.label)
        self.tick, self._desk = tick, desk
        self.base: Path = ()
        self.setToolTip(tick.hint)
        self.clicked.connect(self._clicked)

    def show_at(self, base: Path) -> None:
        """Show whether the list there is written, and empty."""
        self.base = base
        self.setChecked(at(self._desk.reading.document, (*base, *self.tick.at)) == [])

    def _clicked(self, on: bool) -> None:
        self._desk.settle()
        path = (*self.base, *self.tick.at)
        self._desk.set_value(path, [] if on else None)
        self._desk.settle()


class Form(QWidget):
    """The fields of one kind of part; `show_at` says of which part."""

    def __init__(self, sections: tuple[Section, ...], desk: EditorDesk) -> None:
        super().__init__()
        self._desk = desk
        self.base: Path = ()
        self.boxes: list[Box] = []
        self.rows: list[RowsBox] = []
        self.ticks: list[TickBox] = []
        self.title, self.trouble = QLabel(), QLabel()
        self.title.setProperty("role", "title")
        self.trouble.setProperty("role", "fault")
        self.trouble.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 14, 18, 18)
        self.setMaximumWidth(MOST_WIDTH)
        column.setSpacing(6)
        column.addWidget(self.title)
        column.addWidget(self.trouble)
        for section in sections:
            self._build(section, column)
        column.addStretch()

    def _build(self, section: Section, column: QVBoxLayout) -> None:
        heading, rule, grid = QLabel(section.title), QFrame(), QGridLayout()
        heading.setProperty("role", "heading")
        rule.setProperty("role", "rule")
        column.addSpacing(8)
        column.addWidget(heading)
        column.addWidget(rule)
        column.addLayout(grid)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(8)
        for number in range(COLUMNS):
            grid.setColumnStretch(number, 1)
        row = cell = 0
        for part in section.parts:
            wide = (
                COLUMNS
                if isinstance(part, Rows) or (isinstance(part, Field) and part.shape in WIDE and not part.short)
                else 1
            )
            if cell + wide > COLUMNS:
                row, cell = row + 1, 0
            grid.addWidget(self._made(part), row, cell, 1, wide)
            cell += wide

    def _made(self, part: Field | Rows | Tick) -> QWidget:
        if isinstance(part, Tick):
            self.ticks.append(TickBox(part, self._desk))
            return self.ticks[-1]
        if isinstance(part, Rows):
            self.rows.append(RowsBox(part, self._desk, self._offers))
            return self.rows[-1]
        box = Box(part, lambda line: self._typed(part, line), self._desk.settle, self._offers)
        self.boxes.append(box)
        return box

    def _offers(self, field: Field, line: str) -> list[str]:
        dish = self.base[1] if len(self.base) > 1 else None
        own = dish if isinstance(dish, int) else None
        return offers(field.shape, field.completes, line, self._desk.reading.document, own)

    def _typed(self, field: Field, line: str) -> str:
        path = (*self.base, *field.at)
        return self._desk.set_value(path, typed_over(field.shape, line, at(self._desk.reading.document, path)))

    def show_at(self, base: Path, title: str) -> None:
        """Show a part of the menu."""
        moved, self.base = base != self.base, base
        self.title.setText(title)
        document = self._desk.reading.document
        for box in self.boxes:
            path = (*base, *box.field.at)
            box.show_line(shown(box.field.shape, at(document, path)))
            box.show_faults(self._faults(path, box.field))
        for rows in self.rows:
            rows.show_at(base)
        for tick in self.ticks:
            tick.show_at(base)
        if moved:
            self._desk.settle()
        others = self._homeless()
        begins = is_beginning(self._desk.reading.faults)
        words = (f"{'△' if fault.warning else '✕'} {said([fault])}" for fault in others)
        self.trouble.setText(f"{NOTHING_YET}." if begins else "\n".join(words))
        self.trouble.setVisible(bool(others))

    def _faults(self, path: Path, field: Field) -> tuple[Fault, ...]:
        """What is wrong in a box; the first box of a group also says what is wrong with the group."""
        group = (*self.base, field.at[0])
        first = next(box.field for box in self.boxes if box.field.at[0] == field.at[0]) is field
        found = self._desk.faults_at(group if first else path)
        return tuple(f for f in found if f.path == group or f.path[: len(path)] == path) if first else found

    def _homeless(self) -> list[Fault]:
        """Faults of this part that no box shows: a missing key, an unknown one."""
        homes = [box.field.at[0] for box in self.boxes] + [rows.rows.at[0] for rows in self.rows]
        below = [f for f in self._desk.faults_at(self.base) if len(f.path) >= len(self.base)]
        depth = len(self.base)
        shown_elsewhere = {"dishes"} if not self.base else {"steps"}
        return [
            f
            for f in below
            if len(f.path) == depth
            or (f.path[depth] not in homes and (f.path[depth] not in shown_elsewhere or len(f.path) == depth + 1))
        ]

    def reveal(self, path: Path) -> bool:
        """Put the keyboard into the box of a path; False when there is none."""
        rest = path[len(self.base) :]
        for box in self.boxes:
            if rest[: len(box.field.at)] == box.field.at:
                box.editor.setFocus(Qt.FocusReason.OtherFocusReason)
                return True
        return False


class Fields(QScrollArea):
    """The three forms, one at a time."""

    def __init__(self, desk: EditorDesk) -> None:
        super().__init__()
        self._desk = desk
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("Fields")
        self.forms = {"menu": Form(MENU, desk), "dish": Form(DISH, desk), "step": Form(STEP, desk)}
        stack = QWidget()
        column = QVBoxLayout(stack)
        column.setContentsMargins(0, 0, 0, 0)
        for form in self.forms.values():
            column.addWidget(form)
            form.hide()
        self.setWidget(stack)
        self.path: Path = ()

    @property
    def form(self) -> Form:
        """The form for what is selected."""
        return self.forms[{0: "menu", 2: "dish"}.get(len(self.path), "step")]

    def show_at(self, path: Path) -> None:
        """Show what is selected."""
        fresh, self.path = path != self.path, path
        title = "The meal and its kitchen"
        if path:
            title = self._name(path[:2]) + (f": {self._name(path)}" if len(path) > 2 else "")
        self.form.show_at(path, title)
        for form in self.forms.values():
            form.setVisible(form is self.form)
        if fresh:
            self.verticalScrollBar().setValue(0)

    def _name(self, path: Path) -> str:
        key = "do" if len(path) > 2 else "dish"
        return (
            shown(Shape.WORDS, at(self._desk.reading.document, (*path, key))) or f"unnamed {key.replace('do', 'step')}"
        )
