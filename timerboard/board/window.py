"""The one window of the board: it paints a BoardView and sends Commands. It decides nothing and counts nothing."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QEvent, QRect, Qt
from PySide6.QtGui import QCloseEvent, QColor, QGuiApplication, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from timerboard.core.alarm_values import Rank
from timerboard.core.board_words import Units
from timerboard.core.commands import Command
from timerboard.core.menu import Dish
from timerboard.core.values import Moment
from timerboard.core.view_values import BoardView, HandsItem, Notice

from . import look
from .accessible import Announcer, announce, chain_focus
from .bay import Bay
from .drawer import Drawer
from .entry import Asked, Entry
from .foot import FootLine
from .hands_line import HandsLine
from .head import HeadLine
from .keys import stroke_of
from .letters import cap_of_em
from .measure import Sizes, screen_px_per_mm, sizes
from .notices import Notices
from .replies import Replies
from .ticker import Ticker

BORDER_MM = 2.0
TOLD_FOR, REFUSED_FOR = 10_000, 60_000
"""How long, in ms, what asks nothing stays: words on a key that does nothing, and that an act was not done."""


class Refused(Protocol):
    """What `send` returns when a command is refused (the desk's Refusal): words, and what to ask instead."""

    @property
    def said(self) -> str:
        """Why, for the cook."""

    @property
    def ask(self) -> Command | None:
        """The command to send when the cook says yes."""


class Doubt(Protocol):
    """A civil time that does not exist or exists twice."""

    @property
    def said(self) -> str:
        """What is doubtful."""

    @property
    def choices(self) -> tuple[tuple[str, int], ...]:
        """Words and moments to choose from."""


Send = Callable[[Command], Refused | None]
When = Callable[[str], Moment | Doubt]


class BoardWindow(QMainWindow):
    """Build it with `send`, show it, and give it a view every second and after every change.

    A QMainWindow only because that is what assistive technology knows as a window; it lays its parts out itself.

    send:   takes a Command, returns None when it was done, else a refusal; called on the window's thread.
    theme:  "dark", "light" or "contrast"; None follows the system. L goes round them.
    units:  "C" or "F", in which a bare number of a reading is meant: the menu's.
    when:   reads a time to eat as the cook wrote it ("18:45") into a Moment, or a Doubt with choices; raises
            ValueError with words. Without it only shifts such as '+10' are taken.
    closed: asked when the window is closed; False keeps it open.
    late:   reads a line that tells of a late dish ('rolls, 12 min, oven 200 C'); raises ValueError with words.
    painted: told when what was shown is on the screen.
    """

    def __init__(
        self,
        send: Send,
        *,
        theme: str | None = None,
        units: Units = "C",
        when: When | None = None,
        closed: Callable[[], bool] | None = None,
        painted: Callable[[], None] | None = None,
        late: Callable[[str], Dish] | None = None,
    ) -> None:
        super().__init__()
        self._send, self._closed, self._painted = send, closed, painted
        self.units, self.when, self.late = units, when, late
        self.view: BoardView | None = None
        self._refusal: Notice | None = None
        self._told_at: Moment = 0
        self._calling: set[tuple[str, Rank]] = set()
        self._flash = False
        self._dressed: tuple[look.Palette, Sizes] | None = None
        self.follows_system = theme is None
        self.palette_ = look.palette_named(theme) if theme else look.system_palette()
        self.replies = Replies(self)
        self._build()
        self.announcer = Announcer(lambda words, assertive: announce(self, words, assertive))
        self.ticker = Ticker(self._beat, self)
        self.setWindowTitle("timerboard")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(480, 300)
        self.resize(1366, 768)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._system_changed)

    def _build(self) -> None:
        replies = self.replies
        self.head = HeadLine(self)
        self.hands = HandsLine(replies.answer, replies.not_yet, replies.more, self)
        self.notices = Notices(self.send, self._leave, self._notices_grew)
        self.notices.setParent(self)
        self.foot = FootLine(replies.press, self._page_down, self)
        self.bay = Bay(replies.open_strip, self.foot.show_hidden, self)
        self.bay.axis_bar.setParent(self)
        self.entry = Entry(replies.entered, self.lay_out, self)
        self.drawer = Drawer(self)
        top_down = (self.head, self.hands, self.notices, self.bay.axis_bar, self.bay, self.foot)
        for part in (*top_down, self.drawer, self.entry):  # a screen reader goes through them in this order
            part.raise_()

    def _notices_grew(self) -> None:
        self.lay_out()
        self._chain()

    def _page_down(self) -> None:
        self.bay.page_down()

    # what comes in

    def show_view(self, view: BoardView) -> None:
        """Paint a view; only what differs from the one before is touched."""
        if view == self.view:
            return
        old, self.view = self.view, view
        self._forget_told(view.axis.now)
        self.head.show_head(view.head)
        self.hands.show_items(view.hands, view.waiting)
        if self.hands.height() != self.hands.height_for(self.hands.width()):
            self.lay_out()
        self.bay.axis_bar.show_places(view.head.places)
        reordered = self.bay.show_strips(view.strips, view.axis, view.hands)
        self.foot.show_foot(view.foot, view.hushed)
        self.replies.refresh()
        self._show_notices()
        self.ticker.run(view.danger)
        self.announcer.show_view(view)
        self._call_attention(view)
        if old is None or view.head.title != old.head.title:
            self.setWindowTitle(f"{view.head.title} - timerboard" if view.head.title else "timerboard")
        if reordered or old is None or len(old.hands) != len(view.hands):
            self._chain()

    def _call_attention(self, view: BoardView) -> None:
        """For each new call the desktop is asked to point at this window, until somebody comes to it."""
        jobs = {(item.key, item.rank) for item in view.hands if item.rank >= Rank.DUE and not item.muted}
        calling = jobs | {(note.key, note.rank) for note in view.notices if note.rank is Rank.DANGER}
        if calling - self._calling:
            QApplication.alert(self, 0)
        self._calling = calling

    def send(self, command: Command) -> bool:
        """Send a command; a refusal is shown until it is answered or the next thing is done. True when it was done."""
        refused = self._send(command)
        self._refusal = None
        if refused is not None:
            self._told_at = self.view.axis.now if self.view else 0
            words = ("Yes, do it", "Leave it") if refused.ask else ("", "Seen")
            self._refusal = Notice("refusal", refused.said, Rank.DUE, refused.ask, words[0], None, words[1])
            announce(self, refused.said, True)
        self._show_notices()
        return refused is None

    def _forget_told(self, now: Moment) -> None:
        told = self._refusal
        if told is not None and told.take is None:
            stays = REFUSED_FOR if told.rank is Rank.DUE else TOLD_FOR
            self._refusal = None if now - self._told_at >= stays else told

    def asks(self) -> bool:
        """True while a refusal waits for a yes or no."""
        return self._refusal is not None and self._refusal.take is not None

    def tell(self, words: str) -> None:
        """Say something of the window's own until it was seen, or for as long as it takes to read it."""
        self._told_at = self.view.axis.now if self.view else 0
        self._refusal = Notice("refusal", words, Rank.NOTE, leave_word="Seen")
        announce(self, words, False)
        self._show_notices()

    def _leave(self, key: str) -> None:
        if key == "refusal":
            self._refusal = None
            self._show_notices()

    def _show_notices(self) -> None:
        """The view's notices, the last refusal, and anything that is lost, as loud as the screen can make it."""
        view = self.view
        if view is None:
            return
        foot, told = view.foot, {notice.key for notice in view.notices}
        lost = [
            Notice(f"lost {what}", words, Rank.DANGER)
            for what, words, ok in (("sound", foot.sound, foot.sound_ok), ("saved", foot.saved, foot.saved_ok))
            if not ok and words and f"lost {what}" not in told
        ]
        own = [self._refusal] if self._refusal else []
        self.notices.show_notices((*lost, *own, *view.notices))

    # how it looks

    def set_theme(self, palette: look.Palette) -> None:
        """Wear a palette from now on, whatever the system says."""
        self.follows_system, self.palette_ = False, palette
        self.lay_out()

    def _system_changed(self) -> None:
        if self.follows_system:
            self.palette_ = look.system_palette()
            self.lay_out()

    def _border(self) -> int:
        return max(4, int(BORDER_MM * screen_px_per_mm(self.screen())))

    def lay_out(self) -> None:
        """Measure the glass, dress every part, and stack the parts from the top."""
        size = sizes(self.width(), self.height(), screen_px_per_mm(self.screen()), cap_of_em())
        border = self._border()
        inner = self.rect().adjusted(border, border, -border, -border)
        if self._dressed != (self.palette_, size):  # a line that grows moves the rest and changes no letter of it
            self._dressed = (self.palette_, size)
            for dressed in (self.head, self.hands, self.bay, self.foot, self.entry, self.drawer):
                dressed.dress(self.palette_, size)
        self.notices.dress(self.palette_, size, 1 if inner.height() < size.text * 30 else 3)
        heights: list[tuple[QWidget, int]] = [
            (self.head, size.head),
            (self.hands, self.hands.height_for(inner.width())),
            (self.notices, self.notices.high()),
            (self.bay.axis_bar, size.axis),
        ]
        top = inner.top()
        for part, high in heights:
            part.setGeometry(inner.left(), top, inner.width(), high)
            top += high
        foot = QRect(inner.left(), inner.bottom() + 1 - size.foot, inner.width(), size.foot)
        self.foot.setGeometry(foot)
        bay = QRect(inner.left(), top, inner.width(), max(0, foot.top() - top))
        self.bay.setGeometry(bay)
        high = min(self.entry.height_for(inner.width()), foot.bottom() - inner.top())
        self.entry.setGeometry(inner.left(), foot.bottom() + 1 - high, inner.width(), high)
        self.entry.raise_()
        below_hands = QRect(inner.left(), self.notices.y(), inner.width(), foot.bottom() + 1 - self.notices.y())
        self.drawer.lay_out(bay.united(foot), below_hands)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size: measure again."""
        super().resizeEvent(event)
        self.lay_out()

    def event(self, event: QEvent) -> bool:
        """Another screen may have other pixels. A request to update is where the parts are painted and flushed."""
        if event.type() in (QEvent.Type.ScreenChangeInternal, QEvent.Type.DevicePixelRatioChange):
            self.lay_out()
        done = super().event(event)
        if self._painted is not None and event.type() == QEvent.Type.UpdateRequest:
            self._painted()
        return done

    def _beat(self, on: bool) -> None:
        """Danger: the border, never a word, goes on and off."""
        self._flash = on
        border = self._border()
        self.update(QRect(0, 0, self.width(), border))
        self.update(QRect(0, self.height() - border, self.width(), border))
        self.update(QRect(0, 0, border, self.height()))
        self.update(QRect(self.width() - border, 0, border, self.height()))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ground, which is the border when there is danger."""
        colour = self.palette_.danger.ground if self._flash else self.palette_.ground
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(colour))

    def _chain(self) -> None:
        """Tab goes from the most pressing job over the messages to the last strip, then to the foot."""
        line = self.hands
        jobs = [plate for three in zip(line.cards, line.later, line.mores, strict=True) for plate in three]
        strips = [self.bay.widgets[key] for key in self.bay.order]
        messages = [button for told in self.notices.lines for button in (told.take, told.leave, told.again)]
        chain_focus([*jobs, *messages, *strips, *self.foot.buttons, self.foot.pager])

    # what goes out

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Every key of the board, wherever the focus is, except while a line is being written."""
        if event.isAutoRepeat() and event.key() not in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp):
            return
        if event.key() == Qt.Key.Key_Escape:
            self.replies.escape()
        elif event.key() == Qt.Key.Key_F11:
            self.replies.press("f")
        elif event.key() == Qt.Key.Key_PageDown:
            self.bay.page_down()
        elif not self.replies.stroke(stroke_of(event), event.modifiers()):
            super().keyPressEvent(event)

    def ask_reading(self, subject: str) -> None:
        """Open the entry for a temperature of `subject`."""
        self.drawer.shut()
        self.entry.open(Asked.READING, subject)

    def first_notice(self, yes: bool) -> bool:
        """Answer the first notice; False when there is none."""
        line = self.notices.first()
        if line is None or (yes and line.notice.take is None):
            return False
        line.taken() if yes else line.left()
        return True

    def item_of(self, digit: int) -> HandsItem | None:
        """The job with that digit."""
        hands = self.view.hands if self.view else ()
        return next((item for item in hands if item.digit == digit), None)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close, unless whoever made the window says not now."""
        if self._closed is not None and not self._closed():
            event.ignore()
            return
        self.ticker.run(False)
        event.accept()
