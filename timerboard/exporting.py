"""What leaves the editor: the run sheet to a printer, and the plan into files of every kind that it can be."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox

from timerboard.core.plan import Plan
from timerboard.core.words import plural
from timerboard.desk.editing import EditorDesk
from timerboard.desk.live_plan import Planned
from timerboard.desk.ports import Clock
from timerboard.shell.calendar import calendar_bytes
from timerboard.shell.paper import Sheet, write_pdf
from timerboard.shell.picture import write_picture
from timerboard.shell.printing import print_sheet

SHEET, LISTS, LISTS_ALONE = "Run sheet (*.pdf)", "Run sheet and lists (*.pdf)", "Lists alone (*.pdf)"
CALENDAR, PNG, SVG = "Calendar for phones (*.ics)", "Picture of the plan (*.png)", "Drawing of the plan (*.svg)"
KINDS = {SHEET: ".pdf", LISTS: ".pdf", LISTS_ALONE: ".pdf", CALENDAR: ".ics", PNG: ".png", SVG: ".svg"}


def print_plan(desk: EditorDesk) -> None:
    """Ask which printer, and print the run sheet of the plan as it stands."""
    _print(desk, _sheet(desk))


def print_lists(desk: EditorDesk) -> None:
    """Ask which printer, and print the questions, the shopping and preparation lists, the oven card and the thawing."""
    sheet = _sheet(desk)
    _print(desk, sheet and replace(sheet, with_lists=True, with_jobs=False))


def _print(desk: EditorDesk, sheet: Sheet | None) -> None:
    if sheet is None:
        return
    pages = print_sheet(sheet, QApplication.activeWindow())
    if pages:
        desk.tell(f"Printed: {plural(pages, 'page')}.")


def export(desk: EditorDesk, menu: Path, clock: Clock) -> None:
    """Ask for a file, and write the plan as it stands into it, as what its name ends in."""
    sheet = _sheet(desk)
    if sheet is None:
        return
    parent = QApplication.activeWindow()
    name, kind = QFileDialog.getSaveFileName(parent, "Export", str(menu.with_suffix(".pdf")), ";;".join(KINDS))
    if not name:
        return
    file = Path(name)
    if file.suffix.lower() not in KINDS.values():
        file = file.with_name(file.name + KINDS.get(kind, ".pdf"))
    if kind in (LISTS, LISTS_ALONE):
        sheet = replace(sheet, with_lists=True, with_jobs=kind == LISTS)
    try:
        _writer(sheet, file, clock)()
    except OSError as trouble:
        why = (trouble.strerror or "no reason is given").lower()
        QMessageBox.warning(parent, "timerboard", f"{file} cannot be written ({why}).")
        return
    desk.tell(f"Written: {file}")


def _writer(sheet: Sheet, file: Path, clock: Clock) -> Callable[[], object]:
    match file.suffix.lower():
        case ".ics":
            return lambda: file.write_bytes(calendar_bytes(sheet.menu, sheet.plan, clock.wall_ms(), sheet.zone))
        case ".png" | ".svg":
            return lambda: write_picture(sheet, file)
    return lambda: write_pdf(sheet, file)


def _sheet(desk: EditorDesk) -> Sheet | None:
    """The plan of the menu as it stands; None when there is none, which was said."""
    desk.settle()
    desk.judge()
    planned = desk.planned
    why = _why_not(desk, planned)
    if why or planned.cooked is None or not isinstance(planned.plan, Plan):
        QMessageBox.information(QApplication.activeWindow(), "timerboard", why or "There is no plan yet.")
        return None
    return Sheet(planned.cooked, planned.plan, planned.zone, note=planned.note)


def _why_not(desk: EditorDesk, planned: Planned) -> str:
    """Why the plan that is shown is not the one to take away; '' when it is."""
    if desk.reading.menu is None:
        return "Mend what is wrong in the menu first: F8 goes to it."
    if not isinstance(planned.plan, Plan):
        return "There is no plan yet."
    return "" if planned.menu == desk.reading.menu else "The plan is being made anew: wait a moment and ask again."
