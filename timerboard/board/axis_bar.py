"""The line above the strips: times of day, and flags for now and for eating."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLabel, QWidget

from timerboard.core.view_values import Axis

from .letters import draw, width_of
from .look import DARK, Palette
from .measure import Sizes
from .plate import USUAL_SIZES
from .ribbon import AxisMap
from .strip import NO_AXIS, axis_columns

EDGE = 3  # a flag at the end of the axis keeps its outline
CENTRE = Qt.AlignmentFlag.AlignHCenter


class AxisBar(QLabel):
    """Paints an Axis, and at its left what the oven and the rings are doing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.axis = NO_AXIS
        self.places: tuple[str, ...] = ()
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self._drawn: tuple[object, ...] = ()
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        self.update()

    def show_places(self, places: tuple[str, ...]) -> None:
        """Take new words for the places."""
        if places != self.places:
            self.places = places
            self.setAccessibleName(", ".join(places))
            self.update(self.places_box())

    def places_box(self) -> QRect:
        """The room left of the axis, over names and countdowns."""
        left = axis_columns(self.width() - self.sizes.pad, self.sizes)[0] - self.sizes.text
        return QRect(self.sizes.pad * 2, 0, left - self.sizes.pad, self.height())

    def show_axis(self, axis: Axis) -> None:
        """Take a new value; repaint when a pixel or a word of it moved."""
        self.axis = axis
        drawn = tuple(self.marks())
        if drawn != self._drawn:
            self._drawn = drawn
            self.update()

    def label_px(self) -> int:
        """Times are read at the worktop: a little smaller than the rest, so that each ten minutes keep their word."""
        return max(9, int(self.sizes.text * 0.84))

    def marks(self) -> list[tuple[int, str, str]]:
        """Columns with their words, flags first; a time that would touch a flag or its neighbour is left out."""
        axis, text = self.axis, self.label_px()
        left, right = axis_columns(self.width() - self.sizes.pad, self.sizes)
        across = AxisMap.of(axis, left + self.sizes.pad, right + self.sizes.pad)
        taken: list[tuple[int, int]] = []
        marks: list[tuple[int, str, str]] = []
        eat = "◂ eat" if axis.eat < axis.start else "eat" if axis.eat <= axis.end else "eat ▸"
        wanted = [("now", axis.now, "now"), *(("time", at, words) for at, words in axis.labels)]
        wanted.insert(1, ("eat", axis.eat, eat))
        for kind, at, words in wanted:
            x, half = across.x(at), width_of(words, text, kind != "time") // 2 + text // 4
            x = max(left, min(x, self.width() - half - EDGE)) if kind == "eat" else x
            free = all(x + half < a or x - half > b for a, b in taken)
            if free and x + half <= self.width():
                taken.append((x - half, x + half))
                marks.append((x, kind, words))
        return marks

    def paintEvent(self, event: QPaintEvent) -> None:
        """Times quiet, now as a filled flag, eat as an outlined one."""
        painter, colours, text = QPainter(self), self.palette_, self.label_px()
        painter.fillRect(event.rect(), QColor(colours.ground))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QColor(colours.quiet))
        draw(painter, self.places_box(), " · ".join(self.places), self.sizes.text)
        for x, kind, words in self.marks():
            wide = width_of(words, text, kind != "time") + text // 2
            box = QRect(x - wide // 2, 2, wide, self.height() - 4)
            painter.setPen(QPen(QColor(colours.quiet)))
            if kind != "time":
                self._flag(painter, box, kind)
            draw(painter, box, words, text, bold=kind != "time", align=CENTRE)

    def _flag(self, painter: QPainter, box: QRect, kind: str) -> None:
        colours = self.palette_
        line = QColor(colours.now if kind == "now" else colours.eat)
        painter.setBrush(line if kind == "now" else QColor(colours.ground))
        painter.setPen(QPen(line, 2))
        painter.drawRoundedRect(box, 5, 5)
        painter.setPen(QColor(colours.ground) if kind == "now" else line)
