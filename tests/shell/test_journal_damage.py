"""A damaged cook is set aside untouched; whatever can be read of it goes on, and what is missing is said."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.journal_events import act, acts, opened
from timerboard.desk.ports import JournalTrouble
from timerboard.shell.journal import SqlJournal
from timerboard.shell.journal_rescue import PAGE, missing_of, number_words

LONG = opened(text="a long menu\n" * 2_000)  # lies on overflow pages
ALL = (LONG, *acts(2, 199))


def closed_cook(folder: Path) -> Path:
    """A cook of 200 events, all of it in the one file, without the reserve of its opening."""
    file = folder / "a.cook"
    journal = SqlJournal(file, "board")
    journal.append(ALL)
    journal.close()
    (folder / "a.cook.opening").unlink()
    return file


def reopened(file: Path) -> tuple[list[int], str]:
    """The numbers that are read back, and what is said."""
    journal = SqlJournal(file, "after")
    try:
        events = journal.read()
        assert all(event == ALL[event.seq - 1] for event in events)
        return [event.seq for event in events], journal.damage()
    finally:
        journal.close()


def overwrite(file: Path, at: int, with_: bytes) -> None:
    with file.open("r+b") as out:
        out.seek(at)
        out.write(with_)


def one_by_one(journal: SqlJournal, first: int, count: int) -> None:
    for event in acts(first, count):
        journal.append([event])


def test_a_sound_cook_is_left_alone(tmp_path):
    file = closed_cook(tmp_path)
    assert reopened(file) == (list(range(1, 201)), "")
    assert list(tmp_path.glob("*damaged*")) == []


def test_a_lost_first_page_loses_no_event(tmp_path):
    file = closed_cook(tmp_path)
    overwrite(file, 0, bytes(PAGE))
    seqs, said = reopened(file)
    assert seqs == list(range(1, 201))
    assert "damaged" in said
    assert "Missing" not in said


def test_every_single_lost_page_costs_only_its_own_rows_and_is_told(tmp_path):
    whole = closed_cook(tmp_path).read_bytes()
    lost_at_all = set()
    for page in range(len(whole) // PAGE):
        folder = tmp_path / str(page)
        folder.mkdir()
        file = folder / "a.cook"
        file.write_bytes(whole[: page * PAGE] + bytes(PAGE) + whole[(page + 1) * PAGE :])
        seqs, said = reopened(file)
        lost = sorted(set(range(1, 201)) - set(seqs))
        assert len(lost) <= PAGE // 150  # a row of these acts takes more than 150 bytes
        assert not lost or number_words(tuple(lost)) in said or lost[-1] == 200
        assert (folder / "a.cook.damaged-1").read_bytes()[page * PAGE :][:PAGE] == bytes(PAGE)
        lost_at_all.update(lost)
    assert lost_at_all == set(range(1, 201))


def test_a_cut_off_file_keeps_what_lies_before_the_cut(tmp_path):
    file = closed_cook(tmp_path)
    size = file.stat().st_size
    with file.open("r+b") as out:
        out.truncate(size // 2)
    before = file.read_bytes()
    seqs, said = reopened(file)
    assert 0 < len(seqs) < 200
    assert "look at every pot" in said
    assert (tmp_path / "a.cook.damaged-1").read_bytes() == before


@pytest.mark.parametrize("left", [b"", b"short", b"\xff" * 3 * PAGE], ids=["nothing", "a scrap", "garbage"])
def test_with_nothing_left_the_reserve_still_opens_the_cook(tmp_path, left):
    journal = SqlJournal(tmp_path / "a.cook", "board")
    journal.append(ALL)
    journal.close()
    (tmp_path / "a.cook").write_bytes(left)
    seqs, said = reopened(tmp_path / "a.cook")
    assert seqs == [1]
    assert "1 entry was read back" in said
    assert (tmp_path / "a.cook.damaged-1").read_bytes() == left


def test_a_changed_letter_is_noticed(tmp_path):
    file = closed_cook(tmp_path)
    at = file.read_bytes().index(b'"cue":"stir"')
    overwrite(file, at, b'"cue":"star"')
    seqs, said = reopened(file)
    assert len(seqs) == 199
    assert "Missing: number" in said


def test_a_log_without_its_file_is_read(tmp_path):
    """SQLite takes an empty file for a new one and throws the log away, and with it everything since the last sync."""
    journal = SqlJournal(tmp_path / "a.cook", "board")
    journal.append(ALL)
    for tail in ("", "-wal"):
        (tmp_path / f"b.cook{tail}").write_bytes((tmp_path / f"a.cook{tail}").read_bytes())
    journal.close()
    (tmp_path / "b.cook").write_bytes(b"")
    seqs, _said = reopened(tmp_path / "b.cook")
    assert seqs == list(range(1, 201))


def test_a_cook_goes_on_after_the_rescue_and_a_second_damage_overwrites_nothing(tmp_path):
    file = closed_cook(tmp_path)
    overwrite(file, 0, bytes(PAGE))
    journal = SqlJournal(file, "after")
    journal.append([act(201)])
    journal.close()
    assert [event.seq for event in journal.read()] == list(range(1, 202))
    journal.close()
    file.write_bytes(b"x" * PAGE)
    SqlJournal(file, "again").close()
    assert sorted(p.name for p in tmp_path.glob("*damaged-?")) == ["a.cook.damaged-1", "a.cook.damaged-2"]


def test_damage_under_a_running_board_is_said_and_the_next_try_begins_a_fresh_file(tmp_path):
    journal = SqlJournal(tmp_path / "a.cook", "board")
    journal.append(ALL)
    journal.close()
    journal._open().dispose()  # SQLite keeps what it has read; another process would not have it
    overwrite(tmp_path / "a.cook", PAGE, b"\x07" * (4 * PAGE))
    with pytest.raises(JournalTrouble, match="damaged"):
        one_by_one(journal, 201, 20)
    kept = {event.seq for event in journal.read()}
    journal.append([event for event in ALL if event.seq not in kept])
    assert journal.read()[:200] == ALL
    assert journal.damage()
    journal.close()


def test_a_cook_of_a_later_program_is_refused_not_set_aside(tmp_path):
    file = closed_cook(tmp_path)
    journal = SqlJournal(file, "board")
    with journal._open().begin() as connection:
        from timerboard.shell import journal_text

        body = '{"seq":201,"kind":"SoupSung","version":99}'
        text = f"{journal_text.crc32(body.encode()):08x} {body}"
        connection.exec_driver_sql("insert into events values ('a', 201, 'SoupSung', 1, 1, 2, ?)", (text,))
    journal.close()
    with pytest.raises(JournalTrouble, match="newer board"):
        SqlJournal(file, "board")
    assert list(tmp_path.glob("*damaged*")) == []


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_no_damage_brings_a_traceback_or_a_wrong_event(tmp_path_factory, data):
    folder = tmp_path_factory.mktemp("damage")
    file = closed_cook(folder)
    size = file.stat().st_size
    for _ in range(data.draw(st.integers(1, 4))):
        overwrite(file, data.draw(st.integers(0, size - 1)), data.draw(st.binary(min_size=1, max_size=60)))
    seqs, said = reopened(file)  # checks every event that comes back
    assert bool(said) or seqs == list(range(1, 201))


def test_a_row_whose_number_alone_is_spoilt_is_noticed(tmp_path):
    file = closed_cook(tmp_path)
    with closing(sqlite3.connect(file)) as database, database:
        database.execute("UPDATE events SET seq = 0 WHERE seq = 95")
    seqs, said = reopened(file)
    assert seqs == list(range(1, 201))
    assert said


def left_open(folder: Path) -> tuple[Path, list[int]]:
    """A cook of 30 events whose board died: nearly all of it is in the log. And the bytes at which its frames begin."""
    journal = SqlJournal(folder / "a.cook", "board")
    for event in ALL[:30]:
        journal.append([event])
    for tail in ("", "-wal"):
        (folder / f"b.cook{tail}").write_bytes((folder / f"a.cook{tail}").read_bytes())
    journal.close()
    return folder / "b.cook", list(range(32, (folder / "b.cook-wal").stat().st_size, 24 + PAGE))


def test_a_spoilt_frame_in_the_log_loses_no_event_that_was_kept_after_it(tmp_path):
    """SQLite reads the log as far as the first wrong checksum, and says nothing of what comes after it."""
    file, frames = left_open(tmp_path)
    log = file.with_name("b.cook-wal")
    overwrite(log, frames[len(frames) // 2] + 30, b"\xff\x00\xff")
    seqs, said = reopened(file)
    assert seqs == list(range(1, 31))
    assert "damaged" in said


def test_a_spoilt_head_of_the_log_loses_nothing(tmp_path):
    file, _frames = left_open(tmp_path)
    overwrite(file.with_name("b.cook-wal"), 20, b"\xff\xff")
    seqs, said = reopened(file)
    assert seqs == list(range(1, 31))
    assert "damaged" in said


def test_a_transaction_that_was_not_finished_is_no_damage(tmp_path):
    file, frames = left_open(tmp_path)
    log = file.with_name("b.cook-wal")
    with log.open("r+b") as out:
        out.truncate(frames[-1] + 2000)
    seqs, said = reopened(file)
    assert seqs == list(range(1, len(seqs) + 1))
    assert said == ""


def test_a_page_whose_list_of_rows_is_spoilt_still_gives_every_row_that_is_whole(tmp_path):
    file = closed_cook(tmp_path)
    whole = file.read_bytes()
    at = next(n for n in range(len(whole) // PAGE - 1, 0, -1) if whole[n * PAGE] == 0x0D) * PAGE
    overwrite(file, at, bytes(64))  # the page's kind, how many rows it has, and where they begin
    seqs, said = reopened(file)
    assert seqs == list(range(1, 201))
    assert "damaged" in said


def test_a_spoilt_index_is_mended_before_the_cook_goes_on(tmp_path):
    file = closed_cook(tmp_path)
    with closing(sqlite3.connect(file)) as database:
        root = database.execute("SELECT rootpage FROM sqlite_master WHERE type = 'index'").fetchone()[0]
    overwrite(file, root * PAGE - 4, b"\xff" * 4)
    journal = SqlJournal(file, "after")
    assert [event.seq for event in journal.read()] == list(range(1, 201))
    journal.append([act(201)])
    journal.close()
    assert (tmp_path / "a.cook.damaged-1").exists()


def test_a_header_that_forbids_writing_is_mended_before_the_cook_goes_on(tmp_path):
    file = closed_cook(tmp_path)
    overwrite(file, 18, b"\x42")
    journal = SqlJournal(file, "after")
    journal.append([act(201)])
    assert [event.seq for event in journal.read()] == list(range(1, 202))
    assert "damaged" in journal.damage()
    journal.close()


def test_missing_numbers_are_drawn_together():
    assert missing_of([1, 2, 4, 9]) == (3, 5, 6, 7, 8)
    assert number_words((3, 5, 6, 7, 8)) == "3, 5-8"
    assert missing_of([]) == ()
