"""A dish that is called in has the digit of its call on its strip, and the digit brings the next dish."""

from PySide6.QtCore import Qt

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.board import replies
from timerboard.board.bay import digit_for
from timerboard.board.window import BoardWindow
from timerboard.core.commands import EndStep, StartStep
from timerboard.core.menu import Dish, Work
from timerboard.core.view import view
from timerboard.core.view_values import Extras


def dish(name: str, hold_s: int) -> Dish:
    return Dish(name=name, hold_s=hold_s, steps=(step(name, "Warm", minutes(5), work=Work(throughout=True)),))


def test_the_digit_of_a_call_stands_on_its_dish_and_calls_the_next_one(qtbot, monkeypatch):
    monkeypatch.setattr(replies, "BOUNCE_MS", 0)  # two presses, as far apart as people press
    kitchen = Kitchen(small_menu(dish("Rolls", 1200), dish("Soup", 7200)), eat_in=20)
    for name in ("Rolls", "Soup"):
        kitchen.must(StartStep(f"{name}/Warm"), EndStep(f"{name}/Warm"))
    kitchen.wait(18)
    window = BoardWindow(kitchen.must, theme="light")
    qtbot.addWidget(window)
    brought = []
    for _ in range(2):
        seen = view(kitchen.cook, kitchen.now, Extras())
        window.show_view(seen)
        brought += [strip.name for strip in seen.strips if digit_for(strip, seen.hands) == 1]
        qtbot.keyClick(window, Qt.Key.Key_1)
    assert brought == ["Soup", "Rolls"]
    assert [strip.line for strip in view(kitchen.cook, kitchen.now, Extras()).strips] == ["On the table"] * 2
