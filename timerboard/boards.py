"""A board for a menu: its journal found or begun, its first plan made. `open` and the start window both come here.

A first plan is there within a moment, or is made in the planner's process, with a window that says so: the window's
thread never waits for the solver.
"""

import argparse
import os
import socket
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtWidgets import QWidget

from timerboard.app import Begin, Board, Wishes
from timerboard.board.planning_dialog import PlanningDialog
from timerboard.core.civil import day_clock_words
from timerboard.core.plan import NoPlan, Plan, Problem, Status
from timerboard.core.plan_words import no_plan_lines
from timerboard.core.quantity_words import duration_words
from timerboard.core.question import question
from timerboard.core.values import MS
from timerboard.core.words import upper_first
from timerboard.desk.opening import Order
from timerboard.desk.ports import Clock, Planner
from timerboard.planner.in_hand import first_plan_in_hand
from timerboard.shell.journal_folder import CookFile, cooks_folder, new_file, unfinished
from timerboard.shell.planner_process import PlannerProcess
from timerboard.shell.recent_menus import RecentMenus
from timerboard.terminal import Meal, complain, meal

QUICK_STEPS = 40
"""Of more steps even the quick search for the soonest meal takes a second: that is left to the planner's process."""

STALE_MS = 12 * 3600 * MS  # an unfinished cook whose meal is longer ago than this is not taken up unasked


@dataclass(frozen=True, slots=True)
class Unplanned:
    """A meal without a quick plan: what to ask the planner's process, and the board on what it answers."""

    at_table: Meal
    problem: Problem
    board: Callable[[Plan], Board]


def board_on(asked: argparse.Namespace, clock: Clock, journal: Path | None = None) -> Board | Unplanned:
    """A board on the menu that was asked for, or on an unfinished cook's journal.

    Raises BadInput for a menu that cannot be read, JournalTrouble for a cook that cannot be kept (`Unplanned.board`
    raises that too).
    """
    file, at_table = (journal, None) if journal is not None else _chosen(asked, clock)
    if at_table is None:
        return _board(asked, clock, file, None)
    quick = opening_plan(at_table, clock)

    def begin(plan: Plan) -> Board:
        RecentMenus().note(asked.menu)
        return _board(asked, clock, file, Begin(order_of(at_table), plan))

    return begin(quick) if isinstance(quick, Plan) else Unplanned(at_table, quick, begin)


def _board(asked: argparse.Namespace, clock: Clock, file: Path, begin: Begin | None) -> Board:
    wishes = Wishes(None if asked.theme == "system" else asked.theme, asked.sound, asked.trace, asked.notify)
    return Board(file, begin, clock, f"{socket.gethostname()} {os.getpid()}", wishes)


def _chosen(asked: argparse.Namespace, clock: Clock) -> tuple[Path, Meal | None]:
    """The journal to write, and what to begin in it; None to take up what it has."""
    folder = cooks_folder()
    left = unfinished(folder)
    at_table = meal(asked.menu, asked.eat_at, clock)
    title = at_table.loaded.menu.title
    same = [cook for cook in left if cook.title == title and not _stale(cook, clock)]
    if same and not asked.fresh:
        complain([f"going on with {same[0].said} (--fresh begins anew)"])
        return same[0].path, None
    day = datetime.fromtimestamp(clock.wall_ms() / MS, UTC).strftime("%Y-%m-%d")
    return new_file(folder, title, day), at_table


def _stale(cook: CookFile, clock: Clock) -> bool:
    return clock.wall_ms() - max(cook.eat_at, cook.last_ms) > STALE_MS


def order_of(at_table: Meal) -> Order:
    """What is to be cooked, as the desk wants it."""
    loaded = at_table.loaded
    return Order(loaded.text, loaded.hash, loaded.menu, at_table.eat_at * MS, at_table.zone)


def opening_plan(at_table: Meal, clock: Clock) -> Plan | Problem:
    """A plan to begin with, within a moment: the first that keeps every rule; a better one follows by itself.

    Where it would have had to begin already, the soonest from now is taken and the board says how late that is. Where
    none is found so quickly: the question for the whole planner.
    """
    problem = question(at_table.menu, at_table.eat_at, at_table.zone)
    plan = first_plan_in_hand(problem)
    now = -(-clock.wall_ms() // MS)
    if plan is not None and plan.starts_at >= now:
        return plan
    late = problem.model_copy(update={"not_before": now, "late_ok": True})
    quick = first_plan_in_hand(late) if len(late.tasks) <= QUICK_STEPS else None
    return quick or late


class Planning:
    """A first plan from the planner's process, with a window that says so and can call it off.

    `heard` is called once: with a plan, or with None when the cook called it off or there is none (`why_not` then says
    why). Keep it until then.
    """

    def __init__(
        self,
        wanted: Unplanned,
        heard: Callable[[Plan | None], object],
        *,
        theme: str | None = None,
        parent: QWidget | None = None,
        planner: Planner | None = None,
    ) -> None:
        self._wanted, self._heard = wanted, heard
        self._best: Plan | None = None
        self._over = False
        self.why_not: NoPlan | None = None
        self._planner = planner if planner is not None else PlannerProcess()
        title = wanted.at_table.menu.title
        self.dialog = PlanningDialog(title, self._take_best, self._called_off, theme=theme, parent=parent)
        self.dialog.open()
        self._planner.ask(
            wanted.problem,
            None,
            on_progress=self._found,
            on_answer=self._answered,
            on_forecast=lambda _forecast: None,
            on_trouble=self._failed,
        )

    def _found(self, plan: Plan) -> None:
        self._best = plan
        zone, meal_ms = self._wanted.at_table.zone, plan.eat_at * MS
        eaten = day_clock_words(meal_ms + plan.late_s * MS, zone, meal_ms)
        late = f", {duration_words(plan.late_s)} late" if plan.late_s else ""
        self.dialog.show_found(f"There is a plan to eat at {eaten}{late}. A better one is looked for.")

    def _take_best(self) -> None:
        if self._best is not None:
            self._end(self._best)

    def _answered(self, answer: Plan | NoPlan) -> None:
        if isinstance(answer, Plan):
            self._end(answer)
            return
        self.why_not = answer
        heading, *lines = no_plan_lines(self._wanted.at_table.menu, answer)
        complain([heading, *lines])
        self.dialog.show_none(heading, tuple(lines))

    def _failed(self, said: str) -> None:
        """The planner itself failed: what it had found is cooked with; else nothing is known of the menu."""
        if self._best is not None:
            self._end(self._best)
            return
        self._answered(NoPlan(status=Status.UNKNOWN, reasons=(f"{upper_first(said)}.",)))

    def _called_off(self) -> None:
        self._end(None)

    def _end(self, plan: Plan | None) -> None:
        if self._over:
            return
        self._over = True
        self._planner.cancel()
        if isinstance(self._planner, PlannerProcess):
            self._planner.close()
        self._heard(plan)
        if plan is not None:
            self.dialog.accept()
