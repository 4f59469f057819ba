"""The run sheet on paper: a PDF or the printer, drawn with Qt.

Read from two metres: the time and the job are set at 16 minutes of arc there (the least that ISO 9241-303 allows, as
restated by secondary sources: capital height 2 * 2000 mm * tan(8') = 9.3 mm), the rest for one metre. Black on white
only; state is weight and place, never colour.
"""

import math
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QMarginsF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QGuiApplication,
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
)

from timerboard.core.civil import clock_words, day_clock_words
from timerboard.core.menu import Menu
from timerboard.core.plan import Plan
from timerboard.core.run_sheet import SheetLine, run_sheet
from timerboard.core.values import MS

DPI = 300
MM = DPI / 25.4
MARGIN_MM = 12.0
GAP_MM = 2.2
ARC_MINUTE = math.pi / 10800
FAR_CAP_MM = 2 * 2000 * math.tan(8 * ARC_MINUTE)  # 16' at 2 m: 9.3 mm
NEAR_CAP_MM = 2 * 1000 * math.tan(7 * ARC_MINUTE)  # 14' at 1 m, read when standing before it: 4.1 mm
QUIET_CAP_MM = 5.8  # 20' at 1 m: jobs that start by themselves
FOOT_CAP_MM = 2.6
PAGES = {"a4": QPageSize.PageSizeId.A4, "letter": QPageSize.PageSizeId.Letter}


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is printed: the lines of a plan and the words around them."""

    menu: Menu
    plan: Plan
    zone: str

    @property
    def lines(self) -> tuple[SheetLine, ...]:
        """The run sheet."""
        return run_sheet(self.menu, self.plan)


def write_pdf(sheet: Sheet, path: Path, size: str = "a4") -> int:
    """Write the sheet as a PDF on `a4` or `letter` paper; gives the number of pages. Raises OSError when it cannot."""
    if QGuiApplication.instance() is None:
        raise RuntimeError("paper needs a QGuiApplication for its fonts")
    path.write_bytes(b"")  # so that a folder that refuses says so as OSError, which the writer would not
    writer = QPdfWriter(str(path))
    writer.setResolution(DPI)
    writer.setTitle(f"Run sheet: {sheet.menu.title}")
    writer.setCreator("timerboard")
    writer.setPageLayout(layout(size))
    return draw(sheet, writer)


def layout(size: str) -> QPageLayout:
    """Portrait, with the sheet's margins."""
    margins = QMarginsF(MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM)
    return QPageLayout(QPageSize(PAGES[size]), QPageLayout.Orientation.Portrait, margins, QPageLayout.Unit.Millimeter)


def draw(sheet: Sheet, device: QPagedPaintDevice) -> int:
    """Paint every page on a writer or printer; gives how many there are."""
    painter = QPainter(device)
    try:
        page = _Page(painter, device)
        pages = page.fill(sheet)
        for number, rows in enumerate(pages, start=1):
            if number > 1:
                device.newPage()
            page.paint(sheet, rows, number, len(pages))
        return len(pages)
    finally:
        painter.end()


@dataclass(frozen=True, slots=True)
class _Row:
    """One line as it is set: its words and its height in device pixels."""

    clock: str
    what: str
    small: str
    hands: bool
    height: float


class _Page:
    """Sets rows on pages of one size."""

    def __init__(self, painter: QPainter, device: QPagedPaintDevice) -> None:
        self._painter = painter
        scale = device.logicalDpiX() / DPI
        self._mm = MM * scale
        self._width = float(device.width())
        self._height = float(device.height())
        self._far = _font(FAR_CAP_MM * self._mm, QFont.Weight.DemiBold)
        self._quiet = _font(QUIET_CAP_MM * self._mm, QFont.Weight.Normal)
        self._near = _font(NEAR_CAP_MM * self._mm, QFont.Weight.Normal)
        self._foot = _font(FOOT_CAP_MM * self._mm, QFont.Weight.Normal)
        self._clock_width = QFontMetricsF(self._far).horizontalAdvance("00:00 ") + 1 * self._mm

    def fill(self, sheet: Sheet) -> list[list[_Row]]:
        """The rows of each page. A row is never cut in two."""
        room = self._height - self._head_height() - self._foot_height()
        pages: list[list[_Row]] = [[]]
        used = 0.0
        for row in (self._row(sheet, line) for line in sheet.lines):
            if pages[-1] and used + row.height > room:
                pages.append([])
                used = 0.0
            pages[-1].append(row)
            used += row.height
        return pages

    def paint(self, sheet: Sheet, rows: list[_Row], number: int, pages: int) -> None:
        """One page: head, rows, foot."""
        self._paint_head(sheet)
        top = self._head_height()
        for row in rows:
            self._paint_row(row, top)
            top += row.height
        self._paint_foot(sheet, number, pages)

    def _row(self, sheet: Sheet, line: SheetLine) -> _Row:
        font = self._far if line.hands else self._quiet
        width = self._width - self._clock_width
        day = day_clock_words(line.at * MS, sheet.zone, sheet.plan.eat_at * MS).rpartition(" ")[0]
        small = _small(day, line)
        height = self._text_height(font, line.what, width) + GAP_MM * self._mm * 2
        height += self._text_height(self._near, small, width) if small else 0.0
        return _Row(clock_words(line.at * MS, sheet.zone), line.what, small, line.hands, height)

    def _text_height(self, font: QFont, words: str, width: float) -> float:
        space = QRectF(0, 0, width, 1e6)
        return QFontMetricsF(font, self._painter.device()).boundingRect(space, Qt.TextFlag.TextWordWrap, words).height()

    def _paint_row(self, row: _Row, top: float) -> None:
        painter = self._painter
        gap = GAP_MM * self._mm
        painter.setPen(QColor(Qt.GlobalColor.black))
        painter.fillRect(QRectF(0, top, self._width, 0.3 * self._mm), QColor(Qt.GlobalColor.black))
        font = self._far if row.hands else self._quiet
        painter.setFont(font)
        width = self._width - self._clock_width
        height = self._text_height(font, row.what, width)
        painter.drawText(QRectF(0, top + gap, self._clock_width, height), Qt.AlignmentFlag.AlignTop, row.clock)
        wrap = Qt.TextFlag.TextWordWrap
        painter.drawText(QRectF(self._clock_width, top + gap, width, height), wrap, row.what)
        painter.setFont(self._near)
        left = row.height - height - gap
        painter.drawText(QRectF(self._clock_width, top + gap + height, width, left), wrap, row.small)

    def _paint_head(self, sheet: Sheet) -> None:
        painter = self._painter
        painter.setPen(QColor(Qt.GlobalColor.black))
        painter.setFont(self._near)
        place = QRectF(0, 0, self._width, self._head_height())
        painter.drawText(place, Qt.AlignmentFlag.AlignLeft, f"{sheet.menu.title}, for {sheet.menu.serves}")
        eat = f"Eat at {clock_words(sheet.plan.eat_at * MS, sheet.zone)}"
        painter.drawText(place, Qt.AlignmentFlag.AlignRight, eat)

    def _paint_foot(self, sheet: Sheet, number: int, pages: int) -> None:
        painter = self._painter
        painter.setFont(self._foot)
        place = QRectF(0, self._height - self._foot_height(), self._width, self._foot_height())
        flags = Qt.AlignmentFlag.AlignBottom
        careful = "Check the middle with a probe. Never leave hot oil. Local food codes come first."
        painter.drawText(place, flags | Qt.AlignmentFlag.AlignLeft, careful)
        painter.drawText(place, flags | Qt.AlignmentFlag.AlignRight, f"page {number} of {pages}")

    def _head_height(self) -> float:
        return QFontMetricsF(self._near, self._painter.device()).height() + GAP_MM * self._mm

    def _foot_height(self) -> float:
        return QFontMetricsF(self._foot, self._painter.device()).height() + GAP_MM * self._mm


def _small(day: str, line: SheetLine) -> str:
    parts = (
        day,
        line.dish,
        line.where if line.where != "table" else "",
        line.who,
        line.until and f"until {line.until}",
        line.then and f"then {line.then}",
    )
    return "  ·  ".join(part for part in parts if part)


def _font(cap_px: float, weight: QFont.Weight) -> QFont:
    """The system's sans at a capital height in device pixels."""
    font = QFont("sans-serif")
    font.setWeight(weight)
    font.setPixelSize(1000)
    share = QFontMetricsF(font).capHeight() / 1000 or 0.72
    font.setPixelSize(max(1, round(cap_px / share)))
    return font
