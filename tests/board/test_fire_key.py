"""Fat that smokes or burns: one key from anywhere on the board, and one key back."""

from PySide6.QtCore import Qt

from tests.kitchen import Kitchen, fritters, small_menu
from timerboard.board.window import BoardWindow
from timerboard.core.commands import StartStep
from timerboard.core.view import view


def test_b_shows_what_to_do_and_any_answer_shuts_it(qtbot):
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    window = BoardWindow(lambda _: None, theme="dark")
    qtbot.addWidget(window)
    window.show_view(view(kitchen.cook, kitchen.now))
    window.show()
    qtbot.keyClick(window, Qt.Key.Key_B)
    assert not window.drawer.isHidden()
    told = window.drawer.body.said
    assert "Heat off" in told
    assert "Never water" in told
    assert "fire service" in told
    qtbot.keyClick(window, Qt.Key.Key_1)
    assert window.drawer.isHidden()


def test_it_comes_over_a_reading_that_is_being_written_and_loses_nothing_of_it(qtbot):
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    window = BoardWindow(lambda _: None, theme="dark")
    qtbot.addWidget(window)
    window.show_view(view(kitchen.cook, kitchen.now))
    window.show()
    window.ask_reading("the oil")
    qtbot.keyClicks(window.entry.line, "17")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_B)
    assert "Never water" in window.drawer.body.said
    assert window.entry.isHidden()
    qtbot.keyClick(window, Qt.Key.Key_Escape)
    window.ask_reading("the oil")
    assert window.entry.line.text() == "17"
