"""What a screen reader hears: new alarms are announced, and nobody's focus is taken (WCAG 2.2, SC 4.1.3)."""

from collections.abc import Callable, Iterable
from itertools import pairwise

from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

from timerboard.core.alarm_values import Rank
from timerboard.core.view_values import BoardView, HandsItem

Say = Callable[[str, bool], None]


def announce(widget: QWidget, words: str, assertive: bool) -> None:
    """Tell assistive technology, at once (`assertive`) or when it has finished its sentence."""
    event = QAccessibleAnnouncementEvent(widget, words)
    kind = QAccessible.AnnouncementPoliteness
    event.setPoliteness(kind.Assertive if assertive else kind.Polite)
    QAccessible.updateAccessibility(event)


def spoken(item: HandsItem) -> str:
    """The whole of a hands item for the ear."""
    return item.said or f"{item.line}, {item.detail}. Key {item.digit}: {item.answer_word}"


class Announcer:
    """Says what is new in each view once; danger breaks in, the rest waits its turn.

    First danger, then what was just done (it answers whoever pressed a key), then jobs for hands and notices.
    """

    def __init__(self, say: Say) -> None:
        self._say = say
        self._known: frozenset[tuple[str, Rank]] = frozenset()
        self._last: str | None = None

    def show_view(self, view: BoardView) -> None:
        """Compare with what was there before and say what came, or rose in rank."""
        hands = {(item.key, item.rank): spoken(item) for item in view.hands if not item.muted}
        notes = {(note.key, note.rank): note.text for note in view.notices}
        every = hands | notes
        came = sorted((mark for mark in every if mark not in self._known), key=lambda mark: -mark[1])
        done = [view.foot.last] if self._last is not None and view.foot.last not in ("", self._last) else []
        for mark in came:
            if mark[1] is Rank.DANGER:
                self._say(every[mark], True)
        for words in (*done, *(every[mark] for mark in came if mark[1] is not Rank.DANGER)):
            self._say(words, False)
        self._known, self._last = frozenset(every), view.foot.last


def chain_focus(widgets: Iterable[QWidget]) -> None:
    """Tab goes through the widgets in this order."""
    for one, other in pairwise(widgets):
        QWidget.setTabOrder(one, other)
