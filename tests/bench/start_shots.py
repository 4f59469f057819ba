"""Pictures of the start window: python tests/bench/start_shots.py FOLDER."""

import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from timerboard.board.start_window import Choices, MenuTile, StartWindow, Unfinished, Ways
from timerboard.core.civil import resolve_eat_at
from timerboard.core.plan_preview import hours_only
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu

SAMPLES = sorted((Path(__file__).parents[2] / "sample_menus").glob("*.yaml"))


def main() -> None:
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    application = QApplication(sys.argv[:1])
    menus = {path.stem: load_menu(path).menu for path in SAMPLES}
    tiles = tuple(
        MenuTile(key, menu.title, f"{len(menu.dishes)} dishes for {menu.serves}") for key, menu in menus.items()
    )
    ways = Ways(print, print, print, print, print)
    left = (Unfinished("a", "Solstice supper", "opened 14:05, last touched 16:40, to be eaten 18:30"),)
    for theme, width, height, cooks in (
        ("dark", 1024, 600, left),
        ("light", 1920, 1080, left),
        ("light", 1024, 600, ()),
    ):
        window = StartWindow(Choices(cooks, recent=tiles[:2] if cooks else (), samples=tiles), ways, theme=theme)
        for key, menu in menus.items():
            plan = first_plan(question(menu, resolve_eat_at(menu.eat_at, "UTC", 1_795_000_000_000), "UTC"))
            if plan is not None:
                window.show_picture(key, hours_only(menu, plan, "UTC", 6))
        window.resize(width, height)
        window.show()
        application.processEvents()
        window.grab().save(str(folder / f"start-{theme}-{width}-{len(cooks)}.png"))
        window.close()


if __name__ == "__main__":
    main()
