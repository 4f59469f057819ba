"""The commands as a person types them: what they print, their exit codes, and that no input gives a traceback."""

import json
import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from timerboard.__main__ import main

ROOT = Path(__file__).resolve().parents[1]
SAMPLES = sorted((ROOT / "sample_menus").glob("*.yaml"))
WEEKNIGHT = ROOT / "sample_menus" / "one-burner-weeknight.yaml"

TWO_TEMPERATURES = """
menu: Clash
serves: 4
eat_at: "19:00"
kitchen: {places: {oven: {room: 2, heat: 60-250 C, preheat: 20 min}}}
dishes:
  - dish: Roast
    hold: 0 min
    steps: [{do: Roast, on: oven, heat: 160 C, takes: 1 h}]
  - dish: Tart
    hold: 0 min
    steps: [{do: Bake, on: oven, heat: 220 C, takes: 30 min}]
"""


@pytest.fixture
def written(tmp_path):
    def write(text, name="menu.yaml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def run(*words, **environment):
    """The program as its own process, without a display."""
    env = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
    return subprocess.run(
        [sys.executable, "-m", "timerboard", *map(str, words)],
        env={**env, **environment},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        cwd=ROOT,
    )


@pytest.mark.parametrize("menu", SAMPLES, ids=lambda p: p.stem)
def test_every_sample_passes_check_and_has_a_plan_that_keeps_the_meal(menu, capsys):
    assert main(["check", str(menu)]) == 0
    assert "no warnings" in capsys.readouterr().out
    assert main(["plan", str(menu), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["status"] in ("optimal", "feasible")
    assert all(datetime.fromisoformat(step["end"]).tzinfo for step in told["steps"])
    assert datetime.fromisoformat(told["starts_at"]) < datetime.fromisoformat(told["eat_at"])
    ids = [step["id"] for step in told["steps"]]
    assert len(ids) == len(set(ids))
    assert all("/" in step for step in ids)


@pytest.mark.parametrize("menu", SAMPLES, ids=lambda p: p.stem)
@pytest.mark.parametrize("cook", ["likely", "late", "forgetful"])
def test_every_sample_is_rehearsed_to_the_table_and_no_alarm_is_lost(menu, cook, capsys):
    assert main(["rehearse", str(menu), "--fast", "--cook", cook, "--seed", "7", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert all(step["ended"] for step in told["steps"])
    alarms = told["alarms"]
    assert alarms["raised"] == alarms["ended"] + alarms["waiting"]
    assert alarms["raised"] > len(told["steps"]) / 2
    assert told["refused"] == []
    if cook == "likely":
        assert told["late_s"] <= 600


def test_the_same_seed_rehearses_the_same_evening_and_another_seed_another(capsys):
    runs = []
    for seed in ("1", "1", "2"):
        main(["rehearse", str(WEEKNIGHT), "--fast", "--cook", "late", "--seed", seed, "--json"])
        runs.append(json.loads(capsys.readouterr().out)["steps"])
    assert runs[0] == runs[1]
    assert runs[0] != runs[2]


def test_a_rehearsal_in_lines_tells_what_happened_and_what_it_took(capsys):
    assert main(["rehearse", str(WEEKNIGHT), "--fast"]) == 0
    told = capsys.readouterr().out
    assert "rice: rinse started" in told
    assert "rice: soak began by itself" in told
    assert "What it took:" in told
    assert "0 waiting" in told


def test_no_plan_exits_with_1_and_says_why_and_what_would_do(written, capsys):
    assert main(["plan", str(written(TWO_TEMPERATURES))]) == 1
    told = capsys.readouterr().err
    assert "160 °C" in told
    assert "220 °C" in told
    assert main(["plan", str(written(TWO_TEMPERATURES)), "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["status"] == "impossible"
    assert answer["reasons"]
    assert answer["steps"] == []
    assert answer["span_s"] is None


def test_soonest_gives_the_makespan_from_a_given_start(written, capsys):
    text = TWO_TEMPERATURES.replace("hold: 0 min", "hold: 3 h")
    assert main(["plan", str(written(text)), "--soonest", "--from", "2026-12-21T12:00+00:00", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    # one dish, the change of 60 K of the 230 K that 20 min of preheat cover (313 s, up to the next minute), the other
    assert told["span_s"] == 3600 + 360 + 1800
    assert told["starts_at"] >= "2026-12-21T12:00"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "menu.yaml:1:1"),
        ("menu: [", "menu.yaml:1"),
        ("menu: A\nserves: 2\ndishez: []\n", "dishes"),
        ("\x00\x01", "menu.yaml:1"),
        (TWO_TEMPERATURES.replace("takes: 1 h", "takes: 60"), "60 min"),
        (TWO_TEMPERATURES.replace("on: oven, heat: 220 C", "on: ovn, heat: 220 C"), "oven"),
    ],
)
def test_a_bad_menu_exits_with_2_and_names_file_line_and_what_would_be_right(text, said, written, capsys):
    for words in (["check"], ["plan"], ["plan", "--json"], ["rehearse", "--fast"], ["sheet"]):
        assert main([words[0], str(written(text)), *words[1:]]) == 2
        told = capsys.readouterr().err
        assert said in told
        assert "Traceback" not in told


@pytest.mark.parametrize("when", ["25:00", "soon", "2026-02-30 18:00", "", "-5"])
def test_a_time_to_eat_that_is_none_exits_with_2_in_words(when, capsys):
    assert main(["plan", str(WEEKNIGHT), f"--eat-at={when}"]) == (2 if when else 0)
    assert "Traceback" not in capsys.readouterr().err


def test_a_civil_time_that_comes_twice_is_asked_about_and_an_offset_settles_it():
    asked = run("plan", WEEKNIGHT, "--eat-at", "2026-10-25 01:30", TZ="Europe/Lisbon")
    assert asked.returncode == 2
    assert "twice" in asked.stderr
    settled = asked.stderr.strip().splitlines()[-1].split("--eat-at ")[1]
    again = run("plan", WEEKNIGHT, "--eat-at", settled, "--json", TZ="Europe/Lisbon")
    assert json.loads(again.stdout)["eat_at"] == settled


def test_without_a_display_the_board_says_so_and_prints_the_plan():
    told = run(WEEKNIGHT)
    assert told.returncode == 0
    assert "no display" in told.stderr
    assert len(told.stderr.strip().splitlines()) == 1
    assert "Eat at 19:15" in told.stdout
    assert "Steam" in told.stdout


def test_a_sheet_and_a_calendar_are_written_where_asked(tmp_path, capsys):
    assert main(["calendar", str(WEEKNIGHT), "-o", str(tmp_path / "x.ics")]) == 0
    assert (tmp_path / "x.ics").read_bytes().startswith(b"BEGIN:VCALENDAR")
    assert main(["calendar", str(WEEKNIGHT), "-o", str(tmp_path / "no" / "x.ics")]) == 2
    assert "cannot be written" in capsys.readouterr().err
    assert run("sheet", WEEKNIGHT, "-o", tmp_path / "x.pdf").returncode == 0
    assert (tmp_path / "x.pdf").read_bytes().startswith(b"%PDF")


def test_output_into_a_closed_pipe_ends_quietly():
    command = f"{sys.executable} -m timerboard plan {WEEKNIGHT} | head -n 1"
    told = subprocess.run(["sh", "-c", command], capture_output=True, text=True, timeout=60, check=False, cwd=ROOT)
    assert "Traceback" not in told.stderr
