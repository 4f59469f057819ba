"""The window against a bare QMainWindow, and what sixty running strips cost.

Run `python tests/bench/bench_board.py [seconds]`. Needs a display, or xvfb-run. Goals: up in at most twice the bare
time, at most 2.5 times the bare memory, at most 2 % of one core at rest with sixty strips and one view a second.
"""

import os
import shutil
import statistics
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

ROOT = Path(__file__).parents[2]
ROUNDS = 5


def bare() -> None:
    """A bare main window, until its first paint."""
    from PySide6.QtWidgets import QApplication, QMainWindow

    app = QApplication([])
    window = QMainWindow()
    window.resize(1366, 768)
    _up(app, window)


def board() -> None:
    """The board with nine dishes, until its first paint."""
    sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "board")]
    from fixtures import SUPPER
    from PySide6.QtWidgets import QApplication

    from timerboard.board.window import BoardWindow

    app = QApplication([])
    window = BoardWindow(send=lambda command: None, theme="dark")
    window.resize(1366, 768)
    window.show_view(SUPPER)
    _up(app, window)


def _up(app: object, window: object) -> None:
    """Show, paint, say so with the memory it took, and end."""
    window.show()
    while not window.windowHandle().isExposed():
        app.processEvents()
    window.repaint()
    app.processEvents()
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    print(pages * os.sysconf("SC_PAGE_SIZE"), flush=True)
    os._exit(0)


def rest(seconds: int, width: int, height: int) -> None:
    """A view a second for sixty strips: the share of one core that this process takes."""
    sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "board")]
    from fixtures import sixty
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from timerboard.board.window import BoardWindow

    app = QApplication([])
    window = BoardWindow(send=lambda command: None, theme="dark")
    window.resize(width, height)
    views = [sixty(second) for second in range(seconds + 3)]  # making views is the core's work, not the window's
    window.show_view(views[0])
    window.show()
    state = {"second": 0, "cpu": 0.0, "wall": 0.0, "paint": 0.0}
    ticker = QTimer(interval=1000)

    def tick() -> None:
        state["second"] += 1
        if state["second"] == 2:  # start-up is over
            state["cpu"], state["wall"] = process_time(), perf_counter()
        before = perf_counter()
        window.show_view(views[int(state["second"])])
        app.processEvents()
        state["paint"] = max(state["paint"], (perf_counter() - before) * 1000 if state["second"] > 2 else 0.0)
        if state["second"] == seconds + 2:
            share = 100 * (process_time() - state["cpu"]) / (perf_counter() - state["wall"])
            print(f"{share:.2f} {state['paint']:.1f}", flush=True)
            os._exit(0)

    ticker.timeout.connect(tick)
    ticker.start()
    app.exec()


def _child(cache: str, *words: str) -> tuple[float, str]:
    """Seconds and output of this script in another process with other words; compiled modules are kept in `cache`."""
    command = [sys.executable, __file__, *words]
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    before = perf_counter()
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=env | {"PYTHONPYCACHEPREFIX": cache})
    return perf_counter() - before, done.stdout.strip()


def main() -> None:
    """Measure and print."""
    if not os.environ.get("DISPLAY") and shutil.which("xvfb-run"):
        again = ["xvfb-run", "-a", "-s", "-screen 0 3840x2160x24", sys.executable, __file__, *sys.argv[1:]]
        raise SystemExit(subprocess.run(again, check=False).returncode)
    with TemporaryDirectory() as cache:
        measure(cache, int(sys.argv[1]) if len(sys.argv) > 1 else 20)


def measure(cache: str, seconds: int) -> None:
    """Start and memory, then rest at three sizes. The first start of each kind only fills the cache."""
    found = {}
    for kind in ("bare", "board"):
        runs = [_child(cache, kind) for _ in range(ROUNDS + 1)][1:]
        found[kind] = (statistics.median(time for time, _ in runs), statistics.median(int(out) for _, out in runs))
    for kind, (time, memory) in found.items():
        print(f"{kind:6} up in {time * 1000:5.0f} ms, {memory / 1e6:6.1f} MB")
    print(f"times the bare window: {found['board'][0] / found['bare'][0]:.2f} start (goal 2), ", end="")
    print(f"{found['board'][1] / found['bare'][1]:.2f} memory (goal 2.5)")
    for width, height in ((1366, 768), (1920, 1080), (3840, 2160)):
        share, paint = _child(cache, "rest", str(seconds), str(width), str(height))[1].split()
        print(f"60 strips at {width}x{height}: {share} % of one core (goal 2), longest view to painted {paint} ms")


if __name__ == "__main__":
    if sys.argv[1:2] == ["bare"]:
        bare()
    elif sys.argv[1:2] == ["board"]:
        board()
    elif sys.argv[1:2] == ["rest"]:
        rest(*(int(word) for word in sys.argv[2:5]))
    else:
        main()
