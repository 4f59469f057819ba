"""Pictures of the board at many sizes and themes, to look at: `python tests/bench/shots.py FOLDER [part of a name]`.

Each is made by a window of its own process, on an Xvfb screen of that size and pixel density.
"""

import os
import subprocess
import sys
from pathlib import Path

SHOTS = (  # name, width, height, dots per inch, scale, theme, scene
    ("1024x600-dark", 1024, 600, 96, 1, "dark", "supper"),
    ("1366x768-dark", 1366, 768, 100, 1, "dark", "supper"),
    ("1366x768-light", 1366, 768, 100, 1, "light", "supper"),
    ("1920x1080-dark", 1920, 1080, 92, 1, "dark", "supper"),
    ("1920x1080-light", 1920, 1080, 92, 1, "light", "troubled"),
    ("1920x1080-contrast", 1920, 1080, 92, 1, "contrast", "troubled"),
    ("3840x2160-dark", 3840, 2160, 163, 1, "dark", "supper"),
    ("1920x1080-x2-dark", 1920, 1080, 141, 2, "dark", "supper"),
    ("1366x768-troubled", 1366, 768, 100, 1, "dark", "troubled"),
    ("1024x600-troubled", 1024, 600, 96, 1, "light", "troubled"),
    ("1366x768-strip", 1366, 768, 100, 1, "dark", "strip"),
    ("1366x768-reading", 1366, 768, 100, 1, "light", "reading"),
    ("1024x600-timer", 1024, 600, 96, 1, "dark", "timer"),
    ("1920x1080-keys", 1920, 1080, 92, 1, "dark", "keys"),
    ("1920x1080-drop", 1920, 1080, 92, 1, "contrast", "drop"),
)


def scene(window: object, name: str) -> None:
    """Bring the window into a scene."""
    from fixtures import SUPPER, troubled

    window.show_view(troubled() if name == "troubled" else SUPPER)
    replies = window.replies
    acts = {
        "strip": lambda: replies.open_strip("Duck legs"),
        "reading": lambda: (replies.press("r"), window.entry.line.setText("71.5x"), window.entry.submit()),
        "timer": lambda: (replies.press("t"), window.entry.line.setText("eggs 6:30")),
        "keys": lambda: replies.press("?"),
        "drop": lambda: replies.press("d"),
    }
    acts.get(name, lambda: None)()


def one(path: str, width: int, height: int, theme: str, name: str) -> None:
    """Paint one picture in this process."""
    root = Path(__file__).parents[2]
    sys.path[:0] = [str(root), str(root / "tests" / "board")]
    from PySide6.QtWidgets import QApplication

    from timerboard.board.window import BoardWindow

    app = QApplication([])
    window = BoardWindow(send=lambda command: None, theme=theme)
    ratio = window.devicePixelRatio()
    window.resize(int(width / ratio), int(height / ratio))
    window.show()
    scene(window, name)
    app.processEvents()
    app.processEvents()
    window.grab().save(path)
    window.close()


def main() -> None:
    """Paint them all, or those whose name has the given part."""
    if len(sys.argv) == 7 and sys.argv[1] == "--one":
        one(sys.argv[2], int(sys.argv[3]), int(sys.argv[4]), sys.argv[5], sys.argv[6])
        return
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "shots")
    wanted = sys.argv[2] if len(sys.argv) > 2 else ""
    folder.mkdir(parents=True, exist_ok=True)
    for name, width, height, dpi, scale, theme, what in SHOTS:
        if wanted not in name:
            continue
        path = folder / f"{name}.png"
        screen = f"-screen 0 {width}x{height}x24 -dpi {dpi}"
        again = [sys.executable, __file__, "--one", str(path), str(width), str(height), theme, what]
        env = os.environ | {"QT_SCALE_FACTOR": str(scale)}
        subprocess.run(["xvfb-run", "-a", "-s", screen, *again], check=True, env=env)
        print(path)


if __name__ == "__main__":
    main()
