"""Pictures of the editor, at several sizes and in several themes: python tests/bench/editor_shots.py FOLDER."""

import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from timerboard.board.editor_window import EditorWindow, Hooks
from timerboard.desk.editing import EditorDesk
from timerboard.desk.live_plan import LivePlan
from timerboard.planner.greedy import first_plan
from timerboard.shell.clock import SystemClock
from timerboard.shell.menu_document import MenuDocument, MenuOnDisk
from timerboard.shell.side_file import SideOnDisk

SAMPLES = Path(__file__).parents[2] / "sample_menus"


class AtOnce:
    """Wakes and plans at once."""

    def at(self, delay_ms, look):
        if delay_ms is not None:
            look()

    def ask(self, problem, hint, *, on_answer, **others):
        on_answer(first_plan(problem))

    def stop(self):
        pass

    cancel = stop


def window_on(path: Path, theme: str, folder: Path) -> EditorWindow:
    at_once = AtOnce()
    desk = EditorDesk(
        MenuDocument(), MenuOnDisk(path), SideOnDisk(path, folder), LivePlan(at_once, at_once, SystemClock())
    )
    desk.open()
    hooks = Hooks(cook=print, print_plan=print, export=print, scale=lambda *_: (), save_as=lambda _: True)
    return EditorWindow(desk, hooks, theme=theme)


def main() -> None:
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    application = QApplication(sys.argv[:1])
    for theme, (width, height), path in (
        ("dark", (1024, 600), ("dishes", 0, "steps", 3)),
        ("light", (1024, 600), ("dishes", 1)),
        ("light", (1920, 1080), ("dishes", 0, "steps", 3)),
        ("dark", (1920, 1080), ()),
    ):
        window = window_on(SAMPLES / "solstice-supper.yaml", theme, folder)
        window.resize(width, height)
        window.show()
        window.outline.choose(path)
        if len(path) == 4:
            window.desk.set_value((*path, "heat"), "260")
            window.desk.set_value((*path, "on"), "ovne")
        application.processEvents()
        window.grab().save(str(folder / f"editor-{theme}-{width}-{len(path)}.png"))
        window.desk.discard()
        window.close()


if __name__ == "__main__":
    main()
