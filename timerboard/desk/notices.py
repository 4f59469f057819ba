"""What the desk itself has to tell: lines that stay until they are answered. A cook's own notes come from the view."""

from collections.abc import Iterable

from timerboard.core.alarm_values import Rank
from timerboard.core.civil import day_clock_words
from timerboard.core.commands import HearAlarm, MoveEating
from timerboard.core.cook import Cook
from timerboard.core.events import ClockStepped
from timerboard.core.values import Moment
from timerboard.core.view_values import Notice


class Notices:
    """A few lines by key, in the order they came. Leaving one takes it away."""

    def __init__(self) -> None:
        self._lines: dict[str, Notice] = {}

    def say(self, notice: Notice) -> None:
        """Tell; a notice of the same key is replaced."""
        self._lines[notice.key] = notice

    def take_back(self, key: str) -> bool:
        """No longer tell; False when that was not told."""
        return self._lines.pop(key, None) is not None

    def answered(self, command: object) -> None:
        """A command was taken: the notice that offered it has served."""
        for key in [key for key, notice in self._lines.items() if notice.take == command]:
            del self._lines[key]

    def all(self) -> Iterable[Notice]:
        """Every line."""
        return tuple(self._lines.values())


def plain(key: str, text: str, rank: Rank = Rank.NOTE) -> Notice:
    """A line that only wants to be read."""
    return Notice(key, text, rank, leave=HearAlarm(key), leave_word="ok")


def keep_the_clock_time(cook: Cook, stepped: ClockStepped) -> Notice | None:
    """After the wall clock was moved: eat when the guests' clocks say, instead of when the old clock would have said.

    None when that moment has gone, or when the clock moved by less than a minute.
    """
    written: Moment = cook.eat_at - stepped.by_ms
    if abs(stepped.by_ms) < 60_000 or written <= stepped.at:
        return None
    now_reads = day_clock_words(cook.eat_at + stepped.offset_ms, cook.zone, stepped.wall_ms)
    as_written = day_clock_words(written + stepped.offset_ms, cook.zone, stepped.wall_ms)
    key = f"clock|{stepped.seq}"
    return Notice(
        key,
        f"By the clock as it is set now you eat at {now_reads}. If the guests come at {as_written}, move the meal",
        Rank.NOTE,
        take=MoveEating(written),
        take_word=f"eat at {as_written}",
        leave=HearAlarm(key),
        leave_word=f"keep {now_reads}",
    )
