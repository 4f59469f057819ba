"""The folder of cooks: free names, and which cooks wait to be taken up again."""

import pytest

from tests.journal_events import NOON, acts, opened
from timerboard.core.events import CookClosed, EatTimeMoved, EventUndone
from timerboard.desk.ports import JournalTrouble
from timerboard.shell import journal_folder
from timerboard.shell.journal import SqlJournal
from timerboard.shell.journal_folder import cooks_folder, kept_cooks, new_file, unfinished


def kept(file, *events):
    journal = SqlJournal(file, "board")
    journal.append(events)
    journal.close()
    return file


def closed(seq):
    at = NOON + seq * 1000
    return CookClosed(seq=seq, at=at, wall_ms=at, boot="boot 1", board="board 1")


def undone(seq, of):
    at = NOON + seq * 1000
    return EventUndone(seq=seq, at=at, wall_ms=at, boot="boot 1", board="board 1", undone=of)


def test_a_name_is_the_day_and_the_title_in_plain_letters(tmp_path):
    assert new_file(tmp_path, "Crème & Soup: for 4", "2026-12-21").name == "2026-12-21-cr-me-soup-for-4.cook"
    assert new_file(tmp_path, "甘い", "2026-12-21").name == "2026-12-21-cook.cook"
    assert len(new_file(tmp_path, "x" * 500, "2026-12-21").name) < 70


def test_a_name_is_never_used_twice_not_even_that_of_a_cook_set_aside(tmp_path):
    first = new_file(tmp_path, "Soup", "2026-12-21")
    (tmp_path / (first.name + ".damaged-1")).touch()
    second = new_file(tmp_path, "Soup", "2026-12-21")
    assert second.name == "2026-12-21-soup-2.cook"
    kept(second, opened())
    assert new_file(tmp_path, "Soup", "2026-12-21").name == "2026-12-21-soup-3.cook"


def test_unfinished_cooks_come_last_touched_first(tmp_path):
    kept(tmp_path / "old.cook", opened("Old soup"))
    kept(tmp_path / "new.cook", opened("New soup"), *acts(2, 60))
    kept(tmp_path / "done.cook", opened("Done"), closed(2))
    kept(tmp_path / "never.cook")
    found = unfinished(tmp_path)
    assert [cook.title for cook in found] == ["New soup", "Old soup"]
    assert found[0].said == "New soup, opened 12:00, last touched 12:01"


def test_a_closing_that_was_taken_back_is_none(tmp_path):
    kept(tmp_path / "a.cook", opened(), closed(2), undone(3, 2))
    assert len(unfinished(tmp_path)) == 1
    kept(tmp_path / "b.cook", opened(), closed(2), undone(3, 2), closed(4))
    assert [cook.path.name for cook in unfinished(tmp_path)] == ["a.cook"]


def test_a_damaged_cook_is_listed_and_said(tmp_path):
    (tmp_path / "bad.cook").write_bytes(b"\xff" * 9000)
    found = unfinished(tmp_path)
    assert "damaged" in found[0].said
    assert (tmp_path / "bad.cook").read_bytes() == b"\xff" * 9000


def test_a_cook_that_another_board_writes_is_listed_without_touching_it(tmp_path):
    journal = SqlJournal(tmp_path / "a.cook", "board")
    journal.append([opened()])
    assert [cook.title for cook in unfinished(tmp_path)] == ["Soup for four"]
    journal.append(acts(2, 1))
    assert len(journal.read()) == 2
    journal.close()


def test_no_folder_has_no_cooks(tmp_path):
    assert unfinished(tmp_path / "nowhere") == ()


def test_the_folder_is_made_in_the_users_data_or_its_trouble_is_said(tmp_path, monkeypatch):
    monkeypatch.setattr(journal_folder.platformdirs, "user_data_path", lambda *_, **__: tmp_path / "data")
    assert cooks_folder() == tmp_path / "data" / "cooks"
    assert cooks_folder().is_dir()
    (tmp_path / "file").touch()
    monkeypatch.setattr(journal_folder.platformdirs, "user_data_path", lambda *_, **__: tmp_path / "file")
    with pytest.raises(JournalTrouble, match="cannot be made"):
        cooks_folder()


def moved(seq, eat_at):
    at = NOON + seq * 1000
    return EatTimeMoved(seq=seq, at=at, wall_ms=at, boot="boot 1", board="board 1", eat_at=eat_at)


def test_a_meal_is_eaten_when_it_was_moved_to_last_unless_that_was_taken_back(tmp_path):
    first, second = NOON + 3_600_000, NOON + 7_200_000
    kept(tmp_path / "a.cook", opened(), moved(2, first), moved(3, second), undone(4, 3))
    assert [cook.eat_at for cook in kept_cooks(tmp_path)] == [first]


def test_kept_cooks_are_the_closed_ones_as_well(tmp_path):
    kept(tmp_path / "a.cook", opened("Soup"), closed(2))
    kept(tmp_path / "b.cook", opened("Stew"))
    assert {(cook.title, cook.closed) for cook in kept_cooks(tmp_path)} == {("Soup", True), ("Stew", False)}
