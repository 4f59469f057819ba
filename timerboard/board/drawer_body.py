"""The middle of a strip's drawer: the picture of its pull, and sentences; letters shrink before any is cut."""

from dataclasses import dataclass

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter

from timerboard.core.view_values import PullPicture

from .letters import font, metrics
from .look import Palette
from .measure import Sizes
from .pull_curve import paint_pull

WRAP = int(Qt.TextFlag.TextWordWrap)
LEAST_SHARE = 0.5
FINE_SHARE = 0.75
PICTURE_SHARE = 0.4


@dataclass(frozen=True, slots=True)
class Body:
    """What it tells, and of which strip; empty for a plain question."""

    key: str = ""
    told: tuple[str, ...] = ()
    pull: PullPicture | None = None

    @property
    def empty(self) -> bool:
        """True when there is nothing between the head and the buttons."""
        return not self.told and self.pull is None

    @property
    def said(self) -> str:
        """All of it for the ear."""
        return " ".join((*self.told, self.pull.said if self.pull else "")).strip()


def paint_body(painter: QPainter, box: QRect, body: Body, palette: Palette, size: Sizes) -> None:
    """The picture above where there is one, the sentences below it."""
    if body.empty or box.height() <= 0:
        return
    words = QRect(box)
    if body.pull is not None:
        least = _high(body.told, box.width(), max(8, int(size.text * FINE_SHARE))) if body.told else 0
        high = max(int(box.height() * PICTURE_SHARE), box.height() - least - size.pad)
        picture = QRect(box.left(), box.top(), box.width(), high)
        paint_pull(painter, picture, body.pull, palette, max(10, int(size.text * FINE_SHARE)))
        words.setTop(picture.bottom() + size.pad)
    px = _fitting(body.told, words.width(), words.height(), size.text)
    top = words.top()
    for line in body.told:
        high = _high((line,), words.width(), px)
        painter.setFont(font(px))
        painter.setPen(QColor(palette.ink))
        painter.drawText(QRect(words.left(), top, words.width(), high), WRAP, line)
        top += high


def _fitting(lines: tuple[str, ...], wide: int, high: int, px: int) -> int:
    """The largest letters with which all lines fit, not below the least."""
    least = max(8, int(px * LEAST_SHARE))
    return next((size for size in range(px, least, -1) if _high(lines, wide, size) <= high), least)


def _high(lines: tuple[str, ...], wide: int, px: int) -> int:
    room = QRect(0, 0, max(1, wide), 100_000)
    return sum(metrics(px).boundingRect(room, WRAP, line).height() + px // 4 for line in lines)
