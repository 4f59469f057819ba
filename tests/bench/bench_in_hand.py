"""What time in hand is worth: `python -m tests.bench.bench_in_hand`.

For every sample menu, planned with 0, 5 and 10 min in hand: when the first job is, the chance of being on time (10,000
simulated cooks whose food takes its own time), and how late the meal was in rehearsals with a cook who answers late.
"""

from pathlib import Path
from statistics import median

from timerboard.core.civil import resolve_eat_at
from timerboard.core.menu import Menu
from timerboard.core.plan import Plan
from timerboard.core.question import question
from timerboard.core.values import MS
from timerboard.desk.by_hand import CrankedClock, HeldMemory, MemoryJournal
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.desk.rehearsal import Rehearsal
from timerboard.desk.rehearsed_cook import Manner, RehearsedCook
from timerboard.planner.forecast import forecast
from timerboard.planner.in_hand import answer_in_hand
from timerboard.shell.menu_file import load_menu

SAMPLES = Path(__file__).parents[2] / "sample_menus"
NOW_MS = 1_797_861_600_000  # Mon 21 Dec 2026 14:00 UTC
IN_HAND_MIN = (0, 5, 10)
REHEARSALS = 3


def main() -> None:
    """Prints one row for each menu and length."""
    for path in sorted(SAMPLES.glob("*.yaml")):
        menu = load_menu(path).menu
        eat_at = resolve_eat_at(menu.eat_at or "19:00", "UTC", NOW_MS)
        assert isinstance(eat_at, int)
        for minutes in IN_HAND_MIN:
            print(f"{path.stem:22} {minutes:2} min in hand: {row(menu, eat_at, minutes)}", flush=True)


def row(menu: Menu, eat_at: int, minutes: int) -> str:
    """First job, chance on time, and lateness with slow answers, for a menu planned with so much in hand."""
    wished = menu.model_copy(update={"in_hand_s": minutes * 60})
    asked = question(wished, eat_at, "UTC")
    plan = answer_in_hand(asked)
    if not isinstance(plan, Plan):
        return "no plan"
    said = forecast(asked, plan)
    lates = sorted(late_s(wished, plan, seed) for seed in range(REHEARSALS))
    first = (plan.eat_at - plan.starts_at) / 60
    slow = f"slow answers: {median(lates):.0f} s late, worst {lates[-1]}"
    return f"first job {first:.0f} min before; on time {said.on_time:.3f}, 9 in 10 by {said.late_bad_s} s; {slow}"


def late_s(menu: Menu, plan: Plan, seed: int) -> int:
    """How late the meal was in one rehearsal with a cook who answers late, on the board itself."""
    clock = CrankedClock((plan.starts_at - 600) * MS, "UTC")
    desk = Desk(clock, MemoryJournal(), "bench", memory=HeldMemory({}))
    desk.open_cook(Order("", "", menu, plan.eat_at * MS, "UTC"), plan)
    for _ in Rehearsal(desk, clock, RehearsedCook(Manner.LATE, seed)).run():
        pass
    lives, lates = desk.cook.lives, [0]
    for dish in menu.dishes:
        course = menu.course_of(dish)
        by = plan.eat_at + (course.eat_s if course.until_s is None else course.until_s)
        ends = [lives[step].ended for step in dish.last_steps]
        if menu.on_table(dish) and all(end is not None for end in ends):
            lates.append(max(end for end in ends if end is not None) // MS - by)
    return max(lates)


if __name__ == "__main__":
    main()
