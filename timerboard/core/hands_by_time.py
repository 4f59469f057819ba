"""Pairs of hands on the plan's axis. The menu says them relative to the meal ('-40 min: 2'), so they move with it.

Who has come by the time that the meal is moved stays, who has left is gone; whoever is still to come is counted on as
long before the new meal as before the old one, and the board says from when.
"""

from collections.abc import Iterator

from .cook import Cook
from .events import CookOpened, EatTimeMoved
from .menu import HandsFrom, Menu
from .plan import LONGEST_PLAN_S, HandsChange
from .values import MS, Moment, Seconds


def hands_of(menu: Menu, eat_at: Seconds) -> tuple[HandsChange, ...]:
    """Pairs of hands for a meal at `eat_at`, sorted; nobody before the first that has a moment of its own."""
    return _changes(menu, eat_at, tuple(None if h.from_s is None else eat_at + h.from_s for h in _sorted(menu)))


def hands_of_cook(cook: Cook) -> tuple[HandsChange, ...]:
    """The same for a running cook, however often its meal was moved; on the axis of its kitchen clock."""
    (_, first), *moves = _meals(cook)
    changes = _sorted(cook.menu)
    moments = [None if h.from_s is None else first // MS + h.from_s for h in changes]
    for said_at, meal in moves:
        for n, (change, at) in enumerate(zip(changes, moments, strict=True)):
            if at is not None and change.from_s is not None and at * MS > said_at:
                moments[n] = max(-(-said_at // MS), meal // MS + change.from_s)
    return _changes(cook.menu, cook.eat_at // MS, tuple(moments))


def hands_later(hands: tuple[HandsChange, ...], by_s: Seconds, now: Seconds | None) -> tuple[HandsChange, ...]:
    """The same hands for a meal so much later: what is to come after `now` (None: everything) moves with the meal.

    What holds from the beginning of time goes on to do so.
    """
    return tuple(
        change.model_copy(update={"at": change.at + by_s}) if n and (now is None or change.at > now) else change
        for n, change in enumerate(hands)
    )


def hands_moved(before: Cook, after: Cook, now: Moment) -> tuple[tuple[int, Moment], ...]:
    """(pairs, from when) of every change of hands to come that a moved meal has moved with it."""
    old = {(change.at, change.pairs) for change in hands_of_cook(before)}
    return tuple(
        (change.pairs, change.at * MS)
        for change in hands_of_cook(after)
        if change.at * MS >= now and (change.at, change.pairs) not in old
    )


def _sorted(menu: Menu) -> list[HandsFrom]:
    return sorted(menu.hands, key=lambda hands: -LONGEST_PLAN_S if hands.from_s is None else hands.from_s)


def _changes(menu: Menu, eat_at: Seconds, moments: tuple[Seconds | None, ...]) -> tuple[HandsChange, ...]:
    """In order; the one without a moment holds from as early as any plan begins."""
    start = eat_at - LONGEST_PLAN_S
    changes: list[HandsChange] = []
    for hands, moment in zip(_sorted(menu), moments, strict=True):
        at = start if moment is None else moment
        changes.append(HandsChange(at=max([at, *(c.at for c in changes[-1:])]), pairs=hands.pairs))
    if changes and all(moment is not None for moment in moments):
        changes.insert(0, HandsChange(at=min(start, changes[0].at), pairs=0))
    return tuple(changes)


def _meals(cook: Cook) -> Iterator[tuple[Moment, Moment]]:
    """(when it was said, when to eat): at the opening, and at every move that stands."""
    said = [noted.event for noted in cook.record if not noted.undone and not noted.effect]
    meals = [(event.at, event.eat_at) for event in said if isinstance(event, CookOpened | EatTimeMoved)]
    yield from meals or [(cook.opened, cook.eat_at)]
