"""Old events in today's shape: one function from each version to the next, on the raw fields as they were stored.

A journal is never rewritten. It is read through this, so that a cook kept by an older board opens in a newer one. An
event without a version is of version 0, which the first boards wrote:

- hearing an alarm was called `AlarmAcknowledged`;
- 'not yet' kept how many seconds it gave (`more_s`) and not until when;
- nobody was asked who answered, so there was no `who`.

Version 1 knew no forecasts of pulls and no choices of rules, room and height; its events are today's as they stand.
"""

from collections.abc import Callable, Mapping
from typing import Any

from pydantic import ValidationError

from .events import EVENT, VERSION, Event
from .values import MS

Raw = dict[str, Any]


class UnreadableEvent(ValueError):
    """A stored event that this board cannot read. Its words are for the cook."""


def from_0(raw: Raw) -> Raw:
    """Version 0 to 1: one new name, and an end in place of a length."""
    if raw.get("kind") == "AlarmAcknowledged":
        raw["kind"] = "AlarmHeard"
    if raw.get("kind") == "GivenMoreTime" and "more_s" in raw:
        raw["until"] = raw["at"] + raw.pop("more_s") * MS
    return raw


def from_1(raw: Raw) -> Raw:
    """Version 1 to 2: only kinds of events were added, which a board of version 1 must not take for damage."""
    return raw


UPGRADES: dict[int, Callable[[Raw], Raw]] = {0: from_0, 1: from_1}
"""From the version of the key to the next one. Every version below `VERSION` has its function."""


def upgraded(raw: Mapping[str, Any]) -> Raw:
    """The fields as today's events have them. UnreadableEvent for one from a newer board, or without sense."""
    event = dict(raw)
    version = event.get("version", 0)
    if not isinstance(version, int) or version < 0:
        raise UnreadableEvent("This cook's record has an event without a proper version.")
    if version > VERSION:
        raise UnreadableEvent("This cook was kept by a newer board. Open it with that one.")
    for step in range(version, VERSION):
        event = UPGRADES[step](event)
    event["version"] = VERSION
    return event


def read_event(raw: Mapping[str, Any]) -> Event:
    """An event of any version as a value. UnreadableEvent when its fields make none."""
    try:
        return EVENT.validate_python(upgraded(raw))
    except (ValidationError, KeyError, TypeError) as fault:
        kind = raw.get("kind", "of no kind")
        raise UnreadableEvent(f"This cook's record has an event that cannot be read: {kind}.") from fault
