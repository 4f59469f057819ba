"""Rows of small boxes: places, hands, courses, cues, links. A row more, a row less, each box with its own faults."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from timerboard.core.faults import Path
from timerboard.core.menu_form import Field, Rows
from timerboard.core.menu_rows import added, box_change, entry_path, rows_of
from timerboard.desk.editing import EditorDesk

from .editor_box import Box, Offers, said


class RowsBox(QWidget):
    """All entries of one kind below `base`."""

    def __init__(self, rows: Rows, desk: EditorDesk, offers: Offers) -> None:
        super().__init__()
        self.rows, self._desk, self._offers = rows, desk, offers
        self.base: Path = ()
        self.boxes: list[list[Box]] = []
        self._removers: list[QToolButton] = []
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(self._heading())
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(4)
        column.addLayout(self._grid)
        self.trouble = QLabel()
        self.trouble.setProperty("role", "fault")
        self.trouble.setWordWrap(True)
        column.addWidget(self.trouble)

    def _heading(self) -> QHBoxLayout:
        line = QHBoxLayout()
        label = QLabel(f"{self.rows.label}  {self.rows.hint}".strip())
        label.setProperty("role", "label")
        self.adder = QPushButton(f"Add a {self.rows.one}")
        self.adder.clicked.connect(self._add)
        line.addWidget(label)
        line.addStretch()
        line.addWidget(self.adder)
        return line

    # what it shows

    def show_at(self, base: Path) -> None:
        """Show the entries below a part of the menu."""
        self.base = base
        lines = rows_of(self.rows, self._desk.reading.document, base)
        self._have(len(lines))
        for row, (boxes, words) in enumerate(zip(self.boxes, lines, strict=True)):
            path = entry_path(self.rows, self._desk.reading.document, base, row)
            for column, (box, line) in enumerate(zip(boxes, words, strict=True)):
                box.show_line(line)
                box.show_faults(self._faults(path, box.field, first=column == 0))
        every = self._desk.faults_at((*base, *self.rows.at))
        above = [fault for fault in every if fault.path == (*base, *self.rows.at)]
        self.trouble.setText("\n".join(f"✕ {line}" for line in said(above).splitlines()))
        self.trouble.setVisible(bool(above))

    def _faults(self, path: Path, field: Field, *, first: bool) -> tuple:  # type: ignore[type-arg]
        """A box's own faults; the first box says what is wrong with the whole entry."""
        every = self._desk.faults_at(path)
        own = (*path, *field.at)
        columns = [(*path, *column.at) for column in self.rows.columns if column.at]
        if not first:
            return tuple(fault for fault in every if fault.path[: len(own)] == own)
        others = [column for column in columns if column != own]
        return tuple(fault for fault in every if not any(fault.path[: len(other)] == other for other in others))

    def _have(self, count: int) -> None:
        while len(self.boxes) > count:
            for box in self.boxes.pop():
                box.hide()
                box.deleteLater()
            self._removers[-1].hide()
            self._removers.pop().deleteLater()
        while len(self.boxes) < count:
            self._build_row(len(self.boxes))

    def _build_row(self, row: int) -> None:
        boxes = []
        for column, field in enumerate(self.rows.columns):
            box = Box(field, self._changer(row, column), self._desk.settle, self._offers, bare=row > 0)
            box.editor.setAccessibleName(f"{self.rows.one} {row + 1}: {field.label}")
            self._grid.addWidget(box, row, column)
            self._grid.setColumnStretch(column, 3 if column == 0 else 2)
            boxes.append(box)
        remover = QToolButton()
        remover.setText("✕")
        remover.setToolTip(f"Remove this {self.rows.one}")
        remover.setAccessibleName(f"Remove {self.rows.one} {row + 1}")
        remover.clicked.connect(lambda _=False, row=row: self._remove(row))
        edge = Qt.AlignmentFlag.AlignTop if row else Qt.AlignmentFlag.AlignBottom  # the first row has labels above it
        self._grid.addWidget(remover, row, len(self.rows.columns), edge)
        self.boxes.append(boxes)
        self._removers.append(remover)

    # what is done to it

    def _changer(self, row: int, column: int) -> Callable[[str], str]:
        return lambda line: self._do(*box_change(self.rows, self._desk.reading.document, self.base, row, column, line))

    def _do(self, what: str, path: Path, value: object) -> str:
        if what == "rename":
            return self._desk.rename(path, str(value))
        return self._desk.set_value(path, None if what == "remove" else value)  # type: ignore[arg-type]

    def _add(self) -> None:
        self._desk.settle()
        self.trouble.setText(self._do(*added(self.rows, self._desk.reading.document, self.base)))
        self._desk.settle()
        if self.boxes:
            self.boxes[-1][0].editor.setFocus()
            self.boxes[-1][0].editor.selectAll()

    def _remove(self, row: int) -> None:
        self._desk.remove(entry_path(self.rows, self._desk.reading.document, self.base, row))
        self.adder.setFocus()
