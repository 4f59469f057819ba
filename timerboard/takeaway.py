"""The commands that write a file to take away: the run sheet on paper and the calendar for phones."""

import argparse
import os
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from timerboard.core.kitchen_lists import kitchen_lists, list_lines
from timerboard.core.plan import NoPlan, Plan
from timerboard.core.plan_words import no_plan_lines, plan_lines
from timerboard.desk.ports import Clock
from timerboard.terminal import DONE, NO_PLAN, BadInput, Meal, PlanAsked, complain, meal, plan_of, say

PICTURES = (".png", ".svg")
PAPERS = (".pdf", "")
Made = TypeVar("Made")


def write(asked: argparse.Namespace, clock: Clock) -> int:
    """`sheet MENU [-o FILE.pdf|.png|.svg]`, `calendar MENU [-o FILE.ics]` or `lists MENU`. Without a file the sheet and
    the lists are printed as text."""
    at_table = meal(asked.menu, asked.eat_at, clock, asked.height)
    found = plan_of(at_table, PlanAsked(asked.menu, asked.eat_at), clock)
    if isinstance(found, NoPlan):
        complain(no_plan_lines(at_table.menu, found))
        return NO_PLAN
    if asked.command == "lists":
        say(list_lines(kitchen_lists(at_table.menu, found, at_table.zone)))
        return DONE
    if asked.command == "sheet":
        return _sheet(asked, at_table, found)
    return _calendar(asked, at_table, found, clock)


def _sheet(asked: argparse.Namespace, at_table: Meal, plan: Plan) -> int:
    if asked.output is None:
        say(plan_lines(at_table.menu, plan, at_table.zone, at_table.note))
        return DONE
    if asked.output.suffix.lower() not in PICTURES + PAPERS:
        raise BadInput(f"{asked.output}: a sheet is a PDF or a picture", "write a name that ends in .pdf, .png or .svg")
    from timerboard.shell.startup_check import qt_trouble

    os.environ["QT_QPA_PLATFORM"] = "offscreen"  # paper needs fonts, not a display
    if lacking := qt_trouble(os.environ):
        raise BadInput(lacking, "without it: `timerboard sheet MENU` prints the sheet as text")
    from PySide6.QtGui import QGuiApplication

    from timerboard.shell.paper import Sheet, write_pdf
    from timerboard.shell.picture import write_picture

    application = QGuiApplication.instance() or QGuiApplication(["timerboard"])
    with_lists = asked.with_pages is not None
    sheet = Sheet(at_table.menu, plan, at_table.zone, with_lists, at_table.note)
    output: Path = asked.output
    if output.suffix.lower() in PICTURES:
        width, height = _written(output, lambda: write_picture(sheet, output))
        told = f"{width} x {height}"
    else:
        pages = _written(output, lambda: write_pdf(sheet, output, asked.paper))
        told = f"{pages} page{'s' if pages != 1 else ''}"
    del application
    say([f"{output}: {told}"])
    return DONE


def _calendar(asked: argparse.Namespace, at_table: Meal, plan: Plan, clock: Clock) -> int:
    from timerboard.shell.calendar import calendar_bytes

    output: Path = asked.output or Path(asked.menu.with_suffix(".ics").name)
    data = calendar_bytes(at_table.menu, plan, clock.wall_ms(), at_table.zone)
    _written(output, lambda: output.write_bytes(data))
    say([f"{output}: {data.count(b'BEGIN:VEVENT')} events"])
    return DONE


def _written(path: Path, work: Callable[[], Made]) -> Made:
    try:
        return work()
    except OSError as trouble:
        raise BadInput(f"{path}: cannot be written ({trouble.strerror})") from None
