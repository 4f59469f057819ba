"""One event as the text that is kept: its JSON behind a checksum, so that each row proves itself."""

import json
from zlib import crc32

from pydantic import ValidationError

from timerboard.core.events import EVENT, VERSION, Event
from timerboard.core.upgrades import UnreadableEvent, read_event
from timerboard.desk.ports import JournalTrouble


class Spoilt(ValueError):
    """A text that is not what was written."""


def text_of(event: Event) -> str:
    """`checksum JSON`; the checksum is CRC-32 (ISO 3309) of the JSON's UTF-8 in eight hexadecimal digits."""
    body = event.model_dump_json()
    return f"{crc32(body.encode()):08x} {body}"


def whole(text: str) -> bool:
    """True when the text is what `text_of` once made."""
    body = text[9:]
    return text[8:9] == " " and body.startswith("{") and text[:8] == f"{crc32(body.encode()):08x}"


def event_of(text: str) -> Event:
    """The event of a kept text.

    Raises Spoilt when the text was changed, JournalTrouble when it is whole but of a shape this program does not know.
    """
    if not whole(text):
        raise Spoilt(text[:40])
    try:
        event = EVENT.validate_json(text[9:])
    except ValidationError:
        return _older(text[9:])
    return event if event.version == VERSION else _older(text[9:])


def _older(body: str) -> Event:
    try:
        return read_event(json.loads(body))
    except UnreadableEvent as unknown:
        raise JournalTrouble(str(unknown)) from unknown
