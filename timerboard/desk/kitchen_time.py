"""The kitchen clock: one line of Moments for a whole cook, through restarts, sleep, reboots and a moved wall clock.

    Moment = booted + milliseconds since this boot of the machine

When a cook is opened `booted` is chosen so that the Moment equals Unix time. In the same boot it stays what it was, so
nothing that happens to the wall clock moves a countdown. After a reboot the machine's count begins again at zero, and
the only thing that still knows how long it was off is the wall clock, so the gap is taken from there, and said.

Unix time knows no daylight saving, so a change of it is no step here: only what people read on a clock changes.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from timerboard.core.events import BoardReturned, ClockStepped, CookOpened, Event
from timerboard.core.values import Moment

from .ports import Clock

STEP_MS = 2_000
"""A wall clock that moved by more than this against the kitchen clock was set; less is the clocks' own drift."""

AWAY_MS = 60_000
"""A board that has not looked for this long was away: asleep, stopped or killed."""


@dataclass(frozen=True, slots=True)
class Glance:
    """What the clocks show at one instant: Unix and kitchen milliseconds, and which boot the latter count from."""

    boot: str
    kitchen_ms: int
    wall_ms: int


def glance(clock: Clock) -> Glance:
    """Read the clocks once, together."""
    return Glance(clock.boot, clock.kitchen_ms(), clock.wall_ms())


@dataclass(frozen=True, slots=True)
class KitchenTime:
    """How Moments follow from this boot's milliseconds; `offset_ms`: wall minus kitchen clock, as recorded."""

    boot: str
    booted: Moment
    offset_ms: int = 0

    def moment(self, seen: Glance) -> Moment:
        """The Moment of a glance in this boot."""
        return self.booted + seen.kitchen_ms

    def in_boot(self, moment: Moment) -> int:
        """The milliseconds of this boot at a Moment."""
        return moment - self.booted

    def stepped_by(self, seen: Glance) -> int:
        """By how many ms the wall clock was moved since the offset was recorded; 0 when it only drifted."""
        by = seen.wall_ms - self.moment(seen) - self.offset_ms
        return by if abs(by) > STEP_MS else 0

    def after_step(self, by_ms: int) -> "KitchenTime":
        """The same Moments, with the wall clock's new distance from them."""
        return KitchenTime(self.boot, self.booted, self.offset_ms + by_ms)


def at_open(seen: Glance) -> KitchenTime:
    """A new cook's kitchen clock: its Moment is Unix time now."""
    return KitchenTime(seen.boot, booted=seen.wall_ms - seen.kitchen_ms)


@dataclass(frozen=True, slots=True)
class Return:
    """A board that came back to a cook. `unsure`: the wall clock went backwards, so the time away is not known."""

    time: KitchenTime
    away_ms: int
    rebooted: bool
    unsure: bool = False


def returned(events: Sequence[Event], looked: Moment | None, seen: Glance) -> Return:
    """The kitchen clock of a cook that is taken up again.

    `events` are all of its journal (at least one); `looked` is when a board last looked at it, where that is known.
    """
    last = max([event.at for event in events] + ([looked] if looked is not None else []))
    offset = _offset(events)
    same_boot = _booted(events, seen.boot)
    if same_boot is not None:
        time = KitchenTime(seen.boot, same_boot, offset)
        return Return(time, max(0, time.moment(seen) - last), rebooted=False)
    now = seen.wall_ms - offset
    time = KitchenTime(seen.boot, max(now, last) - seen.kitchen_ms, offset)
    return Return(time, max(0, now - last), rebooted=True, unsure=now < last - STEP_MS)


def _booted(events: Sequence[Event], boot: str) -> Moment | None:
    """Where this boot stood at zero, if an event of this very boot says so."""
    told = (e.booted for e in reversed(events) if isinstance(e, CookOpened | BoardReturned) and e.boot == boot)
    return next((booted for booted in told if booted is not None), None)


def _offset(events: Sequence[Event]) -> int:
    """Wall minus kitchen clock as last recorded; 0 at the opening, where they are equal."""
    steps = (event.offset_ms for event in reversed(events) if isinstance(event, ClockStepped))
    return next(steps, 0)
