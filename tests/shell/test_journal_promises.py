"""One class of promises for every journal: in memory by hand, and the file that the program really keeps."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.fakes import MemoryJournal
from tests.journal_events import acts, opened
from timerboard.desk.ports import Journal
from timerboard.shell.journal import SqlJournal


@pytest.fixture(params=["by hand", "file"])
def journal(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Journal]:
    kept: Journal = MemoryJournal() if request.param == "by hand" else SqlJournal(tmp_path / "a.cook", "board 1")
    yield kept
    kept.close()


class TestPromises:
    def test_a_new_one_is_empty(self, journal):
        assert journal.read() == ()
        assert journal.damage() == ""

    def test_what_is_appended_reads_back_equal(self, journal):
        events = [opened(), *acts(2, 9)]
        journal.append(events)
        assert journal.read() == tuple(events)

    def test_events_come_by_number(self, journal):
        journal.append(acts(4, 2))
        journal.append([opened(), *acts(2, 2)])
        assert [event.seq for event in journal.read()] == [1, 2, 3, 4, 5]

    def test_a_number_is_kept_once(self, journal):
        journal.append([opened()])
        with pytest.raises(ValueError, match="kept already"):
            journal.append(acts(1, 1))
        assert journal.read() == (opened(),)

    def test_all_are_kept_or_none(self, journal):
        journal.append([opened(), *acts(2, 3)])
        with pytest.raises(ValueError, match="kept already"):
            journal.append([*acts(5, 2), *acts(3, 1)])
        assert [event.seq for event in journal.read()] == [1, 2, 3, 4]

    def test_two_of_one_number_at_once_are_refused(self, journal):
        with pytest.raises(ValueError, match="kept already"):
            journal.append([*acts(1, 1), *acts(1, 1)])
        assert journal.read() == ()

    def test_nothing_appended_changes_nothing(self, journal):
        journal.append([])
        assert journal.read() == ()

    def test_words_of_every_script_are_kept(self, journal):
        event = opened(title="Crème brûlée — 甘い 🍮\x00 'q\"")
        journal.append([event])
        assert journal.read() == (event,)

    def test_a_note_of_a_look_never_raises(self, journal):
        journal.looked(5)
        journal.close()
        journal.looked(6)
