"""A board for a menu: its journal found or begun, its first plan made. `open` and the start window both come here."""

import argparse
import os
import socket
from datetime import UTC, datetime
from pathlib import Path

from timerboard.app import Begin, Board, Wishes
from timerboard.core.plan import NoPlan, Plan, Problem
from timerboard.core.plan_words import no_plan_lines
from timerboard.core.question import question
from timerboard.core.values import MS
from timerboard.desk.opening import Order
from timerboard.desk.ports import Clock
from timerboard.planner.in_hand import first_plan_in_hand
from timerboard.shell.journal_folder import CookFile, cooks_folder, new_file, unfinished
from timerboard.shell.recent_menus import RecentMenus
from timerboard.terminal import Meal, complain, meal

STALE_MS = 12 * 3600 * MS  # an unfinished cook whose meal is longer ago than this is not taken up unasked


def board_on(asked: argparse.Namespace, clock: Clock, journal: Path | None = None) -> Board | NoPlan:
    """A board on the menu that was asked for, or on an unfinished cook's journal; NoPlan was complained about.

    Raises BadInput for a menu that cannot be read, JournalTrouble for a cook that cannot be kept.
    """
    file, at_table = (journal, None) if journal is not None else _chosen(asked, clock)
    begin: Begin | None = None
    if at_table is not None:
        plan = opening_plan(at_table, clock)
        if isinstance(plan, NoPlan):
            complain(no_plan_lines(at_table.menu, plan))
            return plan
        begin = Begin(order_of(at_table), plan)
        RecentMenus().note(asked.menu)
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


def opening_plan(at_table: Meal, clock: Clock) -> Plan | NoPlan:
    """A plan to begin with, within a moment: the first that keeps every rule; a better one follows by itself.

    Where it would have had to begin already, the soonest from now is taken and the board says how late that is.
    """
    problem = question(at_table.menu, at_table.eat_at, at_table.zone)
    plan = first_plan_in_hand(problem)
    now = -(-clock.wall_ms() // MS)
    if plan is not None and plan.starts_at >= now:
        return plan
    late = problem.model_copy(update={"not_before": now, "late_ok": True})
    return first_plan_in_hand(late) or _thought_through(late)


def _thought_through(problem: Problem) -> Plan | NoPlan:
    """Where no quick plan was found, the whole planner's word: a plan after all, or why there is none."""
    from timerboard.planner.answer import answer

    return answer(problem)
