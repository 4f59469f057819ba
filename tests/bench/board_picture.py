"""The picture of the board in README: `python -m tests.bench.board_picture [HH:MM:SS [FILE.png]]`.

The sample supper is planned by the planner, with nine minutes in reserve, and cooked by a rehearsal up to that time of
day; the board's own window then paints what its desk shows, on a virtual screen of 1920x1080 at 92 dots per inch (a 24
inch monitor).
"""

import os
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from timerboard.core.plan import Forecast, Plan, Problem
from timerboard.core.question import question
from timerboard.core.values import MS
from timerboard.core.view_values import BoardView
from timerboard.desk.by_hand import CrankedClock, MemoryJournal
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.desk.rehearsal import Rehearsal
from timerboard.desk.rehearsed_cook import Manner, RehearsedCook
from timerboard.planner.answer import answer
from timerboard.planner.forecast import forecast
from timerboard.shell.menu_file import load_menu

ROOT = Path(__file__).resolve().parents[2]
WHEN = "17:45:20"
SEED = 4
RESERVE_S = 540
WIDTH, HEIGHT, DPI = 1920, 1080, 92


class Foreseer:
    """Keeps the desk's `Planner`: the plan that the picture begins with stays, and its forecast comes when told."""

    def __init__(self) -> None:
        self.tell: Callable[[], None] = lambda: None

    def ask(self, *_question: object, **_answers: object) -> None:
        """Nobody answers."""

    def foresee(self, problem: Problem, plan: Plan, on_forecast: Callable[[Forecast], None]) -> None:
        """Remembers the newest question."""
        self.tell = lambda: on_forecast(forecast(problem, plan))

    def cancel(self) -> None:
        """Nothing is open."""


class Enough(Exception):
    """The rehearsal has come to the moment of the picture."""


def supper_at(words: str) -> BoardView:
    """What the board shows at that time of day of a supper that is eaten at 18:30."""
    loaded = load_menu(ROOT / "sample_menus" / "solstice-supper.yaml")
    eat_at = int(datetime(2026, 12, 21, 18, 30, tzinfo=UTC).timestamp())
    until = int(datetime.fromisoformat(f"2026-12-21T{words}+00:00").timestamp()) * MS
    plan = answer(question(loaded.menu, eat_at - RESERVE_S, "UTC"), limit_s=30)
    assert isinstance(plan, Plan)
    clock, foreseer = CrankedClock((plan.starts_at - 600) * MS, "UTC"), Foreseer()
    desk = Desk(clock, MemoryJournal(), "kitchen", planner=foreseer)
    desk.open_cook(Order(loaded.text, loaded.hash, loaded.menu, eat_at * MS, "UTC"), plan)

    def pace(ms: int) -> None:
        desk.view()  # a board that is looked at keeps its strips in their places
        if desk.now() + ms >= until:
            raise Enough

    try:
        for _ in Rehearsal(desk, clock, RehearsedCook(Manner.LIKELY, SEED), pace).run():
            pass
    except Enough:
        clock.crank_to(until)
    desk.look()
    foreseer.tell()
    return desk.view()


def paint(words: str, file: Path) -> None:
    """Paint it in this process."""
    from PySide6.QtWidgets import QApplication

    from timerboard.board.window import BoardWindow

    app = QApplication([])
    window = BoardWindow(lambda _command: None, theme="dark")
    window.resize(WIDTH, HEIGHT)
    window.show()
    window.show_view(supper_at(words))
    window.bay.setFocus()
    app.processEvents()
    app.processEvents()
    window.grab().save(str(file), "PNG", 0)
    window.close()


def main() -> None:
    """Paint it on a screen of its own."""
    words, file = ([*sys.argv[1:], WHEN][0], Path([*sys.argv[2:], str(ROOT / "assets" / "board.png")][0]))
    if "--here" not in os.environ.get("BOARD_PICTURE", ""):
        screen = f"-screen 0 {WIDTH}x{HEIGHT}x24 -dpi {DPI}"
        again = [sys.executable, "-m", "tests.bench.board_picture", words, str(file)]
        env = os.environ | {"BOARD_PICTURE": "--here", "QT_SCALE_FACTOR": "1"}
        subprocess.run(["xvfb-run", "-a", "-s", screen, *again], check=True, env=env)
        return
    paint(words, file)
    print(f"{file}, {file.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
