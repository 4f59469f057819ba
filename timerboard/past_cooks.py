"""Cooks that were kept, for the start window: what to go on with, what was cooked lately, and the record of each."""

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from timerboard.board.start_window import PastCook, Unfinished
from timerboard.boards import STALE_MS
from timerboard.core.civil import clock_words, day_clock_words
from timerboard.core.cook_record import cook_record, last_moment
from timerboard.core.values import MS
from timerboard.desk.ports import Clock, JournalTrouble
from timerboard.recording import kept_cook
from timerboard.shell.journal_folder import CookFile, cooks_folder, kept_cooks

MOST = 8
"""As many past cooks as are listed; `timerboard record` prints older ones."""


def cooks_listed(clock: Clock) -> tuple[tuple[Unfinished, ...], tuple[PastCook, ...]]:
    """What can be gone on with, and what was cooked lately; a cook left open long after its meal is of the past."""
    try:
        found = kept_cooks(cooks_folder())
    except JournalTrouble:
        return (), ()
    live = [cook for cook in found if not cook.closed and (cook.trouble or not _stale(cook, clock))]
    past = [cook for cook in found if cook not in live][:MOST]
    return (
        tuple(Unfinished(str(cook.path), cook.title, _left(cook, clock.wall_ms())) for cook in live),
        tuple(PastCook(str(cook.path), cook.title, _eaten(cook), not cook.closed) for cook in past),
    )


def record_lines(path: Path) -> tuple[str, ...]:
    """The record of a kept cook. Raises BadInput when it cannot be read."""
    cook = kept_cook(path)
    return cook_record(cook, last_moment(cook))


def _stale(cook: CookFile, clock: Clock) -> bool:
    return clock.wall_ms() - max(cook.eat_at, cook.last_ms) > STALE_MS


def _left(cook: CookFile, now_ms: int) -> str:
    """'Not finished: opened Tue 14:05, last touched 16:40, to be eaten 18:34'."""
    if cook.trouble:
        return cook.trouble
    opened, last, eaten = (day_clock_words(at, cook.zone, now_ms) for at in (cook.opened_ms, cook.last_ms, cook.eat_at))
    return f"Not finished: opened {opened}, last touched {last}, to be eaten {eaten}"


def _eaten(cook: CookFile) -> str:
    """'Eaten on Wednesday 25 November at 18:34'; of one that nobody ended only for when it was meant is known."""
    day = datetime.fromtimestamp(cook.eat_at / MS, ZoneInfo(cook.zone))
    when = f"{day:%A} {day.day} {day:%B} at {clock_words(cook.eat_at, cook.zone)}"
    return f"Eaten on {when}" if cook.closed else f"For {when}, never ended"
