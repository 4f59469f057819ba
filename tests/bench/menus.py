"""Generated menus for benches and tests: seeded, in the shape of real suppers, as menu text and as Menu values.

Twelve dishes of five steps each: roasts that are basted and rest, gratins, braises, vegetables that wait for nobody,
sauces, salads and cakes; two oven temperatures that do not agree, two racks, four rings; more of both for more dishes.
Nothing in here promises a plan; `tests/planner/test_greedy.py` holds that every seed used has one.
"""

from collections.abc import Callable
from random import Random
from typing import Any

from timerboard.core.menu import Course, Cue, Dish, HandsFrom, Heat, Link, Menu, Place, Step, Use, Work
from timerboard.core.values import Span

LOW_C, HIGH_C = 160, 220
Written = dict[str, Any]
"""A step as a cook writes it, in whole minutes: the keys of the menu format with numbers for durations."""


def _roast(dice: Random) -> tuple[int, list[Written]]:
    low = dice.randrange(60, 110, 5)
    return dice.randrange(15, 35, 5), [
        {"do": "Season", "work": dice.randrange(5, 13), "ahead": 1440},
        {
            "do": "Roast",
            "on": "oven",
            "heat": LOW_C,
            "within_c": 10,
            "takes": (low, low + dice.randrange(10, 30, 5)),
            "start": 2,
            "end": 3,
            "cues": [{"do": "Baste", "every": 30, "work": 1}],
        },
        {"do": "Rest", "on": "counter", "lasts": (15, 45)},
        {"do": "Carve", "work": dice.randrange(4, 9)},
        {"do": "Plate", "work": 2},
    ]


def _gratin(dice: Random) -> tuple[int, list[Written]]:
    low = dice.randrange(30, 45, 5)
    return dice.randrange(20, 45, 5), [
        {"do": "Slice", "work": dice.randrange(8, 15), "ahead": 300},
        {"do": "Layer", "work": dice.randrange(4, 9), "ahead": 300},
        {
            "do": "Bake",
            "on": "oven",
            "heat": HIGH_C,
            "within_c": 10,
            "takes": (low, low + 10),
            "start": 1,
            "end": 2,
            "cues": [{"do": "Turn", "at": "halfway", "work": 1}],
        },
        {"do": "Settle", "on": "counter", "lasts": (5, 30)},
        {"do": "Serve out", "work": 2},
    ]


def _braise(dice: Random) -> tuple[int, list[Written]]:
    low = dice.randrange(50, 90, 10)
    return dice.randrange(45, 90, 5), [
        {"do": "Chop", "work": dice.randrange(6, 13), "ahead": 1440},
        {"do": "Brown", "on": "hob", "takes": (6, 10), "all": True},
        {
            "do": "Simmer",
            "on": "hob",
            "takes": (low, low + 20),
            "within": 5,
            "cues": [{"do": "Stir", "every": 20, "work": 1}],
        },
        {"do": "Reduce", "on": "hob", "takes": (8, 12), "end": 1},
        {"do": "Season to taste", "work": 2},
    ]


def _greens(dice: Random) -> tuple[int, list[Written]]:
    return dice.randrange(10, 25, 5), [
        {"do": "Trim", "work": dice.randrange(4, 9), "ahead": 360},
        {"do": "Boil the water", "on": "hob", "takes": (12, 15), "after": []},
        {"do": "Cook", "on": "hob", "takes": (4, 7), "start": 1, "after": ["Trim", "Boil the water"], "within": 20},
        {"do": "Drain", "work": 1, "within": 2},
        {"do": "Butter", "work": 2},
    ]


def _sauce(dice: Random) -> tuple[int, list[Written]]:
    low = dice.randrange(10, 20, 2)
    return dice.randrange(20, 40, 5), [
        {"do": "Measure", "work": 3, "ahead": 240},
        {"do": "Cook the roux", "on": "hob", "takes": (2, 4), "all": True},
        {
            "do": "Thicken",
            "on": "hob",
            "takes": (low, low + 5),
            "within": 2,
            "cues": [{"do": "Whisk", "at": "halfway", "work": 1}],
        },
        {"do": "Strain", "work": 3},
        {"do": "Keep warm", "on": "hob", "lasts": (5, 40)},
    ]


def _salad(dice: Random) -> tuple[int, list[Written]]:
    return dice.randrange(10, 25, 5), [
        {"do": "Wash", "work": dice.randrange(4, 8), "ahead": 360},
        {"do": "Cut", "work": dice.randrange(6, 11), "ahead": 240},
        {"do": "Chill", "on": "counter", "lasts": (20, 180)},
        {"do": "Stir the dressing", "work": 4, "after": [], "ahead": 300},
        {"do": "Toss", "work": 2, "after": ["Chill", "Stir the dressing"]},
    ]


def _cake(dice: Random) -> tuple[int, list[Written]]:
    low = dice.randrange(24, 34, 2)
    return dice.randrange(60, 120, 10), [
        {"do": "Mix", "work": dice.randrange(8, 14), "ahead": 1440},
        {"do": "Bake", "on": "oven", "heat": HIGH_C, "within_c": 10, "takes": (low, low + 6), "start": 1, "end": 1},
        {"do": "Cool", "on": "counter", "lasts": (30, 240)},
        {"do": "Ice", "work": dice.randrange(5, 10)},
        {"do": "Cut up", "work": 3},
    ]


KINDS: tuple[tuple[str, Callable[[Random], tuple[int, list[Written]]]], ...] = (
    ("Roast", _roast),
    ("Gratin", _gratin),
    ("Braise", _braise),
    ("Greens", _greens),
    ("Sauce", _sauce),
    ("Salad", _salad),
    ("Cake", _cake),
)


def rooms(dishes: int) -> tuple[int, int]:
    """Racks and rings: two and four for a dozen dishes, in proportion above."""
    return max(2, dishes // 6), max(4, dishes // 3)


def written_dishes(seed: int, dishes: int = 12) -> list[tuple[str, int, list[Written]]]:
    """(name, hold in minutes, steps) of every dish: each kind in turn, in an order of its own."""
    dice = Random(seed)
    kinds = [KINDS[n % len(KINDS)] for n in range(dishes)]
    dice.shuffle(kinds)
    return [(f"{kind} {n + 1}", *make(dice)) for n, (kind, make) in enumerate(kinds)]


def menu_text(seed: int, dishes: int = 12, hands: int = 1) -> str:
    """The menu as a cook would write it."""
    racks, rings = rooms(dishes)
    lines = [
        f"menu: Generated supper {seed}",
        "serves: 8",
        'eat_at: "18:30"',
        "kitchen:",
        f"  hands: {hands}",
        "  places:",
        f"    oven: {{room: {racks}, heat: 60-250 C, preheat: 20 min}}",
        f"    hob: {{room: {rings}}}",
        "    counter: {}",
        "dishes:",
    ]
    for name, hold, steps in written_dishes(seed, dishes):
        lines += [f"  - dish: {name}", f"    hold: {hold} min", "    steps:"]
        lines += [line for step in steps for line in _step_lines(step)]
    return "\n".join(lines) + "\n"


def _step_lines(step: Written) -> list[str]:
    out = [f"do: {step['do']}"]
    if "on" in step:
        out.append(f"on: {step['on']}")
    if "heat" in step:
        out += [f"heat: {step['heat']} C", f"heat_within: {step['within_c']} C"]
    out += [f"{key}: {step[key][0]}-{step[key][1]} min" for key in ("takes", "lasts") if key in step]
    out += [f"{key}: {step[key]} min" for key in ("ahead", "within") if key in step]
    if "work" in step:
        out.append(f"work: {step['work']} min")
    elif step.get("all"):
        out.append("work: all")
    elif "start" in step or "end" in step:
        ends = [f"{key}: {step[key]} min" for key in ("start", "end") if key in step]
        out.append(f"work: {{{', '.join(ends)}}}")
    if "after" in step:
        out.append(f"after: [{', '.join(step['after'])}]")
    for cue in step.get("cues", ()):
        moment = f"every: {cue['every']} min" if "every" in cue else f"at: {cue['at']}"
        out.append(f"cues: [{{do: {cue['do']}, {moment}, work: {cue['work']} min}}]")
    return [("      - " if n == 0 else "        ") + line for n, line in enumerate(out)]


def menu_value(seed: int, dishes: int = 12, hands: int = 1) -> Menu:
    """The same menu as values."""
    racks, rings = rooms(dishes)
    return Menu(
        title=f"Generated supper {seed}",
        serves=8,
        eat_at="18:30",
        hands=(HandsFrom(from_s=None, pairs=hands),),
        places=(
            Place(name="oven", room=racks, heat=Heat(low_c=60, high_c=250, preheat_s=1200)),
            Place(name="hob", room=rings),
            Place(name="counter"),
        ),
        dishes=tuple(
            Dish(name=name, hold_s=hold * 60, steps=_steps(name, steps))
            for name, hold, steps in written_dishes(seed, dishes)
        ),
    )


SUPPER = 8
"""Dishes of one sitting of a feast."""

APART_S = 6 * 3600
"""From one sitting to the next: longer than a sitting of eight takes one pair of hands."""


def feast_value(seed: int, dishes: int, hands: int = 1) -> Menu:
    """Sittings of eight dishes, six hours apart, each a supper of its own seed in one small kitchen.

    Feasible by construction wherever each supper alone takes under six hours: their plans one after another are one.
    """
    count = -(-dishes // SUPPER)
    suppers = [menu_value(100 * seed + n, SUPPER, hands) for n in range(count)]
    courses = tuple(Course(name=f"Sitting {n + 1}", eat_s=-n * APART_S) for n in range(count))
    return suppers[0].model_copy(
        update={
            "title": f"Generated feast {seed}",
            "courses": courses,
            "dishes": tuple(_at_sitting(d, n) for n, supper in enumerate(suppers) for d in supper.dishes),
        }
    )


def _at_sitting(dish: Dish, n: int) -> Dish:
    """A dish of another sitting: its own name, and as long ahead of that sitting as it may be done of a supper."""

    def named(text: str) -> str:
        return f"{n + 1}. {text}"

    steps = tuple(
        step.model_copy(
            update={
                "id": named(step.id),
                "dish": named(step.dish),
                "links": tuple(link.model_copy(update={"step": named(link.step)}) for link in step.links),
                "ahead_s": None if step.ahead_s is None else step.ahead_s + n * APART_S,
            }
        )
        for step in dish.steps
    )
    return dish.model_copy(update={"name": named(dish.name), "course": f"Sitting {n + 1}", "steps": steps})


def _steps(dish: str, written: list[Written]) -> tuple[Step, ...]:
    return tuple(_step(dish, step, written[n - 1] if n else None) for n, step in enumerate(written))


def _step(dish: str, step: Written, before: Written | None) -> Step:
    low, high = step.get("takes") or step.get("lasts") or (step["work"], step["work"])
    span = Span(low=low * 60, likely=round((low + (high - low) * 2 / 3) * 60), high=high * 60)
    names = step["after"] if "after" in step else [before["do"]] if before is not None else []
    within = step["within"] * 60 if "within" in step else None
    throughout = "work" in step or bool(step.get("all"))
    return Step(
        id=f"{dish}/{step['do']}",
        dish=dish,
        do=step["do"],
        uses=(Use(place=step["on"]),) if "on" in step else (),
        heat_c=step.get("heat"),
        heat_within_c=step.get("within_c", 5.0),
        elastic="lasts" in step,
        span=span,
        work=Work(throughout=throughout, start_s=step.get("start", 0) * 60, end_s=step.get("end", 0) * 60),
        ahead_s=step["ahead"] * 60 if "ahead" in step else None,
        links=tuple(Link(step=f"{dish}/{name}", within_s=within) for name in names),
        cues=tuple(_cue(cue) for cue in step.get("cues", ())),
    )


def _cue(cue: Written) -> Cue:
    every = cue["every"] * 60 if "every" in cue else None
    return Cue(do=cue["do"], every_s=every, at_fraction=None if every else 0.5, work_s=cue["work"] * 60)
