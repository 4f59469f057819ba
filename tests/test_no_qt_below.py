"""Core, planner and desk do a whole cook in a process that refuses Qt, the scheduler, the database and YAML."""

import subprocess
import sys
from pathlib import Path

from timerboard.shell.menu_file import load_menu

ROOT = Path(__file__).resolve().parents[1]

REFUSING = """
import importlib, pkgutil, sys

class Refuse:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in ("PySide6", "shiboken6", "apscheduler", "sqlalchemy", "ruamel", "miniaudio"):
            raise ImportError(f"{name} is not for this layer")

sys.meta_path.insert(0, Refuse())
try:
    import PySide6
except ImportError:
    pass
else:
    sys.exit("the hook does not refuse")

import timerboard.core, timerboard.desk, timerboard.planner
for package in (timerboard.core, timerboard.planner, timerboard.desk):
    for module in pkgutil.iter_modules(package.__path__):
        if module.name != "__main__":
            importlib.import_module(f"{package.__name__}.{module.name}")

from timerboard.core.menu import Menu
from timerboard.core.question import question
from timerboard.planner.answer import answer
from timerboard.desk.by_hand import CrankedClock, MemoryJournal
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.desk.rehearsal import Rehearsal
from timerboard.desk.rehearsed_cook import Manner, RehearsedCook

menu = Menu.model_validate_json(sys.stdin.read())
eat_at = 1_797_880_500
plan = answer(question(menu, eat_at, "UTC"), limit_s=5)
clock = CrankedClock((plan.starts_at - 60) * 1000, "UTC")
desk = Desk(clock, MemoryJournal(), "test")
desk.open_cook(Order("", "", menu, eat_at * 1000, "UTC"), plan)
events = list(Rehearsal(desk, clock, RehearsedCook(Manner.LIKELY, 1)).run())
print(len(events), "events;", sum(life.ended is not None for life in desk.cook.lives.values()), "steps ended")
"""


def test_a_whole_cook_runs_where_qt_and_the_scheduler_are_refused():
    menu = load_menu(ROOT / "sample_menus" / "one-burner-weeknight.yaml").menu
    done = subprocess.run(
        [sys.executable, "-c", REFUSING],
        input=menu.model_dump_json(),
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        cwd=ROOT,
    )
    assert done.returncode == 0, done.stderr
    assert f"{len(menu.steps)} steps ended" in done.stdout
