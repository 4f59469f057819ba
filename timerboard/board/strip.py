"""One dish on the board. It paints itself, and repaints only the rectangles in which something changed."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QFocusEvent, QPainter, QPaintEvent, QPen, QPolygon, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from timerboard.core.alarm_values import Rank
from timerboard.core.view_values import Axis, Strip

from .letters import LEAST_SHARE, cap_of_em, draw, fitted, font, parted, width_of
from .look import Fill, Palette
from .measure import Sizes
from .plate import Plate
from .ribbon import AxisMap, Drawn, drawn, lines_reach, paint_lines, paint_now, paint_ribbon, paint_ticks

EMPTY = Strip("", "", "", "", "", "", None, False, "")
NO_AXIS = Axis(0, 1, 0, 0, ())


class StripWidget(Plate):
    """Paints a Strip. `opened` is called with the strip's key when it is tapped."""

    def __init__(self, opened: Callable[[str], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.strip = EMPTY
        self.axis = NO_AXIS
        self.digit = 0
        self._ribbon = Drawn((), (), (), None)
        self._now = 0
        self.clicked.connect(lambda: opened(self.strip.key))

    def show_strip(self, strip: Strip, axis: Axis, digit: int) -> None:
        """Take a new value; `digit` is the key that answers it, 0 for none."""
        old, old_digit, self.strip, self.axis, self.digit = self.strip, self.digit, strip, axis, digit
        if self._standing(old) != self._standing(strip) or digit != old_digit:
            self.update()
        elif old.countdown != strip.countdown:
            self.update(self.count_box())
        if old.matter != strip.matter or old.answered != strip.answered:
            self.update(self.matter_box())
        self._update_ribbon()
        if old.said != strip.said and not (self.hasFocus() and replace(old, countdown="", said="") == _still(strip)):
            self.setAccessibleName(strip.said or f"{strip.name}, {strip.line}, {strip.countdown} {strip.counts}")

    @staticmethod
    def _standing(strip: Strip) -> tuple[object, ...]:
        return strip.name, strip.line, strip.mark, strip.rank, strip.juts

    def _update_ribbon(self) -> None:
        """Redraw the ribbon if a pixel of it moved, else only the columns that the now line left and entered."""
        across = self.across()
        fresh, now = drawn(self.strip, self.axis, across), across.x(self.axis.now)
        if fresh != self._ribbon:
            self.update(self.ribbon_column())
        elif now != self._now:
            reach = lines_reach(self.sizes.line)
            for x in (self._now, now):
                self.update(QRect(x - reach, 0, 2 * reach + 1, self.height()))
        self._ribbon, self._now = fresh, now

    def across(self) -> AxisMap:
        """Where moments lie in this widget's own columns."""
        return AxisMap.of(self.axis, *axis_columns(self.width(), self.sizes))

    def body(self) -> QRect:
        """The visible surface: it juts out to the left when hands are needed."""
        return self.rect().adjusted(0 if self.strip.juts else self.sizes.jut, 0, 0, 0)

    def tab_box(self) -> QRect:
        """The tab with the digit, at the left of a strip that needs hands."""
        return QRect(0, 0, int(self.sizes.text * 1.95), self.height())

    def name_box(self) -> QRect:
        """Name above, step and place below."""
        left = self.tab_box().right() + self.sizes.pad
        return QRect(left, 0, self.sizes.name_width - left - self.sizes.pad, self.height())

    def count_box(self) -> QRect:
        """The countdown."""
        return QRect(self.sizes.name_width, 0, self.sizes.count_width, self.height())

    def ribbon_column(self) -> QRect:
        """Ribbon and the line below it, from the countdown to the right edge."""
        left = self.sizes.name_width + self.sizes.count_width
        return QRect(left, 0, self.width() - left, self.height())

    def ribbon_box(self) -> QRect:
        """The ribbon itself."""
        column = self.ribbon_column()
        high = self.height()
        return QRect(column.left(), high // 8 + 2, column.width(), high * 3 // 8)

    def matter_box(self) -> QRect:
        """What matters most, under the ribbon."""
        column = self.ribbon_column()
        top = self.ribbon_box().bottom() + 2
        return QRect(column.left(), top, column.width(), self.height() - top)

    def showEvent(self, event: QShowEvent) -> None:
        """It paints all of itself. Set here, because styles unset it for every button when they polish it."""
        super().showEvent(event)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width, other columns."""
        super().resizeEvent(event)
        self._update_ribbon()

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Other lengths, other columns."""
        super().dress(palette, sizes)
        self._update_ribbon()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Whoever comes here by keyboard hears the state of this moment."""
        self.setAccessibleName(self.strip.said or self.strip.name)
        super().focusInEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the blocks that the asked region touches."""
        painter = QPainter(self)
        region = event.region()
        self._paint_ground(painter)
        if region.intersects(self.ribbon_column()):
            self._paint_ribbon(painter)
        if region.intersects(self.count_box()):
            self._paint_count(painter)
        if region.intersects(self.name_box().united(self.tab_box())):
            self._paint_name(painter)
            self._paint_tab(painter)
        self.paint_ring(painter, self.body())

    def _paint_ground(self, painter: QPainter) -> None:
        colours, fill = self.palette_, self.palette_.of_rank(self.strip.rank)
        painter.fillRect(self.rect(), QColor(colours.ground))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        edge = fill.edge if self.strip.juts else colours.rule
        wide = 3 if self.strip.juts else 1
        painter.setPen(QPen(QColor(edge), wide))
        painter.setBrush(QColor(colours.strip))
        painter.drawRoundedRect(self.body().adjusted(wide // 2, wide // 2, -wide, -wide), 6, 6)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)

    def _paint_ribbon(self, painter: QPainter) -> None:
        size, colours, box = self.sizes, self.palette_, self.ribbon_box()
        paint_lines(painter, self._ribbon, self.height(), colours, size.line)
        text = min(int(size.text * 0.9), int(box.height() * 0.8))
        paint_ribbon(painter, self._ribbon, box, now=self._now, palette=colours, text=text)
        if self._now > axis_columns(self.width(), size)[0]:
            paint_now(painter, self._now, self.height(), colours, size.line)
        paint_ticks(painter, self._ribbon, box, colours)
        self._paint_matter(painter)

    def _paint_matter(self, painter: QPainter) -> None:
        """The line that matters, beside the now line; who answered, at the right end."""
        box, size = self.matter_box(), self.sizes
        right = box.right() - size.pad
        left = max(box.left(), self._now + 5) + size.pad // 2
        words, wide = self.shown_answer(right - left - size.pad)
        if words:
            right -= wide
            self._words(painter, QRect(right, box.top(), wide, box.height()), words, self.palette_.ink)
        row = QRect(left, box.top(), right - left - size.pad, box.height())
        self._words(painter, row, self._matter(row.width()))

    def shown_answer(self, room: int) -> tuple[str, int]:
        """What was answered and the pixels it takes; nothing where the first of what matters would be cut for it."""
        text, first = self.sizes.text, self.strip.matter.split(" · ")[0]
        words = f"✓ {self.strip.answered}" if self.strip.answered else ""
        wide = min(self.matter_box().width() * 45 // 100, width_of(words, text * 7 // 8))
        cut = fitted(first, room - wide, text, least=int(text * LEAST_SHARE)).cut
        return ("", 0) if cut else (words, wide)

    def _line(self) -> tuple[str, str]:
        """The line beside the name, and what of its end is told elsewhere: step and place stay together if they can."""
        room, text = self.name_box().width(), self.sizes.text
        kept, moved = parted(self.strip.line, room, text)
        return (kept, moved) if " · " in kept or not moved else parted(self.strip.line, room, text, 0.66)

    def _matter(self, room: int) -> str:
        """What matters most, after what the line beside the name had no room for."""
        words = " · ".join(words for words in (self.strip.matter, self._line()[1]) if words)
        if not fitted(words, room, self.sizes.text, least=int(self.sizes.text * LEAST_SHARE)).cut:
            return words
        kept, left_out = parted(words, room - self.sizes.text, self.sizes.text, LEAST_SHARE)
        return f"{kept} …" if left_out else kept

    def _words(self, painter: QPainter, box: QRect, words: str, ink: str = "") -> None:
        """Words on a patch of the strip, so that no line of the axis runs through them."""
        fit = fitted(words, box.width(), self.sizes.text, least=int(self.sizes.text * LEAST_SHARE))
        wide = width_of(fit.of(words), fit.px, narrow=fit.narrow)
        patch = QRect(box.left() - 3, box.top() + 2, wide + 6, box.height() - 6)
        painter.fillRect(patch, QColor(self.palette_.strip))
        painter.setPen(QColor(ink or self.palette_.quiet))
        draw(painter, box, words, self.sizes.text)

    def _paint_count(self, painter: QPainter) -> None:
        """The countdown, on the colour of its rank when it calls: a block is seen from further off than a hue."""
        box, strip, size = self.count_box(), self.strip, self.sizes
        inset = max(3, self.height() // 20)
        px = min(size.count, int((self.height() - 2 * inset) * 0.84 / cap_of_em()))
        fill = self._count_fill()
        ink = self.palette_.ink
        if fill and strip.countdown:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(fill.edge), 2))
            painter.setBrush(QColor(fill.ground))
            painter.drawRoundedRect(box.adjusted(2, inset, -size.pad // 2 - 2, -inset), 6, 6)
            ink = fill.ink
        painter.setPen(QColor(ink))
        inner = box.adjusted(size.pad // 2, 0, -size.pad, 0)
        self._digits(painter, inner, strip.countdown, px)

    def _digits(self, painter: QPainter, box: QRect, words: str, px: int) -> None:
        """Right-aligned, and centred on the height of the figures rather than of the line."""
        fit = fitted(words, box.width(), px, True, px // 3)
        painter.setFont(font(fit.px, True, fit.narrow))
        base = box.center().y() + int(fit.px * cap_of_em() / 2)
        shown = fit.of(words)
        painter.drawText(box.right() - width_of(shown, fit.px, True, fit.narrow), base, shown)

    def _count_fill(self) -> Fill | None:
        if self.strip.rank in (Rank.DUE, Rank.DANGER):
            return self.palette_.of_rank(self.strip.rank)
        return None

    def _paint_name(self, painter: QPainter) -> None:
        box, size = self.name_box(), self.sizes
        half = self.height() // 2
        painter.setPen(QColor(self.palette_.ink))
        draw(painter, QRect(box.left(), 3, box.width(), half), self.strip.name, int(size.text * 1.12), bold=True)
        painter.setPen(QColor(self.palette_.quiet))
        draw(painter, QRect(box.left(), half, box.width(), half - 3), self._line()[0], size.text)

    def _paint_tab(self, painter: QPainter) -> None:
        """Digit and mark word: which strip, which key, and why, without any colour."""
        if not self.strip.juts:
            return
        box, size, fill = self.tab_box(), self.sizes, self.palette_.of_rank(self.strip.rank)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(fill.edge), 2))
        painter.setBrush(QColor(fill.ground))
        if self.strip.rank is Rank.DANGER:
            painter.drawPolygon(_pointed(box.adjusted(1, 1, -1, -2)))
        else:
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -2), 6, 6)
        if self.strip.rank is Rank.DANGER:
            box = box.adjusted(box.width() // 6, 0, 0, 0)
        painter.setPen(QColor(fill.ink))
        centre = Qt.AlignmentFlag.AlignHCenter
        upper = QRect(box.left(), 2, box.width(), self.height() * 5 // 8)
        lower = QRect(box.left() + 2, self.height() * 5 // 8, box.width() - 4, self.height() * 3 // 8 - 2)
        digit = str(self.digit) if self.digit else "•"
        draw(painter, upper, digit, int(size.text * 1.3), bold=True, align=centre)
        draw(painter, lower, self.strip.mark, int(size.text * 0.8), align=centre, least_share=0.5)


def _still(strip: Strip) -> Strip:
    return replace(strip, countdown="", said="")


def axis_columns(width: int, size: Sizes) -> tuple[int, int]:
    """First and last column of the shared axis in a widget as wide as the bay."""
    return size.name_width + size.count_width + size.pad, width - size.pad * 2


def _pointed(box: QRect) -> QPolygon:
    """The tab of danger: its side runs to a point, so that its outline alone tells it from the others."""
    notch = box.width() // 5
    corners = ((notch, 0), (box.width(), 0), (box.width(), box.height()), (notch, box.height()), (0, box.height() // 2))
    return QPolygon([QPoint(box.left() + x, box.top() + y) for x, y in corners])
