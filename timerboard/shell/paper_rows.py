"""Rows of paper: a job of the run sheet, a heading, a line of a list. Each knows its height and paints itself."""

import re
from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPaintDevice, QPainter, QPen

from timerboard.core.civil import clock_words
from timerboard.core.list_values import ListLine
from timerboard.core.run_sheet import SheetLine
from timerboard.core.values import MS
from timerboard.core.words import lower_first

from .paper_type import FAR_CAP_MM, FOOT_CAP_MM, LIST_CAP_MM, NEAR_CAP_MM, QUIET_CAP_MM, Paragraph, Run, font

GAP_MM = 2.0
BLACK = QColor(Qt.GlobalColor.black)
WHITE = QColor(Qt.GlobalColor.white)
BULLET = "  ·  "
NBSP = "\u00a0"
TIGHT = 0.9  # of a line's height: two lines of one job belong together
_UNIT = re.compile(r"([0-9½]) (°|min\b|h\b|s\b|days?\b|loads\b)")


class Row(Protocol):
    """Something that stands on a page."""

    height: float
    stays_with_next: bool  # a heading is never the last of a page

    def paint(self, painter: QPainter, top: float) -> None:
        """Draw it with its upper edge there."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What rows are set with: the device, its width, and how many of its pixels are a millimetre."""

    device: QPaintDevice
    width: float
    mm: float

    @property
    def far(self) -> QFont:
        """Read at two metres."""
        return font(FAR_CAP_MM * self.mm, QFont.Weight.Bold)

    @property
    def quiet(self) -> QFont:
        """What starts by itself."""
        return font(QUIET_CAP_MM * self.mm)

    @property
    def near(self) -> QFont:
        """Read at one metre."""
        return font(NEAR_CAP_MM * self.mm)

    @property
    def list(self) -> QFont:
        """Read in the hand."""
        return font(LIST_CAP_MM * self.mm)

    @property
    def foot(self) -> QFont:
        """The foot of a page."""
        return font(FOOT_CAP_MM * self.mm)

    def metrics(self, face: QFont) -> QFontMetricsF:
        """Measures of a font on this device."""
        return QFontMetricsF(face, self.device)

    @property
    def clock_width(self) -> float:
        """The column of times: it holds the widest time and a gap."""
        return self.metrics(self.far).horizontalAdvance("00:00") + 4 * self.mm


class JobRow:
    """A job: the time and what to do in type for two metres, below it where, how long, who, until and then."""

    stays_with_next = False

    def __init__(self, line: SheetLine, zone: str, setting: Setting) -> None:
        self._setting = setting
        self._clock = clock_words(line.at * MS, zone)
        self._face = setting.far if line.hands else setting.quiet
        self._hands = line.hands
        width = setting.width - setting.clock_width
        what, told = _parts(line)
        self._what = Paragraph([Run(_unbroken(what))], self._face, width, setting.device, leading=TIGHT)
        self._told = setting.quiet if line.where == "table" else setting.near
        self._beside = self._room_beside(what, told, width)
        self._small = Paragraph(told, self._told, width - self._beside, setting.device) if told else None
        below = self._small.height if self._small is not None and not self._beside else 0.0
        self.height = self._what.height + below + 2 * GAP_MM * setting.mm

    def _room_beside(self, what: str, told: list[Run], width: float) -> float:
        """Where few words stand beside a short job instead of below it; 0: there is no room."""
        taken = self._setting.metrics(self._face).horizontalAdvance(what) + 6 * self._setting.mm
        heavy = QFont(self._told)
        heavy.setWeight(QFont.Weight.Bold)
        needed = (
            self._setting.metrics(heavy).horizontalAdvance("".join(run.words for run in told)) + 2 * self._setting.mm
        )
        return taken if told and taken + needed < width else 0.0

    def paint(self, painter: QPainter, top: float) -> None:
        """A thin rule, then the time and the words."""
        mm = self._setting.mm
        painter.fillRect(QRectF(0, top, self._setting.width, (0.5 if self._hands else 0.2) * mm), BLACK)
        top += GAP_MM * mm
        painter.setPen(BLACK)
        Paragraph([Run(self._clock)], self._face, self._setting.clock_width, self._setting.device).draw(painter, 0, top)
        self._what.draw(painter, self._setting.clock_width, top)
        if self._small is None:
            return
        if self._beside:
            lines = self._setting.metrics(self._face).ascent() - self._setting.metrics(self._told).ascent()
            self._small.draw(painter, self._setting.clock_width + self._beside, top + lines)
        else:
            self._small.draw(painter, self._setting.clock_width, top + self._what.height)


def _parts(line: SheetLine) -> tuple[str, list[Run]]:
    """What is read from afar, and what stands in smaller type: at the table the dishes do."""
    if line.where == "table":
        what, _, dishes = line.what.partition(": ")
        return what, [Run(dishes, heavy=True)]
    what = f"{line.what}: {lower_first(line.food)}" if line.food else line.what
    return what, [Run(_unbroken(run.words), run.heavy) for run in small_runs(line)]


def _unbroken(words: str) -> str:
    """A number and its unit stay on one line."""
    return _UNIT.sub(r"\1" + NBSP + r"\2", words)


def small_runs(line: SheetLine) -> list[Run]:
    """Place, length and person; the sign in heavy type; then what follows."""
    facts = (line.where if line.where != "table" else "", line.length, line.meanwhile, line.who)
    said = BULLET.join(fact for fact in facts if fact)
    runs = [Run(said)] if said else []
    if line.until:
        runs += [Run(BULLET)] if runs else []
        runs.append(Run(f"until {line.until}", heavy=True))
    if line.then:
        runs += [Run(BULLET)] if runs else []
        runs.append(Run(f"then {line.then}" if line.length else line.then))
    return runs


class Heading:
    """A day, or a part of a list, in a black bar: it stands out in any printer's black."""

    stays_with_next = True

    def __init__(self, words: str, setting: Setting, *, bar: bool = True) -> None:
        self._bar = bar
        self._setting = setting
        face = setting.near
        face.setWeight(QFont.Weight.Bold)
        inset = 2 * setting.mm if bar else 0.0
        self._words = Paragraph([Run(words)], face, setting.width - 2 * inset, setting.device)
        self._inset = inset
        self.height = self._words.height + 3 * setting.mm

    def paint(self, painter: QPainter, top: float) -> None:
        """The bar and its words; without a bar only the words."""
        mm = self._setting.mm
        if self._bar:
            painter.fillRect(QRectF(0, top + mm, self._setting.width, self._words.height + mm), BLACK)
        painter.setPen(WHITE if self._bar else BLACK)
        self._words.draw(painter, self._inset, top + 1.5 * mm)
        painter.setPen(BLACK)


class ListRow:
    """A line of a list with its box."""

    stays_with_next = False

    def __init__(self, line: ListLine, setting: Setting) -> None:
        self._setting = setting
        self._tick = line.tick
        mm = setting.mm
        self._left = (LIST_CAP_MM + 3) * mm
        runs = [Run(f"{line.when}  ", heavy=True)] if line.when else []
        runs.append(Run(line.words, heavy=bool(line.when)))
        if line.small:
            runs.append(Run(f"  –  {line.small}"))
        self._words = Paragraph(runs, setting.list, setting.width - self._left, setting.device)
        self.height = self._words.height + 1.6 * mm

    def paint(self, painter: QPainter, top: float) -> None:
        """The box as high as capitals, and the words."""
        mm = self._setting.mm
        if self._tick:
            box = LIST_CAP_MM * mm
            base = top + self._setting.metrics(self._setting.list).ascent()
            pen = QPen(BLACK)
            pen.setWidthF(0.35 * mm)
            painter.setPen(pen)
            painter.drawRect(QRectF(0.2 * mm, base - box, box, box))
        painter.setPen(BLACK)
        self._words.draw(painter, self._left, top)


class Note:
    """Words without a box."""

    stays_with_next = True

    def __init__(self, words: str, setting: Setting) -> None:
        self._words = Paragraph([Run(words)], setting.list, setting.width, setting.device)
        self.height = self._words.height + setting.mm

    def paint(self, painter: QPainter, top: float) -> None:
        """The words."""
        painter.setPen(BLACK)
        self._words.draw(painter, 0, top)
