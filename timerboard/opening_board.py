"""The `open` command: the board in a window, or its plan in the terminal where no window can be."""

import argparse
import os
import sys

from timerboard.core.plan import NoPlan
from timerboard.core.plan_words import no_plan_lines, plan_lines
from timerboard.desk.ports import Clock, HeldElsewhere, JournalTrouble
from timerboard.shell.startup_check import no_display, qt_trouble
from timerboard.terminal import DONE, NO_PLAN, BadInput, PlanAsked, complain, meal, plan_of, say


def open_board(asked: argparse.Namespace, clock: Clock) -> int:
    """Open the board on a menu. Without a display (or with a library of Qt missing) print its plan instead."""
    if no_display(os.environ):
        return _in_the_terminal(asked, clock, "There is no display here, so this is the plan in the terminal.")
    if trouble := qt_trouble(os.environ):
        return _in_the_terminal(asked, clock, trouble)
    try:
        return _in_a_window(asked, clock)
    except HeldElsewhere as held:
        raise BadInput(held.said) from None
    except JournalTrouble as kept:
        raise BadInput(f"the cook cannot be kept: {kept.said}") from None


def _in_the_terminal(asked: argparse.Namespace, clock: Clock, why: str) -> int:
    complain([why])
    if asked.menu is None:
        raise BadInput("name a menu file to plan: timerboard sample_menus/solstice-supper.yaml")
    at_table = meal(asked.menu, asked.eat_at, clock)
    found = plan_of(at_table, PlanAsked(asked.menu, asked.eat_at), clock)
    if isinstance(found, NoPlan):
        complain(no_plan_lines(at_table.menu, found))
        return NO_PLAN
    say(plan_lines(at_table.menu, found, at_table.zone, at_table.note))
    return DONE


def _in_a_window(asked: argparse.Namespace, clock: Clock) -> int:
    from PySide6.QtWidgets import QApplication

    from timerboard.boards import board_on

    application = QApplication.instance() or QApplication(sys.argv[:1])
    application.setApplicationName("timerboard")
    if asked.menu is None:
        from timerboard.starting import Starting

        starting = Starting(asked, clock)
        starting.show()
        return int(application.exec())
    opened = board_on(asked, clock)
    if isinstance(opened, NoPlan):
        return NO_PLAN
    opened.show()
    return int(application.exec())
