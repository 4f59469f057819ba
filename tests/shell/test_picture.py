"""The plan's picture: a real PNG and SVG, black and white, with every dish on it."""

import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QImage

from timerboard.core.civil import resolve_eat_at
from timerboard.core.plan_preview import preview
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu
from timerboard.shell.paper import Sheet
from timerboard.shell.picture import BAR, LABEL, LEFT, RIGHT, SCALE, TOP, WIDTH, write_picture

ZONE = "Europe/Paris"
SAMPLES = sorted((Path(__file__).resolve().parents[2] / "sample_menus").glob("*.yaml"))
SVG = "{http://www.w3.org/2000/svg}"


def eat_at_of(menu):
    """The menu's own time to eat, on 21 December 2026 in Paris."""
    found = resolve_eat_at(f"2026-12-21 {menu.eat_at}", ZONE, 0)
    assert isinstance(found, int)
    return found


def sheet_of(path):
    menu = load_menu(path).menu
    plan = first_plan(question(menu, eat_at_of(menu), ZONE))
    assert plan is not None
    return Sheet(menu, plan, ZONE)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_an_svg_names_every_dish_and_the_meal(qapp, tmp_path, path):
    sheet, out = sheet_of(path), tmp_path / "plan.svg"
    width, height = write_picture(sheet, out)
    root = ET.fromstring(out.read_text(encoding="utf-8"))
    assert root.tag == f"{SVG}svg"
    assert root.get("viewBox") == f"0 0 {width} {height}"
    words = " ".join("".join(node.itertext()) for node in root.iter(f"{SVG}text"))
    assert all(dish.name in words for dish in sheet.menu.dishes)
    assert sheet.menu.title in words
    assert f"Eat at {sheet.menu.eat_at}" in words
    assert root.find(f"{SVG}title").text == sheet.menu.title


def test_a_png_is_black_and_white_and_keeps_its_edges_free(qapp, tmp_path):
    sheet, out = sheet_of(next(p for p in SAMPLES if p.stem == "solstice-supper")), tmp_path / "plan.png"
    width, height = write_picture(sheet, out)
    assert out.read_bytes().startswith(b"\x89PNG\r\n")
    image = QImage(str(out))
    assert (image.width(), image.height()) == (width * SCALE, height * SCALE)
    assert image.isGrayscale()
    bits = image.convertToFormat(QImage.Format.Format_Grayscale8)
    dots = np.frombuffer(bits.constBits(), np.uint8).reshape(bits.height(), bits.bytesPerLine())[:, : bits.width()]
    rows, columns = np.nonzero(dots < 128)
    assert rows.min() > 10
    assert rows.max() < image.height() - 10
    assert columns.min() > 10
    assert columns.max() < image.width() - 10
    assert 0.005 < (dots < 128).mean() < 0.3


def test_hands_are_solid_and_what_goes_on_by_itself_is_an_outline(qapp, tmp_path):
    """In the strip of the first dish: its first step is hands, its long wait in the fridge is not."""
    sheet = sheet_of(next(p for p in SAMPLES if p.stem == "late-brunch"))
    out = tmp_path / "plan.png"
    write_picture(sheet, out)
    image = QImage(str(out)).convertToFormat(QImage.Format.Format_Grayscale8)
    dots = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine())
    _, axis = preview(sheet.menu, sheet.plan, ZONE)
    row = round((TOP + 2 * LABEL + 4 + BAR / 2) * SCALE)  # through the middle of the first strip's bar

    def ink(do):
        placed = sheet.plan.of(f"Savoury bread pudding/{do}")
        ends = [LEFT + (at * 1000 - axis.start) / (axis.end - axis.start) * (WIDTH - LEFT - RIGHT)
                for at in (placed.start, placed.end)]  # fmt: skip
        return (dots[row, round((ends[0] + 3) * SCALE) : round((ends[1] - 3) * SCALE)] < 128).mean()

    assert ink("Layer and pour over") == 1.0
    assert ink("Soak") < 0.05


def test_a_folder_that_is_not_there_is_an_os_error(qapp, tmp_path):
    with pytest.raises(OSError, match="No such file"):
        write_picture(sheet_of(SAMPLES[0]), tmp_path / "no" / "x.png")
