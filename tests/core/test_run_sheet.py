"""The run sheet as values: what it says at a glance, what is folded into a line, and that nothing is left out."""

import re
from pathlib import Path

import pytest

from timerboard.core.civil import resolve_eat_at
from timerboard.core.plan import HeatSetting, Placed, PlacedCue, Plan, Status
from timerboard.core.plan_words import sheet_lines
from timerboard.core.question import question
from timerboard.core.run_sheet import run_sheet
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu, read_menu

ZONE = "Europe/Paris"
EAT_AT = 1_797_870_600  # 2026-12-21 17:30 in Paris
SAMPLES = sorted((Path(__file__).resolve().parents[2] / "sample_menus").glob("*.yaml"))

MENU = """
menu: Supper
serves: 4
kitchen: {hands: 2, places: {oven: {room: 2, heat: 60-250 C, preheat: 20 min}, hob: {room: 4}, counter: {}}}
dishes:
  - dish: Leg of lamb
    hold: 30 min
    keep: on a hot dish
    steps:
      - {do: Rub with garlic, work: 12 min, on: counter}
      - {do: Take off the chill, on: counter, lasts: 40-75 min}
      - do: Roast
        on: oven
        heat: 160 C
        takes: 70-100 min
        work: {start: 2 min, end: 2 min}
        pull_at: 56 C
        until: the thickest part reads 56 C
        cues: [{do: Baste, every: 30 min, work: 1 min}]
      - {do: Rest, on: counter, lasts: 20-40 min}
      - {do: Carve, work: 8 min}
  - dish: Gravy
    hold: 30 min
    steps:
      - do: Simmer
        on: hob
        takes: 12 min
        work: 1 min
        cues: [{do: Stir, every: 4 min, work: 20 s}]
"""


def eat_at_of(menu):
    """The menu's own time to eat, on 21 December 2026 in Paris."""
    found = resolve_eat_at(f"2026-12-21 {menu.eat_at}", ZONE, 0)
    assert isinstance(found, int)
    return found


def at(minutes):
    """Seconds on the axis, so many minutes before the meal."""
    return EAT_AT - minutes * 60


def placed(step, start, end, person=None):
    return Placed(id=step, start=at(start), end=at(end), person=person)


@pytest.fixture(scope="module")
def sheet():
    menu = read_menu(MENU).menu
    plan = Plan(
        status=Status.FEASIBLE,
        eat_at=EAT_AT,
        placed=(
            placed("Leg of lamb/Rub with garlic", 210, 198, 1),
            placed("Leg of lamb/Take off the chill", 197, 147),
            placed("Leg of lamb/Roast", 147, 47, 1),
            placed("Leg of lamb/Rest", 47, 12),
            placed("Leg of lamb/Carve", 10, 2, 2),
            placed("Gravy/Simmer", 16, 4, 1),
        ),
        cues=(
            PlacedCue(step="Leg of lamb/Roast", id="Baste", cue="Baste", at=at(117)),
            PlacedCue(step="Leg of lamb/Roast", id="Baste 2", cue="Baste", at=at(87)),
            PlacedCue(step="Gravy/Simmer", id="Stir", cue="Stir", at=at(12)),
        ),
        settings=(
            HeatSetting(id="o", place="oven", heat_c=160, at=at(167), ready=at(147), for_step="Leg of lamb/Roast"),
        ),
    )
    return {line.name: line for line in run_sheet(menu, plan, ZONE)}


def test_a_job_says_verb_and_food(sheet):
    assert sheet["Leg of lamb/Rub with garlic"].what == "Rub the leg of lamb with garlic"
    assert sheet["Leg of lamb/Roast|Baste"].what == "Baste the leg of lamb"
    assert sheet["oven|Leg of lamb/Roast"].what == "Set the oven to 160 °C"


def test_a_fixed_length_is_for_and_only_a_sign_is_until(sheet):
    rub, roast = sheet["Leg of lamb/Rub with garlic"], sheet["Leg of lamb/Roast"]
    assert (rub.length, rub.until) == ("for 12 min", "")
    assert roast.length == "for 1 h 10 min-1 h 40 min, to about 16:43"  # 47 minutes before 17:30
    assert roast.until == "the thickest part reads 56 C"  # the sign names the temperature: it is not said twice


def test_what_goes_on_by_itself_after_a_job_is_told_in_its_line(sheet):
    assert "Leg of lamb/Take off the chill" not in sheet
    assert sheet["Leg of lamb/Rub with garlic"].then == "take off the chill by itself for 40 min-1 h 15 min, to 15:03"
    assert "Leg of lamb/Rest" not in sheet
    assert sheet["Leg of lamb/Roast"].then == "rest by itself for 20-40 min, to 17:18"


def test_small_jobs_of_every_few_minutes_are_told_once_and_rare_ones_have_their_own_line(sheet):
    assert sheet["Gravy/Simmer"].meanwhile == "stir every 4 min"
    assert "Gravy/Simmer|Stir" not in sheet
    assert {"Leg of lamb/Roast|Baste", "Leg of lamb/Roast|Baste 2"} <= set(sheet)


def test_who_is_told_where_several_cook_and_hands_are_needed(sheet):
    assert sheet["Leg of lamb/Rub with garlic"].who == "cook 1"
    assert sheet["Leg of lamb/Carve"].who == "cook 2"


def test_the_end_of_a_dish_says_how_it_is_kept_and_a_setting_when_it_is_hot(sheet):
    assert sheet["Leg of lamb/Carve"].then == "on a hot dish"
    assert sheet["Gravy/Simmer"].then == "ready"
    assert sheet["oven|Leg of lamb/Roast"].then == "hot by 15:03, for: roast the leg of lamb"
    assert sheet["table|"].what == "To the table: leg of lamb, gravy"


def test_dishes_of_a_window_come_to_the_table_as_they_are_ready():
    text = MENU.replace("dishes:", "courses: {griddle: {eat: 0 min, until: 90 min}}\ndishes:", 1)
    menu = read_menu(text.replace("  - dish: Gravy\n", "  - dish: Gravy\n    course: griddle\n")).menu
    plan = first_plan(question(menu, EAT_AT, ZONE))
    lines = [line for line in run_sheet(menu, plan, ZONE) if line.where == "table"]
    assert [line.what for line in lines] == [
        "To the table: leg of lamb",
        "To the table, as it is ready, until 19:00: gravy",
    ]
    assert (lines[1].at, lines[1].ends) == (EAT_AT, EAT_AT + 5400)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_every_step_and_cue_of_a_plan_is_on_the_sheet_in_a_line_or_in_the_line_before_it(path):
    menu = load_menu(path).menu
    plan = first_plan(question(menu, eat_at_of(menu), ZONE))
    assert plan is not None
    lines = run_sheet(menu, plan, ZONE)
    names = {line.name for line in lines}
    told = " ".join(f"{line.then} {line.meanwhile}" for line in lines).casefold()
    for step in menu.steps.values():
        assert step.id in names or step.do.casefold() in told
        if step.work.attended_start or step.until or step.pull_at_c is not None:
            assert step.id in names
    for cue in plan.cues:
        assert f"{cue.step}|{cue.id}" in names or cue.cue.casefold() in told
    assert all(f"{s.place}|{s.for_step}" in names for s in plan.settings)
    assert [line.at for line in lines] == sorted(line.at for line in lines)
    assert not any(re.match(r"\d+ (?:min|h)\b", line.until) for line in lines)
    assert len({line.name for line in lines}) == len(lines)


def test_the_terminal_says_for_until_and_then():
    menu = read_menu(MENU).menu
    plan = first_plan(question(menu, EAT_AT, ZONE))
    text = "\n".join(sheet_lines(menu, plan, ZONE))
    assert "Rub the leg of lamb with garlic  [on counter; for 12 min;" in text
    assert "until the thickest part reads 56 C; then rest" in text
    assert "until 12 min" not in text
