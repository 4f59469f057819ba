"""The line that is written: kept when shut, corrected when wrong, typed by touch as well."""

import pytest
from fixtures import SUPPER
from PySide6.QtCore import Qt

from timerboard.board.entry import Asked
from timerboard.core.commands import MoveEating, SetQuickTimer, TakeReading


def tap(qtbot, window, *words):
    for word in words:
        key = next(button for button in window.entry.pad_keys if button.text() == word)
        qtbot.mouseClick(key, Qt.MouseButton.LeftButton)


def test_escape_keeps_what_was_typed_and_opening_again_shows_it(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "dumplings 1")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Escape)
    assert window.entry.isHidden()
    assert sender.sent == []
    qtbot.keyClick(window, Qt.Key.Key_T)
    assert window.entry.line.text() == "dumplings 1"


def test_each_kind_of_entry_keeps_its_own_text(qtbot, window):
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "tea 4")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Escape)
    qtbot.keyClick(window, Qt.Key.Key_M)
    assert window.entry.line.text() == ""


def test_what_was_sent_is_not_shown_again(qtbot, window):
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "tea 4 min")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    qtbot.keyClick(window, Qt.Key.Key_T)
    assert window.entry.line.text() == ""


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        (Qt.Key.Key_T, "eggs", "There is no time in 'eggs'"),
        (Qt.Key.Key_T, "", "Write a name and a time"),
        (Qt.Key.Key_R, "warm", "as a number"),
        (Qt.Key.Key_R, "710", "no temperature of food"),
        (Qt.Key.Key_M, "18:45", "how many minutes"),
    ],
)
def test_a_line_that_cannot_be_read_stays_open_and_says_why(qtbot, window, sender, key, typed, told):
    qtbot.keyClick(window, key)
    qtbot.keyClicks(window.entry.line, typed)
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == []
    assert told in window.entry.trouble
    assert not window.entry.isHidden()
    assert window.entry.line.text() == typed


def test_typing_on_takes_the_complaint_away(qtbot, window):
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    qtbot.keyClicks(window.entry.line, "e")
    assert window.entry.trouble == ""


def test_a_refused_line_is_kept(qtbot, window, sender):
    from conftest import Refusal

    sender.refusal = Refusal("There is a timer 'tea' already.")
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "tea 4 min")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert window.entry.line.text() == "tea 4 min"
    assert window.notices.notices[0].text == "There is a timer 'tea' already."


def test_a_reading_that_has_to_be_confirmed_gives_the_keyboard_to_the_question(qtbot, window, sender):
    from conftest import Refusal

    sure = TakeReading("Duck legs/roast", 78.0, confirmed=True)
    sender.refusal = Refusal("78 °C ends the roast. End it?", sure)
    qtbot.keyClick(window, Qt.Key.Key_R)
    qtbot.keyClicks(window.entry.line, "78")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert window.entry.isHidden()
    sender.refusal = None
    qtbot.keyClick(window, Qt.Key.Key_Y)
    assert sender.sent[-1] == sure


def test_a_reading_can_be_tapped(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_R)
    tap(qtbot, window, "7", "2", "⌫", "1", ".", "5")
    qtbot.mouseClick(window.entry.ok, Qt.MouseButton.LeftButton)
    assert sender.sent == [TakeReading("Duck legs/roast", 71.5)]


def test_a_bare_reading_is_in_the_menus_unit(qtbot, make_window, sender):
    window = make_window(units="F")
    qtbot.keyClick(window, Qt.Key.Key_R)
    tap(qtbot, window, "2", "1", "2")
    qtbot.mouseClick(window.entry.ok, Qt.MouseButton.LeftButton)
    assert sender.sent == [TakeReading("Duck legs/roast", 100.0)]  # water boils: 212 °F is 100 °C by definition


def test_a_timer_can_be_tapped_and_keeps_its_name(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "tea")
    tap(qtbot, window, "3 min", "5 min")
    qtbot.mouseClick(window.entry.ok, Qt.MouseButton.LeftButton)
    assert sender.sent == [SetQuickTimer("tea", 300)]


def test_eating_can_be_moved_by_taps(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_M)
    tap(qtbot, window, "−5 min")
    qtbot.mouseClick(window.entry.ok, Qt.MouseButton.LeftButton)
    assert sender.sent == [MoveEating(SUPPER.axis.eat - 300_000)]


def test_the_clock_goes_on_under_an_open_entry(qtbot, window):
    from dataclasses import replace

    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "tea")
    window.show_view(replace(SUPPER, head=replace(SUPPER.head, clock="18:13")))
    assert window.entry.line.text() == "tea"
    assert not window.entry.isHidden()
    assert window.entry.asked is Asked.TIMER


def test_a_late_dish_can_be_tapped_with_its_spaces(qtbot, window):
    qtbot.keyClick(window, Qt.Key.Key_A)
    tap(qtbot, window, "r", "y", "e", "space", "o", "k")
    assert window.entry.line.text() == "rye ok"


def test_the_flag_of_a_far_meal_keeps_its_outline(window):
    from dataclasses import replace

    from timerboard.board.letters import width_of

    bar = window.bay.axis_bar
    window.show_view(replace(SUPPER, axis=replace(SUPPER.axis, eat=SUPPER.axis.end + 3_600_000)))
    x, _, words = next(mark for mark in bar.marks() if mark[1] == "eat")
    assert words == "eat ▸"
    assert x + (width_of(words, bar.label_px(), True) + bar.label_px() // 2) // 2 + 2 <= bar.width()
