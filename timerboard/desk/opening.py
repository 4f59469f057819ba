"""How a cook gets its first event, and how one is taken up again from its journal."""

from collections.abc import Sequence
from dataclasses import dataclass

from timerboard.core.cook import Cook
from timerboard.core.events import BoardReturned, CookOpened, Event
from timerboard.core.fold import fold_or_none
from timerboard.core.menu import Menu
from timerboard.core.values import Moment

from .kitchen_time import Glance, KitchenTime, Return, at_open, returned
from .ports import Journal, JournalTrouble


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be cooked: the menu as written, its hash, as understood, and when it is eaten (Unix milliseconds)."""

    text: str
    menu_hash: str
    menu: Menu
    eat_at: Moment
    zone: str


def opening(order: Order, seen: Glance, board: str) -> tuple[KitchenTime, CookOpened]:
    """The kitchen clock of a new cook and its first event."""
    time = at_open(seen)
    stamp = {"seq": 1, "at": time.moment(seen), "wall_ms": seen.wall_ms, "boot": seen.boot, "board": board}
    event = CookOpened(
        **stamp,
        menu_text=order.text,
        menu_hash=order.menu_hash,
        menu=order.menu,
        eat_at=order.eat_at,
        zone=order.zone,
        booted=time.booted,
    )
    return time, event


@dataclass(frozen=True, slots=True)
class TakenUp:
    """A cook read back: its record, what it amounts to, and how its clock goes on."""

    events: tuple[Event, ...]
    cook: Cook
    back: Return

    def event(self, seen: Glance, board: str, seq: int) -> BoardReturned:
        """What is noted of the absence."""
        at = self.back.time.moment(seen)
        stamp = {"seq": seq, "at": at, "wall_ms": seen.wall_ms, "boot": seen.boot, "board": board}
        return BoardReturned(
            **stamp, away_ms=self.back.away_ms, rebooted=self.back.rebooted, booted=self.back.time.booted
        )


def taken_up(journal: Journal, seen: Glance) -> TakenUp:
    """Read a cook back. Raises JournalTrouble when its beginning is missing, or when it cannot be read now."""
    events: Sequence[Event] = journal.read()
    cook = fold_or_none(events)
    if cook is None:
        raise JournalTrouble("the beginning of this cook is missing: open the menu again")
    return TakenUp(tuple(events), cook, returned(events, journal.last_look(), seen))
