"""The journal's one table, how its connections are made, and what its troubles are called in a kitchen.

Plain column types and no words of one database's own SQL, so that PostgreSQL can keep the same table when several
boards share a cook. The pragmas are SQLite's and are given to its connections only.
"""

import errno
import sqlite3
import sys
from pathlib import Path

from sqlalchemy import BigInteger, Column, Engine, Integer, MetaData, String, Table, Text, create_engine, event
from sqlalchemy.exc import DBAPIError
from sqlalchemy.pool import ConnectionPoolEntry, NullPool

from timerboard.desk.ports import JournalTrouble

METADATA = MetaData()

EVENTS = Table(
    "events",
    METADATA,
    Column("cook", String(64), primary_key=True),
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("kind", String(40), nullable=False),
    Column("at", BigInteger, nullable=False),
    Column("wall_ms", BigInteger, nullable=False),
    Column("version", Integer, nullable=False),
    Column("body", Text, nullable=False),
)

DAMAGED = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
REFUSED = (
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_PERM,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
)
"""The system's own refusals: no sign of damage."""

_SAID = {
    sqlite3.SQLITE_FULL: "the disk is full",
    sqlite3.SQLITE_READONLY: "the cook's file or its folder cannot be written to",
    sqlite3.SQLITE_CANTOPEN: "the cook's file cannot be opened",
    sqlite3.SQLITE_PERM: "the cook's file may not be written to",
    sqlite3.SQLITE_IOERR: "the disk does not take it",
    sqlite3.SQLITE_BUSY: "another program has the cook's file in use",
    sqlite3.SQLITE_LOCKED: "another program has the cook's file in use",
    sqlite3.SQLITE_CORRUPT: "the cook's file is damaged",
    sqlite3.SQLITE_NOTADB: "the cook's file is damaged",
}


def engine_for(file: Path) -> Engine:
    """An engine on a cook's file, every connection of which is durable when a transaction has ended."""
    engine = create_engine(f"sqlite:///{file}", connect_args={"timeout": 0.5})
    event.listen(engine, "connect", _make_durable)
    return engine


def engine_to_read(file: Path) -> Engine:
    """An engine that never writes to the file: SQLite then neither checkpoints nor deletes the log beside it."""
    return create_engine("sqlite://", creator=lambda: _read_only(file), poolclass=NullPool)


def _read_only(file: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True, timeout=0.5)
    connection.text_factory = lambda raw: raw.decode("utf-8", errors="replace")
    return connection


def _make_durable(connection: sqlite3.Connection, _entry: ConnectionPoolEntry) -> None:
    """WAL with a sync of it at every commit; on macOS a sync that the drive itself answers for."""
    connection.execute("PRAGMA journal_mode=WAL")
    connection.execute("PRAGMA synchronous=FULL")
    if sys.platform == "darwin":
        connection.execute("PRAGMA fullfsync=ON")
        connection.execute("PRAGMA checkpoint_fullfsync=ON")


def code_of(fault: DBAPIError | sqlite3.Error) -> int:
    """SQLite's primary result code of a fault; 0 when it has none."""
    told = fault.orig if isinstance(fault, DBAPIError) else fault
    return getattr(told, "sqlite_errorcode", 0) & 0xFF


def trouble(fault: DBAPIError | sqlite3.Error | OSError) -> JournalTrouble:
    """The same fault in words for a cook."""
    if isinstance(fault, OSError):
        full = fault.errno in {errno.ENOSPC, errno.EDQUOT}
        return JournalTrouble("the disk is full" if full else f"the folder cannot be written to ({fault.strerror})")
    told = fault.orig if isinstance(fault, DBAPIError) else fault
    return JournalTrouble(_SAID.get(code_of(fault), f"the cook's file does not take it ({told})"))
