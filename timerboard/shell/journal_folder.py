"""The folder of cooks: a name for a new one, and which ones were not finished."""

import re
from dataclasses import dataclass
from pathlib import Path

import platformdirs
from sqlalchemy import Connection, func, select
from sqlalchemy.exc import SQLAlchemyError

from timerboard.core.civil import clock_words
from timerboard.core.events import CookClosed, CookOpened, EatTimeMoved, Event, EventUndone
from timerboard.core.values import Moment
from timerboard.desk.ports import JournalTrouble

from .journal_tables import EVENTS, engine_to_read
from .journal_text import Spoilt, event_of

ENDING = ".cook"


@dataclass(frozen=True, slots=True)
class CookFile:
    """A cook that was opened. `trouble`: why nothing more is known of it; it may still be resumed."""

    path: Path
    title: str
    opened_ms: int = 0  # Unix ms by the wall clock, as the next one
    last_ms: int = 0
    eat_at: Moment = 0  # as it was moved last
    zone: str = "UTC"
    trouble: str = ""
    closed: bool = False

    @property
    def said(self) -> str:
        """A line to choose it by: 'Solstice supper, opened 14:05, last touched 16:40'."""
        if self.trouble:
            return f"{self.title}: {self.trouble}"
        opened, last = clock_words(self.opened_ms, self.zone), clock_words(self.last_ms, self.zone)
        return f"{self.title}, opened {opened}, last touched {last}"


def cooks_folder() -> Path:
    """Where cooks are kept on this system, made if need be. Raises JournalTrouble when it cannot be made."""
    folder = platformdirs.user_data_path("timerboard", appauthor=False) / "cooks"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as refused:
        raise JournalTrouble(f"the folder {folder} cannot be made ({refused.strerror})") from refused
    return folder


def new_file(folder: Path, title: str, day: str) -> Path:
    """A free name for a cook: its day, its title in plain letters, and a number when there are several."""
    plain = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:40] or "cook"
    names = (f"{day}-{plain}{tail}{ENDING}" for tail in ("", *(f"-{n}" for n in range(2, 10_000))))
    return next(folder / name for name in names if not _taken(folder / name))


def unfinished(folder: Path) -> tuple[CookFile, ...]:
    """Every cook in a folder that was not closed, the last touched first; those that cannot be read come last."""
    return tuple(cook for cook in kept_cooks(folder) if not cook.closed)


def kept_cooks(folder: Path) -> tuple[CookFile, ...]:
    """Every cook in a folder, closed or not, the last touched first; those that cannot be read come last."""
    try:
        files = sorted(folder.glob(f"*{ENDING}"))
    except OSError:
        return ()
    found = [cook for cook in map(_cook_file, files) if cook]
    return tuple(sorted(found, key=lambda cook: -cook.last_ms))


def _taken(path: Path) -> bool:
    return any(path.with_name(path.name + tail).exists() for tail in ("", ".lock", ".opening", ".damaged-1"))


def _cook_file(path: Path) -> CookFile | None:
    """What is known of a file; None when its cook never began."""
    engine = engine_to_read(path)
    try:
        with engine.connect() as connection:
            return _read(connection, path) if path.stat().st_size else None
    except JournalTrouble as other:
        return CookFile(path, path.stem, trouble=other.said)
    except (SQLAlchemyError, Spoilt, OSError):
        return CookFile(path, path.stem, trouble="damaged; what can be read of it will be")
    finally:
        engine.dispose()


def _read(connection: Connection, path: Path) -> CookFile | None:
    first = connection.execute(select(EVENTS.c.body).order_by(EVENTS.c.seq).limit(1)).scalar()
    if first is None:
        return None
    opened = event_of(first)
    if not isinstance(opened, CookOpened):
        return CookFile(path, path.stem, trouble="its beginning is missing")
    last = connection.execute(select(func.max(EVENTS.c.wall_ms))).scalar() or opened.wall_ms
    standing = _standing(connection)
    moved = [event.eat_at for event in standing if isinstance(event, EatTimeMoved)]
    closed = any(isinstance(event, CookClosed) for event in standing)
    eat_at = moved[-1] if moved else opened.eat_at
    return CookFile(path, opened.menu.title, opened.wall_ms, last, eat_at, opened.zone, closed=closed)


def _standing(connection: Connection) -> list[Event]:
    """That the meal was moved or closed, as far as it was not taken back, in the order it was done."""
    kinds = ["CookClosed", "EatTimeMoved", "EventUndone"]
    wanted = select(EVENTS.c.body).where(EVENTS.c.kind.in_(kinds)).order_by(EVENTS.c.seq)
    told: list[Event] = [event_of(body) for body in connection.execute(wanted).scalars()]
    undone = {event.undone for event in told if isinstance(event, EventUndone)}
    return [event for event in told if event.seq not in undone]
