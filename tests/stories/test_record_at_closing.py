"""Closing the board after the meal leaves the record beside the journal; before the meal it leaves none."""

import pytest

import tests.kitchen as made
from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.app import Board, Wishes
from timerboard.core.commands import EndStep, PutAway, StartStep, TakeReading
from timerboard.core.menu import Dish, Use
from timerboard.recording import kept_cook
from timerboard.shell.clock import SystemClock
from timerboard.shell.journal import SqlJournal

HAM = step("Ham", "Roast", minutes(60, 90), uses=(Use(place="hob"),), pull_at_c=70.0)


def left_by(tmp_path, monkeypatch, eat_in: float):
    """A cook that began two hours ago, taken up and closed by a real board."""
    clock = SystemClock()
    monkeypatch.setattr(made, "OPENING", clock.wall_ms() - 120 * 60_000)
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(HAM,))), eat_in=eat_in)
    kitchen.must(StartStep(HAM.id))
    kitchen.wait(70)
    kitchen.must(TakeReading(HAM.id, 69.0), EndStep(HAM.id, confirmed=True))
    kitchen.wait(25)
    kitchen.must(TakeReading(HAM.id, 71.0))
    if eat_in < 120:
        kitchen.must(PutAway(("Ham",)))
    file = tmp_path / "supper.cook"
    journal = SqlJournal(file, "board")
    journal.append(kitchen.events)
    journal.close()
    board = Board(file, None, clock, "board", Wishes("dark", "silent"))
    board.close()
    return file


@pytest.mark.usefixtures("qapp")
def test_what_was_done_planned_read_and_put_away_is_kept_as_text(tmp_path, monkeypatch):
    file = left_by(tmp_path, monkeypatch, 90)
    told = file.with_suffix(".txt").read_text(encoding="utf-8")
    parts = [line for line in told.splitlines() if line.endswith(":") and not line.startswith(" ")]
    assert parts == [
        "What was done:",
        "Planned and real:",
        "What it took:",
        "Core temperatures and what rules ask:",
        "Cooling and leftovers:",
    ]
    assert "roast took 1 h 10 min, the menu says 1 h-1 h 30 min" in told
    assert "ham put away" in told
    assert "safe" not in told.lower()
    assert kept_cook(file).eat_at > 0  # the journal is whole beside it


@pytest.mark.usefixtures("qapp")
def test_before_the_meal_there_is_no_record_yet(tmp_path, monkeypatch):
    assert not left_by(tmp_path, monkeypatch, 600).with_suffix(".txt").exists()
