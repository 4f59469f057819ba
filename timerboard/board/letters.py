"""Letters on the board: one family, tabular figures, and words that are made smaller before they are cut."""

import re
from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter

DIGIT = re.compile(r"\d")
LINE_SHARE = 1.2  # height of a line over its font size
LEAST_SHARE = 0.72  # how far words may shrink before they are elided


@lru_cache(maxsize=512)
def font(px: int, bold: bool = False, narrow: bool = False) -> QFont:
    """The system's sans at `px` pixels, with figures of one width so that a countdown does not jiggle."""
    made = QFont()
    made.setStyleHint(QFont.StyleHint.SansSerif)
    made.setPixelSize(max(6, px))
    made.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    made.setFeature(QFont.Tag("tnum"), 1)
    if narrow:
        made.setStretch(QFont.Stretch.SemiCondensed)
    return made


@lru_cache(maxsize=512)
def metrics(px: int, bold: bool = False, narrow: bool = False) -> QFontMetrics:
    """Measures of `font`."""
    return QFontMetrics(font(px, bold, narrow))


@lru_cache(maxsize=1)
def cap_of_em() -> float:
    """Capital height over font size of the system's sans, as measured."""
    return metrics(200, True).capHeight() / 200 or 0.72


@lru_cache(maxsize=4096)
def _width(shape: str, px: int, bold: bool, narrow: bool) -> int:
    return metrics(px, bold, narrow).horizontalAdvance(shape)


def width_of(text: str, px: int, bold: bool = False, narrow: bool = False) -> int:
    """Width of a text in pixels. Figures are all as wide as 0, so a running countdown is measured once."""
    return _width(DIGIT.sub("0", text), px, bold, narrow)


@dataclass(frozen=True, slots=True)
class Fit:
    """How a text fits: its font size, whether it is set narrow, and how many of its letters are shown."""

    px: int
    narrow: bool
    letters: int
    cut: bool

    def of(self, text: str) -> str:
        """What is shown of it."""
        return text[: self.letters].rstrip(" ·,") + "…" if self.cut else text


@lru_cache(maxsize=4096)
def _fit(shape: str, room: int, px: int, bold: bool, least: int) -> Fit:
    """First a little smaller, then narrow, then smaller still, and only then cut."""
    mild = max(least, int(px * 0.9))
    steps = [(size, False) for size in range(px, mild - 1, -1)] + [(size, True) for size in range(mild, least - 1, -1)]
    for size, narrow in steps:
        if _width(shape, size, bold, narrow) <= room:
            return Fit(size, narrow, len(shape), cut=False)
    kept = len(metrics(least, bold, True).elidedText(shape, Qt.TextElideMode.ElideRight, room)) - 1
    return Fit(least, True, max(0, kept), cut=True)


def fitted(text: str, room: int, px: int, bold: bool = False, least: int = 6) -> Fit:
    """How a text fits into `room` pixels with a font of `px` pixels that may shrink to `least`."""
    return _fit(DIGIT.sub("0", text), room, px, bold, min(px, least))


def draw(
    painter: QPainter,
    box: QRect,
    text: str,
    px: int,
    *,
    bold: bool = False,
    align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
    least_share: float = LEAST_SHARE,
) -> int:
    """Draw one line in `box`, centred in height; shrink or elide as need be. Returns the width that was used."""
    if not text or box.width() <= 0:
        return 0
    fit = fitted(text, box.width(), px, bold, int(px * least_share))
    shown = fit.of(text)
    painter.setFont(font(fit.px, bold, fit.narrow))
    painter.drawText(box, align | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine, shown)
    return min(box.width(), width_of(shown, fit.px, bold, fit.narrow))


def parted(text: str, room: int, px: int, share: float = 0.85) -> tuple[str, str]:
    """A line of parts ('Roast · oven · core 68 °C') and what of its end has to go elsewhere to leave it legible."""
    parts = text.split(" · ")
    kept = len(parts)
    while kept > 1 and fitted(" · ".join(parts[:kept]), room, px, least=int(px * share)).cut:
        kept -= 1
    return " · ".join(parts[:kept]), " · ".join(parts[kept:])


@lru_cache(maxsize=1024)
def in_two(text: str, room: int, px: int, bold: bool) -> tuple[str, ...]:
    """A text on one line where it fits, else on two, parted where the longer half is shortest."""
    words = text.split()
    if len(words) < 2 or width_of(text, px, bold) <= room:
        return (text,)
    halves = [(" ".join(words[:i]), " ".join(words[i:])) for i in range(1, len(words))]
    return min(halves, key=lambda pair: max(width_of(half, px, bold) for half in pair))


@lru_cache(maxsize=1024)
def wrapped(text: str, room: tuple[int, int], px: tuple[int, int], bold: bool = False) -> tuple[str, ...]:
    """A text on as few lines as let its letters be as large as they can be in a room of that width and height.

    `px`: the least and the most they may be. Where it does not even fit at the least, the last line runs over and is
    cut by whoever draws it.
    """
    (wide, high), (least, most) = room, px
    for size in range(most, least, -1):
        rows = _broken(text, wide, size, bold)
        if len(rows) * size * LINE_SHARE <= high:
            return rows
    rows, fit = _broken(text, wide, least, bold), max(1, int(high / (least * LINE_SHARE)))
    return rows if len(rows) <= fit else (*rows[: fit - 1], " ".join(rows[fit - 1 :]))


def _broken(text: str, room: int, px: int, bold: bool) -> tuple[str, ...]:
    """Lines no wider than `room`, broken between words."""
    rows: list[str] = []
    for word in text.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and width_of(longer, px, bold) <= room:
            rows[-1] = longer
        else:
            rows.append(word)
    return tuple(rows)
