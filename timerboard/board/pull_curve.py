"""A pull as a small picture: readings, the fit with the band that four of five joints keep to, the pull's line.

State is shape first: a reading is a filled dot, a doubtful one a ring with a cross; the band is hatched, the fit a
line, the pull dashed. The curve past now is what is foretold.
"""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from timerboard.core.values import Moment
from timerboard.core.view_values import PullPicture, Read

from .letters import draw, width_of
from .look import Palette

RIGHT, MIDDLE = Qt.AlignmentFlag.AlignRight, Qt.AlignmentFlag.AlignHCenter
LEAST_PX = 60
"""Lower or narrower than this nothing is drawn: the words beside it say the same."""


@dataclass(frozen=True, slots=True)
class Plot:
    """Where moments and degrees lie on the glass."""

    box: QRect
    picture: PullPicture

    def x(self, at: Moment) -> float:
        """A moment's column."""
        span = max(1, self.picture.end - self.picture.start)
        return self.box.left() + self.box.width() * (at - self.picture.start) / span

    def y(self, celsius: float) -> float:
        """A temperature's row; what the fit has above the picture is cut off by whoever paints it."""
        low, high = self.picture.low_c, self.picture.high_c
        return self.box.bottom() - self.box.height() * (celsius - low) / max(1.0, high - low)

    def point(self, at: Moment, celsius: float) -> QPointF:
        """Both."""
        return QPointF(self.x(at), self.y(celsius))


def paint_pull(painter: QPainter, area: QRect, picture: PullPicture, palette: Palette, text: int) -> None:
    """Everything of it within `area`; `text` is the letters' size in pixels."""
    below, above = text + 6, text + 4
    plot = Plot(area.adjusted(8, above, -8, -below), picture)
    if plot.box.height() < LEAST_PX or plot.box.width() < LEAST_PX:
        return
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillRect(area, QColor(palette.strip))
    _axes(painter, area, plot, palette, text)
    painter.setClipRect(plot.box)
    _band(painter, plot, palette)
    painter.setClipping(False)
    _pull_line(painter, plot, palette, text)
    for read in picture.reads:
        _reading(painter, plot, read, palette, text)
    painter.restore()


def _axes(painter: QPainter, area: QRect, plot: Plot, palette: Palette, text: int) -> None:
    picture, shown = plot.picture, -1.0
    for at, words in picture.labels:
        x, wide = plot.x(at), width_of(words, text)
        if x - wide / 2 < shown or not plot.box.left() <= x <= plot.box.right():
            continue
        shown = x + wide / 2 + text
        painter.setPen(QPen(QColor(palette.rule), 1))
        painter.drawLine(QPointF(x, plot.box.top()), QPointF(x, plot.box.bottom()))
        painter.setPen(QColor(palette.quiet))
        low = QRect(round(x - wide / 2) - 2, plot.box.bottom() + 2, wide + 4, area.bottom() - plot.box.bottom() - 1)
        draw(painter, low, words, text, align=MIDDLE)
    painter.setPen(QPen(QColor(palette.now), 2))
    now = plot.x(picture.now)
    painter.drawLine(QPointF(now, plot.box.top()), QPointF(now, plot.box.bottom()))


def _band(painter: QPainter, plot: Plot, palette: Palette) -> None:
    curve = plot.picture.curve
    if len(curve) < 2:
        return
    upper = [plot.point(p.at, p.high_c) for p in curve]
    lower = [plot.point(p.at, p.low_c) for p in reversed(curve)]
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QBrush(QColor(palette.edge), Qt.BrushStyle.BDiagPattern))
    painter.drawPolygon(QPolygonF([*upper, *lower]))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(palette.ink), 3))
    painter.drawPolyline(QPolygonF([plot.point(p.at, p.likely_c) for p in curve]))


def _pull_line(painter: QPainter, plot: Plot, palette: Palette, text: int) -> None:
    """The temperature it is pulled at, dashed, and the moment the fit gets there."""
    picture, y = plot.picture, plot.y(plot.picture.pull_c)
    painter.setPen(QPen(QColor(palette.eat), 2, Qt.PenStyle.DashLine))
    painter.drawLine(QPointF(plot.box.left(), y), QPointF(plot.box.right(), y))
    painter.setPen(QColor(palette.ink))
    words = QRect(plot.box.left() + 2, round(y) - text - 5, plot.box.width() // 2, text + 4)
    draw(painter, words, f"pull at {picture.pull_words}", text)
    if picture.at is not None and picture.start <= picture.at <= picture.end:
        x = plot.x(picture.at)
        painter.setPen(QPen(QColor(palette.eat), 2))
        painter.drawLine(QPointF(x, y), QPointF(x, plot.box.bottom()))
        wide = width_of(picture.at_words, text, True) + 4
        box = QRect(min(round(x) + 4, plot.box.right() - wide), round(y) + 3, wide, text + 4)
        painter.fillRect(box, QColor(palette.strip))
        painter.setPen(QColor(palette.ink))
        draw(painter, box, picture.at_words, text, bold=True)


def _reading(painter: QPainter, plot: Plot, read: Read, palette: Palette, text: int) -> None:
    at, size = plot.point(read.at, read.celsius), max(4.0, text / 3.2)
    ring = QRectF(at.x() - size, at.y() - size, 2 * size, 2 * size)
    painter.setPen(QPen(QColor(palette.ink), 2))
    painter.setBrush(Qt.BrushStyle.NoBrush if read.doubtful else QBrush(QColor(palette.ink)))
    painter.drawEllipse(ring)
    if read.doubtful:
        painter.drawLine(ring.topLeft(), ring.bottomRight())
        painter.drawLine(ring.bottomLeft(), ring.topRight())
    words = f"{read.words}?" if read.doubtful else read.words
    wide = width_of(words, text) + 2
    left = at.x() + size + 3
    left = left if left + wide <= plot.box.right() else at.x() - size - wide - 3
    top = min(at.y() + 1, plot.box.bottom() - text - 2)
    draw(painter, QRect(round(left), round(top), wide, text + 4), words, text)
