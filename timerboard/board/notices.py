"""Lines that stay until they are answered: a new plan, a refusal with its question, sound or saving lost."""

from collections.abc import Callable

from PySide6.QtCore import QRect
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QWidget

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import Command
from timerboard.core.view_values import Notice

from .letters import draw, width_of, wrapped
from .look import DARK, Palette
from .measure import Sizes
from .plate import USUAL_SIZES, WordButton

LEAST = 0.55  # how far the words of a message may shrink before they are cut
MARKS = {Rank.DANGER: "▲", Rank.DUE: "■", Rank.SOON: "◆", Rank.NOTE: "●"}


Send = Callable[[Command], object]


ASKED = "refusal"
"""The key of what the window itself has to ask about the last act."""


class NoticeLine(QFrame):
    """One notice, with its two answers. `send` gets the command, `leave` the key when there is none to send."""

    def __init__(self, send: Send, leave: Callable[[str], None], parent: QWidget) -> None:
        super().__init__(parent)
        self.notice = Notice("", "", Rank.NOTE)
        self.first = False
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.take = WordButton("", parent=self)
        self.leave = WordButton("", parent=self)
        self.again = WordButton("", parent=self)
        self.behind = ""
        self._send, self._leave = send, leave
        self.take.clicked.connect(self.taken)
        self.leave.clicked.connect(self.left)
        self.again.clicked.connect(self.asked_again)

    def show_notice(self, notice: Notice, first: bool, palette: Palette, sizes: Sizes, behind: int = 0) -> None:
        """Take a new value; the first line answers to Y and N. `behind`: how many more wait until this one is gone."""
        self.behind = f"{behind} more" if behind else ""
        self.notice, self.first, self.palette_, self.sizes = notice, first, palette, sizes
        answers = ((self.take, notice.take_word, "Y"), (self.leave, notice.leave_word, "N"))
        for button, word, key in (*answers, (self.again, notice.again_word, "")):
            button.dress(palette, sizes)
            button.key = key if first else ""
            button.setText(word)
            button.setAccessibleName(f"{word}: {notice.text}" if word else "")
        self.take.setVisible(notice.take is not None)
        self.leave.setVisible(bool(notice.leave_word))
        self.again.setVisible(notice.again is not None)
        self.setAccessibleName(f"{notice.text}. {self.behind} behind this" if behind else notice.text)
        self._lay_out()
        self.update()

    def taken(self) -> None:
        """Yes. What was answered is sent, though the next notice has come up on this line by then."""
        notice = self.notice
        if notice.take is not None:
            self._leave(notice.key)
            self._send(notice.take)

    def left(self) -> None:
        """No, to this notice and to no other."""
        notice = self.notice
        self._leave(notice.key)
        if notice.leave is not None:
            self._send(notice.leave)

    def asked_again(self) -> None:
        """The third answer: the question stands."""
        if self.notice.again is not None:
            self._send(self.notice.again)

    def high(self) -> int:
        """Height: a target when there is something to tap."""
        taps = self.notice.take is not None or self.notice.leave_word
        return self.sizes.target + 8 if taps else int(self.sizes.text * 1.7)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        right = self.width() - self.sizes.pad
        for button in (self.again, self.leave, self.take):
            if not button.isHidden():
                wide = button.wanted_width()
                button.setGeometry(right - wide, 4, wide, self.height() - 8)
                right -= wide + self.sizes.gap
        wide = width_of(self.behind, self.sizes.text * 4 // 5, True) + self.sizes.gap if self.behind else 0
        self._count = QRect(right - wide, 0, wide, self.height())
        self._words = QRect(self.sizes.pad, 0, right - wide - self.sizes.pad, self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """A mark by rank, then the words on one line or two."""
        painter, notice, size = QPainter(self), self.notice, self.sizes
        fill = self.palette_.of_rank(notice.rank)
        painter.fillRect(self.rect(), QColor(fill.ground))
        painter.fillRect(QRect(0, 0, self.width(), 2), QColor(fill.edge))
        painter.fillRect(QRect(0, self.height() - 2, self.width(), 2), QColor(fill.edge))
        painter.setPen(QColor(fill.ink))
        box = QRect(self._words)
        used = draw(painter, box, MARKS[notice.rank], size.text, bold=True)
        box.setLeft(box.left() + used + size.pad)
        loud = notice.rank is Rank.DANGER
        px = int(size.text * (1.25 if loud else 1.0))
        draw(painter, self._count, self.behind, size.text * 4 // 5, bold=True)
        lines = wrapped(notice.text, (box.width(), box.height()), (int(px * LEAST), px), loud)
        high = box.height() // len(lines)
        for row, line in enumerate(lines):
            cell = QRect(box.left(), row * high, box.width(), high)
            draw(painter, cell, line, min(px, int(high * 0.84)), bold=loud, least_share=LEAST)


def _asks(notice: Notice) -> bool:
    return notice.key == ASKED and notice.take is not None


class Notices(QFrame):
    """The first few notices, most pressing first. `grown` is called when their height changes."""

    def __init__(self, send: Send, leave: Callable[[str], None], grown: Callable[[], None]) -> None:
        super().__init__()
        self._send, self._leave, self._grown = send, leave, grown
        self.lines: list[NoticeLine] = []
        self.notices: tuple[Notice, ...] = ()
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.most = 3
        self.setAccessibleName("Messages")

    def dress(self, palette: Palette, sizes: Sizes, most: int) -> None:
        """Change colours, lengths, and how many lines there is room for."""
        self.palette_, self.sizes, self.most = palette, sizes, most
        self._fill()

    def show_notices(self, notices: tuple[Notice, ...]) -> None:
        """Take new values."""
        ranked = tuple(sorted(notices, key=lambda notice: -notice.rank))
        if ranked != self.notices:
            self.notices = ranked
            self._fill()

    def _fill(self) -> None:
        before = self.high()
        shown = self._shown()
        behind = len(self.notices) - len(shown)
        while len(self.lines) < len(shown):
            self.lines.append(NoticeLine(self._send, self._leave, self))
        asked = next((n.key for n in shown if _asks(n)), None)  # whoever has just acted answers that
        answerable = asked or next((n.key for n in shown if n.take or n.leave_word), None)
        for line, notice in zip(self.lines, shown, strict=False):
            last = notice is shown[-1]
            line.show_notice(notice, notice.key == answerable, self.palette_, self.sizes, behind if last else 0)
            line.setVisible(True)
        for line in self.lines[len(shown) :]:
            line.setVisible(False)
        self._lay_out()
        if self.high() != before:
            self._grown()

    def _shown(self) -> list[Notice]:
        """As many as there is room for, all danger and what is asked; the last line says how many more wait."""
        dangers = sum(notice.rank is Rank.DANGER for notice in self.notices)
        shown = self.notices[: max(self.most, dangers)]
        asked = [n for n in self.notices if _asks(n) and n not in shown]
        return [*shown[: max(dangers, self.most - len(asked))], *asked]

    def high(self) -> int:
        """Height of all lines."""
        return sum(line.high() for line in self.lines if not line.isHidden())

    def first(self) -> NoticeLine | None:
        """The line that answers to Y and N."""
        return next((line for line in self.lines if line.first and not line.isHidden()), None)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        top = 0
        for line in self.lines:
            if not line.isHidden():
                line.setGeometry(0, top, self.width(), line.high())
                top += line.high()
