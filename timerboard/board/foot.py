"""The bottom line: keys that are buttons too, the last act, whether it is saved, and whether it can be heard."""

from collections.abc import Callable

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QWidget

from timerboard.core.view_values import Foot

from .letters import draw, width_of
from .look import DARK, Palette
from .measure import Sizes
from .plate import USUAL_SIZES, WordButton, paint_fill

NOTHING = Foot("", "", "", True, "", True)
RIGHT = Qt.AlignmentFlag.AlignRight

KEYS: tuple[tuple[str, str], ...] = (
    ("R", "reading"),
    ("T", "timer"),
    ("Z", "undo"),
    ("H", "heard"),
    ("?", "keys"),
    ("P", "put off"),
    ("O", "pass over"),
    ("M", "move eating"),
    ("D", "drop a dish"),
    ("A", "add a dish"),
    ("L", "light"),
    ("F", "full screen"),
    ("W", "who answers"),
    ("K", "kitchen"),
    ("V", "voice"),
    ("S", "sound test"),
    ("+", "louder"),
    ("-", "quieter"),
    ("E", "end the meal"),
    ("B", "fire"),
)
"""Key and word, most used first: what does not fit into the line is under '?'."""
ALWAYS = 5
FIRE = "B"


class FootLine(QFrame):
    """Paints a Foot; `pressed` is called with the letter of a button."""

    def __init__(
        self, pressed: Callable[[str], object], page: Callable[[], None], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.foot = NOTHING
        self.hushed = ""
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.pager = WordButton("", "PgDn", self)
        self.pager.clicked.connect(page)
        self.pager.hide()
        self.buttons = tuple(WordButton(word, key, self) for key, word in KEYS)
        for button in self.buttons:
            button.clicked.connect(lambda _=False, key=button.key: pressed(key.lower()))

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        for button in (*self.buttons, self.pager):
            button.dress(palette, sizes)
        self._lay_out()
        self.update()

    def show_foot(self, foot: Foot, hushed: str) -> None:
        """Take new values."""
        if (foot, hushed) == (self.foot, self.hushed):
            return
        words_only = foot.last == self.foot.last and bool(hushed) == bool(self.hushed)
        lit = foot.hot_oil != self.foot.hot_oil
        self.foot, self.hushed = foot, hushed
        if lit:
            self._lay_out()
        self.setAccessibleName(", ".join(w for w in (foot.keys, foot.last, foot.saved, foot.sound, hushed) if w))
        self.update(self._state_box() if words_only else self.rect())

    def show_hidden(self, above: int, below: int) -> None:
        """Say how many strips are out of sight, on a button that scrolls to them."""
        words = [f"{above} above"] * bool(above) + [f"{below} below"] * bool(below)
        text = f"{'▼' if below else '▲'} {', '.join(words)}"
        if text == self.pager.text() and self.pager.isHidden() != bool(words):
            return
        self.pager.setText(text)
        self.pager.setAccessibleName(f"Strips out of sight: {', '.join(words)}. Scroll, key Page Down")
        self.pager.setVisible(bool(words))
        self._lay_out()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        """Buttons from the left while they fit; the first five always do, if need be narrower. While fat is hot, so
        does the sixth: what to do when it burns.
        """
        size = self.sizes
        room = self.width() - self._state_width() - size.pad * 3 - self._lay_pager()
        buttons, always = self._in_order(), ALWAYS + self.foot.hot_oil
        wanted = sum(button.wanted_width() + size.gap for button in buttons[:always])
        narrow = max(size.target, (room - size.gap * (always - 1)) // always) if wanted > room else 0
        x, full = size.pad, False
        for i, button in enumerate(buttons):
            wide = narrow or button.wanted_width()
            button.stacked = bool(narrow)
            full = full or (i >= always and x + wide > room)
            button.setVisible(not full)
            if not full:
                button.setGeometry(x, size.pad // 2, wide, self.height() - size.pad)
                x += wide + size.gap
        self._right_of_buttons = x if self.pager.isHidden() else self.pager.geometry().right() + size.pad

    def _in_order(self) -> list[WordButton]:
        """The most used first; none of these moves when fat gets hot."""
        at = ALWAYS if self.foot.hot_oil else len(self.buttons)
        rest = [button for button in self.buttons if button.key != FIRE]
        fire = [button for button in self.buttons if button.key == FIRE]
        return [*rest[:at], *fire, *rest[at:]]

    def _lay_pager(self) -> int:
        """Put the button for hidden strips beside the state; returns the room it takes."""
        if self.pager.isHidden():
            return 0
        self.pager.key = "PgDn" if self.width() > self.sizes.text * 55 else ""
        wide = self.pager.wanted_width()
        left = self.width() - self._state_width() - self.sizes.pad * 2 - wide
        self.pager.setGeometry(left, self.sizes.pad // 2, wide, self.height() - self.sizes.pad)
        return wide + self.sizes.gap

    def _state_width(self) -> int:
        return max(self.sizes.text * 11, self.width() // 5)

    def _state_box(self) -> QRect:
        wide = self._state_width()
        return QRect(self.width() - wide - self.sizes.pad, 0, wide, self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Last act above; saved and sound below, as blocks when something is wrong."""
        painter, size, colours, foot = QPainter(self), self.sizes, self.palette_, self.foot
        painter.fillRect(event.rect(), QColor(colours.bar))
        box = self._state_box()
        half = box.height() // 2
        painter.setPen(QColor(colours.quiet))
        upper = QRect(self._right_of_buttons, 2, box.right() - self._right_of_buttons, half - 2)
        draw(painter, upper, foot.last, size.text * 9 // 10, align=RIGHT)
        right = box.right()
        sound = foot.sound if foot.sound_ok else ""  # what is lost has a line of its own, far louder
        saved = foot.saved if foot.saved_ok else ""
        for words, ok in ((self.hushed or sound, not self.hushed), (saved, True)):
            right = self._state(painter, words, ok, right, QRect(box.left(), half, box.width(), half - 2))

    def _state(self, painter: QPainter, words: str, ok: bool, right: int, row: QRect) -> int:
        """One word of state, right-aligned at `right`; returns where the next one ends."""
        if not words:
            return right
        size, colours = self.sizes, self.palette_
        px = size.text * 9 // 10
        wide = min(width_of(words, px) + size.pad, row.width() * 2 // 3, right - row.left())
        box = QRect(right - wide, row.top(), wide, row.height())
        fill = colours.due
        if not ok:
            paint_fill(painter, box, fill)
        painter.setPen(QColor(colours.quiet if ok else fill.ink))
        draw(painter, box.adjusted(0 if ok else 4, 0, 0 if ok else -4, 0), words, px, align=RIGHT, least_share=0.6)
        return right - wide - size.pad
