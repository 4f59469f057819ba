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

    from timerboard.editors import Editors

    application = QApplication.instance() or QApplication(sys.argv[:1])
    application.setApplicationName("timerboard")
    editors = Editors(clock, None if asked.theme == "system" else asked.theme)
    if editors.open(asked.menu) is None:
        return DONE
    return int(application.exec())
