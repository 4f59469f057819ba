"""What the desk itself has to tell: lines that stay until they are answered. A cook's own notes come from the view."""

from collections.abc import Iterable

from timerboard.core.alarm_values import Alarm, Rank
from timerboard.core.civil import day_clock_words
from timerboard.core.commands import CloseCook, HearAlarm, MoveEating
from timerboard.core.cook import Cook, StepState
from timerboard.core.events import ClockStepped, EatTimeMoved
from timerboard.core.hands_by_time import hands_moved
from timerboard.core.values import MS, Moment
from timerboard.core.view_values import Notice
from timerboard.core.words import plural, sentence_list


class Notices:
    """A few lines by key, in the order they came. Leaving one takes it away."""

    def __init__(self) -> None:
        self._lines: dict[str, Notice] = {}
        self._asked = False

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

    def wonder(self, cook: Cook, calling: Iterable[Alarm], now: Moment) -> None:
        """Ask whether the cook is over, once each time that nothing is left to be done."""
        done = all_done(cook, now) and all(alarm.rank < Rank.DUE for alarm in calling)
        if done and not self._asked:
            self.say(OVER)
        elif not done:
            self.take_back(OVER.key)
        self._asked = done

    def all(self) -> Iterable[Notice]:
        """Every line."""
        return tuple(self._lines.values())


def plain(key: str, text: str, rank: Rank = Rank.NOTE) -> Notice:
    """A line that only wants to be read."""
    return Notice(key, text, rank, leave=HearAlarm(key), leave_word="ok")


def hands_told(before: Cook, after: Cook, now: Moment) -> Notice | None:
    """From when whose hands are counted on, once a moved meal has moved them; None when it has moved nobody."""
    offset = after.offset_ms
    moved = [
        f"{plural(pairs, 'pair')} from {day_clock_words(at + offset, after.zone, after.eat_at + offset)}"
        for pairs, at in hands_moved(before, after, now)
    ]
    return plain("hands moved", f"Hands move with the meal: {sentence_list(moved)}") if moved else None


OVER = Notice(
    "over",
    "Everything is cooked and eaten. Close this cook?",
    Rank.NOTE,
    take=CloseCook(),
    take_word="close it",
    leave=HearAlarm("over"),
    leave_word="not yet",
)


def all_done(cook: Cook, now: Moment) -> bool:
    """True once the last course has been eaten and no step is left, in a cook that is still open."""
    last_s = max((course.until_s or course.eat_s for course in cook.menu.courses), default=0)
    ended = {StepState.ENDED, StepState.DROPPED}
    left = any(life.state not in ended for life in cook.lives.values())
    return cook.closed is None and not left and now >= cook.eat_at + max(0, last_s) * MS


CLOCK = "clock"


def moved_ms(cook: Cook) -> int:
    """By how much the wall clock was moved in all since somebody last said when to eat."""
    by = 0
    for noted in cook.record:
        if isinstance(noted.event, EatTimeMoved) and not noted.undone:
            by = 0
        elif isinstance(noted.event, ClockStepped):
            by += noted.event.by_ms
    return by


def keep_the_clock_time(cook: Cook, stepped: ClockStepped) -> Notice | None:
    """After the wall clock was moved: eat when the guests' clocks say, instead of when the old clock would have said.

    None when that moment has gone, or when the clock is within a minute of where it was.
    """
    by = moved_ms(cook)
    written: Moment = cook.eat_at - by
    if abs(by) < 60_000 or written <= stepped.at:
        return None
    now_reads = day_clock_words(cook.eat_at + stepped.offset_ms, cook.zone, stepped.wall_ms)
    as_written = day_clock_words(written + stepped.offset_ms, cook.zone, stepped.wall_ms)
    return Notice(
        CLOCK,
        f"By the clock as it is set now you eat at {now_reads}. If the guests come at {as_written}, move the meal",
        Rank.NOTE,
        take=MoveEating(written),
        take_word=f"eat at {as_written}",
        leave=HearAlarm(CLOCK),
        leave_word=f"keep {now_reads}",
    )
