"""Looks at the real board from outside: waits until its window shows, pixel by pixel, what its journal says.

Run as a program: `python -m tests.stories.seen JOURNAL X Y WIDTH HEIGHT SECONDS`. It folds the journal, paints the
cook of this very second in a window of its own that is on no screen, and compares the axis and all strips of it with
what the screen has at that place. Prints the strips as JSON once they agree; exit 1 when they do not in that time.
"""

import json
import sys
import time
from itertools import product
from pathlib import Path

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from sqlalchemy import select

from timerboard.board.window import BoardWindow
from timerboard.core.alarm_values import Rank
from timerboard.core.cook import Cook
from timerboard.core.events import BoardReturned, Event
from timerboard.core.fold import apply, fold
from timerboard.core.values import Moment
from timerboard.core.view import view
from timerboard.core.view_values import BoardView, Extras, Notice
from timerboard.desk.kitchen_time import glance, returned
from timerboard.shell.clock import SystemClock
from timerboard.shell.journal_tables import EVENTS, engine_to_read
from timerboard.shell.journal_text import event_of

BACK_MS = 2_500
"""The board paints once a second, and a busy machine may be late by one more."""

STEP_MS = 250
MOST_OTHERS = 3


def kept(journal: Path) -> tuple[Event, ...]:
    """Every event that is in the journal now."""
    with engine_to_read(journal).connect() as connection:
        bodies = connection.execute(select(EVENTS.c.body).order_by(EVENTS.c.seq)).scalars().all()
    return tuple(event_of(body) for body in bodies)


def shown(events: tuple[Event, ...], now: Moment, others: int = 0) -> BoardView:
    """What the board must show now. The order of strips is looked at after every event, as a board does.

    `others`: how many lines that no journal has (a screen that may go dark) take some of the strips' room.
    """
    cook: Cook = fold(events[:1])
    order: tuple[str, ...] = ()
    for event in events[1:]:
        cook = apply(cook, event)
        before = () if isinstance(event, BoardReturned) else order
        order = tuple(strip.key for strip in view(cook, event.at, Extras(order=before)).strips)
    lines = tuple(Notice(f"other {n}", "a line", Rank.NOTE, leave_word="ok") for n in range(others))
    return view(cook, now, Extras(order=order, saved="saved", notices=lines))


def moment_now(events: tuple[Event, ...]) -> Moment:
    """Now on the kitchen clock of that cook."""
    seen = glance(SystemClock())
    return returned(events, None, seen).time.moment(seen)


class Painter:
    """A board's window that no screen shows, as large as the real one."""

    def __init__(self, width: int, height: int) -> None:
        self.window = BoardWindow(lambda _command: None, theme="dark")
        self.window.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
        self.window.resize(width, height)
        self.window.show()

    def paint(self, board: BoardView) -> tuple[QRect, QImage]:
        """The picture of axis and strips, and where in the window they are."""
        self.window.show_view(board)
        bay, axis = self.window.bay.geometry(), self.window.bay.axis_bar.geometry()
        box = bay.united(axis)
        return box, _plain(self.window.grab(box).toImage())


def _plain(picture: QImage) -> QImage:
    return picture.convertToFormat(QImage.Format.Format_RGB32)


def agree(journal: Path, frame: QRect, within_s: float) -> BoardView | None:
    """The view that the screen shows, as soon as it does; None when it does not in that time."""
    app = QApplication.instance() or QApplication([])
    painter = Painter(frame.width(), frame.height())
    end = time.perf_counter() + within_s
    while time.perf_counter() < end:
        app.processEvents()
        events = kept(journal)
        now = moment_now(events)
        screen = _plain(app.primaryScreen().grabWindow(0).toImage())
        for others, back in product(range(MOST_OTHERS), range(0, BACK_MS, STEP_MS)):
            board = shown(events, now - back, others)
            box, wanted = painter.paint(board)
            if screen.copy(box.translated(frame.topLeft())) == wanted:
                return board
    screen.save(str(journal.with_suffix(".screen.png")))
    wanted.save(str(journal.with_suffix(".wanted.png")))
    return None


def main() -> int:
    """Look, and say what is seen."""
    x, y, width, height = (int(word) for word in sys.argv[2:6])
    board = agree(Path(sys.argv[1]), QRect(x, y, width, height), float(sys.argv[6]))
    if board is None:
        return 1
    strips = [[strip.name, strip.line, strip.countdown, strip.mark] for strip in board.strips]
    print(json.dumps({"strips": strips, "head": board.head.eat, "hands": [item.line for item in board.hands]}))
    return 0


if __name__ == "__main__":
    sys.exit(main())
