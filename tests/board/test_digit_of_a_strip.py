"""The digit on a strip that rings answers what rings, never another job of that dish; no eat line where no meal is."""

from PySide6.QtCore import Qt

from tests.board_scenes import Told, at
from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.board.bay import digit_for
from timerboard.board.window import BoardWindow
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import DoCue, MoveEating, StartStep
from timerboard.core.menu import Dish, Use, Work
from timerboard.core.view import view


def potatoes() -> Kitchen:
    """They boil, to be looked at soon, and the oven has to be set for them now."""
    boil = step("Potatoes", "Boil", minutes(20, 30), work=Work(start_s=60))
    roast = step("Potatoes", "Roast", minutes(50), after=["Boil"], uses=(Use(place="oven"),), heat_c=220.0)
    kitchen = Kitchen(small_menu(Dish(name="Potatoes", steps=(boil, roast))), eat_in=80)
    kitchen.must(StartStep("Potatoes/Boil"))
    kitchen.wait(12)
    return kitchen


def test_a_strip_that_rings_for_the_oven_has_the_ovens_digit():
    kitchen = potatoes()
    board = view(kitchen.cook, kitchen.now)
    (strip,) = board.strips
    item = next(item for item in board.hands if item.digit == digit_for(strip, board.hands))
    assert strip.juts
    assert isinstance(item.answer, DoCue)
    assert item.rank is Rank.DUE
    assert [other.strip for other in board.hands] == [strip.key] * len(board.hands)


def test_a_meal_beyond_the_axis_has_a_flag_that_points_to_it_and_no_line(qtbot):
    window = BoardWindow(lambda _command: None, theme="dark")
    qtbot.addWidget(window)
    window.resize(1366, 768)
    window.show_view(view(Told().cook, at("14:31")))  # eaten at 18:30, the axis ends at 17:31
    window.show()
    flags = [(words, x) for x, kind, words in window.bay.axis_bar.marks() if kind == "eat"]
    assert [words for words, _ in flags] == ["eat ▸"]
    assert all(strip._ribbon.eat is None for strip in window.bay.widgets.values())
    window.show_view(view(Told().cook, at("17:31")))
    assert [words for _, kind, words in window.bay.axis_bar.marks() if kind == "eat"] == ["eat"]
    assert all(strip._ribbon.eat is not None for strip in window.bay.widgets.values())


def test_ten_minutes_later_counts_from_the_meal_however_far_it_is(qtbot):
    sent = []
    window = BoardWindow(sent.append, theme="dark")
    qtbot.addWidget(window)
    window.show_view(view(Told().cook, at("14:31")))
    window.show()
    qtbot.keyClick(window, Qt.Key.Key_M)
    window.entry.line.setText("+10")
    window.entry.submit()
    assert sent == [MoveEating(at("18:40"))]


def test_the_keys_can_be_tapped_on_a_small_screen(qtbot):
    window = BoardWindow(lambda _command: None, theme="dark")
    qtbot.addWidget(window)
    window.resize(1024, 600)
    window.show_view(view(Told().cook, at("17:31")))
    window.show()
    qtbot.keyClick(window, Qt.Key.Key_Question)
    drawer, least = window.drawer, window.bay.sizes.target * 3 // 5
    assert all(button.height() >= least for button in drawer.buttons)
    assert all(button.geometry().bottom() <= drawer.height() for button in drawer.buttons)
    assert drawer.geometry().bottom() <= window.height()
