"""Notifications over D-Bus, told by a thread of their own: shown, replaced, and taken away when they are answered.

freedesktop Desktop Notifications 1.3: `Notify` gives a number; given back as `replaces_id` it replaces the
notification, to `CloseNotification` it closes it. "Critical notifications should not automatically expire", so danger
stays until it is closed here. jeepney and not QtDBus: PySide6 cannot write the unsigned number and the byte of urgency.
"""

from dataclasses import dataclass
from html import escape
from threading import Condition, Thread
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from jeepney import Message
    from jeepney.io.blocking import DBusConnection

SERVICE, OBJECT = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
NOTIFY = "susssasa{sv}i"
SHOWN_MS = 10_000
ANSWER_S = 25.0  # what D-Bus's own libraries wait for; a service may have to be started first
CLOSE_S = 0.5


@dataclass(frozen=True, slots=True)
class Note:
    """What is to be shown."""

    title: str
    words: str
    danger: bool


@dataclass(frozen=True, slots=True)
class Given:
    """The number of a notification, and the one name on the bus of the service that gave it."""

    number: int
    owner: str


class Fallback(Protocol):
    """Another way to show one, for where the bus is not reached."""

    def show(self, key: str, title: str, words: str, danger: bool) -> None:
        """Show it and return at once."""


class BusChannel:
    """Keeps `notify.Channel`. Only the newest wish for each key waits, however long the bus takes."""

    def __init__(self, otherwise: Fallback | None = None) -> None:
        self._otherwise = otherwise
        self._wishes: dict[str, Note | None] = {}
        self._closing = False
        self._changed = Condition()
        self._desk: _Desk | None = None
        self._thread = Thread(target=self._run, daemon=True, name="notifications")
        self._thread.start()

    def show(self, key: str, title: str, words: str, danger: bool) -> None:
        """Show it in place of the one of that key; `danger` stays until it is taken away."""
        self._wish(key, Note(title, words, danger))

    def take_away(self, key: str) -> None:
        """It has been answered."""
        self._wish(key, None)

    def close(self) -> None:
        """Take away what is left; a service that does not answer is waited for a moment only."""
        with self._changed:
            self._closing = True
            self._changed.notify()
        self._thread.join(CLOSE_S)

    def _wish(self, key: str, note: Note | None) -> None:
        with self._changed:
            self._wishes[key] = note
            self._changed.notify()

    def _run(self) -> None:
        closing = False
        while not closing:
            with self._changed:
                self._changed.wait_for(lambda: self._wishes or self._closing)
                wishes, self._wishes, closing = self._wishes, {}, self._closing
            for key, note in wishes.items():
                self._fulfil(key, None if closing else note)
        if self._desk is not None:
            self._desk.clear()

    def _fulfil(self, key: str, note: Note | None) -> None:
        if self._desk is not None and not self._desk.tell(key, note):
            self._desk = None  # the bus has gone; there may be another one by now
        if self._desk is None and note is not None:
            self._desk = _reached()
            told = self._desk is not None and self._desk.tell(key, note)
            if not told and self._otherwise is not None:
                self._otherwise.show(key, note.title, note.words, note.danger)


def _reached() -> "_Desk | None":
    try:
        from jeepney.io.blocking import open_dbus_connection  # after the window shows

        return _Desk(open_dbus_connection("SESSION"))
    except Exception:  # no jeepney, no bus, an address of a kind it does not know, a bus that refuses
        return None


class _Desk:
    """A connection to the bus, and what stands on the desktop by it. Only for the thread."""

    def __init__(self, bus: "DBusConnection") -> None:
        self._bus = bus
        self._given: dict[str, Given] = {}
        self._up: set[str] = set()
        self._marked_up = False

    def tell(self, key: str, note: Note | None) -> bool:
        """Show or take away; False when the bus has gone. A service that refuses is let be."""
        try:
            if note is not None:
                self._show(key, note)
            elif key in self._up:
                self._up.discard(key)
                self._call("CloseNotification", "u", (self._given[key].number,), self._given[key].owner)
        except TimeoutError:
            return True
        except Exception:  # a broken connection shows in many ways
            self._bus.close()
            return False
        return True

    def clear(self) -> None:
        """Take away everything."""
        for key in sorted(self._up):
            if not self.tell(key, None):
                return
        self._bus.close()

    def _show(self, key: str, note: Note) -> None:
        known = self._given.get(key)
        reply = self._notify(note, known.number, known.owner) if known else None
        if reply is None:  # a number of a service that has gone means nothing to the next one
            self._marked_up = "body-markup" in self._capabilities()
            reply = self._notify(note, 0, SERVICE)
        if reply is not None:
            self._given[key] = reply
            self._up.add(key)

    def _notify(self, note: Note, replaces: int, whom: str) -> Given | None:
        from jeepney import HeaderFields

        words = escape(note.words, quote=False) if self._marked_up else note.words
        hints = {"urgency": ("y", 2 if note.danger else 1)}
        stays = 0 if note.danger else SHOWN_MS
        body: tuple[Any, ...] = ("timerboard", replaces, "", note.title, words, [], hints, stays)
        reply = self._call("Notify", NOTIFY, body, whom)
        if reply is None:
            return None
        return Given(int(reply.body[0]), str(reply.header.fields[HeaderFields.sender]))

    def _capabilities(self) -> tuple[str, ...]:
        reply = self._call("GetCapabilities", "", (), SERVICE)
        return tuple(reply.body[0]) if reply is not None else ()

    def _call(self, name: str, signature: str, body: tuple[Any, ...], whom: str) -> "Message | None":
        """The answer, or None for a refusal. Raises what the connection raises."""
        from jeepney import DBusAddress, MessageType, new_method_call

        message = new_method_call(DBusAddress(OBJECT, whom, SERVICE), name, signature or None, body)
        reply = self._bus.send_and_get_reply(message, timeout=ANSWER_S)
        return None if reply.header.message_type is MessageType.error else reply
