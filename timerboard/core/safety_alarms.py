"""What food clocks call for: danger a quarter of an hour before a limit, and at it."""

from collections.abc import Iterator

from .alarm_values import Alarm, Kind, Rank
from .civil import clock_words
from .cook import Cook
from .food_clocks import PUT_AWAY, ClockKind, FoodClock
from .quantity_words import duration_words
from .values import MS, Moment
from .words import lower_first, the

WARN_MS = 15 * 60 * MS

_BEFORE = {
    ClockKind.LEFT_HEAT: "Serve, chill or heat",
    ClockKind.LEFT_COLD: "Cook or chill",
    ClockKind.ON_TABLE: "Put away",
    ClockKind.COOL_FIRST: "Cool faster, or reheat to 74 °C:",
    ClockKind.COOL_ALL: "Cool faster:",
    ClockKind.THAWING: "Cook or chill",
}


def safety_alarms(cook: Cook, now: Moment, clocks: tuple[FoodClock, ...]) -> Iterator[Alarm]:
    """Two alarms of the clock of each dish whose limit is nearest: one cause, one call. Those to come as well, so that
    it is known when to look again. `clocks`: every one, also those to come.
    """
    told: set[str] = set()
    for clock in clocks:
        if clock.dish in told:
            continue
        told.add(clock.dish)
        limit = limit_words(cook, clock)
        rule = f"{duration_words(clock.rule.seconds)}, {clock.rule.whose}"
        if now < clock.limit:
            said = f"{clock.said} since {clock_words(clock.since + cook.offset_ms, cook.zone)}, limit {limit} ({rule})"
            yield _alarm(clock, "before", clock.limit - WARN_MS, _BEFORE[clock.kind], said)
        past = f"{clock.said} past the limit of {limit} ({rule}): the rule is to throw it away"
        yield _alarm(clock, "past", clock.limit, "Do not serve", past)


def _alarm(clock: FoodClock, which: str, since: Moment, verb: str, detail: str) -> Alarm:
    return Alarm(
        id=f"{Kind.DANGER}|{clock.step}|{_NAMES[clock.kind]}|{which}|{clock.since}",
        kind=Kind.DANGER,
        rank=Rank.DANGER,
        since=max(since, clock.since),
        dish=clock.dish,
        step=clock.step,
        cue=None if clock.stands else PUT_AWAY,
        verb=verb,
        food=the(clock.dish),
        where="",
        detail=detail,
        spoils_at=clock.limit,
    )


_NAMES = {
    ClockKind.LEFT_HEAT: "out",
    ClockKind.LEFT_COLD: "out",
    ClockKind.ON_TABLE: "out",
    ClockKind.COOL_FIRST: "cool",
    ClockKind.COOL_ALL: "cool further",
    ClockKind.THAWING: "thaw",
}


def limit_words(cook: Cook, clock: FoodClock) -> str:
    """'20:05'."""
    return clock_words(clock.limit + cook.offset_ms, cook.zone)


def clock_line(cook: Cook, clock: FoodClock, now: Moment) -> str:
    """For a strip: 'out of the heat 40 min, limit 20:05'."""
    gone = duration_words(max(0, now - clock.since) // (60 * MS) * 60)
    return lower_first(f"{clock.said} {gone}, limit {limit_words(cook, clock)}")
