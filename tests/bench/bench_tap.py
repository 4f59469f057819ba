"""The whole board, no window for show: a tap until it is durable and painted, and what a board at rest costs.

Run: python -m tests.bench.bench_tap [--short]. Needs a display, or xvfb-run. The board is the program's own
(`app.Board` with journal, wake-up, planner process and window) on a cook with sixty running strips. Goals: a tap at
most 30 ms at the 95th percentile, at rest at most 2 % of one core with a look, a view and a paint every second.
"""

import contextlib
import cProfile
import os
import pstats
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter, process_time

from tests.bench.bench_view import big_menu

TAPS, SECONDS = 60, 30
SIZES = ((1366, 768), (1920, 1080), (3840, 2160))


def make_board(folder: Path, width: int, height: int) -> "tuple[object, object]":
    """The program's board on the big menu, all sixty dishes started; and its application."""
    from PySide6.QtWidgets import QApplication

    from timerboard.app import Begin, Board, Wishes
    from timerboard.core.commands import StartStep
    from timerboard.core.plan import Placed, Plan, Status
    from timerboard.core.values import MS
    from timerboard.desk.opening import Order
    from timerboard.shell.clock import SystemClock

    app = QApplication([])
    clock, menu = SystemClock(), big_menu()
    eat = clock.wall_ms() // MS + 70 * 60
    starts = {one.id: eat - one.span.likely for one in menu.steps.values()}
    placed = tuple(
        Placed(id=s.id, start=starts[s.id], end=eat, places=(s.uses[0].place,), person=1) for s in menu.steps.values()
    )
    plan = Plan(status=Status.FEASIBLE, eat_at=eat, placed=placed)
    order = Order("", "", menu, eat * MS, "UTC")
    board = Board(folder / "bench.cook", Begin(order, plan), clock, "bench", Wishes("dark", "silent", None))
    for one in menu.steps:
        board.desk.send(StartStep(one))
    board.window.resize(width, height)
    board.window.show()
    board.desk.plan_better()
    _until(app, 3.0)
    return board, app


def _until(app: object, seconds: float) -> None:
    """Let the application run for so long, as it runs by itself."""
    from PySide6.QtCore import QEventLoop, QTimer

    loop = QEventLoop(app)
    QTimer.singleShot(int(seconds * 1000), loop.quit)
    loop.exec()


def taps(board: object, app: object, count: int) -> list[float]:
    """Milliseconds of each: from the key until the event is durable, the view made and the window painted."""
    from PySide6.QtCore import QEventLoop, Qt
    from PySide6.QtTest import QTest

    from timerboard.board.replies import BOUNCE_MS

    taken = []
    for _ in range(count):
        before, kept = perf_counter(), len(board.desk.cook.record)
        item = next(item for item in board.window.view.hands if item.answer)
        QTest.keyClick(board.window, getattr(Qt.Key, f"Key_{item.digit}"))
        app.processEvents(QEventLoop.ProcessEventsFlag.ExcludeSocketNotifiers)  # paint; hear no planner meanwhile
        taken.append((perf_counter() - before) * 1000)
        assert len(board.desk.cook.record) > kept
        _until(app, BOUNCE_MS / 1000 + 0.3)  # nobody taps sooner; what the board puts off until it has painted happens
    return sorted(taken)


def rest(app: object, seconds: float) -> float:
    """The share of one core that this process takes while nobody does anything, in percent."""
    cpu, wall = process_time(), perf_counter()
    _until(app, seconds)
    return 100 * (process_time() - cpu) / (perf_counter() - wall)


def one(what: str, width: int, height: int, amount: int) -> None:
    """One measurement in a process of its own; prints it."""
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stderr(None):
        board, app = make_board(Path(folder), width, height)
        if what == "tap":
            taken = taps(board, app, amount)
            print(f"{statistics.median(taken):.1f} {taken[int(len(taken) * 0.95)]:.1f}", flush=True)
        elif what == "profile":
            profile = cProfile.Profile()
            profile.runcall(*((taps, board, app, 10) if amount == 0 else (rest, app, amount)))
            pstats.Stats(profile).sort_stats("cumulative").print_stats(60)
        else:
            print(f"{rest(app, amount):.2f}", flush=True)
        board.close()
        os._exit(0)


def main() -> None:
    """Prints one row per size."""
    if not os.environ.get("DISPLAY") and shutil.which("xvfb-run"):
        again = ["xvfb-run", "-a", "-s", "-screen 0 3840x2160x24", sys.executable, "-m", "tests.bench.bench_tap"]
        raise SystemExit(subprocess.run([*again, *sys.argv[1:]], check=False).returncode)
    short = "--short" in sys.argv
    for width, height in SIZES[:1] if short else SIZES:
        median, late = _child("tap", width, height, 5 if short else TAPS).split()
        print(f"{width}x{height}: tap to durable to painted, median {median} ms, p95 {late} ms (goal 30)")
        share = _child("rest", width, height, 5 if short else SECONDS)
        print(f"{width}x{height}: 60 running strips at rest, {share.strip()} % of one core (goal 2)")


def _child(*words: object) -> str:
    command = [sys.executable, "-m", "tests.bench.bench_tap", "--one", *map(str, words)]
    homes = {f"XDG_{name}_HOME": tempfile.gettempdir() for name in ("CONFIG", "DATA")}
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=os.environ | homes)
    return done.stdout


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        one(sys.argv[2], *(int(word) for word in sys.argv[3:6]))
    else:
        main()
