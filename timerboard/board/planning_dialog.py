"""What is shown while a menu that has no quick plan is planned: that it is, what was found so far, and the way out."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from . import look
from .editor_dress import qt_palette, style_sheet

WIDTH = 520


class PlanningDialog(QDialog):
    """Closing it in whatever way calls `call_off`; `take` wants the plan that was found so far."""

    def __init__(
        self,
        title: str,
        take: Callable[[], object],
        call_off: Callable[[], object],
        *,
        theme: str | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._call_off = call_off
        palette = look.palette_named(theme) if theme else look.system_palette()
        self.setWindowTitle(f"{title} - timerboard")
        self.setPalette(qt_palette(palette))
        self.setStyleSheet(style_sheet(palette))
        self.setMinimumWidth(WIDTH)
        self.heading, self.said = QLabel(f"Planning {title}"), QLabel("There is no quick plan: a longer look is taken.")
        self.heading.setProperty("role", "heading")
        for label in (self.heading, self.said):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
        self.take, self.stop = QPushButton("Cook with this plan"), QPushButton("Cancel")
        self.take.clicked.connect(lambda _=False: take())
        self.take.hide()
        self.stop.clicked.connect(self.reject)
        self._arrange()

    def _arrange(self) -> None:
        column, line = QVBoxLayout(self), QHBoxLayout()
        column.setContentsMargins(22, 18, 22, 18)
        column.setSpacing(12)
        column.addWidget(self.heading)
        column.addWidget(self.said)
        line.addStretch()
        line.addWidget(self.take)
        line.addWidget(self.stop)
        column.addLayout(line)
        self.stop.setFocus()

    def show_found(self, words: str) -> None:
        """There is a plan to cook with, while a better one is looked for."""
        self.said.setText(words)
        self.take.show()

    def show_none(self, heading: str, lines: tuple[str, ...]) -> None:
        """There is no plan, and why."""
        self.heading.setText(heading)
        self.said.setText("\n".join(lines))
        self.take.hide()
        self.stop.setText("Close")
        self.adjustSize()

    def reject(self) -> None:
        """Cancel, Close, Escape, the window's own cross."""
        self._call_off()
        super().reject()
