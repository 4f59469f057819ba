"""What is said of a menu that is being written: its size, its faults, its plan."""

import re
from collections.abc import Sequence

from .civil import clock_words, day_clock_words
from .faults import Fault, Path
from .menu import Menu
from .menu_form import DISH, MENU, STEP, Field, Rows, Section
from .plan import NoPlan, Plan, Status
from .plan_quality import better_words
from .quantities import duration_words
from .values import MS
from .words import plural, upper_first

MISSING = re.compile(r"^.+ has no '(\w+)'$")
WRITE = re.compile(r"^write (\w+): (?!with )")

NOTHING_YET = "No dishes yet: add one with Ctrl+D, or import a recipe with Ctrl+I"


def is_beginning(faults: Sequence[Fault]) -> bool:
    """True for a meal with which nothing is wrong but that it has no dishes yet: that is no fault of the cook's."""
    return [fault.path for fault in faults] == [("dishes",)]


def plan_words(menu: Menu | None, plan: Plan | NoPlan | None, zone: str) -> str:
    """One line: when to begin, when to eat, how much time hands are wanted; or why there is no plan."""
    if plan is None or menu is None:
        return "No plan yet."
    if isinstance(plan, NoPlan):
        ways = f" What would help: {plan.ways_out[0].said}" if plan.ways_out else ""
        none = "No plan yet" if plan.status is Status.UNKNOWN else "No plan"
        return f"{none}: {plan.reasons[0]}{ways}"
    eat = clock_words(plan.eat_at * MS, zone)
    begin = day_clock_words(plan.starts_at * MS, zone, plan.eat_at * MS)
    late = f" · {duration_words(plan.late_s)} late" if plan.late_s else ""
    better = f" · {better_words(plan.standing)}" if plan.standing is not None else ""
    return f"Begin {begin} · eat {eat} · {duration_words(plan.eat_at - plan.starts_at)} in all{late}{better}"


def menu_words(menu: Menu | None, faults: Sequence[Fault], warnings: Sequence[Fault]) -> str:
    """One line: what there is, and what is wrong with it."""
    if is_beginning(faults):
        return NOTHING_YET
    if faults:
        return f"{plural(len(faults), 'fault')} to mend: {form_wrong(faults[0], named=True)}"
    size = f"{plural(len(menu.dishes), 'dish', 'dishes')}, {plural(len(menu.steps), 'step')}" if menu else ""
    return f"{size} · {plural(len(warnings), 'warning')}" if warnings else size


def form_words(fault: Fault) -> str:
    """A fault as it is said below its box: 'still empty; write a few words', without the file's keys."""
    right = WRITE.sub("write ", fault.right) if WRITE.match(fault.right) else fault.right
    wrong = form_wrong(fault)
    return f"{wrong}; {right}" if right else wrong


def form_wrong(fault: Fault, *, named: bool = False) -> str:
    """What is wrong, in the words of the form. `named`: with the name of its box, for a line away from it."""
    if missing := MISSING.match(fault.wrong):
        return f"'{_label(fault.path, missing[1])}' is still empty"
    key = next((part for part in reversed(fault.path) if isinstance(part, str)), "")
    if not key or not fault.wrong.startswith(f"{key}: "):
        return fault.wrong
    wrong = fault.wrong.removeprefix(f"{key}: ").replace("nothing is written here", "still empty")
    return f"'{_label(fault.path, key)}': {wrong}" if named else wrong


def _label(path: Path, key: str) -> str:
    """What the form calls a key there; the key itself where it has no box."""
    form = STEP if "steps" in path else DISH if "dishes" in path else MENU
    return next((label for own, label in _labels(form) if own == key), upper_first(key.replace("_", " ")))


def _labels(form: Sequence[Section]) -> list[tuple[str, str]]:
    """Boxes before what stands in rows: the step's own 'Do' comes before that of a cue."""
    parts = [part for section in form for part in section.parts]
    boxes = [part for part in parts if isinstance(part, Field)]
    rows = [part for part in parts if isinstance(part, Rows)]
    columns = [column for part in rows for column in part.columns]
    named: list[Field | Rows] = [*boxes, *columns, *rows]
    return [(str(part.at[-1]), part.label) for part in named if part.at]
