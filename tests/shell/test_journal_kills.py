"""Real kills, a real second board, and disks that refuse: what was said to be kept is kept."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy.dialects import postgresql
from sqlalchemy.schema import CreateTable

from tests.journal_events import act, acts, opened
from timerboard.desk.ports import JournalTrouble
from timerboard.shell.journal import SqlJournal
from timerboard.shell.journal_mending import sound
from timerboard.shell.journal_tables import EVENTS

ROOT = Path(__file__).resolve().parents[2]
MANY = 1_000_000


class Boards:
    """Boards in processes of their own, one after another."""

    def __init__(self) -> None:
        command = [sys.executable, "-m", "tests.shell.appending_child"]
        pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
        self._all = subprocess.Popen(command, cwd=ROOT, text=True, start_new_session=True, **pipes)

    def start(self, file: Path, first: int = 1, count: int = MANY, limit: int = 0) -> int:
        """Begin one; its process, once it has the cook open."""
        print(file, first, count, limit, file=self._all.stdin, flush=True)
        opened_by = self.line().split()
        assert opened_by[0] == "open"
        return int(opened_by[1])

    def line(self) -> str:
        assert self._all.stdout is not None
        return self._all.stdout.readline().strip()

    def rest(self) -> list[str]:
        """Everything said until it is gone. A last line that the kill cut short is left out."""
        lines = list(iter(self.line, "gone"))
        return [line for line in lines[:-1] if line] + [line for line in lines[-1:] if line.startswith("trouble")]

    def killed_after(self, process: int, answers: int) -> int:
        """SIGKILL once so many appends were said to be kept; the last number that was said."""
        last = 0
        for _ in range(answers):
            last = int(self.line().split()[1])
        os.kill(process, signal.SIGKILL)
        return max([last, *(int(line.split()[1]) for line in self.rest())])

    def close(self) -> None:
        """End them all, also one that a failed test left running."""
        os.killpg(self._all.pid, signal.SIGKILL)
        self._all.communicate()


@pytest.fixture(scope="module")
def boards() -> Iterator[Boards]:
    started = Boards()
    yield started
    started.close()


def test_no_kept_event_is_lost_by_a_kill_wherever_it_falls(tmp_path, boards):
    file, kept = tmp_path / "a.cook", 0
    for answers in (0, 1, 2, 3, 5, 8, 13, 21, 34, 55, 89):
        said = boards.killed_after(boards.start(file, kept + 1), answers)
        assert sound(file)
        journal = SqlJournal(file, "after the kill")
        events = journal.read()
        journal.close()
        assert journal.damage() == ""
        assert len(events) >= kept + answers
        assert len(events) >= said
        assert events == (opened(), *acts(2, len(events)))[: len(events)]
        kept = len(events)


def test_a_killed_board_holds_nothing(tmp_path, boards):
    process = boards.start(tmp_path / "a.cook")
    with pytest.raises(JournalTrouble, match=rf"process {process}\) has this cook open"):
        SqlJournal(tmp_path / "a.cook", "second")
    boards.killed_after(process, 1)
    SqlJournal(tmp_path / "a.cook", "second").close()


def test_a_second_board_of_the_same_program_is_told_too(tmp_path):
    first = SqlJournal(tmp_path / "a.cook", "first")
    with pytest.raises(JournalTrouble, match="has this cook open"):
        SqlJournal(tmp_path / "a.cook", "second")
    first.close()
    SqlJournal(tmp_path / "a.cook", "second").close()


def test_the_next_board_knows_when_the_last_one_looked(tmp_path):
    first = SqlJournal(tmp_path / "a.cook", "first")
    first.looked(1_234_567)
    first.close()
    second = SqlJournal(tmp_path / "a.cook", "second")
    assert second.last_look() == 1_234_567
    second.close()


def pages(journal: SqlJournal, most: int) -> None:
    """From now on SQLite answers past `most` pages as it does on a full disk: SQLITE_FULL."""
    with journal._open().connect() as connection:
        connection.exec_driver_sql(f"PRAGMA max_page_count={most}")


def test_a_full_disk_is_said_and_takes_nothing_by_half(tmp_path):
    journal = SqlJournal(tmp_path / "a.cook", "board")
    journal.append([opened(), *acts(2, 3)])
    pages(journal, 5)
    with pytest.raises(JournalTrouble, match="the disk is full"):
        journal.append(acts(5, 400))
    assert len(journal.read()) == 4
    pages(journal, 1_000_000)
    journal.append(acts(5, 400))
    assert journal.read() == (opened(), *acts(2, 403))
    journal.close()


def test_a_system_that_refuses_to_let_the_file_grow_is_said(tmp_path, boards):
    boards.start(tmp_path / "a.cook", limit=300_000)
    *kept, last = boards.rest()
    assert last.startswith("trouble the disk")
    journal = SqlJournal(tmp_path / "a.cook", "after")
    assert len(journal.read()) == len(kept) > 10
    journal.close()


def test_a_folder_that_cannot_be_written_is_said(tmp_path):
    """Permissions do not stop a root user, so the folder here is one in which nobody can make a file."""
    (tmp_path / "file").write_text("not a folder")
    with pytest.raises(JournalTrouble, match="cannot be written to"):
        SqlJournal(tmp_path / "file" / "a.cook", "board")


def test_a_file_that_is_gone_is_said_and_begun_afresh(tmp_path):
    journal = SqlJournal(tmp_path / "a.cook", "board")
    journal.append([opened()])
    (tmp_path / "a.cook").unlink()
    with pytest.raises(JournalTrouble, match="gone"):
        journal.append([act(2)])
    journal.append([opened(), act(2)])
    assert journal.read() == (opened(), act(2))
    journal.close()


def test_every_connection_syncs_its_log_at_every_commit(tmp_path):
    """SQLite's PRAGMA synchronous belongs to the connection: 2 is FULL, durable over a power cut on an honest disk."""
    journal = SqlJournal(tmp_path / "a.cook", "board")
    with journal._open().connect() as one, journal._open().connect() as two:
        for connection in (one, two):
            assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
            assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
    journal.close()


def test_the_table_can_be_made_in_postgresql():
    made = str(CreateTable(EVENTS).compile(dialect=postgresql.dialect()))
    assert "at BIGINT NOT NULL" in made
    assert "PRIMARY KEY (cook, seq)" in made
