"""The program ends at once whatever it is doing: real windows are closed, or it is quit, while a plan is being made."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.bench.menus import menu_text

ROOT = Path(__file__).resolve().parents[2]
WITHIN_S = 60

ENDING = '''
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from timerboard import boards, starting
from timerboard.__main__ import main
from timerboard.app import Board
from timerboard.board.editor_window import EditorWindow

way, how, menu = sys.argv[1], sys.argv[2], sys.argv[3]
application = QApplication(sys.argv[:1])
seen, made, shown = [], [], []

def visible():
    return [w for w in application.topLevelWidgets() if w.isVisible()]

def plans():
    """True while what was opened has a question with the planner."""
    names = [type(w).__name__ for w in visible()]
    if way in ("dialog", "start"):
        return {"dialog": "PlanningDialog", "start": "StartWindow"}[way] in names
    if way == "editor":
        return any(isinstance(w, EditorWindow) and w.desk.planned.doing == "planning" for w in visible())
    return bool(made) and made[0].planner._asks != {}

def look():
    if not seen and plans():
        seen.append(True)
        print("planning", flush=True)
        if how == "quit":
            QApplication.quit()
    if seen and how == "close":
        for window in visible():
            window.close()

up, started = Board.show, starting.Starting.show
def noted(board):
    up(board)
    made.append(board)
Board.show = noted

def show(self):
    shown.append("StartWindow")
    started(self)
    if way == "editor" and shown.count("StartWindow") == 1:
        QTimer.singleShot(0, lambda: self.edit(Path(menu)))
starting.Starting.show = show
if way == "dialog":
    boards.QUICK_STEPS, boards.first_plan_in_hand = 0, lambda problem: None
watch = QTimer()
watch.timeout.connect(look)
watch.start(20)
asked = {"start": [], "editor": []}.get(way, [menu, "--eat-at", "23:59", "--fresh", "--sound", "silent", "--no-notify"])
code = main(asked)
print("came back" if shown.count("StartWindow") > 1 else "ended", flush=True)
sys.exit(code)
'''


def ended(folder: Path, way: str, how: str) -> list[str]:
    """Run the program, end it while it plans; gives what it told, and holds that nothing was complained of."""
    menu = folder / "supper.yaml"
    menu.write_text(menu_text(1001, 9), encoding="utf-8")
    homes = {f"XDG_{name}_HOME": str(folder / name.lower()) for name in ("DATA", "CONFIG", "STATE", "CACHE")}
    told = subprocess.run(
        [sys.executable, "-c", ENDING, way, how, str(menu)],
        cwd=ROOT,
        env={**os.environ, **homes, "HOME": str(folder), "TZ": "UTC"},
        capture_output=True,
        text=True,
        timeout=WITHIN_S,
        check=False,
    )
    complaints = [line for line in told.stderr.splitlines() if "warning:" not in line]
    assert complaints == [], told.stderr
    assert told.returncode == 0, told.stdout
    return told.stdout.split("\n")[:-1]


@pytest.mark.parametrize("way", ["editor", "board", "dialog"])
def test_it_can_be_quit_while_it_plans_and_no_window_comes_instead(tmp_path, way):
    assert ended(tmp_path, way, "quit") == ["planning", "ended"]


@pytest.mark.parametrize("way", ["start", "board", "dialog"])
def test_its_last_window_may_be_closed_while_it_plans(tmp_path, way):
    assert ended(tmp_path, way, "close") == ["planning", "ended"]


def test_an_editor_that_is_closed_while_it_plans_goes_back_to_the_start(tmp_path):
    assert ended(tmp_path, "editor", "close") == ["planning", "came back"]
