"""The `record` command: what a kept cook did, what it took, and its cooling log, as text."""

import argparse
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.exc import SQLAlchemyError

from timerboard.core.cook import Cook
from timerboard.core.cook_record import cook_record, last_moment
from timerboard.core.events import Event
from timerboard.core.fold import fold_or_none
from timerboard.desk.ports import JournalTrouble
from timerboard.shell.journal_folder import ENDING, cooks_folder
from timerboard.shell.journal_tables import EVENTS, engine_to_read
from timerboard.shell.journal_text import Spoilt, event_of
from timerboard.terminal import DONE, BadInput, say


def record(asked: argparse.Namespace) -> int:
    """Print the record of a cook: the one that is named, else the newest."""
    path = _found(asked.cook)
    cook = kept_cook(path)
    lines = cook_record(cook, last_moment(cook))
    if asked.output is None:
        say(lines)
        return DONE
    try:
        write_record(lines, asked.output)
    except OSError as trouble:
        raise BadInput(f"{asked.output}: cannot be written ({trouble.strerror})") from None
    say([f"{asked.output}: {len(lines)} lines"])
    return DONE


def write_record(lines: tuple[str, ...], path: Path) -> None:
    """Keep the lines as a text file. Raises OSError."""
    path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")


def kept_cook(path: Path) -> Cook:
    """The cook that a journal tells of, read without touching it. Raises BadInput when it cannot be."""
    engine = engine_to_read(path)
    try:
        with engine.connect() as connection:
            bodies = connection.execute(select(EVENTS.c.body).order_by(EVENTS.c.seq)).scalars().all()
    except SQLAlchemyError:
        raise BadInput(f"{path}: this is no cook, or a damaged one: open it with the board") from None
    finally:
        engine.dispose()
    try:
        cook = fold_or_none([event for body in bodies if (event := _event(body)) is not None])
    except JournalTrouble as other:
        raise BadInput(f"{path}: {other.said}") from None
    if cook is None:
        raise BadInput(f"{path}: the beginning of this cook is missing")
    return cook


def _event(body: str) -> Event | None:
    try:
        return event_of(body)
    except Spoilt:
        return None


def _found(wanted: str | None) -> Path:
    """A file of that path, else the newest cook whose file name holds the words; the newest of all without any."""
    if wanted and _is_file(wanted):
        return Path(wanted)
    try:
        kept = sorted(cooks_folder().glob(f"*{ENDING}"), key=lambda path: path.stat().st_mtime, reverse=True)
    except (OSError, JournalTrouble):
        kept = []
    wanted = wanted or ""
    words = wanted.casefold().split()
    fitting = [path for path in kept if all(word in path.stem.casefold() for word in words)]
    if not fitting:
        names = [f"  {path.stem}" for path in kept[:8]]
        raise BadInput(
            "no cook was kept yet" if not kept else f"no kept cook is called '{wanted[:60]}'; there are:", *names
        )
    return fitting[0]


def _is_file(name: str) -> bool:
    try:
        return Path(name).is_file()
    except OSError:  # a name that is longer than names may be, a folder that may not be looked into
        return False
