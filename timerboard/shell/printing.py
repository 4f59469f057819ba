"""The run sheet, or the lists behind it, to a printer, through the system's own dialog."""

from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QWidget

from .paper import Sheet, draw, layout


def print_sheet(sheet: Sheet, parent: QWidget | None = None, size: str = "a4") -> int:
    """Ask which printer, and print; gives the number of pages, 0 when the cook thought better of it."""
    printer = prepared(sheet, size)
    dialog = QPrintDialog(printer, parent)
    dialog.setWindowTitle("Print the run sheet" if sheet.with_jobs else "Print the lists")
    if dialog.exec() != QDialog.DialogCode.Accepted:
        return 0
    return draw(sheet, printer)


def prepared(sheet: Sheet, size: str = "a4") -> QPrinter:
    """A printer with the sheet's paper, margins and name; black only."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageLayout(layout(size))
    printer.setDocName(sheet.name)
    printer.setCreator("timerboard")
    printer.setColorMode(QPrinter.ColorMode.GrayScale)
    return printer
