"""Setting a damaged cook aside, and beginning a fresh file with everything that can still be read of it."""

import os
from contextlib import suppress
from pathlib import Path

from sqlalchemy import Connection, inspect, select
from sqlalchemy.exc import DBAPIError
from sqlalchemy.schema import CreateTable

from timerboard.core.events import CookOpened, Event

from .journal_rescue import PAGE, logged_texts, missing_of, number_words, pages_of, texts_of
from .journal_tables import EVENTS, METADATA, REFUSED, code_of, engine_for, engine_to_read
from .journal_text import event_of, text_of, whole


def sound(file: Path) -> bool:
    """True when the whole file reads: its pages, its table, and every row as it was written; or when it is still new.

    Raises the database's own error when the file cannot be opened for another reason than damage, and JournalTrouble
    for one that another version of the program wrote. Writes nothing.
    """
    if file.stat().st_size < PAGE:  # SQLite takes an empty file for a new one and would throw its log away
        return file.stat().st_size == 0 and _new(file)
    if not _may_be_written(file):
        return False
    engine = engine_to_read(file)
    try:
        with engine.connect() as connection:
            return _reads(connection, file)
    except ValueError:  # spoilt rows, and letters that are no UTF-8
        return False
    except DBAPIError as fault:
        if code_of(fault) in REFUSED:
            raise
        return False
    finally:
        engine.dispose()


def _may_be_written(file: Path) -> bool:
    """False when the file's header says that a later SQLite wrote it: then it could be read, and nothing kept in it."""
    with file.open("rb") as begins:
        header = begins.read(20)
    return header[WRITE_VERSION] in (1, 2)


WRITE_VERSION = 18
"""Where a database's header has it: 1 with a rollback journal, 2 with a write-ahead log (fileformat2.html, 1.3.3)."""


def _reads(connection: Connection, file: Path) -> bool:
    if connection.exec_driver_sql("PRAGMA integrity_check(1)").scalar() != "ok":  # the quick one passes over indexes
        return False
    if not inspect(connection).get_table_names():
        return _new(file)
    kept: set[int] = set()
    for seq, body in connection.execute(select(EVENTS.c.seq, EVENTS.c.body).order_by(EVENTS.c.seq)):
        if event_of(body).seq != seq:  # the number of a row lies outside its text, and may be spoilt by itself
            return False
        kept.add(seq)
    return _as_made(connection) and kept.issuperset(event_of(text).seq for text in logged_texts(file, whole))


def _as_made(connection: Connection) -> bool:
    """True when the table is still the one that this program makes."""
    asked = "SELECT sql FROM sqlite_master WHERE type = 'table' AND name = 'events'"
    made = connection.exec_driver_sql(asked).scalar() or ""
    return made.split() == str(CreateTable(EVENTS).compile(connection)).split()


def _new(file: Path) -> bool:
    """True when no event was ever kept here."""
    log = file.with_name(file.name + "-wal")
    return not _reserve(file).exists() and not (log.exists() and log.stat().st_size)


def mend(file: Path) -> str:
    """Set a damaged file aside and keep all that can be read in a fresh one of its name. Says what is missing.

    Nothing of the damaged file is overwritten. Raises the database's or the system's own error.
    """
    events = _salvaged(file)
    aside = _set_aside(file)
    engine = engine_for(file)
    METADATA.create_all(engine)
    with engine.begin() as connection:
        if events:
            connection.execute(EVENTS.insert(), [_row(file, event) for event in events])
    engine.dispose()
    return _said([event.seq for event in events], aside)


def keep_opening(file: Path, opened: CookOpened) -> None:
    """Keep the event that everything else builds on once more, beside the journal. A reserve: failing is no trouble."""
    reserve, fresh = _reserve(file), _reserve(file).with_suffix(".new")
    try:
        with fresh.open("w", encoding="utf-8") as out:
            out.write(text_of(opened))
            out.flush()
            os.fsync(out.fileno())
        fresh.replace(reserve)
    except OSError:
        return


def _reserve(file: Path) -> Path:
    return file.with_name(file.name + ".opening")


def _salvaged(file: Path) -> list[Event]:
    texts = [*texts_of(pages_of(file), whole)]
    with suppress(OSError, ValueError):
        texts.append(_reserve(file).read_text(encoding="utf-8"))
    found: dict[int, Event] = {}
    for event in (event_of(text) for text in texts if whole(text)):
        found.setdefault(event.seq, event)  # of two with one number the newer image's
    return [found[seq] for seq in sorted(found)]


def _set_aside(file: Path) -> Path:
    """Rename the file and what belongs to it to the first free `.damaged-N`."""
    number = next(n for n in range(1, 10_000) if not file.with_name(f"{file.name}.damaged-{n}").exists())
    aside = file.with_name(f"{file.name}.damaged-{number}")
    for tail in ("-wal", "-shm", ""):
        part = file.with_name(file.name + tail)
        if part.exists():
            part.rename(aside.with_name(aside.name + tail))
    return aside


def _row(file: Path, event: Event) -> dict[str, str | int]:
    told = {name: getattr(event, name) for name in ("seq", "kind", "at", "wall_ms", "version")}
    return {"cook": file.stem[:64], **told, "body": text_of(event)}


def _said(seqs: list[int], aside: Path) -> str:
    kept = f"The saved cook was damaged; it is set aside as {aside.name}."
    if not seqs:
        return f"{kept} Nothing of it could be read."
    acts = "1 entry was" if len(seqs) == 1 else f"{len(seqs)} entries were"
    missing = missing_of(seqs)
    gaps = f" Missing: {'number' if len(missing) == 1 else 'numbers'} {number_words(missing)}." if missing else ""
    return f"{kept} {acts} read back.{gaps} Anything after number {seqs[-1]} is missing too: look at every pot."
