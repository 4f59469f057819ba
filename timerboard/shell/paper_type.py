"""Type on paper: sizes by how far away they are read, and paragraphs with some words in heavier type.

Capital heights: the time and the job at 16 minutes of arc from two metres (the least that ISO 9241-303 allows, as
restated by secondary sources: 2 * 2000 mm * tan(8') = 9.3 mm), the rest for one metre.
"""

import math
from dataclasses import dataclass

from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont, QFontMetricsF, QPaintDevice, QPainter, QTextCharFormat, QTextLayout, QTextOption

ARC_MINUTE = math.pi / 10800
FAR_CAP_MM = 2 * 2000 * math.tan(8 * ARC_MINUTE)  # 16' at 2 m: 9.3 mm
QUIET_CAP_MM = 2 * 1000 * math.tan(10 * ARC_MINUTE)  # 20' at 1 m: 5.8 mm, jobs that start by themselves
NEAR_CAP_MM = 2 * 1000 * math.tan(7 * ARC_MINUTE)  # 14' at 1 m, read when standing before it: 4.1 mm
LIST_CAP_MM = 3.4  # read with the sheet in the hand or on the counter
FOOT_CAP_MM = 2.6
FAMILIES = ["Noto Sans", "Liberation Sans", "Arial", "Helvetica", "DejaVu Sans Condensed", "DejaVu Sans", "sans-serif"]
LEADING = 1.04
LAST = 1.02  # of a line's height below the last line, so that nothing touches its descenders


def font(cap_px: float, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """A plain sans at a capital height in device pixels, narrow where only a wide one is there."""
    made = QFont()
    made.setFamilies(FAMILIES)
    made.setStretch(QFont.Stretch.SemiCondensed)
    made.setWeight(weight)
    made.setPixelSize(1000)
    share = QFontMetricsF(made).capHeight() / 1000 or 0.72
    made.setPixelSize(max(1, round(cap_px / share)))
    return made


@dataclass(frozen=True, slots=True)
class Run:
    """Words in one weight."""

    words: str
    heavy: bool = False


class Paragraph:
    """Words set to a width: measured once, drawn anywhere."""

    def __init__(
        self, runs: list[Run], face: QFont, width: float, device: QPaintDevice, *, leading: float = LEADING
    ) -> None:
        words = "".join(run.words for run in runs)
        self._layout = QTextLayout(words, face, device)
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        self._layout.setTextOption(option)
        self._layout.setFormats(_formats(runs))
        self.height = self._set(width, leading)

    def draw(self, painter: QPainter, left: float, top: float) -> None:
        """With its upper left corner there."""
        self._layout.draw(painter, QPointF(left, top))

    def _set(self, width: float, leading: float) -> float:
        height = last = 0.0
        self._layout.beginLayout()
        while (line := self._layout.createLine()).isValid():
            line.setLineWidth(max(1.0, width))
            line.setPosition(QPointF(0, height))
            last = line.height()
            height += last * leading
        self._layout.endLayout()
        return height + last * max(0.0, LAST - leading)


def _formats(runs: list[Run]) -> list[QTextLayout.FormatRange]:
    formats, at = [], 0
    for run in runs:
        if run.heavy:
            heavy = QTextCharFormat()
            heavy.setFontWeight(QFont.Weight.Bold.value)
            found = QTextLayout.FormatRange()
            found.start, found.length, found.format = at, _units(run.words), heavy
            formats.append(found)
        at += _units(run.words)
    return formats


def _units(words: str) -> int:
    """How long Qt counts a text: in UTF-16 units."""
    return len(words.encode("utf-16-le", errors="surrogatepass")) // 2
