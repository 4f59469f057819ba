"""The top line: time of day, menu, when to eat, how much is in hand, and how likely that is."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QWidget

from timerboard.core.view_values import Head

from .letters import DIGIT, cap_of_em, draw, font, width_of
from .look import DARK, Palette
from .measure import Sizes
from .plate import USUAL_SIZES, paint_fill

NOTHING = Head("", "", "", "", 0.0, False, "", "", ())


class HeadLine(QLabel):
    """Paints a Head; a block of it is repainted only when its words changed. A label, so that it is read as words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.head = NOTHING
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        self.update()

    def show_head(self, head: Head) -> None:
        """Take a new value."""
        old, self.head = self.head, head
        if old == head:
            return
        if len(old.eat) != len(head.eat):
            self.update()
        if old.clock != head.clock:
            self.update(self.clock_box())
        if (old.title, old.eat) != (head.title, head.eat):
            self.update(self.eat_box())
        if self._hand(old) != self._hand(head):
            self.update(self.margin_box())
        said = (head.clock, head.title, head.eat, head.margin, head.chance, head.tightest)
        self.setAccessibleName(", ".join(word for word in said if word))

    @staticmethod
    def _hand(head: Head) -> tuple[object, ...]:
        return head.margin, head.margin_share, head.late, head.chance, head.tightest

    def clock_box(self) -> QRect:
        """The time of day."""
        wide = width_of("00:00", self.sizes.clock, True) + self.sizes.pad * 2
        return QRect(self.sizes.pad, 0, wide, self.height())

    def eat_box(self) -> QRect:
        """Menu above, when to eat below."""
        left = self.clock_box().right() + self.sizes.pad
        wanted = width_of(DIGIT.sub("0", self.head.eat), self.sizes.text, True) * 9 // 8 + self.sizes.pad
        return QRect(left, 0, min(wanted, (self.width() - left) // 2), self.height())

    def margin_box(self) -> QRect:
        """What is in hand, its bar, and how likely it is."""
        left = self.eat_box().right() + self.sizes.pad * 3
        return QRect(left, 0, self.width() - left - self.sizes.pad * 2, self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the blocks that the asked region touches."""
        painter, region = QPainter(self), event.region()
        painter.fillRect(event.rect(), QColor(self.palette_.bar))
        painter.setPen(QColor(self.palette_.ink))
        if region.intersects(self.clock_box()):
            self._paint_clock(painter)
        if region.intersects(self.eat_box()):
            upper, lower = self._halves(self.eat_box())
            painter.setPen(QColor(self.palette_.quiet))
            draw(painter, upper, self.head.title, self.sizes.text)
            painter.setPen(QColor(self.palette_.ink))
            draw(painter, lower, self.head.eat, self.sizes.text * 9 // 8, bold=True)
        if region.intersects(self.margin_box()):
            self._paint_margin(painter)

    def _halves(self, box: QRect) -> tuple[QRect, QRect]:
        half = (box.height() - self.sizes.pad) // 2
        top = box.top() + self.sizes.pad // 2
        return QRect(box.left(), top, box.width(), half), QRect(box.left(), top + half, box.width(), half)

    def _paint_clock(self, painter: QPainter) -> None:
        box, px = self.clock_box(), self.sizes.clock
        painter.setFont(font(px, True))
        painter.drawText(box.left() + self.sizes.pad, box.center().y() + int(px * cap_of_em() / 2), self.head.clock)

    def _paint_margin(self, painter: QPainter) -> None:
        """Words and their bar; late fills the whole block, so that it cannot be taken for time in hand."""
        head, size, colours = self.head, self.sizes, self.palette_
        upper, lower = self._halves(self.margin_box())
        painter.setPen(QColor(colours.ink))
        if head.late:
            block = upper.adjusted(0, 0, 0, -2)
            paint_fill(painter, block, colours.due)
            painter.setPen(QColor(colours.due.ink))
            inner = block.adjusted(size.pad, 0, -size.pad, 0)
            draw(painter, inner, head.margin, min(size.text, block.height() * 5 // 6), bold=True)
        else:
            used = draw(painter, upper, head.margin, min(size.text * 9 // 8, upper.height() * 5 // 6), bold=True)
            thick = max(8, size.text // 2)
            left = upper.left() + used + size.pad * 2
            self._paint_bar(painter, QRect(left, upper.center().y() - thick // 2, upper.right() - left, thick))
        painter.setPen(QColor(colours.quiet))
        words = " · ".join(word for word in (head.chance, head.tightest) if word)
        draw(painter, lower, words, size.text, least_share=0.6)

    def _paint_bar(self, painter: QPainter, box: QRect) -> None:
        painter.fillRect(box, QColor(self.palette_.edge))
        painter.fillRect(box.adjusted(2, 2, -2, -2), QColor(self.palette_.bar))
        share = min(1.0, max(0.0, self.head.margin_share))
        painter.fillRect(
            QRect(box.left(), box.top(), int(box.width() * share), box.height()), QColor(self.palette_.eat)
        )
