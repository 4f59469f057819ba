"""One box of the editor's form: its label, the line that is typed, and below it what is wrong, in words.

What is typed is never rewritten under the cook's hands: a line is only replaced when it no longer says what the text
says.
"""

from collections.abc import Callable, Iterable

from PySide6.QtCore import QEvent, QObject, QStringListModel, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QCompleter, QLabel, QLineEdit, QPlainTextEdit, QVBoxLayout, QWidget

from timerboard.core.draft_words import form_words
from timerboard.core.faults import Fault
from timerboard.core.menu_boxes import shown, typed
from timerboard.core.menu_form import Completes, Field, Shape
from timerboard.core.menu_written import Plain, Value

Change = Callable[[str], str]
Offers = Callable[[Field, str], list[str]]
TALL = frozenset({Shape.LINES, Shape.NOTE})


def said(faults: Iterable[Fault]) -> str:
    """Faults as sentences, a line each."""
    return "\n".join(form_words(fault) for fault in faults)


class Line(QLineEdit):
    """A line that tells when it was left."""

    def __init__(self, left: Callable[[], None]) -> None:
        super().__init__()
        self._left = left

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Left, unless a menu or the list of offers has come up over it."""
        super().focusOutEvent(event)
        if event.reason() is not Qt.FocusReason.PopupFocusReason:
            self._left()


class Lines(QPlainTextEdit):
    """A few lines; Tab goes on to the next box."""

    def __init__(self, left: Callable[[], None]) -> None:
        super().__init__()
        self._left = left
        self.setTabChangesFocus(True)
        self.document().contentsChanged.connect(self._fit)
        self._fit()

    def _fit(self) -> None:
        lines = min(12, max(2, self.document().blockCount()))
        self.setFixedHeight(self.fontMetrics().lineSpacing() * lines + 22)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Left."""
        super().focusOutEvent(event)
        if event.reason() is not Qt.FocusReason.PopupFocusReason:
            self._left()


class Box(QWidget):
    """A field. `change` gets every line typed and returns why it was refused, or ''; `left`: the box was left."""

    def __init__(
        self, field: Field, change: Change, left: Callable[[], None], offers: Offers, *, bare: bool = False
    ) -> None:
        super().__init__()
        self.field, self._change, self._offers = field, change, offers
        self._refused = ""
        self._filling = False
        self.editor: Line | Lines = Lines(left) if field.shape in TALL else Line(left)
        self.editor.setPlaceholderText(f"e.g. {field.example}" if field.example else "")
        self.editor.setAccessibleName(field.label)
        self.editor.setToolTip(field.hint)
        self.label, self.trouble = QLabel(field.label), QLabel()
        self.label.setBuddy(self.editor)
        self.label.setProperty("role", "label")
        self.trouble.setProperty("role", "fault")
        self.trouble.setWordWrap(True)
        self.trouble.hide()
        self._lay_out(bare)
        self._listen()

    def _lay_out(self, bare: bool) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        if not bare:
            column.addWidget(self.label)
        column.addWidget(self.editor)
        column.addWidget(self.trouble)
        column.addStretch()

    def _listen(self) -> None:
        if isinstance(self.editor, Lines):
            self.editor.textChanged.connect(lambda: self._typed(self.line()))
            return
        self.editor.textEdited.connect(self._typed)
        if self.field.completes is not Completes.NOTHING:
            self._offered = QStringListModel(self)
            completer = QCompleter(self._offered, self)
            completer.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
            completer.setMaxVisibleItems(8)
            completer.activated.connect(self._typed)
            self.editor.setCompleter(completer)
            self.editor.installEventFilter(self)

    def line(self) -> str:
        """What stands in the box."""
        return self.editor.toPlainText() if isinstance(self.editor, Lines) else self.editor.text()

    def _typed(self, line: str) -> None:
        if self._filling:
            return
        if isinstance(self.editor, Line) and self.editor.completer() is not None:
            self._offered.setStringList(self._offers(self.field, line) if line else [])
        self._refused = ""
        self._refused = self._change(line)
        if self._refused:
            self._show_trouble(self._refused, "true")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Down in a box that is not completing offers everything there is."""
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() == Qt.Key.Key_Down
            and isinstance(self.editor, Line)
        ):
            completer = self.editor.completer()
            offered = completer.popup() if completer is not None else None
            if completer is not None and (offered is None or not offered.isVisible()):
                self._offered.setStringList(self._offers(self.field, self.line()) or self._offers(self.field, ""))
                completer.complete()
                return True
        return False

    def show_line(self, line: str) -> None:
        """Show what the text says, unless the box says the same in the cook's own way."""
        mine = self.line()
        if line == mine or (self.editor.hasFocus() and (self._refused or _same(self.field.shape, mine, line))):
            return
        self._refused = ""
        self._filling = True
        if isinstance(self.editor, Lines):
            self.editor.setPlainText(line)
        else:
            self.editor.setText(line)
            self.editor.setCursorPosition(0 if not self.editor.hasFocus() else len(line))
        self._filling = False

    def show_faults(self, faults: tuple[Fault, ...]) -> None:
        """Say what is wrong here; warnings more quietly than faults."""
        if self._refused:
            return
        wrong = [fault for fault in faults if not fault.warning]
        self._show_trouble(said(wrong or faults), "true" if wrong else "warning" if faults else "")

    def _show_trouble(self, words: str, state: str) -> None:
        role = "fault" if state == "true" else "warning"
        mark = {"true": "✕ ", "warning": "△ "}.get(state, "")
        words = "\n".join(mark + line for line in words.splitlines())
        if (words, state) == (self.trouble.text(), self.editor.property("fault") or ""):
            return
        self.trouble.setText(words)
        self.trouble.setVisible(bool(words))
        self.editor.setAccessibleDescription(words or self.field.hint)
        for widget, name, value in ((self.editor, "fault", state), (self.trouble, "role", role)):
            if widget.property(name) != value:
                widget.setProperty(name, value)
                widget.style().unpolish(widget)
                widget.style().polish(widget)


def _same(shape: Shape, mine: str, line: str) -> bool:
    """True when the text would be the same for both lines."""
    return _plain(typed(shape, mine)) == _plain(typed(shape, line)) or shown(shape, None) == line == mine.strip()


def _plain(value: Value) -> object:
    if isinstance(value, Plain):
        return value.text
    if isinstance(value, dict):
        return {key: _plain(held) for key, held in value.items()}
    return [_plain(one) for one in value] if isinstance(value, list) else str(value) if value is not None else ""
