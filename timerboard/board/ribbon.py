"""Ribbons on the one time axis that all strips share.

Solid: done. Bright: what is left of what runs. Dashed outline: planned. Hatched: nobody knows yet. A rail: ready and
waiting. Triangles: cues, hollow when done. What is drawn is first made into `Piece` values in whole pixels, so that a
strip repaints its ribbon only when a pixel of it has moved.
"""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPoint, QRect, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygon

from timerboard.core.values import Moment
from timerboard.core.view_values import Axis, Part, Strip

from .letters import draw, width_of
from .look import Palette


@dataclass(frozen=True, slots=True)
class AxisMap:
    """Where a moment lies between two pixels; `left` and `right` are the first and last column of the axis."""

    left: int
    right: int
    start: Moment
    end: Moment

    @classmethod
    def of(cls, axis: Axis, left: int, right: int) -> "AxisMap":
        """The map of an axis."""
        return cls(left, right, axis.start, max(axis.end, axis.start + 1))

    def x(self, moment: Moment) -> int:
        """The pixel column of a moment, kept on the axis."""
        share = (moment - self.start) / (self.end - self.start)
        return self.left + round(min(1.0, max(0.0, share)) * (self.right - self.left))


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch in pixels."""

    part: Part
    left: int
    right: int
    label: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """Everything of a ribbon that can be seen."""

    pieces: tuple[Piece, ...]
    ticks: tuple[tuple[int, bool, bool], ...]  # column, done, due
    grid: tuple[int, ...]
    eat: int | None  # None: beyond the axis


def drawn(strip: Strip, axis: Axis, across: AxisMap) -> Drawn:
    """A strip's ribbon in pixels; what lies outside the axis is left out."""
    seen = [p for p in strip.ribbon if p.end > axis.start and p.start < axis.end]
    return Drawn(
        tuple(Piece(p.part, across.x(p.start), across.x(p.end), p.label) for p in seen),
        tuple((across.x(t.at), t.done, t.due) for t in strip.ticks if axis.start <= t.at <= axis.end),
        tuple(across.x(at) for at, _ in axis.labels),
        across.x(axis.eat) if axis.start <= axis.eat <= axis.end else None,
    )


def paint_lines(painter: QPainter, what: Drawn, high: int, palette: Palette, line: int) -> None:
    """Grid and eat line, under everything."""
    painter.setPen(QPen(QColor(palette.rule), line))
    for x in what.grid:
        painter.drawLine(x, 2, x, high - 3)
    if what.eat is not None:
        paint_eat(painter, what.eat, high, palette, line)


def paint_eat(painter: QPainter, x: int, high: int, palette: Palette, line: int) -> None:
    """The eat line: dash and dot, so that it is no other line even without colour."""
    painter.setPen(QPen(QColor(palette.eat), 3 * line, Qt.PenStyle.DashDotLine))
    painter.drawLine(x, 0, x, high)


def lines_reach(line: int) -> int:
    """How far to each side of its column the now line or the eat line reaches."""
    return 2 * line + 1


def paint_now(painter: QPainter, x: int, high: int, palette: Palette, line: int) -> None:
    """The now line: solid, with a halo that keeps it apart from light ribbons."""
    painter.fillRect(QRect(x - 2 * line, 0, 4 * line + 1, high), QColor(palette.ground))
    painter.fillRect(QRect(x - line, 0, 2 * line + 1, high), QColor(palette.now))


def paint_ribbon(painter: QPainter, what: Drawn, box: QRect, *, now: int, palette: Palette, text: int) -> None:
    """Pieces and ticks within the height of `box`; ticks stand on its upper edge."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for piece in what.pieces:
        area = QRect(QPoint(piece.left, box.top()), QPoint(max(piece.left + 3, piece.right - 2), box.bottom()))
        _paint_piece(painter, piece.part, area, palette, now=now, line=max(1, text // 22))
    for piece in what.pieces:
        _paint_label(painter, piece, box, now=now, palette=palette, text=text)


def _paint_piece(painter: QPainter, part: Part, area: QRect, palette: Palette, *, now: int, line: int) -> None:
    edge, ink = QColor(palette.edge), QColor(palette.ink)
    if part is Part.DONE:
        _solid(painter, area, palette)
    elif part is Part.RUNNING:
        _solid(painter, area, palette)
        painter.fillRect(area.intersected(_after(area, now)), QColor(palette.left.ground))
    elif part is Part.UNCERTAIN:
        painter.fillRect(area, QColor(palette.strip))
        _hatch(painter, area, ink, 7 * line, 2 * line)
        painter.setPen(QPen(ink, 2 * line))
        painter.drawRect(area.adjusted(1, 1, -1, -1))
    elif part is Part.OVER:
        painter.fillRect(area, QColor(palette.due.ground))
        painter.setPen(QPen(QColor(palette.due.edge), 3))
        painter.drawRect(area.adjusted(1, 1, -1, -1))
    elif part is Part.HOLD:
        middle = area.center().y()
        thick = 3 * line
        painter.fillRect(QRect(area.left(), middle - thick, area.width(), thick * 2), edge)
        for x in (area.left(), area.right() - thick + 1):
            painter.fillRect(QRect(x, area.top() + 4, thick, area.height() - 8), edge)
    else:
        painter.fillRect(area, QColor(palette.strip))
        if part is Part.PLANNED_UNCERTAIN:
            _hatch(painter, area, edge, 13 * line, line)
        painter.setPen(QPen(edge, 2 * line, Qt.PenStyle.DashLine))
        painter.drawRect(area.adjusted(1, 1, -1, -1))


def _after(area: QRect, now: int) -> QRect:
    return QRect(QPoint(max(area.left(), now), area.top()), area.bottomRight())


def _solid(painter: QPainter, area: QRect, palette: Palette) -> None:
    painter.fillRect(area, QColor(palette.done))
    painter.setPen(QPen(QColor(palette.edge), 2))
    painter.drawRect(area.adjusted(1, 1, -1, -1))


def _hatch(painter: QPainter, area: QRect, colour: QColor, step: int, thick: int) -> None:
    """Own strokes rather than a brush pattern: these scale with the screen and keep still while the area grows."""
    painter.save()
    painter.setClipRect(area, Qt.ClipOperation.IntersectClip)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colour, thick))
    first = area.left() - area.height()
    first -= first % step
    xs = range(first, area.right() + step, step)
    painter.drawLines([QLineF(x, area.bottom(), x + area.height(), area.top()) for x in xs])
    painter.restore()


def _paint_label(painter: QPainter, piece: Piece, box: QRect, *, now: int, palette: Palette, text: int) -> None:
    """A label where it has room and one ground under it: after the now line, else before it."""
    pad = max(4, text // 4)
    left, right = piece.left + pad, piece.right - pad
    if piece.left < now < piece.right:
        left, right = (now + pad, right) if right - now >= now - left else (left, now - pad)
    if right - left < text * 2 or not piece.label:
        return
    if piece.part is Part.HOLD or piece.part in (Part.UNCERTAIN, Part.PLANNED_UNCERTAIN):
        _label_patch(painter, piece, QRect(left, box.top() + 3, right - left, box.height() - 6), palette, text)
        return
    bright = piece.part is Part.RUNNING and left >= now
    ink = palette.left.ink if bright else palette.due.ink if piece.part is Part.OVER else palette.ink
    painter.setPen(QColor(ink))
    draw(painter, QRect(left, box.top(), right - left, box.height()), piece.label, text)


def _label_patch(painter: QPainter, piece: Piece, area: QRect, palette: Palette, text: int) -> None:
    """Words over hatching or a rail lie on a patch of the strip's own ground."""
    wide = width_of(piece.label, text)
    if wide + 8 > area.width():
        return
    patch = QRect(area.left(), area.top(), wide + 8, area.height())
    painter.fillRect(patch, QBrush(QColor(palette.strip)))
    painter.setPen(QColor(palette.ink))
    draw(painter, patch.adjusted(4, 0, -4, 0), piece.label, text)


def paint_ticks(painter: QPainter, what: Drawn, box: QRect, palette: Palette) -> None:
    """Cues on the upper edge of `box`, over everything else."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for x, done, due in what.ticks:
        _paint_tick(painter, QPoint(x, box.top()), max(7, box.height() // 4), palette, done=done, due=due)


def _paint_tick(painter: QPainter, at: QPoint, side: int, palette: Palette, *, done: bool, due: bool) -> None:
    """A triangle that points down at the ribbon: hollow when done, larger with a bar when due."""
    x, top, half = at.x(), at.y(), side if due else side * 3 // 4
    shape = QPolygon([QPoint(x - half, top - half), QPoint(x + half, top - half), QPoint(x, top + half // 2)])
    painter.setPen(QPen(QColor(palette.strip), 4))
    painter.setBrush(QColor(palette.strip if done else palette.ink))
    painter.drawPolygon(shape)
    painter.setPen(QPen(QColor(palette.ink), 2))
    painter.drawPolygon(shape)
    if due:
        painter.fillRect(QRect(x - half, top - half - 5, 2 * half + 1, 4), QColor(palette.ink))
