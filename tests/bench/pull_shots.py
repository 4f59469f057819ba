"""Pictures of pulls, rules and choices to look at: `QT_QPA_PLATFORM=offscreen python tests/bench/pull_shots.py DIR`."""

import sys
from collections.abc import Callable
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parents[1] / "board")]

from pull_kitchen import LOIN, PullBoard, fry  # noqa: E402
from PySide6.QtWidgets import QApplication  # noqa: E402

from timerboard.core.commands import EndStep, TakeReading  # noqa: E402

READ = ((25, 14.0), (20, 26.0), (15, 37.0))


def roasting(read: tuple[tuple[float, float], ...] = READ) -> PullBoard:
    """A loin in the heat, read a few times."""
    board = PullBoard(eat_in=150)
    board.start()
    for after, celsius in read:
        board.wait(after)
        board.desk.send(TakeReading(LOIN.steps[0].id, celsius, confirmed=True))
    board.wait(4)
    return board


def drawer(board: PullBoard, name: str) -> None:
    """Open a strip's drawer."""
    board.window.replies.open_strip(f"dish:{name}")


def strip_only() -> PullBoard:
    return roasting()


def pull() -> PullBoard:
    board = roasting()
    drawer(board, "Pork loin")
    return board


def doubtful() -> PullBoard:
    board = roasting((*READ, (10, 17.0), (5, 47.0)))
    drawer(board, "Pork loin")
    return board


def low_pull() -> PullBoard:
    board = roasting()
    board.window.replies.window.send(EndStep(LOIN.steps[0].id))
    return board


def resting() -> PullBoard:
    board = roasting((*READ, (25, 60.5)))
    drawer(board, "Pork loin")
    return board


def kitchen() -> PullBoard:
    board = roasting()
    board.window.replies.press("k")
    return board


def heights() -> PullBoard:
    board = kitchen()
    board.window.drawer.press(3)
    return board


def oil() -> PullBoard:
    board = PullBoard(fry(), eat_in=30)
    board.start(fry())
    board.wait(3)
    board.desk.send(TakeReading("Fritters/Fry", 188.0, of="oil", confirmed=True))
    board.paint()
    drawer(board, "Fritters")
    return board


def oil_soon() -> PullBoard:
    board = PullBoard(fry(), eat_in=13)
    board.wait(1.5)
    return board


SCENES: dict[str, Callable[[], PullBoard]] = {
    "strip": strip_only,
    "pull": pull,
    "doubtful": doubtful,
    "low_pull": low_pull,
    "resting": resting,
    "kitchen": kitchen,
    "heights": heights,
    "oil": oil,
    "oil_soon": oil_soon,
}


def main() -> None:
    """Paint them all."""
    app = QApplication([])
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    sizes = [(1366, 768)] if len(sys.argv) < 3 else [(1024, 600), (1920, 1080)]
    for name, made in SCENES.items():
        for width, height in sizes:
            board = made()
            board.window.resize(width, height)
            board.window.show()
            app.processEvents()
            board.window.grab().save(str(folder / f"{name}-{width}.png"))
            board.window.close()


if __name__ == "__main__":
    main()
