"""What hands should do now and next: one card a job, with the digit that answers it and the word for what that does."""

from collections.abc import Callable

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QWidget

from timerboard.core.alarm_values import Rank
from timerboard.core.view_values import HandsItem
from timerboard.core.words import upper_first

from .accessible import spoken
from .letters import DIGIT, LEAST_SHARE, draw, fitted, in_two, width_of, wrapped
from .look import DARK, Fill, Palette
from .measure import Sizes
from .plate import USUAL_SIZES, Plate, WordButton, paint_fill

CENTRE = Qt.AlignmentFlag.AlignHCenter
NARROW_EMS = 10  # a card keeps this width before a button is put beside it
ROW_EMS = 12  # a second row is begun before cards get narrower than this
MOST_CARDS = 5
NOTHING_TO_DO = "Nothing for hands now"
DETAIL_SHARE = 0.66
LOW_SHARE = 0.5  # how far the words of a low card may shrink before they are cut


def fill_of(item: HandsItem, palette: Palette) -> Fill:
    """Colour only for what still calls."""
    return palette.calm if item.muted else palette.of_rank(item.rank)


def can_wait(item: HandsItem) -> bool:
    """True for what comes next and for what somebody has heard."""
    return item.muted or item.rank is Rank.NOTE


def shorter(item: HandsItem, room: int, px: int) -> str:
    """The line; without its first word where that would make it small and the tab says it anyway ('Start: ...')."""
    first = f"{item.answer_word.capitalize()}: "
    if not item.line.startswith(first) or width_of(item.line, px, True) <= room:
        return item.line
    return upper_first(item.line.removeprefix(first))


class HandsCard(Plate):
    """One job. Tapping it answers; what else can be said to it is under the button beside it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.item: HandsItem | None = None

    def show_item(self, item: HandsItem) -> None:
        """Take a new value."""
        if item == self.item:
            return
        quiet = self.item is not None and self.item.key == item.key and self.hasFocus()
        self.item = item
        if not quiet:
            self.setAccessibleName(spoken(item))
        self.update()

    def natural_width(self) -> int:
        """Room for its words, in steps, so that a counting detail does not move its neighbours."""
        if self.item is None:
            return 0
        size = self.sizes
        line = width_of(self.item.line, size.text * 6 // 5, True)
        detail = width_of(DIGIT.sub("0", self.item.detail), size.text)
        step = size.text * 2
        return (self.tab_width() + max(line, detail) + size.pad * 3 + step - 1) // step * step

    def tab_width(self) -> int:
        """Width of the tab with the digit."""
        return self.sizes.text * 2

    def paintEvent(self, event: QPaintEvent) -> None:
        """Tab, line and detail."""
        if self.item is None:
            return
        painter, fill = QPainter(self), fill_of(self.item, self.palette_)
        paint_fill(painter, self.rect(), fill, 4 if self.item.rank >= Rank.SOON and not self.item.muted else 2)
        self._paint_tab(painter, self.item, fill)
        painter.setPen(QColor(fill.ink))
        self._paint_words(painter, self.item)
        if self.isDown():
            painter.setPen(QPen(QColor(fill.ink), 4))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(self.rect().adjusted(4, 4, -4, -4), 5, 5)
        self.paint_ring(painter, self.rect())

    def _paint_tab(self, painter: QPainter, item: HandsItem, fill: Fill) -> None:
        size = self.sizes
        tab = QRect(5, 5, self.tab_width(), self.height() - 10)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(fill.ink))
        painter.drawRoundedRect(tab, 4, 4)
        painter.setPen(QColor(fill.ground))
        upper = QRect(tab.left(), tab.top(), tab.width(), tab.height() * 5 // 8)
        lower = QRect(tab.left() + 2, upper.bottom(), tab.width() - 4, tab.height() * 3 // 8)
        digit, word = min(size.text * 3 // 2, upper.height()), min(size.text * 7 // 8, lower.height())
        draw(painter, upper, str(item.digit), digit, bold=True, align=CENTRE)
        draw(painter, lower, item.answer_word, word, align=CENTRE, least_share=0.5)

    def _detail(self, mark: str, room: int, px: int) -> str:
        """The detail, without its first parts where it has no room: how long it has waited stays."""
        parts = self.item.detail.split(" · ") if self.item else [""]
        while len(parts) > 1 and fitted(mark + " · ".join(parts), room, px, least=int(px * DETAIL_SHARE)).cut:
            parts = parts[1:]
        return mark + " · ".join(parts)

    def _paint_low(self, painter: QPainter, item: HandsItem, box: QRect) -> None:
        """A low card: line and detail behind each other at full size where they fit, else both a little smaller."""
        text, half = self.sizes.text, box.height() // 2
        wide = width_of(item.line, text, True) + self.sizes.pad
        if wide + width_of(item.detail, text) <= box.width():
            draw(painter, box, item.line, text, bold=True)
            draw(painter, box.adjusted(wide, 0, 0, 0), item.detail, text)
            return
        px = min(self.sizes.text, int(half * 0.9))
        line = shorter(item, box.width(), px)
        if fitted(line, box.width(), px, True, int(px * LEAST_SHARE)).cut:
            self._paint_running_on(painter, line, box)
            return
        draw(painter, QRect(box.left(), box.top(), box.width(), half), line, px, bold=True)
        cell = QRect(box.left(), box.top() + half, box.width(), half)
        draw(painter, cell, self._detail("", box.width(), px), px, least_share=DETAIL_SHARE)

    def running_on(self, line: str, room: tuple[int, int]) -> tuple[str, ...]:
        """A line too long for half a low card: over its whole height, and when it is wanted right behind it."""
        text = self.sizes.text
        when = self._detail("", room[0] // 2, text)
        return wrapped(f"{line} · {when}" if when else line, room, (int(text * LOW_SHARE), text), True)

    def _paint_running_on(self, painter: QPainter, line: str, box: QRect) -> None:
        rows = self.running_on(line, (box.width(), box.height()))
        high = box.height() // len(rows)
        for at, row in enumerate(rows):
            cell = QRect(box.left(), box.top() + at * high, box.width(), high)
            draw(painter, cell, row, min(self.sizes.text, int(high * 0.84)), bold=True, least_share=LOW_SHARE)

    def _paint_words(self, painter: QPainter, item: HandsItem) -> None:
        """The line large; when it cannot be large on one line, smaller on two."""
        size = self.sizes
        left = self.tab_width() + 5 + size.pad
        box = QRect(left, 3, self.width() - left - size.pad, self.height() - 6)
        if self.height() < size.hands:
            self._paint_low(painter, item, box)
            return
        large = size.text * 6 // 5
        whole = not fitted(item.line, box.width(), large, True, int(large * 0.72)).cut
        lines = (item.line,) if whole else in_two(item.line, box.width(), int(large * 0.72), True)
        rows = len(lines) + 1
        high = box.height() // rows
        for row, line in enumerate(lines):
            cell = QRect(box.left(), box.top() + row * high, box.width(), high)
            draw(painter, cell, line, min(large, int(high * 0.82)), bold=True)
        cell = QRect(box.left(), box.top() + (rows - 1) * high, box.width(), high)
        mark = "▲ " if item.rank is Rank.DANGER else ""
        px = min(size.text, int(high * 0.82))
        draw(painter, cell, self._detail(mark, cell.width(), px), px, least_share=DETAIL_SHARE)


class HandsLine(QFrame):
    """Up to five cards. `answer`, `not_yet` and `more` are called with the item that was tapped."""

    def __init__(
        self,
        answer: Callable[[HandsItem], None],
        not_yet: Callable[[HandsItem], None],
        more: Callable[[HandsItem], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.items: tuple[HandsItem, ...] = ()
        self.waiting = ""
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.cards = tuple(HandsCard(self) for _ in range(MOST_CARDS))
        self.later = tuple(WordButton("not yet", parent=self) for _ in range(MOST_CARDS))
        self.mores = tuple(WordButton("⋯", parent=self) for _ in range(MOST_CARDS))
        for i in range(MOST_CARDS):
            for plate in (self.cards[i], self.later[i], self.mores[i]):
                plate.raise_()  # the order of children is the order in which a screen reader goes through them
            self.cards[i].clicked.connect(lambda _=False, i=i: answer(self.items[i]))
            self.later[i].clicked.connect(lambda _=False, i=i: not_yet(self.items[i]))
            self.mores[i].clicked.connect(lambda _=False, i=i: more(self.items[i]))

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        for plate in (*self.cards, *self.later, *self.mores):
            plate.dress(palette, sizes)
        self.lay_out()
        self.update()

    def show_items(self, items: tuple[HandsItem, ...], waiting: str) -> None:
        """Take new values; the view keeps to five."""
        if (items, waiting) == (self.items, self.waiting):
            return
        self.items, self.waiting = items[:MOST_CARDS], waiting
        self.setAccessibleName(f"For hands now and next {waiting}".strip() if items else NOTHING_TO_DO)
        for card, item in zip(self.cards, self.items, strict=False):
            card.show_item(item)
        for item, later, more in zip(self.items, self.later, self.mores, strict=False):
            later.setAccessibleName(f"Not yet: {item.line}, key Shift {item.digit}")
            more.setAccessibleName(f"More for: {item.line}")
        self.lay_out()
        self.update()

    def rows(self, width: int) -> list[tuple[list[int], int]]:
        """Cards of each row and its height. What can wait goes into a second, lower row where one is too narrow."""
        every = list(range(len(self.items)))
        usual = self.sizes.text * ROW_EMS + self.sizes.gap
        if len(every) * usual + self.waiting_width() <= width:
            return [(every, self.sizes.hands)]
        calling = [i for i in every if not can_wait(self.items[i])]
        first = len(calling) if calling and len(calling) * usual <= width and len(calling) < len(every) else 0
        first = first or (len(every) + 1) // 2
        return [(row, self._row_height(row)) for row in (every[:first], every[first:])]

    def _row_height(self, row: list[int]) -> int:
        return self.sizes.target if all(can_wait(self.items[i]) for i in row) else self.sizes.hands

    def height_for(self, width: int) -> int:
        """Height for all rows."""
        return sum(high + self.sizes.pad for _, high in self.rows(width)) + self.sizes.pad

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width, other cards."""
        super().resizeEvent(event)
        self.lay_out()

    def lay_out(self) -> None:
        """Give every card its box; hide those without a job."""
        for i in range(MOST_CARDS):
            for plate in (self.cards[i], self.later[i], self.mores[i]):
                plate.setVisible(i < len(self.items) and plate is self.cards[i])
        if not self.items:
            return
        top, rows = self.sizes.pad, self.rows(self.width())
        for row, high in rows:
            self._lay_row(row, QRect(0, top, self.width() - (self.waiting_width() if row is rows[-1][0] else 0), high))
            top += high + self.sizes.pad

    def waiting_width(self) -> int:
        """Room for 'and 4 more' at the right end."""
        return width_of(self.waiting, self.sizes.text, True) + self.sizes.pad * 2 if self.waiting else 0

    def _lay_row(self, span: list[int], box: QRect) -> None:
        if not span:
            return
        size = self.sizes
        room = box.width() - size.pad * 2 - size.gap * (len(span) - 1)
        tab = self.cards[0].tab_width() + size.pad
        naturals = [max(1, self.cards[i].natural_width() - tab) for i in span]
        beside = [self._beside(i, room // len(span)) for i in span]
        spare = room - sum(sum(wide + size.gap for _, wide in plates) for plates in beside)
        x = size.pad
        for i, natural, plates in zip(span, naturals, beside, strict=True):
            wide = min(tab + (spare - tab * len(span)) * natural // max(1, sum(naturals)), tab + natural * 3 // 2)
            for plate, across in ((self.cards[i], wide), *plates):
                plate.setGeometry(x, box.top(), across, box.height())
                plate.setVisible(True)
                x += across + size.gap

    def _beside(self, i: int, slot: int) -> list[tuple[Plate, int]]:
        """The buttons beside a card and their widths: 'not yet' first; all else is also under P, O and H."""
        item, size = self.items[i], self.sizes
        more, later = max(size.target, size.text * 2), max(size.target, size.text * 3)
        left = slot - size.text * NARROW_EMS
        plates: list[tuple[Plate, int]] = []
        if item.not_yet and left >= later + size.gap:
            plates.append((self.later[i], later))
            left -= later + size.gap
        told = any((item.put_off, item.pass_over, item.heard))
        if (told and left >= more + size.gap) or (item.not_yet and not plates):
            plates.append((self.mores[i], more))
        return plates

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ground, and the words for what is not shown or that nothing is to do."""
        painter, size = QPainter(self), self.sizes
        painter.fillRect(event.rect(), QColor(self.palette_.bar))
        if not self.items:
            painter.setPen(QColor(self.palette_.quiet))
            draw(painter, self.rect().adjusted(size.pad * 2, 0, 0, 0), NOTHING_TO_DO, size.text * 6 // 5)
        painter.setPen(QColor(self.palette_.ink))
        high = self.rows(self.width())[-1][1] + size.pad * 2
        box = QRect(self.width() - self.waiting_width(), self.height() - high, self.waiting_width(), high)
        draw(painter, box, self.waiting, size.text, bold=True)
