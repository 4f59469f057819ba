"""The journal of one cook: an SQLite file through SQLAlchemy Core.

An event is durable when `append` returns: the write-ahead log has been synced (`journal_tables.py` says how). One board
writes at a time (`journal_lock.py`). A damaged file is set aside and all that can be read goes into a fresh one
(`journal_mending.py`); `damage` then says what is missing.
"""

from collections.abc import Sequence
from pathlib import Path

from sqlalchemy import Engine, select
from sqlalchemy.exc import DBAPIError, IntegrityError

from timerboard.core.events import CookOpened, Event
from timerboard.core.values import Moment
from timerboard.desk.ports import JournalTrouble

from .journal_lock import CookLock
from .journal_mending import keep_opening, mend, sound
from .journal_tables import DAMAGED, EVENTS, METADATA, code_of, engine_for, trouble
from .journal_text import event_of, text_of


class SqlJournal:
    """Keeps the desk's `Journal` port in the file at `path`. Raises JournalTrouble when it cannot be opened now."""

    def __init__(self, path: Path, board: str) -> None:
        self.path = path
        self._board = board
        self._damage = ""
        self._engine: Engine | None = None
        self._lock: CookLock | None = None
        self._last_look: Moment | None = None
        self._cook = path.stem[:64]
        self._open()

    def append(self, events: Sequence[Event]) -> None:
        """Keep all of them or none; durable on return. Raises JournalTrouble; ValueError for a `seq` kept before."""
        if not events:
            return
        self._at_work()
        rows = [self._row(event) for event in events]
        try:
            with self._open().begin() as connection:
                connection.execute(EVENTS.insert(), rows)
        except IntegrityError as twice:
            raise ValueError(f"kept already: one of {[event.seq for event in events]}") from twice
        except DBAPIError as fault:
            raise self._troubled(fault) from fault
        if isinstance(events[0], CookOpened):
            keep_opening(self.path, events[0])

    def read(self) -> tuple[Event, ...]:
        """Every event by `seq`. Raises JournalTrouble when the file cannot be read now."""
        self._at_work()
        try:
            with self._open().connect() as connection:
                bodies = connection.execute(select(EVENTS.c.body).order_by(EVENTS.c.seq)).scalars().all()
        except DBAPIError as fault:
            raise self._troubled(fault) from fault
        return tuple(event_of(body) for body in bodies)

    def looked(self, at: Moment) -> None:
        """Note in the lock file that a board was here; never raises."""
        if self._lock:
            self._lock.looked(at)

    def last_look(self) -> Moment | None:
        """When the board that had this cook before us last looked at it."""
        return self._last_look

    def damage(self) -> str:
        """What could not be read back when the file was opened, for the cook; empty when all was."""
        return self._damage

    def close(self) -> None:
        """Let go of file and lock. A later `append` or `read` takes them again."""
        if self._engine:
            self._engine.dispose()
        if self._lock:
            self._lock.release()
        self._engine = self._lock = None

    def _row(self, event: Event) -> dict[str, str | int]:
        told = {name: getattr(event, name) for name in ("seq", "kind", "at", "wall_ms", "version")}
        return {"cook": self._cook, **told, "body": text_of(event)}

    def _at_work(self) -> None:
        """A file that was taken away under us (a stick pulled out) would swallow every write: let go of it, say so."""
        if self._engine and not self.path.exists():
            self.close()
            raise JournalTrouble("the cook's file is gone; a fresh one is begun")

    def _troubled(self, fault: DBAPIError) -> JournalTrouble:
        """The fault in words. A damaged file is let go of: the next try sets it aside and begins a fresh one."""
        if code_of(fault) in DAMAGED:
            self.close()
        return trouble(fault)

    def _open(self) -> Engine:
        """The engine; where there is none, lock the cook, mend what is damaged and make the table."""
        if self._engine:
            return self._engine
        lock = CookLock(self.path.with_name(self.path.name + ".lock"), self._board)
        try:
            self._engine = self._sound_engine()
        except BaseException as fault:
            lock.release()
            if isinstance(fault, DBAPIError | OSError):
                raise trouble(fault) from fault
            raise
        self._lock, self._last_look = lock, lock.before.looked if lock.before else None
        return self._engine

    def _sound_engine(self) -> Engine:
        if self.path.exists() and not sound(self.path):
            self._damage = mend(self.path)
        engine = engine_for(self.path)
        METADATA.create_all(engine)
        with engine.connect() as connection:
            self._cook = connection.execute(select(EVENTS.c.cook).limit(1)).scalar() or self._cook
        return engine
