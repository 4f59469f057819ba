"""What the board has to tell; nothing is lost when it is read late."""

from collections.abc import Iterator

from .alarm_values import Alarm, Kind, Rank
from .cook import Cook
from .values import Moment


def note_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """Stepped clocks and times away, until somebody has heard them."""
    for name, note in cook.notes.items():
        yield Alarm(
            id=f"{Kind.NOTE}||{name}|0",
            kind=Kind.NOTE,
            rank=Rank.NOTE,
            since=note.at,
            dish="",
            step=None,
            cue=None,
            verb=note.said,
            food="",
            where="",
        )
