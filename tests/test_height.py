"""How high the kitchen lies reaches every door by which a plan leaves: 20 min of boiling become 27 min at 1500 m.

The rule (7 % longer for each degree that water boils lower) is common practice and stated in `core/altitude.py`; the
boiling point itself is checked against IAPWS in `tests/outside/test_boiling.py`.
"""

import json
from pathlib import Path

import pytest

from tests.fakes import RecordingMemory
from timerboard import boards, rehearsing
from timerboard.__main__ import main
from timerboard.core.choices import height_asked, height_note
from timerboard.core.plan import Plan
from timerboard.desk.by_hand import CrankedClock
from timerboard.desk.choosing import remembered_height
from timerboard.desk.live_plan import LivePlan
from timerboard.desk.rehearsed_cook import Manner, RehearsedCook
from timerboard.planner.greedy import first_plan
from timerboard.shell.settings_file import SettingsFile, settings_path
from timerboard.terminal import PlanAsked, meal, plan_of

MENU = """\
menu: Lake lunch
serves: 4
eat_at: "13:00"
kitchen: {places: {hob: {room: 4}}}
dishes:
  - dish: Potatoes
    steps:
      - {do: Peel, work: 10 min}
      - {do: Boil, on: hob, takes: 20 min, work: 2 min}
  - dish: Char
    steps:
      - {do: Fry, on: hob, takes: 10 min, work: all}
"""
NOTE = "At 1500 m water boils at 95 °C: what boils is given 35 % more time than is written."
BOIL = "Potatoes/Boil"
CLOCK = CrankedClock(1_797_840_000_000, "UTC")  # a morning in December 2026


@pytest.fixture
def menu(tmp_path) -> Path:
    path = tmp_path / "lunch.yaml"
    path.write_text(MENU, encoding="utf-8")
    return path


@pytest.fixture
def on_a_mountain(tmp_path, monkeypatch):
    """The settings of somebody who chose 1500 m on a board."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    SettingsFile(settings_path()).remember("height", "1500")


def boiled_s(told: str) -> int:
    """How long the boiled step of a printed plan lasts."""
    (boil,) = [s for s in json.loads(told)["steps"] if s["id"] == BOIL]
    hours, minutes = boil["end"][11:16].split(":")
    from_hours, from_minutes = boil["start"][11:16].split(":")
    return (int(hours) - int(from_hours)) * 60 + int(minutes) - int(from_minutes)


def test_without_a_height_nothing_changes(menu, capsys):
    assert main(["plan", str(menu), "--json"]) == 0
    assert boiled_s(capsys.readouterr().out) == 20
    assert main(["plan", str(menu)]) == 0
    assert "boils at" not in capsys.readouterr().out


@pytest.mark.parametrize("words", [("--height", "1500 m"), ("--height", "4921 ft"), ()])
@pytest.mark.usefixtures("on_a_mountain")
def test_the_plan_is_for_the_height_that_was_asked_or_chosen_on_a_board(menu, words, capsys):
    assert main(["plan", str(menu), "--json", *words]) == 0
    assert boiled_s(capsys.readouterr().out) == 27
    assert main(["plan", str(menu), "--json", "--height", "0"]) == 0
    assert boiled_s(capsys.readouterr().out) == 20


@pytest.mark.usefixtures("on_a_mountain")
@pytest.mark.parametrize("command", ["plan", "sheet", "open"])
def test_what_is_printed_has_the_longer_times_and_says_why(menu, command, capsys, monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert main([command, str(menu)]) == 0
    told = capsys.readouterr().out
    assert NOTE in told
    assert "[on hob; for 27 min; then ready]" in told


@pytest.mark.usefixtures("on_a_mountain")
def test_lists_and_calendar_are_of_the_same_plan(menu, capsys, tmp_path):
    assert main(["lists", str(menu)]) == 0
    high = capsys.readouterr().out
    assert main(["lists", str(menu), "--height", "0"]) == 0
    low = capsys.readouterr().out
    assert "12:18 Peel" in high
    assert "12:25 Peel" in low
    file = tmp_path / "lunch.ics"
    assert main(["calendar", str(menu), "-o", str(file)]) == 0
    events = file.read_text(encoding="utf-8").split("BEGIN:VEVENT")
    (boil,) = [event for event in events if "SUMMARY:Boil" in event]
    assert "27 min" in boil.replace("\r\n ", "")


@pytest.mark.usefixtures("on_a_mountain")
def test_the_board_opens_on_a_plan_for_the_height_and_keeps_the_menu_as_written(menu):
    at_table = meal(menu, None, CLOCK)
    plan = boards.opening_plan(at_table, CLOCK)
    assert isinstance(plan, Plan)
    placed = plan.of(BOIL)
    assert placed is not None
    assert placed.end - placed.start == 27 * 60
    assert boards.order_of(at_table).menu.steps[BOIL].span.likely == 20 * 60  # the choice is an event of the cook


@pytest.mark.usefixtures("on_a_mountain")
def test_a_rehearsed_cook_boils_as_long_as_a_real_one(menu):
    at_table = meal(menu, None, CLOCK)
    plan = plan_of(at_table, PlanAsked(menu), CLOCK)
    assert isinstance(plan, Plan)
    run = rehearsing.rehearsal(at_table, plan, RehearsedCook(Manner.LIKELY, 1), lambda _ms: None)
    list(run.run())
    boiled = run.desk.cook.lives[BOIL]
    assert boiled.started is not None
    assert boiled.ended is not None
    assert 27 * 60_000 <= boiled.ended - boiled.started < 29 * 60_000
    assert run.desk.cook.written[BOIL].span.likely == 20 * 60  # for 'what it took': what the menu says


class OneAnswer:
    """A planner that answers at once."""

    def ask(self, problem, hint, *, on_progress, on_answer, on_forecast, on_trouble):
        on_answer(first_plan(problem))

    def cancel(self):
        """Nothing is open."""


class AtOnce:
    """A wake that does not wait."""

    def at(self, delay_ms, look):
        if delay_ms is not None:
            look()

    def stop(self):
        """Nothing waits."""


@pytest.mark.parametrize(("kept", "lasts"), [({"height": "1500"}, 27 * 60), ({}, 20 * 60)])
def test_the_editors_live_plan_is_for_the_height_and_says_so(menu, kept, lasts):
    live = LivePlan(OneAnswer(), AtOnce(), CLOCK, RecordingMemory(**kept))
    written = meal(menu, None, CLOCK).loaded.menu
    live.want(written)
    assert isinstance(live.now.plan, Plan)
    placed = live.now.plan.of(BOIL)
    assert placed is not None
    assert placed.end - placed.start == lasts
    assert live.now.menu == written
    assert live.now.cooked is not None
    assert live.now.cooked.steps[BOIL].span.likely == lasts
    assert live.now.note == (NOTE if kept else "")


@pytest.mark.parametrize("spoilt", [None, 1500, "high", "nan", "-9999", []])
def test_a_spoilt_memory_is_sea_level(spoilt):
    assert remembered_height(RecordingMemory(height=spoilt)) == "0"
    assert remembered_height(None) == "0"


@pytest.mark.parametrize(
    ("written", "metres"),
    [("1500", "1500"), ("1500 m", "1500"), ("0", "0"), ("5000 ft", "1524"), (" 900metres", "900")],
)
def test_a_height_is_written_in_metres_or_feet(written, metres):
    assert height_asked(written) == metres


@pytest.mark.parametrize("nonsense", ["", "high", "12 km", "9000", "-600 m", "40000 ft", "1e3", "²"])
def test_what_is_no_height_is_refused_in_words(nonsense, menu, capsys):
    with pytest.raises(ValueError, match="write 1500 m or 5000 ft"):
        height_asked(nonsense)
    assert main(["plan", str(menu), f"--height={nonsense}"]) == 2
    assert "is no height where people cook" in capsys.readouterr().err


def test_the_note_speaks_the_units_of_the_menu_and_is_silent_at_the_sea():
    assert height_note("1500", "F") == "At 4900 ft water boils at 203 °F: " + NOTE.partition(": ")[2]
    assert height_note("0") == height_note("") == ""


def test_only_one_function_makes_a_step_longer_for_its_height():
    callers = [
        path.name
        for path in (Path(__file__).parents[1] / "timerboard").rglob("*.py")
        if "longer_step(" in path.read_text(encoding="utf-8")
    ]
    assert callers == ["altitude.py"]
