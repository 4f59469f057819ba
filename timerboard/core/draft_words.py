"""What is said of a menu that is being written: its size, its faults, its plan."""

from collections.abc import Sequence

from .civil import clock_words, day_clock_words
from .faults import Fault
from .menu import Menu
from .plan import NoPlan, Plan, Status
from .plan_quality import better_words
from .quantities import duration_words
from .values import MS
from .words import plural

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
        return f"{plural(len(faults), 'fault')} to mend: {faults[0].wrong}"
    size = f"{plural(len(menu.dishes), 'dish', 'dishes')}, {plural(len(menu.steps), 'step')}" if menu else ""
    return f"{size} · {plural(len(warnings), 'warning')}" if warnings else size
