"""A whole plan as a small picture: a ribbon for each dish on one axis, painted like the board's own."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from timerboard.core.view_values import Axis, Part, Strip

from .letters import draw, width_of
from .look import DARK, Palette
from .ribbon import AxisMap, drawn, paint_lines, paint_ribbon, paint_ticks

NAMES_SHARE = 0.2
MOST_NAMES = 220


@dataclass(frozen=True, slots=True)
class Measures:
    """Lengths in pixels: of a row, of the letters, of the axis."""

    row: int = 26
    text: int = 13
    axis: int = 22
    names: bool = True


def paint_plan(
    painter: QPainter, area: QRect, what: tuple[tuple[Strip, ...], Axis], palette: Palette, size: Measures
) -> None:
    """Names, axis and ribbons within `area`, from its top; rows that do not fit are cut."""
    strips, axis = what
    left = area.left() + names_width(strips, area.width(), size)
    across = AxisMap.of(axis, left, area.right() - 8)
    painter.fillRect(area, QColor(palette.strip))
    _paint_axis(painter, area, axis, across, palette, size)
    for row, strip in enumerate(strips):
        top = area.top() + size.axis + row * size.row
        if top > area.bottom():
            break
        painter.save()
        painter.translate(0, top)
        made = drawn(strip, axis, across)
        paint_lines(painter, made, size.row, palette, 1)
        box = QRect(left, 4, area.right() - left, size.row - 7)
        paint_ribbon(painter, made, box, now=-1, palette=palette, text=size.text)
        paint_ticks(painter, made, box, palette)
        painter.setPen(QColor(palette.ink))
        if size.names:
            names = QRect(area.left() + 8, 0, left - area.left() - 14, size.row)
            draw(painter, names, strip.name, size.text)
        painter.restore()


def names_width(strips: tuple[Strip, ...], width: int, size: Measures) -> int:
    """Columns that the dishes' names take."""
    if not size.names:
        return 8
    widest = max((width_of(strip.name, size.text) for strip in strips), default=0) + 20
    return min(widest, MOST_NAMES, int(width * NAMES_SHARE) + 40)


def _paint_axis(  # noqa: PLR0917
    painter: QPainter, area: QRect, axis: Axis, across: AxisMap, palette: Palette, size: Measures
) -> None:
    painter.setPen(QColor(palette.quiet))
    eat = across.x(axis.eat)
    free = eat - width_of("eat", size.text) // 2 - 8
    for at, words in axis.labels:
        wide = width_of(words, size.text)
        x = across.x(at) - wide // 2
        if x + wide < free or x > eat + 20:
            draw(painter, QRect(x, area.top(), wide + 2, size.axis), words, size.text)
    painter.setPen(QColor(palette.eat))
    box = QRect(eat - 40, area.top(), 80, size.axis)
    draw(painter, box, "eat", size.text, bold=True, align=Qt.AlignmentFlag.AlignHCenter)


def paint_picture(painter: QPainter, area: QRect, what: tuple[tuple[Strip, ...], Axis], palette: Palette) -> None:
    """A plan too small for words: a bar for each step, lighter where nobody knows yet, a thread while a dish waits."""
    strips, axis = what
    across = AxisMap.of(axis, area.left() + 6, area.right() - 6)
    row = area.height() / max(1, len(strips))
    thick = max(2, min(12, round(row * 0.66)))
    colours = {Part.PLANNED: palette.left.ground, Part.PLANNED_UNCERTAIN: palette.done, Part.HOLD: palette.edge}
    for n, strip in enumerate(strips):
        middle = area.top() + round((n + 0.5) * row)
        for part in strip.ribbon:
            if part.end <= axis.start:
                continue
            high = max(1, thick // 4) if part.part is Part.HOLD else thick
            left, right = across.x(part.start), across.x(part.end)
            box = QRect(left, middle - high // 2, max(2, right - left - 1), high)
            painter.fillRect(box, QColor(colours.get(part.part, palette.left.ground)))
    painter.fillRect(QRect(across.x(axis.eat), area.top(), 2, area.height()), QColor(palette.eat))


class PlanPicture(QWidget):
    """A plan as a picture on a tile; a tap on it is the tile's."""

    def __init__(self, tapped: Callable[[], object]) -> None:
        super().__init__()
        self.palette_: Palette = DARK
        self.what: tuple[tuple[Strip, ...], Axis] | None = None
        self._tapped = tapped

    def dress(self, palette: Palette) -> None:
        """Change colours."""
        self.palette_ = palette
        self.update()

    def show_plan(self, what: tuple[tuple[Strip, ...], Axis]) -> None:
        """The plan."""
        self.what = what
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The picture; while it is not known, that it is being made."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(self.palette_.bar))
        if self.what is None:
            painter.setPen(QColor(self.palette_.quiet))
            draw(painter, self.rect(), "planning", Measures().text, align=Qt.AlignmentFlag.AlignHCenter)
        else:
            paint_picture(painter, self.rect().adjusted(2, 8, -2, -8), self.what, self.palette_)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Tapped."""
        if self.rect().contains(event.position().toPoint()):
            self._tapped()


class PlanRibbon(QWidget):
    """The plan of the menu being edited; a tap on a stretch tells its step."""

    def __init__(self, tapped: Callable[[str], object] | None = None, measures: Measures | None = None) -> None:
        super().__init__()
        self.palette_: Palette = DARK
        self.what: tuple[tuple[Strip, ...], Axis] | None = None
        self.stale = False
        self._tapped, self._size = tapped, measures or Measures()
        self.setAccessibleName("Plan")

    def dress(self, palette: Palette) -> None:
        """Change colours."""
        self.palette_ = palette
        self.update()

    def show_plan(self, what: tuple[tuple[Strip, ...], Axis] | None, said: str = "", *, stale: bool = False) -> None:
        """Another plan; `stale`: the menu has moved on, and this is the last one that was known."""
        if (what, stale) == (self.what, self.stale):
            return
        self.what, self.stale = what, stale
        self.setAccessibleDescription(said)
        self.setMinimumHeight(self.sizeHint().height())
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Every row."""
        rows = len(self.what[0]) if self.what else 1
        return QSize(600, self._size.axis + rows * self._size.row + 6)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The picture."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(self.palette_.strip))
        if self.what is None:
            return
        if self.stale:
            painter.setOpacity(0.55)
        paint_plan(painter, self.rect(), self.what, self.palette_, self._size)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Which step lies there."""
        step = self.step_at(event.position().toPoint())
        if step and self._tapped is not None:
            self._tapped(step)

    def step_at(self, point: QPoint) -> str:
        """The id of the step under a point; the dish's name beside the ribbon; '' for none."""
        row = (point.y() - self._size.axis) // self._size.row
        if self.what is None or not 0 <= row < len(self.what[0]):
            return ""
        strips, axis = self.what
        left = names_width(strips, self.width(), self._size)
        if point.x() < left:
            return strips[row].name
        across = AxisMap.of(axis, left, self.rect().right() - 8)
        parts = strips[row].ribbon
        return next((p.step for p in parts if across.x(p.start) <= point.x() <= across.x(p.end)), "")
