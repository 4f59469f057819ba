"""The run sheet on paper, and the lists behind it: a PDF or the printer, drawn with Qt.

Black on white only; state is weight and place, never colour. A row is never cut in two, and a heading never stands
alone at the foot of a page.
"""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from PySide6.QtCore import QMarginsF, QRectF, Qt
from PySide6.QtGui import QFont, QGuiApplication, QPagedPaintDevice, QPageLayout, QPageSize, QPainter, QPdfWriter

from timerboard.core.civil import clock_words
from timerboard.core.kitchen_lists import kitchen_lists
from timerboard.core.list_values import ListPage
from timerboard.core.menu import Menu
from timerboard.core.plan import Plan
from timerboard.core.run_sheet import SheetLine, run_sheet
from timerboard.core.values import MS, Seconds

from .paper_rows import BLACK, Heading, JobRow, ListRow, Note, Row, Setting
from .paper_type import font

DPI = 300
MM_PER_INCH = 25.4
MARGIN_MM = 12.0
HEAD_MM, FOOT_MM = 9.0, 6.0
PAGES = {"a4": QPageSize.PageSizeId.A4, "letter": QPageSize.PageSizeId.Letter}
CAREFUL = "Check the middle with a probe. Never leave hot oil. Local food codes come first."


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is printed: the lines of a plan and the words around them; with lists, those behind it, or those alone."""

    menu: Menu
    plan: Plan
    zone: str
    with_lists: bool = False
    note: str = ""  # what to know of the whole of it, above the first job
    with_jobs: bool = True  # False: the lists alone

    @property
    def name(self) -> str:
        """What the paper is called."""
        return f"{'Run sheet' if self.with_jobs else 'Lists'}: {self.menu.title}"

    @property
    def lines(self) -> tuple[SheetLine, ...]:
        """The run sheet."""
        return run_sheet(self.menu, self.plan, self.zone) if self.with_jobs else ()

    @property
    def lists(self) -> tuple[ListPage, ...]:
        """The lists, when they are asked for."""
        return kitchen_lists(self.menu, self.plan, self.zone) if self.with_lists else ()


def write_pdf(sheet: Sheet, path: Path, size: str = "a4") -> int:
    """Write the sheet as a PDF on `a4` or `letter` paper; gives the number of pages. Raises OSError when it cannot."""
    if QGuiApplication.instance() is None:
        raise RuntimeError("paper needs a QGuiApplication for its fonts")
    path.write_bytes(b"")  # so that a folder that refuses says so as OSError, which the writer would not
    writer = QPdfWriter(str(path))
    writer.setResolution(DPI)
    writer.setTitle(sheet.name)
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
        setting = Setting(device, float(device.width()), device.logicalDpiX() / MM_PER_INCH)
        room = device.height() - (HEAD_MM + FOOT_MM) * setting.mm
        pages = [*filled(_sheet_rows(sheet, setting), room)] if sheet.with_jobs else []
        lists = [row for page in sheet.lists for row in _list_rows(page, setting)]
        pages += filled(lists, room) if lists or not pages else []
        for number, rows in enumerate(pages, start=1):
            if number > 1:
                device.newPage()
            _paint_page(painter, sheet, setting, rows, (number, len(pages)))
        return len(pages)
    finally:
        painter.end()


def filled(rows: list[Row], room: float) -> list[list[Row]]:
    """The rows of each page; a heading goes over with what it heads."""
    pages: list[list[Row]] = [[]]
    used = 0.0
    for n, row in enumerate(rows):
        needed = row.height
        after = n
        while rows[after].stays_with_next and after + 1 < len(rows):
            after += 1
            needed += rows[after].height
        if pages[-1] and used + needed > room:
            pages.append([])
            used = 0.0
        pages[-1].append(row)
        used += row.height
    return pages


def _sheet_rows(sheet: Sheet, setting: Setting) -> list[Row]:
    """Jobs by time; a bar for each day when there are several."""
    rows: list[Row] = [Note(sheet.note, setting)] if sheet.note else []
    lines = sheet.lines
    several = len({_day(line.at, sheet.zone) for line in lines}) > 1
    day = ""
    for line in lines:
        if several and _day(line.at, sheet.zone) != day:
            day = _day(line.at, sheet.zone)
            rows.append(Heading(day, setting))
        rows.append(JobRow(line, sheet.zone, setting))
    return rows


def _list_rows(page: ListPage, setting: Setting) -> list[Row]:
    rows: list[Row] = [Heading(page.title, setting)]
    if page.note:
        rows.append(Note(page.note, setting))
    for group in page.groups:
        if group.heading:
            rows.append(Heading(group.heading, setting, bar=False))
        rows += [ListRow(line, setting) for line in group.lines]
    return rows


def _day(at: Seconds, zone: str) -> str:
    """'Monday 21 December'."""
    civil = datetime.fromtimestamp(at, ZoneInfo(zone))
    return f"{civil:%A} {civil.day} {civil:%B}"


def _paint_page(painter: QPainter, sheet: Sheet, setting: Setting, rows: list[Row], number: tuple[int, int]) -> None:
    _paint_head(painter, sheet, setting)
    top = HEAD_MM * setting.mm
    for row in rows:
        row.paint(painter, top)
        top += row.height
    _paint_foot(painter, setting, f"page {number[0]} of {number[1]}")


def _paint_head(painter: QPainter, sheet: Sheet, setting: Setting) -> None:
    """The menu on the left, when to eat on the right; a long title is cut with dots."""
    eat = f"Eat at {clock_words(sheet.plan.eat_at * MS, sheet.zone)}, {_day(sheet.plan.eat_at, sheet.zone)}"
    face = font(3.2 * setting.mm, QFont.Weight.Bold)
    measures = setting.metrics(face)
    width = setting.width - measures.horizontalAdvance(eat) - 6 * setting.mm
    title = measures.elidedText(f"{sheet.menu.title}, for {sheet.menu.serves}", Qt.TextElideMode.ElideRight, width)
    place = QRectF(0, 0, setting.width, HEAD_MM * setting.mm)
    painter.setPen(BLACK)
    painter.setFont(face)
    painter.drawText(place, Qt.AlignmentFlag.AlignLeft, title)
    painter.drawText(place, Qt.AlignmentFlag.AlignRight, eat)


def _paint_foot(painter: QPainter, setting: Setting, words: str) -> None:
    painter.setPen(BLACK)
    painter.setFont(setting.foot)
    height = FOOT_MM * setting.mm
    place = QRectF(0, float(setting.device.height()) - height, setting.width, height)
    painter.drawText(place, Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignLeft, CAREFUL)
    painter.drawText(place, Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignRight, words)
