"""A drawer over the lower strips: one question or one strip, and everything that can be done about it, large.

While it is open the digits press its buttons; Esc shuts it. Nothing else of the board is covered, and nothing stops;
only where its buttons would be too small for a wet finger does it cover the messages and the axis as well.
"""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QWidget

from .drawer_body import Body, paint_body
from .letters import draw
from .look import DARK, Palette
from .measure import Sizes
from .plate import USUAL_SIZES, WordButton

MOST = 24  # more is a menu of some other kind


@dataclass(frozen=True, slots=True)
class Option:
    """A button of the drawer: what it says and what it does. `key` "" takes the next digit."""

    word: str
    act: Callable[[], object]
    key: str = ""


class Drawer(QFrame):
    """Asks, shows options, and shuts when one is taken."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.title = ""
        self.line = ""
        self.options: tuple[Option, ...] = ()
        self.buttons: list[WordButton] = []
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.shut_button = WordButton("close", "Esc", self)
        self.shut_button.clicked.connect(self.shut)
        self._back: QWidget | None = None
        self.body = Body()
        self._body_box = QRect()
        self.hide()

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        for button in (*self.buttons, self.shut_button):
            button.dress(palette, sizes)
        self.update()

    def open(self, title: str, options: tuple[Option, ...], line: str = "", body: Body | None = None) -> None:
        """Ask. Whoever had the keyboard gets it back when the drawer shuts."""
        self.title, self.line, self.options = title, line, options[:MOST]
        self.body = body or Body()
        self._back = self.window().focusWidget() if self.isHidden() else self._back
        for button in self.buttons:
            button.hide()
            button.deleteLater()
        self.buttons = [self._button(i, option) for i, option in enumerate(self.options)]
        self.setAccessibleName(f"{title}. {line} {self.body.said}".strip())
        self.dress(self.palette_, self.sizes)
        self.show()
        self.raise_()
        (self.buttons or [self.shut_button])[0].setFocus(Qt.FocusReason.PopupFocusReason)

    def tell(self, body: Body) -> bool:
        """Tell something newer of the same strip; True when it differs."""
        if body == self.body:
            return False
        self.body = body
        self.setAccessibleName(f"{self.title}. {self.line} {body.said}".strip())
        self.update()
        return True

    def _button(self, i: int, option: Option) -> WordButton:
        key = option.key or (str(i + 1) if i < 9 else "")
        button = WordButton(option.word, key, self)
        button.clicked.connect(lambda _=False, option=option: self._take(option))
        button.show()
        return button

    def _take(self, option: Option) -> None:
        self.shut()
        option.act()

    def press(self, digit: int) -> bool:
        """Press the button with that digit; False when there is none."""
        for button in self.buttons:
            if button.key == str(digit):
                button.click()
                return True
        return False

    def shut(self) -> None:
        """Close, and give the keyboard back."""
        self.hide()
        if self._back is not None and self._back.isVisible():
            self._back.setFocus(Qt.FocusReason.PopupFocusReason)
        self._back = None

    def lay_out(self, room: QRect, more: QRect | None = None) -> None:
        """Take the lower part of `room`, as high as its buttons need; with a body all of it, the buttons beside.

        `more` is taken instead where the buttons would be lower than a target.
        """
        self._fill(room)
        if more is not None and self.buttons and min(b.height() for b in self.buttons) < self.sizes.target:
            self._fill(more)

    def _fill(self, room: QRect) -> None:
        size = self.sizes
        inner, head = QRect(size.pad * 2, self._head_high(), room.width() - size.pad * 4, 0), self._head_high()
        if self.body.empty:
            total, box = self._below(room, inner), QRect()
        else:
            total, box = room.height(), QRect(inner.left(), head, inner.width(), room.height() - head - size.pad)
            box.setRight(self._beside(box) - size.pad * 2)
        self._body_box = box
        self.setGeometry(QRect(room.left(), room.bottom() + 1 - min(total, room.height()), room.width(), total))
        closing = self.shut_button.wanted_width()
        self.shut_button.setGeometry(self.width() - closing - size.pad * 2, size.pad, closing, size.target)

    def _below(self, room: QRect, inner: QRect) -> int:
        """Buttons in rows under the head; returns the height of the whole drawer."""
        size = self.sizes
        widest = max((button.wanted_width() for button in self.buttons), default=size.target)
        most = max(1, (inner.width() + size.gap) // (min(widest, size.text * 7) + size.gap))
        columns = max(1, min(3, (inner.width() + size.gap) // (max(widest, size.text * 9) + size.gap)))
        top = inner.top()
        while columns < most and -(-len(self.buttons) // columns) * (size.target + size.gap) > room.height() - top:
            columns += 1
        rows = -(-len(self.buttons) // columns)
        high = min(size.target, max(24, (room.height() - top - size.pad) // max(1, rows) - size.gap))
        self._place(QRect(inner.left(), top, inner.width(), 0), columns, high)
        return top + rows * (high + size.gap) + size.pad

    def _beside(self, box: QRect) -> int:
        """Buttons in one column on the right, in two where one is too short; returns where they begin."""
        size = self.sizes
        columns = 1 if len(self.buttons) * (size.target + size.gap) <= box.height() + size.gap else 2
        widest = max((button.wanted_width() for button in self.buttons), default=size.target)
        wide = min(columns * (widest + size.gap) - size.gap, box.width() * (4 + columns) // 10)
        rows = max(1, -(-len(self.buttons) // columns))
        high = min(size.target, max(24, (box.height() + size.gap) // rows - size.gap))
        left = box.right() + 1 - wide
        self._place(QRect(left, box.top(), wide, 0), columns, high)
        return left

    def _place(self, area: QRect, columns: int, high: int) -> None:
        gap = self.sizes.gap
        wide = (area.width() - gap * (columns - 1)) // columns
        for i, button in enumerate(self.buttons):
            x = area.left() + (i % columns) * (wide + gap)
            button.setGeometry(x, area.top() + (i // columns) * (high + gap), wide, high)

    def _head_high(self) -> int:
        return max(self.sizes.target, int(self.sizes.text * 2.8)) + self.sizes.pad * 2

    def paintEvent(self, event: QPaintEvent) -> None:
        """Ground, title and line."""
        painter, size, colours = QPainter(self), self.sizes, self.palette_
        painter.fillRect(self.rect(), QColor(colours.bar))
        painter.setPen(QPen(QColor(colours.edge), 4))
        painter.drawLine(0, 2, self.width(), 2)
        high = self._head_high() - size.pad
        box = QRect(size.pad * 2, size.pad, self.shut_button.x() - size.pad * 4, high - size.pad)
        half = box.height() // (2 if self.line else 1)
        painter.setPen(QColor(colours.ink))
        draw(painter, QRect(box.left(), box.top(), box.width(), half), self.title, size.text * 6 // 5, bold=True)
        paint_body(painter, self._body_box, self.body, colours, size)
        painter.setPen(QColor(colours.quiet))
        draw(painter, QRect(box.left(), box.top() + half, box.width(), half), self.line, size.text)
