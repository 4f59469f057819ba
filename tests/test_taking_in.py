"""The import command: a recipe to a menu, into a menu, and refused in words."""

import json
import shutil
from pathlib import Path

import pytest

from timerboard.__main__ import main
from timerboard.shell.menu_file import load_menu

ROOT = Path(__file__).resolve().parents[1]
RECIPES = ROOT / "tests" / "core" / "recipes"
SUPPER = ROOT / "sample_menus" / "solstice-supper.yaml"


def test_a_recipe_is_printed_as_a_menu_and_its_guesses_told(capsys):
    assert main(["import", str(RECIPES / "steak.txt")]) == 0
    told = capsys.readouterr()
    assert told.out.startswith("menu: Pan-fried steak\n")
    assert "serves 4 is a guess: the recipe does not say" in told.err


def test_a_new_menu_is_written_once_and_has_a_plan(tmp_path, capsys):
    out = tmp_path / "lamb.yaml"
    assert main(["import", str(RECIPES / "leg-of-lamb.txt"), "-o", str(out)]) == 0
    assert main(["check", str(out)]) == 0
    assert main(["plan", str(out)]) == 0
    assert "Baste" in capsys.readouterr().out
    assert main(["import", str(RECIPES / "leg-of-lamb.txt"), "-o", str(out)]) == 2
    assert "--into" in capsys.readouterr().err


def test_a_dish_is_added_to_a_menu_whose_every_line_stays(tmp_path, capsys):
    menu = tmp_path / "supper.yaml"
    shutil.copy(SUPPER, menu)
    before = menu.read_text(encoding="utf-8")
    assert main(["import", str(RECIPES / "tart.txt"), "--into", str(menu)]) == 0
    after = menu.read_text(encoding="utf-8")
    lines = iter(after.splitlines())
    kept = [line for line in before.splitlines() if not line.startswith("table:")]
    assert all(line in lines for line in kept)  # the old lines, in their order
    assert "custards, Leek tart]" in after
    assert "# guessed:" in after
    names = [dish.name for dish in load_menu(menu).menu.dishes]
    assert names[-1] == "Leek tart"
    assert main(["import", str(RECIPES / "tart.txt"), "--into", str(menu)]) == 0
    assert [dish.name for dish in load_menu(menu).menu.dishes][-1] == "Leek tart 2"
    assert "1 dish" in capsys.readouterr().out


def test_a_menu_with_a_table_gets_the_dish_on_it(tmp_path):
    menu = tmp_path / "m.yaml"
    menu.write_text(
        "menu: A\nserves: 2\ntable: [Bread]\ndishes:\n  - dish: Bread\n    steps: [{do: Cut, work: 2 min}]\n"
    )
    assert main(["import", str(RECIPES / "rice.txt"), "--into", str(menu)]) == 0
    found = load_menu(menu).menu
    assert found.table == ("Bread", "Plain steamed rice")
    assert found.place("hob") is not None


def test_an_oven_that_does_not_go_so_hot_is_told_and_nothing_changed(tmp_path, capsys):
    menu = tmp_path / "m.yaml"
    text = (
        "menu: A\nserves: 2\nkitchen: {places: {oven: {room: 1, heat: 60-200 C, preheat: 20 min}}}\n"
        "dishes:\n  - dish: Bread\n    steps: [{do: Cut, work: 2 min}]\n"
    )
    menu.write_text(text)
    assert main(["import", str(RECIPES / "pizza-dough.txt"), "--into", str(menu)]) == 2
    assert "250 °C is not possible in oven" in capsys.readouterr().err
    assert menu.read_text() == text


def test_two_recipes_of_one_page_become_two_dishes(tmp_path, capsys):
    data = [{"@type": "Recipe", "name": name, "recipeInstructions": "Chop it."} for name in ("Slaw", "Dressing")]
    source = tmp_path / "r.json"
    source.write_text(json.dumps(data))
    assert main(["import", str(source), "-o", str(tmp_path / "m.yaml")]) == 0
    assert "2 dishes, 2 steps" in capsys.readouterr().out


@pytest.mark.parametrize("content", [b"", b"{}", b"<html>", b" \n\n"])
def test_what_holds_no_recipe_exits_with_2_in_words(tmp_path, content, capsys):
    source = tmp_path / "r.txt"
    source.write_bytes(content)
    assert main(["import", str(source)]) == 2
    told = capsys.readouterr().err
    assert "r.txt: " in told
    assert "Traceback" not in told


def test_a_file_or_a_menu_that_is_not_there_is_told(tmp_path, capsys):
    assert main(["import", str(tmp_path / "no.txt")]) == 2
    assert "cannot be read" in capsys.readouterr().err
    assert main(["import", str(tmp_path)]) == 2
    assert main(["import", str(RECIPES / "rice.txt"), "--into", str(tmp_path / "no.yaml")]) == 2
    assert "there is no such menu" in capsys.readouterr().err
    assert main(["import", str(RECIPES / "rice.txt"), "-o", str(tmp_path / "no" / "x.yaml")]) == 2
    assert "cannot be saved" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["a" * 5000, "\0"])
def test_a_name_that_no_file_can_have_is_refused_in_words(name, capsys):
    assert main(["import", str(RECIPES / "rice.txt"), "-o", name]) == 2
    assert "cannot be" in capsys.readouterr().err
