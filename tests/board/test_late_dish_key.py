"""A dish that comes late: the A key asks for one line, and what cannot be read stays to be corrected."""

from PySide6.QtCore import Qt

from timerboard.core.commands import AddDish
from timerboard.core.late_dish import late_dish
from timerboard.core.menu import Heat, Menu, Place

MENU = Menu(title="Supper", serves=4, places=(Place(name="oven", heat=Heat(low_c=60, high_c=250)),), dishes=())


def test_a_asks_for_a_dish_in_one_line_and_sends_it(qtbot, make_window, sender):
    window = make_window(late=lambda line: late_dish(line, MENU))
    qtbot.keyClick(window, Qt.Key.Key_A)
    qtbot.keyClicks(window.entry.line, "rolls, 12 min, ovne 200 C")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == []
    assert window.entry.trouble == "there is no place 'ovne' here; did you mean oven?"
    window.entry.line.selectAll()
    qtbot.keyClicks(window.entry.line, "rolls, 12 min, oven 200 C")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [AddDish(late_dish("rolls, 12 min, oven 200 C", MENU))]
    assert window.entry.isHidden()


def test_a_board_that_knows_no_menu_says_so(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_A)
    qtbot.keyClicks(window.entry.line, "rolls, 12 min")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert window.entry.trouble == "No dish can be added here."
    assert sender.sent == []
