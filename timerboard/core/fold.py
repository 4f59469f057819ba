"""From events to a cook. Pure and total: no sequence raises; what no longer applies stays in the record, marked.

Taking back is leaving out: an undone event keeps its place in the record and has no effect on anything that follows.
So one pass finds what was undone and a second one writes the cook, however often somebody changed their mind.
"""

from collections.abc import Iterable, Sequence

from .cook import Cook, Noted
from .draft import Draft, opened, resumed
from .events import CookOpened, Event, EventUndone
from .fold_effects import EFFECTS

NEVER_UNDONE = frozenset({"CookOpened", "EventUndone", "ClockStepped", "BoardReturned", "PullForeseen"})
"""Kinds of events that are nobody's act: taking them back has no effect."""


def fold(events: Iterable[Event]) -> Cook:
    """The cook that these events tell of. ValueError when the first is not CookOpened: then there is no menu."""
    cook = fold_or_none(events)
    if cook is None:
        raise ValueError("A cook begins with its opening, and this record does not.")
    return cook


def fold_or_none(events: Iterable[Event]) -> Cook | None:
    """Like `fold`, with None for a record that does not begin with an opening."""
    told = tuple(events)
    if not told or not isinstance(told[0], CookOpened):
        return None
    undone, why_not = undoings(told)
    draft = opened(told[0])
    draft.record.append(Noted(told[0]))
    for place, event in enumerate(told[1:], start=1):
        write(draft, event, undone=place in undone, why_not=why_not.get(place, ""))
    return draft.cook()


def apply(cook: Cook, event: Event) -> Cook:
    """The cook after one more event; equal to folding its record and the event."""
    if isinstance(event, EventUndone):
        return fold([*(noted.event for noted in cook.record), event])
    draft = resumed(cook)
    write(draft, event)
    return draft.cook()


def write(draft: Draft, event: Event, *, undone: bool = False, why_not: str = "") -> None:
    """Give an event its effect (unless it was undone) and note it."""
    effect = why_not
    if not undone and not isinstance(event, EventUndone):
        effect = EFFECTS[event.kind](draft, event)
    draft.record.append(Noted(event, effect, undone))


def undoings(events: Sequence[Event]) -> tuple[set[int], dict[int, str]]:
    """Positions of the events that were undone, and why an undoing at a position had no effect."""
    places: dict[int, int] = {}
    undone: set[int] = set()
    why_not: dict[int, str] = {}
    for place, event in enumerate(events):
        if isinstance(event, EventUndone):
            target = places.get(event.undone)
            why = _why_not(events, target, undone)
            if target is not None and not why:
                undone.add(target)
            else:
                why_not[place] = why
        else:
            places[event.seq] = place
    return undone, why_not


def _why_not(events: Sequence[Event], target: int | None, undone: set[int]) -> str:
    if target is None:
        return "there is nothing of that number to take back"
    if target in undone:
        return "it was taken back already"
    return "that cannot be taken back" if events[target].kind in NEVER_UNDONE else ""
