"""The record of a past cook, to read and to keep as a text file."""

from collections.abc import Callable

from PySide6.QtGui import QFontDatabase
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from .editor_dress import fit, qt_palette, style_sheet
from .look import Palette


class RecordWindow(QDialog):
    """Shows lines of text; `save` is called when the cook wants to keep them. Esc closes it."""

    def __init__(
        self, title: str, lines: tuple[str, ...], save: Callable[[], object], palette: Palette, parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.text = QPlainTextEdit("\n".join(lines))
        self.text.setReadOnly(True)
        self.text.setAccessibleName(f"The record: {title}")
        self.text.setFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont))
        self.save = QPushButton("Save as text…")
        self.save.clicked.connect(lambda _=False: save())
        self.shut = QPushButton("Close")
        self.shut.clicked.connect(self.reject)
        line = QHBoxLayout()
        line.addStretch()
        line.addWidget(self.save)
        line.addWidget(self.shut)
        column = QVBoxLayout(self)
        column.addWidget(self.text)
        column.addLayout(line)
        self.setPalette(qt_palette(palette))
        self.setStyleSheet(style_sheet(palette))
        fit(self, 760, 640)
        self.shut.setFocus()
