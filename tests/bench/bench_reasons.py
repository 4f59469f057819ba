"""How long a reasoned 'no' takes: `python -m tests.bench.bench_reasons [--short]`.

Suppers of twelve, and feasts of 24 and 40 dishes, each with one thing in it that cannot be, asked as any question.
Per kind: the median and the most of the whole answer, how many lines of reasons, and how often what was planted is in
them and a way out was found. An answer that is not 'impossible' is counted as missed.
"""

import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter

from tests.bench.menus import menu_value
from timerboard.core.plan import After, NoPlan, Problem, Status, Stretch, Task
from timerboard.core.question import question
from timerboard.planner.answer import answer

EAT_AT = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC

Planted = tuple[Problem, str]
"""An impossible question, and words that its reasons must have."""


def _changed(problem: Problem, task: Task, **update: object) -> Problem:
    tasks = tuple(t.model_copy(update=update) if t.id == task.id else t for t in problem.tasks)
    return problem.model_copy(update={"tasks": tasks})


def _first(problem: Problem, dish: str, do: str) -> Task:
    return next(t for t in problem.tasks if t.dish.startswith(dish) and t.do == do)


def cycle(problem: Problem) -> Planted:
    """The seasoning waits for the carving."""
    season = _first(problem, "Roast", "Season")
    carve = next(t for t in problem.tasks if t.dish == season.dish and t.do == "Carve")
    return _changed(problem, season, after=(After(task=carve.id),)), "ring"


def room(problem: Problem) -> Planted:
    """A roast on more racks than there are."""
    roast = _first(problem, "Roast", "Roast")
    racks = next(p.room or 0 for p in problem.places if p.name == "oven")
    return _changed(problem, roast, uses=(("oven", racks + 1),)), "parts of the oven"


def hold(problem: Problem) -> Planted:
    """A garnish that follows the greens by an hour at once, and greens that may stand for minutes."""
    butter = _first(problem, "Greens", "Butter")
    sauce = _first(problem, "Sauce", "Keep warm")
    late = (After(task=butter.id, wait_s=7_200),)
    return _changed(problem, sauce, after=(*sauce.after, *late)), "may stand ready"


def closed(problem: Problem) -> Planted:
    """The kitchen is closed for the last two hours."""
    shut = (Stretch(start=EAT_AT - 7_200, end=EAT_AT + 3_600),)
    return problem.model_copy(update={"closed": shut}), "Closed hours"


def hands(problem: Problem) -> Planted:
    """Three dishes are plated for half an hour each, straight to the table."""
    for kind, do in (("Roast", "Plate"), ("Gratin", "Serve out"), ("Salad", "Toss")):
        last = _first(problem, kind, do)
        problem = _changed(problem, last, least_s=1_800, most_s=1_800)
        goals = (
            g.model_copy(update={"ready_from": EAT_AT, "hold_s": 0}) if g.dish == last.dish else g
            for g in problem.goals
        )
        problem = problem.model_copy(update={"goals": tuple(goals)})
    return problem, "of hands cannot do"


def heat(problem: Problem) -> Planted:
    """Roast and gratin leave the oven when they are eaten, at two heats."""
    for kind in ("Roast", "Gratin"):
        step = _first(problem, kind, "Roast" if kind == "Roast" else "Bake")
        last = tuple(t.id for t in problem.tasks if t.dish == step.dish and t.id != step.id)
        kept = tuple(t for t in problem.tasks if t.id not in last)
        bare = step.model_copy(update={"after": (), "cues": (), "hands": ()})
        tasks = tuple(bare if t.id == step.id else t for t in kept)
        goals = tuple(
            g.model_copy(update={"last": (step.id,), "ready_from": EAT_AT, "hold_s": 0}) if g.dish == step.dish else g
            for g in problem.goals
        )
        problem = problem.model_copy(update={"tasks": tasks, "goals": goals})
    return problem, "one oven"


KINDS: tuple[tuple[str, Callable[[Problem], Planted]], ...] = (
    ("a ring of links", cycle),
    ("more room than there is", room),
    ("a hold too short", hold),
    ("closed hours", closed),
    ("too few hands", hands),
    ("one oven, two heats", heat),
)


def row(name: str, plant: Callable[[Problem], Planted], dishes: int, seeds: range) -> str:
    """One line of the table."""
    times, lines, named, ways, missed = [], [], 0, 0, 0
    for seed in seeds:
        problem, words = plant(question(menu_value(seed, dishes, 2), EAT_AT, "UTC"))
        began = perf_counter()
        found = answer(problem)
        times.append(perf_counter() - began)
        if not isinstance(found, NoPlan) or found.status is not Status.IMPOSSIBLE:
            missed += 1
            continue
        lines.append(len(found.reasons))
        named += any(words in said for said in found.reasons)
        ways += bool(found.ways_out)
    return (
        f"{dishes:2} dishes, {name:24} {1000 * median(times):5.0f} ms, most {1000 * max(times):5.0f} ms; "
        f"lines {median(lines or [0]):g}, named {named}, way out {ways}, missed {missed} of {len(seeds)}"
    )


def main() -> None:
    """Prints the table."""
    short = "--short" in sys.argv
    for dishes in (12,) if short else (12, 24, 40):
        for name, plant in KINDS:
            print(row(name, plant, dishes, range(1 if short else 5)), flush=True)


if __name__ == "__main__":
    main()
