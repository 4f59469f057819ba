"""The `rehearse` command: the whole program but for the window, with a cook that answers by itself."""

import argparse
import json
import threading
from collections.abc import Callable

from timerboard.core.choices import HEIGHT
from timerboard.core.cook import Cook
from timerboard.core.menu import Dish
from timerboard.core.plan import NoPlan, Plan
from timerboard.core.plan_json import Json, iso_time
from timerboard.core.plan_words import no_plan_lines
from timerboard.core.record_words import happened, what_it_took
from timerboard.core.values import MS
from timerboard.core.words import length_words, plural
from timerboard.desk.by_hand import CrankedClock, Foreteller, HeldMemory, MemoryJournal
from timerboard.desk.choosing import REMEMBERED
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.desk.ports import Clock
from timerboard.desk.rehearsal import Rehearsal
from timerboard.desk.rehearsed_cook import Manner, RehearsedCook
from timerboard.terminal import DONE, NO_PLAN, Meal, PlanAsked, complain, meal, plan_of, say

DEFAULT_SPEED = 60.0
BEFORE_S = 600  # the board is opened ten minutes before the first job


def rehearse(asked: argparse.Namespace, clock: Clock) -> int:
    """Run a menu to the table and print what happened."""
    at_table = meal(asked.menu, asked.eat_at, clock, asked.height)
    found = plan_of(at_table, PlanAsked(asked.menu, asked.eat_at), clock)
    if isinstance(found, NoPlan):
        complain(no_plan_lines(at_table.menu, found))
        return NO_PLAN
    run = rehearsal(at_table, found, RehearsedCook(Manner(asked.cook), asked.seed), _pace(asked))
    for noted in run.run():
        if not asked.json and (line := happened(run.desk.cook, noted)):
            say([line])
    told = outcome(at_table, run)
    say([json.dumps(told, ensure_ascii=False, indent=2)] if asked.json else _said(run, told))
    return DONE


def rehearsal(at_table: Meal, plan: Plan, person: RehearsedCook, pace: Callable[[int], None]) -> Rehearsal:
    """A desk opened on the menu ten minutes before the plan's first job, on a clock that is cranked."""
    clock = CrankedClock((plan.starts_at - BEFORE_S) * MS, at_table.zone)
    memory, foreteller = HeldMemory({REMEMBERED[HEIGHT]: at_table.height}), Foreteller()
    desk = Desk(clock, MemoryJournal(), "rehearsal", memory=memory, predictor=foreteller)
    loaded = at_table.loaded
    desk.open_cook(Order(loaded.text, loaded.hash, loaded.menu, at_table.eat_at * MS, at_table.zone), plan)
    return Rehearsal(desk, clock, person, pace, foreteller.answer)


def _pace(asked: argparse.Namespace) -> Callable[[int], None]:
    """Nothing in a fast run; else wait as long as the kitchen would, `--speed` times shorter."""
    if asked.fast or (asked.json and asked.speed is None):
        return lambda _ms: None
    speed = asked.speed or DEFAULT_SPEED
    never = threading.Event()

    def wait(ms: int) -> None:
        never.wait(max(0, ms) / MS / speed)

    return wait


def outcome(at_table: Meal, run: Rehearsal) -> Json:
    """What became of it: how late, each step's planned and real times, alarms raised and ended."""
    cook, zone, plan = run.desk.cook, at_table.zone, run.desk.cook.plan
    lates = [late for dish in cook.menu.dishes if (late := _late_s(cook, dish)) is not None]
    return {
        "menu": cook.menu.title,
        "cook": run.person.manner.value,
        "seed": run.person.seed,
        "eat_at": iso_time(cook.eat_at // MS, zone),
        "late_s": max([0, *lates]),
        "steps": [
            {
                "id": step,
                "planned_start": iso_time(placed.start, zone) if plan and (placed := plan.of(step)) else None,
                "started": iso_time(life.started // MS, zone) if life.started is not None else None,
                "ended": iso_time(life.ended // MS, zone) if life.ended is not None else None,
            }
            for step, life in cook.lives.items()
        ],
        "alarms": {
            "raised": run.tally.raised,
            "ended": run.tally.ended,
            "waiting": len(run.tally.standing),
            "longest_wait_s": run.tally.longest_wait_ms // MS,
        },
        "refused": list(run.refused),
    }


def _late_s(cook: Cook, dish: Dish) -> int | None:
    """How long after its course (or the end of its window) a dish was ready; None when it never was."""
    ends = [cook.lives[step].ended for step in dish.last_steps if step in cook.lives]
    known = [end for end in ends if end is not None]
    if not cook.menu.on_table(dish) or len(known) < len(ends) or not known:
        return None
    course = cook.menu.course_of(dish)
    by = course.eat_s if course.until_s is None else course.until_s
    return (max(known) - cook.eat_at) // MS - by


def _said(run: Rehearsal, told: Json) -> list[str]:
    late = int(str(told["late_s"]))
    tally = run.tally
    lines = ["", "What it took:", *(f"  {line}" for line in what_it_took(run.desk.cook)), ""]
    lines.append("Everything was on the table in time." if late < 60 else f"Late by {length_words(late * MS)}.")
    counted = f"{plural(tally.raised, 'call')}, {tally.ended} answered or ended, {len(tally.standing)} waiting"
    return [*lines, f"{counted}; the longest waited {length_words(tally.longest_wait_ms)}."]
