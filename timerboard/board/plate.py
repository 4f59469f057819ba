"""A surface that can be tapped and focused: the base of every strip, card and button on the board."""

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QShowEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from .letters import draw, in_two, width_of
from .look import DARK, Fill, Palette
from .measure import Sizes, sizes

RING = 4
USUAL_SIZES = sizes(1366, 768, 4.0)


class Plate(QAbstractButton):
    """Wears a palette and sizes; acts on release; shows where the keyboard is."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        if (palette, sizes) != (self.palette_, self.sizes):
            self.palette_, self.sizes = palette, sizes
            self.update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A drop of water or a trembling finger taps twice: the second tap does nothing."""
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter acts as Space does; every other key is for the window."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.isAutoRepeat():
            self.click()
        elif event.key() == Qt.Key.Key_Space:
            super().keyPressEvent(event)
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the ring."""
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the ring away."""
        super().focusOutEvent(event)
        self.update()

    def showEvent(self, event: QShowEvent) -> None:
        """The style has had its say by now: no repaint under a pointer, there is no hover on a wet screen."""
        super().showEvent(event)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover, False)

    def sizeHint(self) -> QSize:
        """The least target; layouts may give more."""
        return QSize(self.sizes.target, self.sizes.target)

    def paint_ring(self, painter: QPainter, box: QRect) -> None:
        """The focus ring, just inside `box`."""
        if self.hasFocus():
            half = RING // 2
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self.palette_.ground), RING + 4))
            painter.drawRoundedRect(box.adjusted(half, half, -half, -half), 6, 6)
            painter.setPen(QPen(QColor(self.palette_.focus), RING))
            painter.drawRoundedRect(box.adjusted(half, half, -half, -half), 6, 6)


def paint_fill(painter: QPainter, box: QRect, fill: Fill, line: int = 2) -> None:
    """A rounded surface with its edge."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(fill.edge), line))
    painter.setBrush(QColor(fill.ground))
    inset = (line + 1) // 2
    painter.drawRoundedRect(box.adjusted(inset, inset, -inset, -inset), 6, 6)


class WordButton(Plate):
    """A button with a word, and the key that does the same."""

    def __init__(self, word: str, key: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = key
        self.fill: Fill | None = None
        self.stacked = False  # key over word, where they have no room beside each other
        self.setText(word)
        self.setAccessibleName(f"{word}, key {key}" if key else word)

    def wanted_width(self) -> int:
        """Room for its words, never less than a target."""
        words = width_of(self.text(), self.sizes.text) + 2 * self.sizes.pad
        key = width_of(self.key, self.sizes.text, True) + 2 * self.sizes.pad if self.key else 0
        return max(self.sizes.target, words + key)

    def sizeHint(self) -> QSize:
        """As wide as its words."""
        return QSize(self.wanted_width(), self.sizes.target)

    def _paint_stacked(self, painter: QPainter) -> None:
        """Key over word."""
        box, size, centre = self.rect().adjusted(4, 2, -4, -2), self.sizes, Qt.AlignmentFlag.AlignHCenter
        half = box.height() // 2
        key, word = QRect(box.left(), box.top(), box.width(), half), QRect(box.left(), half, box.width(), half)
        draw(painter, key, self.key, min(size.text, half * 5 // 6), bold=True, align=centre)
        draw(painter, word, self.text(), min(int(size.text * 0.8), half * 5 // 6), align=centre, least_share=0.6)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Key, then the word."""
        size, fill = self.sizes, self.fill or self.palette_.button
        painter = QPainter(self)
        paint_fill(painter, self.rect(), fill)
        if self.isDown():
            painter.setPen(QPen(QColor(fill.ink), 4))
            painter.drawRoundedRect(self.rect().adjusted(4, 4, -4, -4), 5, 5)
        painter.setPen(QColor(fill.ink))
        inner = self.rect().adjusted(size.pad, 0, -size.pad, 0)
        if self.stacked:
            self._paint_stacked(painter)
            self.paint_ring(painter, self.rect())
            return
        if self.key:
            used = draw(painter, inner, self.key, size.text, bold=True)
            inner.setLeft(inner.left() + used + size.pad)
        align = Qt.AlignmentFlag.AlignLeft if self.key else Qt.AlignmentFlag.AlignHCenter
        lines = in_two(self.text(), inner.width(), int(size.text * 0.8), False)
        high = inner.height() // len(lines) - (len(lines) - 1) * size.pad // 2
        top = (inner.height() - high * len(lines)) // 2
        for row, line in enumerate(lines):
            cell = QRect(inner.left(), top + row * high, inner.width(), high)
            draw(painter, cell, line, min(size.text, int(high * 0.9)), align=align, least_share=0.6)
        self.paint_ring(painter, self.rect())
