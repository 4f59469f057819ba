"""`timerboard record`: a kept cook in words, with its cooling log."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.__main__ import main
from timerboard.core.commands import CloseCook, StartStep, TakeReading
from timerboard.core.menu import Dish, Use
from timerboard.shell.journal import SqlJournal

ROAST = step("Ham", "Roast", minutes(60, 90), uses=(Use(place="hob"),), heat_c=160.0, pull_at_c=70.0)


@pytest.fixture
def kept(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,))), eat_in=100, plan=False)
    kitchen.must(StartStep(ROAST.id))
    kitchen.wait(75)
    kitchen.must(TakeReading(ROAST.id, 71.0, confirmed=True))
    for after, celsius in ((60, 40.0), (50, 20.0), (120, 4.5)):
        kitchen.wait(after)
        kitchen.must(TakeReading(ROAST.id, celsius, confirmed=True))
    kitchen.must(CloseCook())
    folder = tmp_path / "timerboard" / "cooks"
    folder.mkdir(parents=True)
    journal = SqlJournal(folder / "2026-12-21-supper.cook", "board")
    journal.append(kitchen.events)
    journal.close()
    return folder / "2026-12-21-supper.cook"


@pytest.mark.parametrize("words", [[], ["supper"]])
def test_the_newest_cook_or_one_by_name_is_told_with_both_cooling_limits(kept, words, capsys):
    assert main(["record", *words]) == 0
    told = capsys.readouterr().out
    assert "Supper for 4" in told
    assert "roast took 1 h 15 min, the menu says 1 h-1 h 30 min" in told
    assert "57 °C to 21 °C within 2 h (FDA Food Code 2022, 3-501.14(A)(1)): read after 50 min · met" in told
    assert "to 5 °C, in all within 6 h" in told
    assert "safe" not in told.lower()


def test_it_is_written_to_a_file_and_leaves_the_journal_as_it_was(kept, tmp_path):
    before = kept.read_bytes()
    assert main(["record", str(kept), "-o", str(tmp_path / "record.txt")]) == 0
    assert "What it took:" in (tmp_path / "record.txt").read_text(encoding="utf-8")
    assert kept.read_bytes() == before


def test_what_is_no_cook_is_said_in_words(kept, tmp_path, capsys):
    (tmp_path / "note.cook").write_text("soup", encoding="utf-8")
    assert main(["record", str(tmp_path / "note.cook")]) == 2
    assert main(["record", "goulash"]) == 2
    told = capsys.readouterr().err
    assert "no kept cook is called 'goulash'" in told
    assert "Traceback" not in told


def test_a_name_longer_than_names_may_be_is_no_cook(kept, capsys):
    assert main(["record", "a" * 5000]) == 2
    assert capsys.readouterr().err.startswith(f"no kept cook is called '{'a' * 60}'; there are:")


KILLED = """
import os, signal, sys
from pathlib import Path
from tests.kitchen import Kitchen, small_menu
from tests.test_recording import ROAST
from timerboard.core.commands import StartStep, TakeReading
from timerboard.core.menu import Dish
from timerboard.shell.journal import SqlJournal

kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,))), eat_in=600, plan=False)
journal, kept = SqlJournal(Path(sys.argv[1]), "board"), 0
kitchen.must(StartStep(ROAST.id))
for n in range(200):
    kitchen.wait(2.5)
    kitchen.must(TakeReading(ROAST.id, 10.0 + n / 4, confirmed=True))
    journal.append(kitchen.events[kept:])
    kept = len(kitchen.events)
os.kill(os.getpid(), signal.SIGKILL)
"""


def test_a_long_cook_that_was_killed_has_no_text_beside_it_and_is_told_to_its_last_act(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    folder, root = tmp_path / "timerboard" / "cooks", Path(__file__).resolve().parents[1]
    folder.mkdir(parents=True)
    command = [sys.executable, "-c", KILLED, str(folder / "supper.cook")]
    ended = subprocess.run(command, cwd=root, env=os.environ | {"PYTHONPATH": str(root)}, check=False)
    assert ended.returncode == -signal.SIGKILL
    assert not list(folder.glob("*.txt"))
    assert (folder / "supper.cook-wal").stat().st_size > 0  # the kill left the last acts there
    before = (folder / "supper.cook").read_bytes(), (folder / "supper.cook-wal").read_bytes()
    assert main(["record"]) == 0
    told = capsys.readouterr().out
    assert sum("°C" in line for line in told.splitlines()) >= 200
    assert "59.8 °C" in told  # the last of them
    assert ", not ended" in told
    assert ((folder / "supper.cook").read_bytes(), (folder / "supper.cook-wal").read_bytes()) == before
