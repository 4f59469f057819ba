"""The plan as a picture, PNG or SVG: a strip for each dish on one axis, in black and white.

Solid is hands; an outline goes on by itself; hatched may still be needed; a thin line is ready and waiting. The upright
lines are hours, the heavy one is the meal.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QGuiApplication,
    QImage,
    QImageWriter,
    QPainter,
    QPen,
    QPolygonF,
)
from PySide6.QtSvg import QSvgGenerator

from timerboard.core.civil import clock_words
from timerboard.core.menu import Menu
from timerboard.core.plan_preview import preview
from timerboard.core.quantity_words import celsius_words
from timerboard.core.values import MS, Moment
from timerboard.core.view_values import Axis, Part, RibbonPart, Strip

from .paper import Sheet
from .paper_type import font

WIDTH = 1600.0
LEFT, RIGHT, TOP, BOTTOM = 250.0, 40.0, 120.0, 60.0
STRIP, BAR, LABEL = 84.0, 26.0, 22.0
CAP, SMALL_CAP, TITLE_CAP = 12.0, 10.0, 17.0
SCALE = 2  # pixels of the PNG for each unit
DPI = 96
BLACK, WHITE = QColor(Qt.GlobalColor.black), QColor(Qt.GlobalColor.white)


def write_picture(sheet: Sheet, path: Path) -> tuple[int, int]:
    """Write the plan's picture by the file's suffix (`.png` or `.svg`); gives its size in units. Raises OSError."""
    if QGuiApplication.instance() is None:
        raise RuntimeError("a picture needs a QGuiApplication for its fonts")
    size = picture_size(sheet.menu, sheet)
    data = svg_bytes(sheet) if path.suffix.lower() == ".svg" else png_bytes(sheet)
    path.write_bytes(data)
    return size.width(), size.height()


def picture_size(menu: Menu, sheet: Sheet) -> QSize:
    """Width and height in units."""
    ovens = 1 if sheet.plan.settings else 0
    return QSize(int(WIDTH), int(TOP + STRIP * (len(menu.dishes) + ovens) + BOTTOM))


def png_bytes(sheet: Sheet) -> bytes:
    """The picture as a PNG."""
    size = picture_size(sheet.menu, sheet)
    image = QImage(size * SCALE, QImage.Format.Format_Grayscale8)
    image.fill(WHITE)
    painter = QPainter(image)
    painter.scale(SCALE, SCALE)
    _draw(painter, sheet)
    painter.end()
    held = QByteArray()
    buffer = QBuffer(held)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(image)
    return bytes(held.data())


def svg_bytes(sheet: Sheet) -> bytes:
    """The picture as an SVG."""
    size = picture_size(sheet.menu, sheet)
    held = QByteArray()
    buffer = QBuffer(held)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setSize(size)
    generator.setResolution(DPI)
    generator.setViewBox(QRect(0, 0, size.width(), size.height()))
    generator.setTitle(sheet.menu.title)
    generator.setDescription(f"When each dish is cooked, for {sheet.menu.serves}")
    painter = QPainter(generator)
    _draw(painter, sheet)
    painter.end()
    return bytes(held.data())


@dataclass(frozen=True, slots=True)
class _Chart:
    painter: QPainter
    sheet: Sheet
    axis: Axis

    def x(self, at: Moment) -> float:
        """Where a moment is."""
        share = (at - self.axis.start) / max(1, self.axis.end - self.axis.start)
        return LEFT + share * (WIDTH - LEFT - RIGHT)

    def words(self, place: QRectF, text: str, cap: float, *, heavy: bool = False, right: bool = False) -> None:
        """Words in a box, cut with dots when they are too long for it."""
        face = font(cap, QFont.Weight.Bold if heavy else QFont.Weight.Normal)
        self.painter.setFont(face)
        side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        shown = QFontMetricsF(face).elidedText(text, Qt.TextElideMode.ElideRight, place.width())
        self.painter.drawText(place, side | Qt.AlignmentFlag.AlignVCenter, shown)


def _draw(painter: QPainter, sheet: Sheet) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    strips, axis = preview(sheet.menu, sheet.plan, sheet.zone)
    chart = _Chart(painter, sheet, axis)
    height = float(picture_size(sheet.menu, sheet).height())
    painter.fillRect(QRectF(0, 0, WIDTH, height), WHITE)
    painter.setPen(BLACK)
    _head(chart)
    _hours(chart, height)
    for n, strip in enumerate(strips):
        _strip(chart, strip, TOP + n * STRIP)
    if sheet.plan.settings:
        _ovens(chart, TOP + len(strips) * STRIP)
    _foot(chart, height)


def _head(chart: _Chart) -> None:
    sheet = chart.sheet
    chart.words(QRectF(24, 18, WIDTH - 500, 44), f"{sheet.menu.title}, for {sheet.menu.serves}", TITLE_CAP, heavy=True)
    eat = f"Eat at {clock_words(sheet.plan.eat_at * MS, sheet.zone)}"
    chart.words(QRectF(WIDTH - 424, 18, 400, 44), eat, TITLE_CAP, heavy=True, right=True)


def _hours(chart: _Chart, height: float) -> None:
    """The hours as thin lines, the meals as heavy ones."""
    painter = chart.painter
    for at, words in chart.axis.labels:
        painter.setPen(QPen(BLACK, 0.5, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(chart.x(at), TOP - 12), QPointF(chart.x(at), height - BOTTOM + 8))
        painter.setPen(BLACK)
        chart.words(QRectF(chart.x(at) - 4, TOP - 42, 150, 28), words, CAP)
    menu, plan = chart.sheet.menu, chart.sheet.plan
    for at in sorted({plan.eat_at + menu.course_of(dish).eat_s for dish in menu.dishes if menu.on_table(dish)}):
        painter.setPen(QPen(BLACK, 3.0))
        painter.drawLine(QPointF(chart.x(at * MS), TOP - 14), QPointF(chart.x(at * MS), height - BOTTOM + 8))
    painter.setPen(BLACK)


def _strip(chart: _Chart, strip: Strip, top: float) -> None:
    painter = chart.painter
    painter.setPen(QPen(BLACK, 0.8))
    painter.drawLine(QPointF(24, top), QPointF(WIDTH - RIGHT, top))
    painter.setPen(BLACK)
    chart.words(QRectF(24, top + 2 * LABEL + 4, LEFT - 36, BAR), strip.name, CAP, heavy=True)
    bar = top + 2 * LABEL + 4
    for part in strip.ribbon:
        _part(chart, part, bar)
    painter.setBrush(BLACK)
    painter.setPen(Qt.PenStyle.NoPen)
    for tick in strip.ticks:
        x = chart.x(tick.at)
        painter.drawPolygon(
            QPolygonF([QPointF(x - 5, bar + BAR + 9), QPointF(x + 5, bar + BAR + 9), QPointF(x, bar + BAR)])
        )
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(BLACK)
    _labels(chart, strip.ribbon, top + 2)


def _part(chart: _Chart, part: RibbonPart, top: float) -> None:
    """A stretch: solid for hands, an outline for what goes on by itself, hatched for what may still be needed."""
    painter = chart.painter
    left = chart.x(part.start)
    box = QRectF(left, top, max(2.0, chart.x(part.end) - left), BAR)
    if part.part is Part.HOLD:
        painter.setPen(QPen(BLACK, 2.0))
        painter.drawLine(QPointF(box.left(), box.center().y()), QPointF(box.right(), box.center().y()))
    elif part.part is Part.PLANNED_UNCERTAIN:
        painter.fillRect(box, WHITE)
        painter.fillRect(box, QBrush(BLACK, Qt.BrushStyle.BDiagPattern))
        painter.setPen(QPen(BLACK, 1.2, Qt.PenStyle.DashLine))
        painter.drawRect(box)
    else:
        painter.fillRect(box, BLACK if _hands(chart.sheet.menu, part) else WHITE)
        painter.setPen(QPen(BLACK, 1.6))
        painter.drawRect(box)
    painter.setPen(BLACK)


def _hands(menu: Menu, part: RibbonPart) -> bool:
    step = menu.steps.get(part.step)
    return step is not None and step.work.throughout


def _labels(chart: _Chart, parts: Iterable[RibbonPart], top: float) -> None:
    """What each stretch is, above it: in the lower line where it fits, else in the upper one."""
    named = [part for part in parts if part.label and part.part is not Part.HOLD]
    metrics = QFontMetricsF(font(SMALL_CAP))
    free = [0.0, 0.0]
    for n, part in enumerate(named):
        wanted = metrics.horizontalAdvance(part.label) + 6
        left = min(chart.x(part.start), WIDTH - 8 - wanted)
        row = 1 if free[1] <= left else 0
        left = max(left, free[row])
        after = chart.x(named[n + 2].start) if n + 2 < len(named) else WIDTH
        width = min(wanted, max(after - left - 6, 30.0), WIDTH - 8 - left)
        place = QRectF(left, top + row * LABEL, max(width, 0.0), LABEL)
        chart.painter.fillRect(place.adjusted(0, 1, 0, -1), WHITE)
        chart.words(place, part.label, SMALL_CAP)
        free[row] = left + width + 4


def _ovens(chart: _Chart, top: float) -> None:
    """What heated places are set to, and when."""
    painter = chart.painter
    painter.setPen(QPen(BLACK, 0.8))
    painter.drawLine(QPointF(24, top), QPointF(WIDTH - RIGHT, top))
    painter.setPen(BLACK)
    places = list(dict.fromkeys(setting.place for setting in chart.sheet.plan.settings))
    chart.words(QRectF(24, top + 2 * LABEL + 4, LEFT - 36, BAR), f"Set: {', '.join(places)}", CAP, heavy=True)
    free = [0.0, 0.0, 0.0]
    for setting in sorted(chart.sheet.plan.settings, key=lambda s: s.at):
        x = chart.x(setting.at * MS)
        heat = celsius_words(setting.heat_c, chart.sheet.menu.units)
        words = f"{clock_words(setting.at * MS, chart.sheet.zone)} {heat}" + (
            f", {setting.place}" if places[1:] else ""
        )
        row = next((n for n in (2, 1, 0) if free[n] <= x), 0)
        width = QFontMetricsF(font(CAP)).horizontalAdvance(words) + 10
        painter.fillRect(QRectF(x - 1.5, top + 8, 3, STRIP - 16), BLACK)
        left = x + 6 if x + 6 + width < WIDTH - RIGHT else x - 6 - width
        place = QRectF(left, top + 6 + row * 24, width, 24)
        painter.fillRect(place, WHITE)
        chart.words(place, words, CAP)
        free[row] = left + width


def _foot(chart: _Chart, height: float) -> None:
    """What the shapes mean."""
    said = "solid: hands    outline: by itself    hatched: may still be needed    line: ready    triangle: a small job"
    chart.words(QRectF(24, height - 40, WIDTH - 48, 28), said, SMALL_CAP)
