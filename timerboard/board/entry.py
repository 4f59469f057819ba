"""The bar in which a cook writes one line: a reading, a quick timer, another time to eat. Keys, or its own keypad.

What was typed and not sent is kept for each kind of entry: Esc loses nothing, opening it again shows it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPalette, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QWidget

from .accessible import announce
from .letters import draw, font, width_of
from .look import DARK, Palette
from .measure import Sizes
from .plate import USUAL_SIZES, WordButton


class Asked(StrEnum):
    """What an entry asks for."""

    READING = "reading"
    TIMER = "timer"
    EAT = "eat"
    NAME = "name"
    DISH = "dish"


@dataclass(frozen=True, slots=True)
class Form:
    """How a kind of entry looks: prompt, example, and what its keypad offers beside the digits."""

    prompt: str
    example: str
    signs: tuple[str, ...]
    whole: tuple[str, ...] = ()  # words that replace or complete what is typed
    digits: bool = True


SPACE = "space"
LETTERS = (*"abcdefghijklmnopqrstuvwxyz", SPACE)

FORMS: dict[Asked, Form] = {
    Asked.READING: Form("Temperature", "71", (".", "−")),
    Asked.TIMER: Form(
        "Quick timer: name and time", "eggs 6:30", (":",), ("1 min", "3 min", "5 min", "10 min", "20 min")
    ),
    Asked.NAME: Form(
        "Who answers from now on? A name or a letter", "Ana", tuple("ABCDEFGHIJKLMNOPQRSTUVWXYZ"), digits=False
    ),
    Asked.DISH: Form("Add a dish: name, time, place", "rolls, 12 min, oven 200 C", (*LETTERS, ",", "-", " min", " C")),
    Asked.EAT: Form("Eat at", "18:45 or +10", (":", "+", "−"), ("−5 min", "+5 min", "+10 min", "+15 min", "+30 min")),
}
DIGITS = tuple("1234567890")
RUB_OUT, SEND, SHUT = "⌫", "Enter", "Esc"


ANEW = frozenset((Asked.READING, Asked.EAT))
"""What is typed over what stayed there takes its place: 43 behind a mistyped 430 was never meant to be 43043."""


class Entry(QFrame):
    """`send` gets the kind and the text and returns words when it cannot be, "" when it was taken."""

    def __init__(self, send: Callable[[Asked, str], str], moved: Callable[[], None], parent: QWidget) -> None:
        super().__init__(parent)
        self._send, self._moved = send, moved
        self.asked = Asked.READING
        self.subject = ""
        self.trouble = ""
        self.drafts: dict[tuple[Asked, str], str] = {}
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.line = QLineEdit(self)
        self.line.installEventFilter(self)
        self.line.textEdited.connect(lambda _: self._quiet())
        self.pad_keys: list[WordButton] = []
        self.ok = WordButton("ok", SEND, self)
        self.ok.clicked.connect(self.submit)
        self.esc = WordButton("close", SHUT, self)
        self.esc.clicked.connect(self.shut)
        self._back: QWidget | None = None
        self.hide()

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        for button in (*self.pad_keys, self.ok, self.esc):
            button.dress(palette, sizes)
        colours = QPalette()
        colours.setColor(QPalette.ColorRole.Base, QColor(palette.strip))
        for role in (QPalette.ColorRole.Text, QPalette.ColorRole.Highlight):
            colours.setColor(role, QColor(palette.ink))
        colours.setColor(QPalette.ColorRole.PlaceholderText, QColor(palette.quiet))
        colours.setColor(QPalette.ColorRole.HighlightedText, QColor(palette.strip))
        self.line.setPalette(colours)
        self.line.setTextMargins(sizes.pad, 0, sizes.pad, 0)
        self.line.setFont(font(int(sizes.text * 1.5), True))
        self._lay_out()
        self.update()

    def open(self, asked: Asked, subject: str = "") -> None:
        """Ask; `subject` says about what. Shows what was typed there before."""
        self.keep()
        if self.isHidden():
            self._back = self.window().focusWidget()
        self.asked, self.subject, self.trouble = asked, subject, ""
        form = FORMS[asked]
        self.line.setText(self.drafts.get((asked, subject), ""))
        self.line.setPlaceholderText(form.example)
        for named in (self, self.line):
            named.setAccessibleName(f"{form.prompt} {subject}".strip())
        self._build_keypad(form)
        self.dress(self.palette_, self.sizes)
        self.show()
        self.line.setFocus(Qt.FocusReason.PopupFocusReason)
        if asked in ANEW:
            self.line.selectAll()
        self._moved()

    def _build_keypad(self, form: Form) -> None:
        for button in self.pad_keys:
            button.hide()
            button.deleteLater()
        words = (*(DIGITS if form.digits else ()), *form.signs, RUB_OUT, *form.whole)
        self.pad_keys = [WordButton(word, parent=self) for word in words]
        for button in self.pad_keys:
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            button.clicked.connect(lambda _=False, button=button: self.tap(button.text()))
            button.setAccessibleName("rub out" if button.text() == RUB_OUT else button.text())
            button.show()

    def tap(self, word: str) -> None:
        """A key of the keypad: a sign is typed, a whole length takes the place of the one that is there."""
        self._quiet()
        if word == RUB_OUT:
            self.line.backspace()
        elif word not in FORMS[self.asked].whole:
            self.line.insert(" " if word == SPACE else word)
        elif self.asked is Asked.TIMER:
            name = " ".join(part for part in self.line.text().split() if not part[0].isdigit() and part != "min")
            self.line.setText(f"{name} {word}".strip())
        else:
            self.line.setText(word)

    def submit(self) -> None:
        """Hand the text on; shut when it was taken, else say why not and keep it."""
        trouble = self._send(self.asked, self.line.text())
        if trouble:
            self.trouble = trouble
            announce(self.line, trouble, assertive=True)
            self.update()
            return
        self.line.clear()
        self.shut()

    def keep(self) -> None:
        """Remember what is typed."""
        if not self.isHidden():
            self.drafts[self.asked, self.subject] = self.line.text()

    def shut(self) -> None:
        """Close without sending; what was typed is kept."""
        self.keep()
        self.hide()
        if self._back is not None and self._back.isVisible():
            self._back.setFocus(Qt.FocusReason.PopupFocusReason)
        else:
            self.window().setFocus()
        self._back = None
        self._moved()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter sends and Esc shuts while the line has the keyboard."""
        if watched is self.line and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.submit()
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.shut()
                return True
            if self.asked is Asked.READING and event.text() in ("b", "B"):
                self.window().keyPressEvent(event)  # no temperature has one: it burns while the oil is being read
                return True
        return False

    def _quiet(self) -> None:
        if self.trouble:
            self.trouble = ""
            self.update()

    def height_for(self, width: int) -> int:
        """Height for the line and as many rows of keys as the width asks for."""
        size = self.sizes
        return self._line_high() + self._key_rows(width) * (size.target + size.gap) + size.pad * 2

    def _line_high(self) -> int:
        return int(self.sizes.text * 1.5) + max(self.sizes.target, int(self.sizes.text * 2.2)) + self.sizes.pad

    def _key_rows(self, width: int) -> int:
        return 1 + max((row for row, _ in self._key_places(width)), default=0)

    def _key_places(self, width: int) -> list[tuple[int, int]]:
        """Row and x of each key, filling rows from the left."""
        size, places = self.sizes, []
        row, x = 0, size.pad * 2
        for button in self.pad_keys:
            wide = button.wanted_width()
            if x + wide > width - size.pad * 2 and x > size.pad * 2:
                row, x = row + 1, size.pad * 2
            places.append((row, x))
            x += wide + size.gap
        return places

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        size = self.sizes
        top = int(size.text * 1.5) + size.pad
        high = self._line_high() - int(size.text * 1.5) - size.pad
        right = self.width() - size.pad * 2
        for button in (self.esc, self.ok):
            wide = button.wanted_width()
            button.setGeometry(right - wide, top, wide, high)
            right -= wide + size.gap
        self.line.setGeometry(size.pad * 2, top, max(10, right - size.pad * 2), high)
        for button, (row, x) in zip(self.pad_keys, self._key_places(self.width()), strict=True):
            y = self._line_high() + size.gap + row * (size.target + size.gap)
            button.setGeometry(x, y, button.wanted_width(), size.target)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Prompt and subject; what is wrong, beside them."""
        painter, size, colours = QPainter(self), self.sizes, self.palette_
        painter.fillRect(self.rect(), QColor(colours.bar))
        painter.setPen(QPen(QColor(colours.edge), 4))
        painter.drawLine(0, 2, self.width(), 2)
        words = " · ".join(word for word in (FORMS[self.asked].prompt, self.subject) if word)
        box = QRect(size.pad * 2, size.pad // 2 + 2, self.width() - size.pad * 4, int(size.text * 1.5))
        painter.setPen(QColor(colours.ink))
        used = draw(painter, box, words, size.text, bold=True)
        if self.trouble:
            box.setLeft(box.left() + used + size.pad * 2)
            wide = min(box.width(), width_of(self.trouble, size.text) + size.pad * 2)
            painter.fillRect(QRect(box.left(), box.top(), wide, box.height()), QColor(colours.due.ground))
            painter.setPen(QColor(colours.due.ink))
            draw(painter, box.adjusted(size.pad, 0, -size.pad, 0), self.trouble, size.text, least_share=0.6)
