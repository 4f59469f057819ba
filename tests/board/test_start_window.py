"""The first window: what is unfinished comes first, menus are pictures, and the keyboard reaches everything."""

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QPushButton

from timerboard.board.look import THEMES
from timerboard.board.record_window import RecordWindow
from timerboard.board.start_window import Choices, MenuTile, PastCook, StartWindow, Unfinished, Ways
from timerboard.core.plan_preview import preview
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu
from timerboard.shell.recent_menus import RecentMenus

SUPPER = Path(__file__).parents[2] / "sample_menus" / "one-burner-weeknight.yaml"
CHOICES = Choices(
    (Unfinished("cook 1", "Solstice supper", "opened 14:05"), Unfinished("cook 2", "Brunch", "opened 9:00")),
    (
        PastCook("past 1", "Lentil soup", "Eaten on Monday 21 December at 18:34"),
        PastCook("past 2", "Stew", "left", open=True),
    ),
    (MenuTile("recent", "Late brunch", "8 dishes for 10"),),
    (MenuTile("sample", "One-burner weeknight", "5 dishes for 3"),),
)


@dataclass
class Chosen:
    """Remembers what was asked for."""

    said: list = field(default_factory=list)

    def ways(self) -> Ways:
        def way(name):
            return lambda *key: self.said.append((name, *key))

        return Ways(way("go on"), way("cook"), way("edit"), way("new"), way("open"), way("record"), way("closed"))


@pytest.fixture
def chosen() -> Chosen:
    return Chosen()


@pytest.fixture
def window(qtbot, chosen) -> StartWindow:
    made = StartWindow(CHOICES, chosen.ways(), theme="dark")
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def test_enter_at_once_goes_on_with_the_unfinished_cook(qtbot, window, chosen):
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    assert chosen.said == [("go on", "cook 1")]


def test_without_an_unfinished_cook_a_new_meal_comes_first(qtbot, chosen):
    window = StartWindow(Choices(), chosen.ways(), theme="light")
    qtbot.addWidget(window)
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    assert chosen.said == [("new",)]


def test_a_menu_is_cooked_by_its_picture_or_button_and_edited_by_the_other(qtbot, window, chosen):
    tile = window.tiles[1]
    qtbot.mouseClick(tile.picture, Qt.MouseButton.LeftButton, pos=QPoint(20, 20))
    qtbot.mouseClick(tile.cook, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(tile.edit, Qt.MouseButton.LeftButton)
    assert chosen.said == [("cook", "sample"), ("cook", "sample"), ("edit", "sample")]


def button(window, name: str) -> QPushButton:
    return next(b for b in window.findChildren(QPushButton) if b.accessibleName().startswith(name))


def test_a_past_cook_opens_its_record_and_goes_on_only_if_nobody_ended_it(qtbot, window, chosen):
    qtbot.mouseClick(button(window, "Open the record of Lentil soup"), Qt.MouseButton.LeftButton)
    qtbot.mouseClick(button(window, "Go on with Stew"), Qt.MouseButton.LeftButton)
    assert chosen.said == [("record", "past 1"), ("go on", "past 2")]
    assert not [b for b in window.findChildren(QPushButton) if b.accessibleName() == "Go on with Lentil soup"]


def test_buttons_are_large_enough_for_a_wet_finger(window):
    assert all(b.height() >= 45 for b in window.findChildren(QPushButton))  # 12 mm at 96 dots per inch


def test_the_window_is_no_larger_than_its_screen(window):
    room = window.screen().availableGeometry()
    assert window.width() <= room.width()
    assert window.height() <= room.height()


def test_a_record_is_read_and_kept(qtbot):
    kept = []
    shown = RecordWindow(
        "Soup for 4", ("What was done:", "  12:00  onions cut"), lambda: kept.append(1), THEMES[0], None
    )
    qtbot.addWidget(shown)
    shown.show()
    assert "onions cut" in shown.text.toPlainText()
    assert shown.text.isReadOnly()
    qtbot.mouseClick(shown.save, Qt.MouseButton.LeftButton)
    assert kept == [1]
    qtbot.keyClick(shown, Qt.Key.Key_Escape)
    assert not shown.isVisible()


def test_a_file_is_opened_and_a_meal_made_by_key(qtbot, window, chosen):
    qtbot.keyClick(window, Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(window, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert chosen.said == [("new",), ("open",)]


def test_the_keyboard_reaches_every_button_and_each_has_a_name(qtbot, window):
    buttons = window.findChildren(QPushButton)
    reached = set()
    for _ in range(len(buttons) + 2):
        qtbot.keyClick(QApplication.focusWidget() or window, Qt.Key.Key_Tab)
        reached.add(QApplication.focusWidget())
    assert set(buttons) <= reached
    assert {button.accessibleName() for button in buttons} >= {
        "Go on cooking Solstice supper, opened 14:05", "Cook Late brunch", "Edit One-burner weeknight",
        "Make a new meal",
    }  # fmt: skip


def test_a_plan_is_painted_on_its_tile(qtbot, window):
    menu = load_menu(SUPPER).menu
    tile = window.tiles[1]
    before = tile.picture.grab().toImage()
    plan = first_plan(question(menu, 1_795_200_000, "UTC"))
    window.show_picture("sample", preview(menu, plan, "UTC"))
    image = tile.picture.grab().toImage()
    assert image != before
    bars = [image.pixelColor(x, y).name() for x in range(0, 270, 2) for y in range(0, 90, 2)]
    assert bars.count(window.palette_.left.ground) > 100
    assert window.palette_.eat in bars or window.palette_.eat in {image.pixelColor(x, 40).name() for x in range(270)}


def test_tiles_stand_in_as_many_columns_as_there_is_room_for(qtbot, chosen):
    many = tuple(MenuTile(f"m{n}", f"Menu {n}") for n in range(6))
    window = StartWindow(Choices(samples=many), chosen.ways(), theme="light")
    qtbot.addWidget(window)
    window.resize(1024, 600)
    with qtbot.waitExposed(window):
        window.show()
    assert len({tile.x() for tile in window.tiles}) == 3
    window.resize(480, 600)
    QApplication.processEvents()
    assert len({tile.x() for tile in window.tiles}) == 1


@pytest.mark.parametrize("palette", THEMES, ids=lambda palette: palette.name)
def test_it_wears_every_theme(window, palette):
    window.dress(palette)
    assert window.grab().toImage().pixelColor(4, 4).name() == palette.bar


def test_closing_it_is_told(window, chosen):
    window.close()
    assert chosen.said == [("closed",)]


def test_recent_menus_are_those_that_are_still_there_the_last_first(tmp_path):
    files = [tmp_path / f"{n}.yaml" for n in range(3)]
    recent = RecentMenus(tmp_path / "state")
    for file in files:
        file.write_text("menu: x\n")
        recent.note(file)
    recent.note(files[0])
    files[1].unlink()
    assert recent.files() == (files[0], files[2])
    (tmp_path / "state" / "recent.json").write_text("{")
    assert recent.files() == ()
