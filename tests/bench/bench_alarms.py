"""From due to heard and seen, on the real board with 200 countdowns: `python -m tests.bench.bench_alarms [--short]`.

Needs Linux with ALSA and a display, or xvfb-run; about 130 s, a third of it with --short. The sound device is a file
that is read at the speed of sound. Latencies are from the moment a countdown ends: to the first sample of its burst
taken by the device (300 ms of silence go first by design, not counted here), and to the end of the paint that shows it.
Four times: at rest; with the window's thread blocked for 1.5 s around that moment (heard counts from the moment all the
same, painted from the end of the block); with the solver at work on every core; and with an endless loop on every core
at the same priority as the board. "Own work" is the processor time of the window's thread from the look that found the
alarm to the paint: what a machine that does nothing else would need. Goal: 50 ms for 99 of 100. Last, what the open
sound stream costs.
"""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory
from time import perf_counter, process_time, thread_time

from tests.shell.sound_bench import ROOT, alsa_config

COUNTDOWNS = 200
APART_MS = 400
BLOCKED_S = 1.5
GOAL_MS = 50


def child(mode: str, count: int, folder: Path) -> None:
    """The board with 200 countdowns, `count` of which end one after the other; each is answered a moment later."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from timerboard.app import Begin, Board, Wishes
    from timerboard.core.commands import ClearQuickTimer, HeardTest, SetQuickTimer
    from timerboard.core.question import question
    from timerboard.desk.opening import Order
    from timerboard.planner.greedy import first_plan
    from timerboard.shell.clock import SystemClock
    from timerboard.shell.menu_file import read_menu

    menu = read_menu((ROOT / "sample_menus" / "solstice-supper.yaml").read_text(encoding="utf-8"))
    clock, application = SystemClock(), QApplication([])
    eat_at = clock.wall_ms() // 1000 + 20 * 3600  # so far off that nothing of the menu itself calls
    plan = first_plan(question(menu.menu, eat_at, "UTC"))
    assert plan is not None
    begin = Begin(Order(menu.text, menu.hash, menu.menu, eat_at * 1000, "UTC"), plan)
    board = Board(folder / "a.cook", begin, clock, "bench", Wishes("dark", "miniaudio", folder / "trace.jsonl"))
    _watch_own_work(board, folder)
    board.show()
    board.desk.send(HeardTest(True))
    for n in range(COUNTDOWNS):
        board.desk.send(SetQuickTimer(f"long {n}", 36_000 + n))
    if mode == "solver":
        _load(board, menu.menu, eat_at)
    turn = {"n": 0}

    def next_one() -> None:
        n = turn["n"]
        if n:
            board.desk.send(ClearQuickTimer(f"due {n - 1}"))
        if n == count:
            QTimer.singleShot(1200, application.quit)
            return
        board.desk.send(SetQuickTimer(f"due {n}", 1))
        turn["n"] = n + 1
        if mode == "blocked":
            QTimer.singleShot(500, block)
        QTimer.singleShot(1000 + (APART_MS if mode != "blocked" else 1000 + APART_MS), next_one)

    def block() -> None:
        end = perf_counter() + BLOCKED_S
        while perf_counter() < end:
            pass
        with (folder / "blocks").open("a") as out:
            out.write(f"{board.desk.now()}\n")

    QTimer.singleShot(2500, next_one)
    application.exec()
    board.close()


def _watch_own_work(board: object, folder: Path) -> None:
    """Note the thread's time at every look, and how much went by when an alarm it found was painted."""
    desk, window, trace = board.desk, board.window, board.trace  # type: ignore[attr-defined]
    looked, painted, begun = desk.look, window._painted, {"at": 0.0}

    def look() -> None:
        begun["at"] = thread_time()
        looked()

    def told() -> None:
        if any(name.startswith("timer||due ") for name in trace._unpainted):
            with (folder / "own").open("a") as out:
                out.write(f"{1000 * (thread_time() - begun['at']):.1f}\n")
        painted()

    desk.look, window._painted = look, told


def _load(board: object, menu: object, eat_at: int) -> None:
    """Questions without end for the planner's own process, with the priority that it gives itself."""
    from timerboard.core.question import question

    def ask(_found: object = None) -> None:
        quiet = {"on_progress": _nothing, "on_forecast": _nothing, "on_trouble": ask}
        board.planner.ask(question(menu, eat_at, "UTC"), None, on_answer=ask, **quiet)  # type: ignore[attr-defined, arg-type]

    board.desk.plan_better = _nothing  # type: ignore[attr-defined]
    ask()


def _nothing(*_any: object) -> None:
    """Not of interest here."""


def run(mode: str, count: int) -> tuple[list[int], list[int], list[float]]:
    """Latencies in ms of one child: to the first sample, to the paint; and its own work."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        homes = {f"XDG_{kind}_HOME": name for kind in ("DATA", "CONFIG", "STATE", "CACHE")}
        env = {**alsa_config(folder), **homes, "PATH": ""}  # no voice: it would talk into the same file
        subprocess.run(
            [sys.executable, "-m", "tests.bench.bench_alarms", mode, str(count), name], cwd=ROOT, env=env, check=True
        )
        lines = [json.loads(line) for line in (folder / "trace.jsonl").read_text(encoding="utf-8").splitlines()]
        blocks = folder / "blocks"
        ends = [int(line) for line in blocks.read_text().split()] if blocks.exists() else []
        own = [float(line) for line in (folder / "own").read_text().split()]
    return _latencies(lines, "sounded", count, []), _latencies(lines, "painted", count, ends), own


def _latencies(lines: list[dict[str, object]], what: str, count: int, ends: list[int]) -> list[int]:
    first: dict[str, tuple[int, int]] = {}
    for line in lines:
        if line["what"] == what and str(line["alarm"]).startswith("timer||due "):
            first.setdefault(str(line["alarm"]), (int(str(line["since"])), int(str(line["at"]))))
    assert len(first) == count, f"{what}: {len(first)} of {count}: an alarm was lost"
    return [at - min((end for end in ends if end >= since), default=since) for since, at in first.values()]


@contextmanager
def _loops(how_many: int) -> Iterator[None]:
    """So many processes that never rest."""
    running = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(how_many)]
    try:
        yield
    finally:
        for process in running:
            process.kill()
            process.wait()


def rest(seconds: float) -> None:
    """The share of one core that the open stream takes, in a process that does nothing else."""
    import select

    from timerboard.shell.miniaudio_player import MiniaudioPlayer

    player = MiniaudioPlayer()
    select.select([], [], [], 1.0)
    cpu, wall = process_time(), perf_counter()
    select.select([], [], [], seconds)
    print(f"{100 * (process_time() - cpu) / (perf_counter() - wall):.2f}")
    player.close()


def _words(name: str, found: Sequence[float]) -> str:
    cuts = quantiles(found, n=100, method="inclusive")
    return f"{name} p50 {median(found):4.0f}  p99 {cuts[98]:4.0f}  most {max(found):4.0f} ms"


def main() -> None:
    """Measure and print."""
    if not os.environ.get("DISPLAY") and shutil.which("xvfb-run"):
        again = ["xvfb-run", "-a", "-s", "-screen 0 1920x1080x24", sys.executable, "-m", "tests.bench.bench_alarms"]
        raise SystemExit(subprocess.run([*again, *sys.argv[1:]], cwd=ROOT, check=False).returncode)
    short = "--short" in sys.argv[1:]
    print(f"{COUNTDOWNS} countdowns; load of the machine before: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    counts = {"rest": (30, 5), "blocked": (6, 2), "solver": (15, 4), "loops": (30, 4)}
    for mode, both in counts.items():
        count = both[short]
        with _loops(os.cpu_count() or 1 if mode == "loops" else 0):
            sounded, painted, own = run(mode, count)
        print(f"{mode:8} {count:3} alarms  {_words('heard', sounded)}   {_words('painted', painted)}  (goal {GOAL_MS})")
        print(f"{'':20} {_words('own work', own)}")
    with TemporaryDirectory() as name:
        env = {**alsa_config(Path(name)), "PATH": ""}
        asked = [sys.executable, "-m", "tests.bench.bench_alarms", "stream", "2" if short else "8"]
        done = subprocess.run(asked, cwd=ROOT, env=env, check=True, capture_output=True, text=True)
        print(f"the open sound stream takes {done.stdout.strip()} % of one core while nothing calls")


if __name__ == "__main__":
    if sys.argv[1:2] == ["stream"]:
        rest(float(sys.argv[2]))
    elif sys.argv[1:2] and not sys.argv[1].startswith("--"):
        child(sys.argv[1], int(sys.argv[2]), Path(sys.argv[3]))
    else:
        main()
