"""The `open` command: the board in a window, or its plan in the terminal where no window can be."""

import argparse
import os
import sys
from typing import TYPE_CHECKING

from timerboard.core.plan import NoPlan, Plan
from timerboard.core.plan_words import no_plan_lines, plan_lines
from timerboard.desk.ports import Clock, HeldElsewhere, JournalTrouble
from timerboard.shell.startup_check import no_display, qt_trouble
from timerboard.terminal import DONE, NO_PLAN, BadInput, PlanAsked, complain, meal, plan_of, say

if TYPE_CHECKING:
    from PySide6.QtCore import QCoreApplication

    from timerboard.boards import Unplanned


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

    from timerboard.boards import Unplanned, board_on

    application = QApplication.instance() or QApplication(sys.argv[:1])
    application.setApplicationName("timerboard")
    if asked.menu is None:
        from timerboard.starting import Starting

        starting = Starting(asked, clock)
        starting.show()
        return int(application.exec())
    opened = board_on(asked, clock)
    if isinstance(opened, Unplanned):
        return _planned_first(application, opened, asked)
    opened.show()
    return int(application.exec()) if opened.window.isVisible() else DONE  # closed before anything could hear of it


def _planned_first(application: "QCoreApplication", wanted: "Unplanned", asked: argparse.Namespace) -> int:
    """The board once the planner's process has made its first plan."""
    from timerboard.boards import Planning

    trouble: list[JournalTrouble] = []
    boards: list[object] = []

    def heard(plan: Plan | None) -> None:
        if plan is None:
            return
        try:
            board = wanted.board(plan)
        except JournalTrouble as kept:  # nobody above this would hear of it
            trouble.append(kept)
            return
        boards.append(board)
        board.show()

    planning = Planning(wanted, heard, theme=None if asked.theme == "system" else asked.theme)
    code = int(application.exec())
    if trouble:
        raise trouble[0]
    return NO_PLAN if planning.why_not is not None else code
