"""The command line. `timerboard MENU` opens the board; the other words print, or write a file."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from timerboard import terminal
from timerboard.shell.clock import SystemClock

COMMANDS = ("open", "edit", "check", "plan", "rehearse", "sheet", "calendar", "lists", "import", "record")
MOST_SPEED = 100_000


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; gives its exit code (0 done, 1 no plan exists, 2 bad input)."""
    words = list(sys.argv[1:] if argv is None else argv)
    asked = _parser().parse_args(_with_command(words))
    return terminal.guarded(lambda: _run(asked))


def _with_command(words: list[str]) -> list[str]:
    """`timerboard MENU` and a bare `timerboard` mean `open`."""
    first = next((word for word in words if not word.startswith("-")), None)
    if first in COMMANDS or any(word in ("-h", "--help", "--version") for word in words[:1]):
        return words
    return ["open", *words]


def _run(asked: argparse.Namespace) -> int:
    clock = SystemClock()
    match asked.command:
        case "check":
            return terminal.check(asked.menus)
        case "plan":
            wanted = terminal.PlanAsked(
                asked.menu, asked.eat_at, asked.soonest, asked.start, asked.json, asked.height, asked.limit
            )
            return terminal.plan(wanted, clock)
        case "rehearse":
            from timerboard import rehearsing

            return rehearsing.rehearse(asked, clock)
        case "record":
            from timerboard import recording

            return recording.record(asked)
        case "import":
            from timerboard import taking_in

            return taking_in.take_in(asked)
        case "sheet" | "calendar" | "lists":
            from timerboard import takeaway

            return takeaway.write(asked, clock)
        case "edit":
            from timerboard import editing_menu

            return editing_menu.edit(asked, clock)
        case _:
            from timerboard import opening_board

            return opening_board.open_board(asked, clock)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="timerboard", description="Gets a whole multi-dish meal on to the table.")
    words = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _open_words(words.add_parser("open", help="open the board on a menu (the default)"))
    editor = words.add_parser("edit", help="make or change a menu in the editor")
    editor.add_argument("menu", type=Path, nargs="?", metavar="MENU")
    editor.add_argument("--theme", choices=("system", "dark", "light", "contrast"), default="system")
    check = words.add_parser("check", help="report what is wrong with menu files, or worth a look")
    check.add_argument("menus", nargs="+", type=Path, metavar="MENU")
    _plan_words(words.add_parser("plan", help="print when everything must start"))
    _rehearse_words(words.add_parser("rehearse", help="run the menu with a cook that answers by itself"))
    _file_words(
        words.add_parser("sheet", help="the run sheet: text, PDF, or the plan's picture (PNG, SVG)"), "FILE.pdf"
    )
    _file_words(words.add_parser("calendar", help="the plan as a calendar file with alarms"), "FILE.ics")
    _meal_words(words.add_parser("lists", help="questions, shopping, preparation, oven and thawing, before the cook"))
    kept = words.add_parser("record", help="what a cook did, what it took and how it cooled, as text")
    kept.add_argument("cook", nargs="?", metavar="COOK", help="its file, or words of its name; else the newest")
    kept.add_argument("-o", "--output", type=Path, metavar="FILE.txt", help="write it there")
    _import_words(words.add_parser("import", help="make a dish of a recipe: a text file, a saved page, or JSON"))
    return parser


def _import_words(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("recipe", type=Path, metavar="RECIPE")
    where = parser.add_mutually_exclusive_group()
    where.add_argument("-o", "--output", type=Path, metavar="MENU.yaml", help="write a new menu there")
    where.add_argument("--into", type=Path, metavar="MENU.yaml", help="add the dish to a menu that is there")


def _file_words(parser: argparse.ArgumentParser, example: str) -> None:
    _meal_words(parser)
    parser.add_argument("-o", "--output", type=Path, metavar=example, help="where to write it")
    if example.endswith("pdf"):
        parser.add_argument("--paper", choices=("a4", "letter"), default="a4")
        parser.add_argument("--with", dest="with_pages", choices=("lists",), help="add shopping and preparation lists")


def _meal_words(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("menu", type=Path, metavar="MENU")
    parser.add_argument("--eat-at", metavar="T", help="18:30, '2026-12-21 18:30', or ISO 8601 with an offset")
    parser.add_argument(
        "--height", metavar="H", help="above the sea, for what boils: '1500 m' or '5000 ft'; else as chosen on a board"
    )


def _open_words(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("menu", type=Path, nargs="?", metavar="MENU")
    parser.add_argument("--eat-at", metavar="T", help="18:30, '2026-12-21 18:30', or ISO 8601 with an offset")
    parser.add_argument("--fresh", action="store_true", help="begin anew even when a cook of this menu is unfinished")
    parser.add_argument("--theme", choices=("system", "dark", "light", "contrast"), default="system")
    parser.add_argument("--sound", choices=("auto", "miniaudio", "simpleaudio", "silent"), default="auto")
    parser.add_argument(
        "--notify", action=argparse.BooleanOptionalAction, default=True, help="calls as desktop notifications, too"
    )
    parser.add_argument("--trace", type=Path, metavar="FILE", help="write when each alarm was due, painted and sounded")


def _plan_words(parser: argparse.ArgumentParser) -> None:
    _meal_words(parser)
    parser.add_argument("--soonest", action="store_true", help="eat as early as can be instead of at a set time")
    parser.add_argument("--from", dest="start", metavar="T", help="nothing starts before this")
    parser.add_argument("--json", action="store_true", help="one JSON object instead of a run sheet")
    parser.add_argument("--limit", type=_seconds, default=10.0, metavar="S", help="think at most S seconds (10)")


def _rehearse_words(parser: argparse.ArgumentParser) -> None:
    _meal_words(parser)
    pace = parser.add_mutually_exclusive_group()
    pace.add_argument("--speed", type=_speed, metavar="N", help="N times as fast as life (60)")
    pace.add_argument("--fast", action="store_true", help="as fast as the machine can")
    parser.add_argument(
        "--cook", choices=("likely", "late", "forgetful"), default="likely", help="how the cook answers"
    )
    parser.add_argument("--seed", type=int, default=0, metavar="N", help="which draw of luck")
    parser.add_argument("--json", action="store_true", help="one JSON object instead of lines")


def _seconds(text: str) -> float:
    value = float(text)
    if not 0 < value <= 3600:
        raise argparse.ArgumentTypeError("between 0 and 3600 seconds")
    return value


def _speed(text: str) -> float:
    value = float(text)
    if not 0 < value <= MOST_SPEED:
        raise argparse.ArgumentTypeError(f"above 0 and at most {MOST_SPEED}")
    return value


if __name__ == "__main__":
    sys.exit(main())
