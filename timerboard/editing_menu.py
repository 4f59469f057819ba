"""The `edit` command: the menu editor in a window of its own."""

import argparse
import os
import sys

from timerboard.desk.ports import Clock
from timerboard.shell.startup_check import no_display, qt_trouble
from timerboard.terminal import DONE, BadInput


def edit(asked: argparse.Namespace, clock: Clock) -> int:
    """Open the editor on a menu file (one that is not there yet is made when it is saved), or on a new meal."""
    if no_display(os.environ):
        raise BadInput("there is no display here: edit the file as text, and check it with timerboard check")
    if trouble := qt_trouble(os.environ):
        raise BadInput(trouble)
    from PySide6.QtWidgets import QApplication

    from timerboard.starting import Starting

    application = QApplication.instance() or QApplication(sys.argv[:1])
    application.setApplicationName("timerboard")
    board = {"eat_at": None, "fresh": False, "sound": "auto", "trace": None, "notify": True}  # for 'Cook this'
    starting = Starting(argparse.Namespace(menu=None, theme=asked.theme, **board), clock, comes_back=False)
    if not starting.edit(asked.menu):
        return DONE
    return int(application.exec())
