"""A meal made from nothing in the program's own windows, with keys and mouse, taken in, scaled, printed, cooked."""

import argparse
import json
import shutil
import subprocess
import unicodedata
from pathlib import Path

import pytest
from icalendar import Calendar
from PySide6.QtCore import Qt, QTimer
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QInputDialog, QMessageBox, QPushButton, QSpinBox

from timerboard.core.menu_written import at, words_at
from timerboard.core.plan import Plan
from timerboard.exporting import CALENDAR, LISTS, PNG, SVG
from timerboard.shell.clock import SystemClock
from timerboard.shell.menu_file import load_menu
from timerboard.starting import Starting

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
LEFT = Qt.MouseButton.LeftButton
WITHIN_MS = 30_000  # a busy machine is slow; nothing here waits for time to pass
CAKE = {
    "@context": "https://schema.org", "@type": "Recipe", "name": "Honey cake", "recipeYield": "4 servings",
    "recipeIngredient": ["200 g flour", "150 g honey", "3 eggs"],
    "recipeInstructions": [
        {"@type": "HowToStep", "text": "Mix everything for 10 minutes."},
        {"@type": "HowToStep", "text": "Bake at 190 C for 35-40 minutes, until golden."},
    ],
}  # fmt: skip
SAUCE = """\
Mint sauce
Serves 4

1 bunch of mint
2 tbsp vinegar

Chop the mint for 5 minutes.
Stir in the vinegar and leave to stand for 20 minutes.
"""
DISHES = (
    ("Roast chicken", (("Season", "10 min", "all", "counter", ""),
                       ("Roast", "60-75 min", "2 min at the start", "oven", "190 C"))),
    ("Potatoes", (("Boil", "18-22 min", "1 min at the start", "hob", ""),)),
    ("Beans", (("Steam", "6 min", "all", "hob", ""),)),
    ("Salad", (("Toss", "8 min", "all", "counter", ""),)),
)  # fmt: skip


class NoonClock(SystemClock):
    """It is noon tomorrow, whenever the tests are run, and time goes on from there."""

    def __init__(self) -> None:
        super().__init__()
        self._ahead = 86_400_000 + 43_200_000 - super().wall_ms() % 86_400_000

    def wall_ms(self) -> int:
        return super().wall_ms() + self._ahead

    def zone(self) -> str:
        return "UTC"


class Hands:
    """A cook at the keyboard and the mouse of the window that is up."""

    def __init__(self, qtbot) -> None:
        self.qtbot, self.window = qtbot, None

    def key(self, key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        self.qtbot.keyClick(QApplication.focusWidget() or self.window, key, modifier)

    def fill(self, name: str, words: str) -> None:
        """Click the box of that name, mark what is in it, type."""
        box = next(b.editor for b in self.window.fields.form.boxes if b.editor.accessibleName() == name)
        self.window.fields.ensureWidgetVisible(box)
        self.qtbot.mouseClick(box, LEFT)
        self.qtbot.keyClick(box, Qt.Key.Key_A, CTRL)
        self.qtbot.keyClicks(box, words)

    def answer(self, answered) -> None:
        """When the next dialog comes up, do this with it."""

        def look() -> None:
            dialog = QApplication.activeModalWidget()
            QTimer.singleShot(20, look) if dialog is None else answered(dialog)

        QTimer.singleShot(0, look)

    def planned(self) -> Plan:
        """The plan of the menu as it stands, once it is there."""
        desk = self.window.desk
        self.qtbot.waitUntil(lambda: desk.judged and not desk.planned.doing, timeout=WITHIN_MS)
        assert desk.planned.menu == desk.reading.menu
        assert isinstance(desk.planned.plan, Plan), desk.planned.plan
        return desk.planned.plan


@pytest.fixture
def starting(qtbot, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    for name in ("DATA", "CONFIG", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))
    asked = {"menu": None, "theme": "light", "eat_at": None, "fresh": False, "sound": "silent", "trace": None}
    made = Starting(argparse.Namespace(**asked, notify=False), NoonClock())
    yield made
    for window in (*made.editors.windows, *((made.board.window,) if made.board else ())):
        if window in made.editors.windows:
            window.desk.discard()
        window.close()
    if made.window is not None:
        made.window.close()


def told(said: list, *answer):
    """Stands for a message box: keeps what it says."""
    return lambda *words: said.append(words[2]) or (answer[0] if answer else None)


def test_a_meal_from_nothing_to_the_board(qtbot, starting, tmp_path, monkeypatch):
    hands, said = Hands(qtbot), []
    monkeypatch.setattr(QMessageBox, "information", told(said))
    monkeypatch.setattr(QMessageBox, "warning", told(said))
    starting.show()
    begin = next(b for b in starting.window.findChildren(QPushButton) if b.accessibleName() == "Make a new meal")
    qtbot.mouseClick(begin, LEFT)
    (window,) = starting.editors.windows
    hands.window = window
    window.resize(1600, 1000)
    with qtbot.waitActive(window, timeout=WITHIN_MS):
        window.activateWindow()
    make_four(hands)
    hands.planned()
    assert len(window.ribbon.what[0]) == 4
    take_two_in(hands, tmp_path, monkeypatch)
    scale_to_eight(hands)
    assert any("Seasoning" in words for words in said)
    menu = tmp_path / "friday.yaml"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(menu), ""))
    hands.key(Qt.Key.Key_S, CTRL)
    assert [dish.name for dish in load_menu(menu).menu.dishes] == [
        "Roast chicken", "Potatoes", "Beans", "Salad", "Honey cake", "Mint sauce",
    ]  # fmt: skip
    assert load_menu(menu).menu.serves == 8
    plan = hands.planned()
    printed(hands, tmp_path, monkeypatch)
    exported(hands, tmp_path, monkeypatch, said)
    hands.key(Qt.Key.Key_Return, CTRL)
    qtbot.waitUntil(lambda: starting.board is not None, timeout=WITHIN_MS)
    board = starting.board
    assert {dish.name for dish in board.desk.cook.menu.dishes} >= {"Roast chicken", "Honey cake"}
    assert board.window.isVisible()
    assert starting.editors.windows == []
    assert len(plan.placed) == len(board.desk.cook.menu.steps)


def make_four(hands: Hands) -> None:
    """Title, four dishes, five steps: nothing but keys and clicks."""
    hands.fill("Title", "Friday supper")
    for dish, steps in DISHES:
        hands.key(Qt.Key.Key_D, CTRL)
        hands.qtbot.keyClicks(QApplication.focusWidget(), dish)
        for n, step in enumerate(steps):
            if n:
                hands.key(Qt.Key.Key_T, CTRL)
            else:
                hands.window.outline.setFocus()
                hands.key(Qt.Key.Key_Down)
            for name, words in zip(("Do", "Takes", "Hands", "On", "Heat"), step, strict=True):
                hands.fill(name, words)
    hands.window.desk.judge()
    assert hands.window.desk.reading.faults == ()


def take_two_in(hands: Hands, folder: Path, monkeypatch) -> None:
    """One out of a file of recipe data, one as pasted text, through the dialogs."""
    (folder / "cake.json").write_text(json.dumps(CAKE))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(folder / "cake.json"), ""))
    hands.key(Qt.Key.Key_I, CTRL)
    QApplication.clipboard().setText(SAUCE)
    hands.answer(lambda dialog: dialog.accept())
    hands.key(Qt.Key.Key_V, CTRL | SHIFT)
    document = hands.window.desk.reading.document
    assert [words_at(dish, ("dish",)) for dish in at(document, ("dishes",))][4:] == ["Honey cake", "Mint sauce"]
    hands.planned()


def scale_to_eight(hands: Hands) -> None:
    """Through the dialog: mark the number, type another, Enter."""

    def eight(dialog: QInputDialog) -> None:
        number = dialog.findChild(QSpinBox)
        number.selectAll()
        hands.qtbot.keyClicks(number, "8")
        hands.qtbot.keyClick(number, Qt.Key.Key_Return)

    hands.answer(eight)
    hands.key(Qt.Key.Key_L, CTRL)
    document = hands.window.desk.reading.document
    assert words_at(document, ("dishes", 4, "ingredients", 0)) == "400 g flour"
    hands.planned()


def printed(hands: Hands, folder: Path, monkeypatch) -> None:
    """The print dialog's own printer, set to a file as its 'print to file' does."""
    paper = folder / "printed.pdf"

    def to_file(dialog: QPrintDialog) -> int:
        dialog.printer().setOutputFileName(str(paper))
        return QDialog.DialogCode.Accepted

    monkeypatch.setattr(QPrintDialog, "exec", to_file)
    hands.key(Qt.Key.Key_P, CTRL)
    words = pdf_words(paper)
    assert "Friday supper, for 8" in words
    for job in ("Roast", "Boil", "Steam", "Toss", "Bake"):
        assert job in words
    assert "page 1 of" in words


def exported(hands: Hands, folder: Path, monkeypatch, said: list) -> None:
    """Every kind of file; a folder that refuses is said in words."""
    for name, kind in (("all.pdf", LISTS), ("phone.ics", CALENDAR), ("plan.png", PNG), ("plan", SVG)):
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, n=name, k=kind: (str(folder / n), k))
        hands.key(Qt.Key.Key_E, CTRL)
    assert "400 g flour" in pdf_words(folder / "all.pdf")
    events = Calendar.from_ical((folder / "phone.ics").read_bytes()).walk("VEVENT")
    assert any("Roast" in str(event["summary"]) for event in events)
    assert all(event.walk("VALARM") for event in events)
    assert (folder / "plan.png").read_bytes()[:4] == b"\x89PNG"
    assert (folder / "plan.svg").read_text().count("<text") > 10
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(folder / "none" / "x.ics"), CALENDAR))
    hands.key(Qt.Key.Key_E, CTRL)
    assert said[-1].endswith("x.ics cannot be written (no such file or directory).")


def pdf_words(file: Path) -> str:
    """What a reader of the paper reads."""
    reader = shutil.which("pdftotext")
    assert reader is not None, "this test needs pdftotext"
    read = subprocess.run([reader, "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    return unicodedata.normalize("NFKC", read)  # letters that are printed as one are read as two
