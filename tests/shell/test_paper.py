"""The sheet on paper: read back with poppler's pdftotext, pdfinfo and pdftoppm.

Capital heights: 16 minutes of arc at two metres is 2 * 2000 mm * tan(8') = 9.3 mm (ISO 9241-303's least, as restated by
secondary sources). Paper sizes: A4 is 210 x 297 mm (ISO 216), Letter 215.9 x 279.4 mm (ANSI A).
"""

import re
import subprocess
import unicodedata
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QFontMetricsF
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog

from timerboard.core.civil import resolve_eat_at
from timerboard.core.menu import Menu
from timerboard.core.plan import Plan
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu
from timerboard.shell.paper import MARGIN_MM, Sheet, draw, filled, write_pdf
from timerboard.shell.paper_type import FAR_CAP_MM, NEAR_CAP_MM, font
from timerboard.shell.printing import prepared, print_sheet

ZONE = "Europe/Paris"
SAMPLES = Path(__file__).resolve().parents[2] / "sample_menus"
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
NAMES = ("solstice-supper", "overnight-shoulder", "courses-for-one-cook")
DPI = 60


def eat_at_of(menu):
    """The menu's own time to eat, on 21 December 2026 in Paris."""
    found = resolve_eat_at(f"2026-12-21 {menu.eat_at}", ZONE, 0)
    assert isinstance(found, int)
    return found


def sheet_of(name: str, *, with_lists: bool = False) -> Sheet:
    menu: Menu = load_menu(SAMPLES / f"{name}.yaml").menu
    plan: Plan | None = first_plan(question(menu, eat_at_of(menu), ZONE))
    assert plan is not None
    return Sheet(menu, plan, ZONE, with_lists)


def text_of(path):
    told = subprocess.run(["pdftotext", "-layout", str(path), "-"], capture_output=True, text=True, check=True).stdout
    return " ".join(unicodedata.normalize("NFKC", told).split())  # ligatures and hard spaces as typed


def pages_of(path):
    """Every page as an array of colours, at DPI."""
    subprocess.run(["pdftoppm", "-r", str(DPI), str(path), str(path.with_suffix(""))], check=True)
    pages = []
    for image in sorted(path.parent.glob(f"{path.stem}-*.ppm")):
        head, size, _, data = image.read_bytes().split(b"\n", 3)
        assert head == b"P6"
        width, height = map(int, size.split())
        pages.append(np.frombuffer(data, np.uint8).reshape(height, width, 3))
        image.unlink()
    return pages


@pytest.fixture(scope="module")
def written(qapp, tmp_path_factory):
    """The hardest samples on both papers: (sheet, path, pages) by name and size."""
    folder = tmp_path_factory.mktemp("paper")
    made = {}
    for name in NAMES:
        for size in SIZES:
            sheet, path = sheet_of(name, with_lists=True), folder / f"{name}-{size}.pdf"
            made[name, size] = sheet, path, write_pdf(sheet, path, size)
    return made


CASES = [(name, size) for name in NAMES for size in SIZES]


@pytest.mark.parametrize("case", CASES)
def test_every_job_is_on_the_sheet_word_for_word(written, case):
    sheet, path, _ = written[case]
    told = text_of(path)
    for line in sheet.lines:
        words = line.what.partition(": ")[0] if line.where == "table" else line.what
        assert words in told or re.sub(r"\s", "", words) in re.sub(r"\s", "", told)
        assert line.then.split(",")[0][:20] in told
    for page in sheet.lists:
        assert page.title in told
        assert all(line.words.split(" (")[0][:30] in told for group in page.groups for line in group.lines)


@pytest.mark.parametrize("case", CASES)
def test_pages_are_counted_and_have_the_papers_size(written, case):
    _, path, count = written[case]
    told = subprocess.run(["pdfinfo", str(path)], capture_output=True, text=True, check=True).stdout
    width, height = (float(x) * 25.4 / 72 for x in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", told).groups())
    assert (width, height) == pytest.approx(SIZES[case[1]], abs=0.5)
    assert int(re.search(r"Pages:\s+(\d+)", told)[1]) == count
    words = text_of(path)
    assert all(f"page {n} of {count}" in words for n in range(1, count + 1))


@pytest.mark.parametrize("case", CASES)
def test_ink_is_black_and_stays_inside_the_margins(written, case):
    for page in pages_of(written[case][1]):
        assert (page.max(axis=2) - page.min(axis=2)).max() == 0  # no colour, only the grey of smoothed edges
        rows, columns = np.nonzero(page[:, :, 0] < 128)
        edge = MARGIN_MM / 25.4 * DPI - 1.5
        assert rows.min() >= edge
        assert columns.min() >= edge
        assert rows.max() <= page.shape[0] - edge
        assert columns.max() <= page.shape[1] - edge


def test_a_plan_of_two_days_has_a_bar_with_each_days_name(written):
    told = text_of(written["overnight-shoulder", "a4"][1])
    assert "Sunday 20 December" in told
    assert "Eat at 13:30, Monday 21 December" in told


def test_capitals_are_high_enough_to_be_read_at_two_metres_and_at_one(qapp):
    assert pytest.approx(9.3, abs=0.05) == FAR_CAP_MM
    assert pytest.approx(4.07, abs=0.02) == NEAR_CAP_MM
    mm = 300 / 25.4
    for cap in (FAR_CAP_MM, NEAR_CAP_MM):
        got = QFontMetricsF(font(cap * mm)).capHeight() / mm
        assert got == pytest.approx(cap, rel=0.03)


def test_times_on_the_page_are_as_high_as_that(written, tmp_path):
    """The first time's figures on the page, measured in ink: as high as capitals, or a shade less."""
    path = written["solstice-supper", "a4"][1]
    dpi = 150
    subprocess.run(["pdftoppm", "-r", str(dpi), "-l", "1", "-gray", str(path), str(tmp_path / "p")], check=True)
    head, size, _, data = next(tmp_path.glob("*.pgm")).read_bytes().split(b"\n", 3)
    width, height = map(int, size.split())
    page = np.frombuffer(data, np.uint8).reshape(height, width)
    left, right, top = (round(mm / 25.4 * dpi) for mm in (12, 26, 23))  # the first figures, below the head and its rule
    inked = np.nonzero((page[top : top + round(14 / 25.4 * dpi), left:right] < 128).any(axis=1))[0]
    assert (inked.max() - inked.min() + 1) * 25.4 / dpi == pytest.approx(FAR_CAP_MM, rel=0.06)
    assert head == b"P5"


class Block:
    def __init__(self, height, heading=False):
        self.height = height
        self.stays_with_next = heading

    def paint(self, painter, top):
        raise AssertionError("not painted here")


def test_a_heading_goes_over_with_what_it_heads_and_no_row_is_lost():
    rows = [Block(40), Block(40), Block(10, heading=True), Block(10, heading=True), Block(30), Block(200), Block(5)]
    pages = filled(rows, 100)
    assert pages == [rows[:2], rows[2:5], [rows[5]], [rows[6]]]


def test_the_sheet_takes_few_pages(written):
    assert written["solstice-supper", "a4"][2] <= 8  # six of jobs, two of lists
    assert written["overnight-shoulder", "a4"][2] <= 7


def test_a_printer_gets_the_same_pages(qapp, tmp_path):
    sheet = sheet_of("one-burner-weeknight")
    printer = prepared(sheet, "letter")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "p.pdf"))
    pages = draw(sheet, printer)
    assert pages == write_pdf(sheet, tmp_path / "q.pdf", "letter")
    assert text_of(tmp_path / "p.pdf") == text_of(tmp_path / "q.pdf")


def test_the_lists_are_printed_alone_without_a_job_of_the_sheet(qapp, tmp_path):
    both = replace(sheet_of("solstice-supper"), with_lists=True)
    alone = replace(both, with_jobs=False)
    pages = write_pdf(alone, tmp_path / "lists.pdf")
    told = text_of(tmp_path / "lists.pdf")
    assert pages == write_pdf(both, tmp_path / "both.pdf") - write_pdf(sheet_of("solstice-supper"), tmp_path / "s.pdf")
    assert "Shopping" in told
    assert "2.2 kg leg of lamb" in told
    assert "Oven card" in told
    assert "To the table" not in told
    assert prepared(alone).docName() == "Lists: Solstice supper"
    assert prepared(both).docName() == "Run sheet: Solstice supper"


@pytest.mark.parametrize(
    ("answer", "pages"), [(QDialog.DialogCode.Accepted, True), (QDialog.DialogCode.Rejected, False)]
)
def test_printing_asks_first_and_prints_only_when_told_to(qapp, tmp_path, monkeypatch, answer, pages):
    """The dialog itself is the system's: its answer is given here, and the printer is told to write a file."""
    sheet, out = sheet_of("one-burner-weeknight"), tmp_path / "p.pdf"

    def asked(dialog):
        dialog.printer().setOutputFileName(str(out))
        return answer

    monkeypatch.setattr(QPrintDialog, "exec", asked)
    assert bool(print_sheet(sheet)) is pages
    assert out.exists() is pages


def test_a_long_title_is_cut_and_a_word_without_spaces_is_broken_not_lost(qapp, tmp_path):
    sheet = sheet_of("one-burner-weeknight")
    step = next(iter(sheet.menu.steps.values()))
    long = step.model_copy(update={"do": "W" * 90})
    dishes = tuple(
        d.model_copy(update={"steps": tuple(long if s.id == long.id else s for s in d.steps)})
        for d in sheet.menu.dishes
    )
    menu = sheet.menu.model_copy(update={"title": "A very long title " * 12, "dishes": dishes})
    path = tmp_path / "x.pdf"
    write_pdf(Sheet(menu, sheet.plan, ZONE), path)
    assert re.sub(r"[^W]", "", text_of(path)).count("W") >= 90
    page = pages_of(path)[0]
    assert np.nonzero(page[:, :, 0] < 128)[1].max() <= page.shape[1] - MARGIN_MM / 25.4 * DPI + 1.5


def test_what_is_true_of_the_whole_plan_stands_above_the_first_job(qapp, tmp_path):
    sheet, path = sheet_of("one-burner-weeknight"), tmp_path / "x.pdf"
    write_pdf(Sheet(sheet.menu, sheet.plan, ZONE, note="At 1500 m water boils at 95 °C."), path)
    told = text_of(path)
    assert told.index("At 1500 m water boils at 95 °C.") < told.index(sheet.lines[0].what)


def test_a_folder_that_is_not_there_is_an_os_error(qapp, tmp_path):
    with pytest.raises(OSError, match="No such file"):
        write_pdf(sheet_of("one-burner-weeknight"), tmp_path / "no" / "x.pdf")
