"""What takes long to load is not loaded before the board's window shows."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
HEAVY = ("numpy", "scipy", "pandas", "ortools", "icalendar", "pint", "wakepy", "miniaudio", "PySide6.QtMultimedia")


def test_the_modules_of_a_board_load_no_solver_and_no_numbers():
    modules = "timerboard.__main__, timerboard.opening_board, timerboard.boards, timerboard.app"
    asked = f"import sys, {modules}; print([m for m in {HEAVY!r} if m in sys.modules])"
    told = subprocess.run([sys.executable, "-c", asked], cwd=ROOT, capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
