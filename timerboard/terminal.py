"""The commands that print: check, plan, rehearse and the plan of a board that has no display.

Each gives an exit code: 0 done, 1 no plan exists, 2 bad input. What went wrong goes to standard error, in words.
"""

import json
import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from timerboard.core.choices import height_asked, height_note, menu_at
from timerboard.core.civil import CivilDoubt, exact_moment, resolve_eat_at
from timerboard.core.faults import MenuFaults
from timerboard.core.menu import Menu
from timerboard.core.plan import NoPlan, Plan
from timerboard.core.plan_json import answer_json, iso_time
from timerboard.core.plan_words import no_plan_lines, plan_lines
from timerboard.core.question import question
from timerboard.core.values import Seconds
from timerboard.desk.choosing import remembered_height
from timerboard.desk.ports import Clock
from timerboard.shell.menu_file import LoadedMenu, load_menu
from timerboard.shell.settings_file import SettingsFile, settings_path

DONE, NO_PLAN, BAD_INPUT = 0, 1, 2
DEFAULT_EAT_AT = "19:00"


class BadInput(Exception):
    """Something the user wrote cannot be used; `lines` say what and what would be right."""

    def __init__(self, *lines: str) -> None:
        super().__init__(lines[0])
        self.lines = lines


@dataclass(frozen=True)
class Meal:
    """A menu with the moment it is eaten, on the axis, and the kitchen's zone and height above the sea."""

    loaded: LoadedMenu
    eat_at: Seconds
    zone: str
    height: str = "0"

    @cached_property
    def menu(self) -> Menu:
        """The menu as it is cooked in this kitchen."""
        return menu_at(self.loaded.menu, self.height)

    @property
    def note(self) -> str:
        """What height does to it, in words; '' at sea level."""
        return height_note(self.height, self.loaded.menu.units)


def say(lines: Iterable[str]) -> None:
    """Lines on standard output."""
    sys.stdout.write("".join(f"{line}\n" for line in lines))


def complain(lines: Iterable[str]) -> None:
    """Lines on standard error."""
    sys.stderr.write("".join(f"{line}\n" for line in lines))


def guarded(command: Callable[[], int]) -> int:
    """Run a command; whatever is wrong with its input becomes words and exit code 2."""
    try:
        return command()
    except BadInput as bad:
        complain(bad.lines)
    except BrokenPipeError:
        sys.stderr.close()  # the reader of our output has gone: nothing more to say to anyone
    except KeyboardInterrupt:
        complain(["stopped"])
    return BAD_INPUT


def read(path: Path, *, warn: bool = True) -> LoadedMenu:
    """The menu in a file. Its warnings go to standard error; its faults are BadInput, all at once."""
    try:
        loaded = load_menu(path)
    except MenuFaults as faults:
        raise BadInput(*(fault.said(str(path)) for fault in faults.faults)) from None
    if warn:
        complain(warning.said(str(path)) for warning in loaded.warnings)
    return loaded


def meal(path: Path, eat_at: str | None, clock: Clock, height: str | None = None) -> Meal:
    """A menu file and when it is eaten: as asked, else as written in it, else the next 19:00.

    `height`: above the sea as somebody wrote it, else as it was chosen on a board.
    """
    loaded = read(path)
    zone = clock.zone()
    written = eat_at or loaded.menu.eat_at or DEFAULT_EAT_AT
    try:
        level = height_asked(height) if height is not None else remembered_height(SettingsFile(settings_path()))
    except ValueError as nonsense:
        raise BadInput(str(nonsense)) from None
    return Meal(loaded, moment(written, zone, clock), zone, level)


def moment(written: str, zone: str, clock: Clock) -> Seconds:
    """A time as people write it, on the axis. With an offset (`2026-10-25T02:30+01:00`) it is never in doubt."""
    try:
        exact = exact_moment(written)
        found = resolve_eat_at(written, zone, clock.wall_ms()) if exact is None else exact
    except ValueError as nonsense:
        raise BadInput(str(nonsense)) from None
    if isinstance(found, CivilDoubt):
        ways = [f"  {label}: --eat-at {iso_time(at, zone)}" for label, at in found.choices]
        raise BadInput(found.said + "; which is meant?", *ways)
    return found


def check(paths: list[Path]) -> int:
    """Report on menu files: every fault and warning, then one line each."""
    worst = DONE
    for path in paths:
        try:
            loaded = read(path, warn=False)
        except BadInput as bad:
            complain(bad.lines)
            complain([f"{path}: cannot be cooked as written"])
            worst = BAD_INPUT
            continue
        say(warning.said(str(path)) for warning in loaded.warnings)
        menu, count = loaded.menu, len(loaded.warnings)
        told = "no warnings" if not count else f"{count} warning{'s' if count > 1 else ''}"
        dishes = f"{len(menu.dishes)} dish{'es' if len(menu.dishes) != 1 else ''}"
        steps = f"{len(menu.steps)} step{'s' if len(menu.steps) != 1 else ''}"
        say([f"{path}: {menu.title}: {dishes}, {steps}, {told}"])
    return worst


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """What `plan` was asked for."""

    path: Path
    eat_at: str | None = None
    soonest: bool = False
    start: str | None = None
    as_json: bool = False
    height: str | None = None
    limit_s: float = 10.0


def plan(asked: PlanAsked, clock: Clock) -> int:
    """Print the plan of a menu, as a run sheet or as one JSON object."""
    at_table = meal(asked.path, asked.eat_at, clock, asked.height)
    found = plan_of(at_table, asked, clock)
    if asked.as_json:
        say([json.dumps(answer_json(found, at_table.eat_at, at_table.zone), ensure_ascii=False, indent=2)])
    elif isinstance(found, NoPlan):
        complain(no_plan_lines(at_table.menu, found))
    else:
        say(plan_lines(at_table.menu, found, at_table.zone, at_table.note))
    return NO_PLAN if isinstance(found, NoPlan) else DONE


def plan_of(at_table: Meal, asked: PlanAsked, clock: Clock) -> Plan | NoPlan:
    """The planner's answer to what was asked."""
    from timerboard.planner.in_hand import answer_in_hand

    start = moment(asked.start, at_table.zone, clock) if asked.start else None
    if asked.soonest and start is None:
        start = -(-clock.wall_ms() // 60_000) * 60
    problem = question(at_table.menu, at_table.eat_at, at_table.zone, not_before=start, soonest=asked.soonest)
    return answer_in_hand(problem, limit_s=asked.limit_s)
