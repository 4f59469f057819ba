"""Fat that smokes or burns: one key from anywhere on the board, and one key back."""

import pytest
from PySide6.QtCore import Qt

from tests.kitchen import Kitchen, fritters, small_menu
from timerboard.board.letters import LEAST_SHARE, fitted
from timerboard.board.strip import StripWidget
from timerboard.board.window import BoardWindow
from timerboard.core.commands import DoCue, StartStep, TakeReading
from timerboard.core.engine import LIFT
from timerboard.core.view import view

SIZES = [(1366, 768), (1024, 600)]


def board(qtbot, kitchen: Kitchen, size: tuple[int, int]) -> BoardWindow:
    window = BoardWindow(lambda _: None, theme="dark")
    qtbot.addWidget(window)
    window.resize(*size)
    window.show()
    window.show_view(view(kitchen.cook, kitchen.now))
    return window


def fire_button(window: BoardWindow):
    return next(button for button in window.foot.buttons if button.key == "B")


@pytest.mark.parametrize("size", SIZES)
def test_while_fat_is_hot_one_tap_in_the_bottom_line_tells_what_to_do_and_moves_no_other_button(qtbot, size):
    kitchen = Kitchen(small_menu(fritters()))
    window = board(qtbot, kitchen, size)
    first = [b.key for b in window.foot.buttons if b.isVisible()][:5]
    kitchen.must(StartStep("Fritters/Fry"))
    window.show_view(view(kitchen.cook, kitchen.now))
    button = fire_button(window)
    assert button.isVisible()
    assert min(button.width(), button.height()) >= window.foot.sizes.target
    assert window.foot.rect().contains(button.geometry())
    shown = sorted((b for b in window.foot.buttons if b.isVisible()), key=lambda b: b.x())
    assert [b.key for b in shown][:6] == [*first, "B"]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert "Never water" in window.drawer.body.said


def test_without_hot_fat_it_takes_no_room_from_what_is_used_more(qtbot):
    window = board(qtbot, Kitchen(small_menu(fritters())), (1024, 600))
    assert not fire_button(window).isVisible()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("lifted", [False, True])
def test_oil_and_rule_are_whole_on_the_strip_whoever_answered(qtbot, size, lifted):
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(4)
    kitchen.must(*[DoCue("Fritters/Fry", LIFT)] * lifted, TakeReading("Fritters/Fry", 172.0, "oil"))
    window = board(qtbot, kitchen, size)
    strip = next(s for s in window.bay.findChildren(StripWidget) if s.strip.name == "Fritters")
    assert strip.strip.answered
    size_, box = strip.sizes, strip.matter_box()
    left = max(box.left(), strip.across().x(strip.axis.now) + 5) + size_.pad // 2
    shown = strip.shown_answer(box.right() - size_.pad - left - size_.pad)
    room = box.right() - size_.pad - left - size_.pad - shown[1]
    rule = strip.strip.matter.split(" · ")[0]
    assert rule == "oil 172 °C: never leave it, no water"
    assert not fitted(rule, room, size_.text, least=int(size_.text * LEAST_SHARE)).cut


def frying(qtbot):
    """The board while the fritters fry."""
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    window = BoardWindow(lambda _: None, theme="dark")
    qtbot.addWidget(window)
    window.show_view(view(kitchen.cook, kitchen.now))
    window.show()
    return window


def test_b_shows_what_to_do_and_any_answer_shuts_it(qtbot):
    window = frying(qtbot)
    qtbot.keyClick(window, Qt.Key.Key_B)
    assert not window.drawer.isHidden()
    told = window.drawer.body.said
    assert "heat off" in told
    assert "Never water" in told
    assert "fire service" in told
    qtbot.keyClick(window, Qt.Key.Key_1)
    assert window.drawer.isHidden()


def test_it_comes_over_a_reading_that_is_being_written_and_loses_nothing_of_it(qtbot):
    window = frying(qtbot)
    window.ask_reading("the oil")
    qtbot.keyClicks(window.entry.line, "17")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_B)
    assert "Never water" in window.drawer.body.said
    assert window.entry.isHidden()
    qtbot.keyClick(window, Qt.Key.Key_Escape)
    window.ask_reading("the oil")
    assert window.entry.line.text() == "17"
