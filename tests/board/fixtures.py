"""Views to paint: a harbour supper of nine dishes, and a board of sixty running strips. Our own menus."""

from dataclasses import replace

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import (
    ClearQuickTimer,
    Command,
    DoCue,
    DropDish,
    EndStep,
    HearAlarm,
    NotYet,
    PassOverCue,
    PutOff,
    ReopenStep,
    StartStep,
    TakeReading,
)
from timerboard.core.view_values import (
    Act,
    Axis,
    BoardView,
    Foot,
    HandsItem,
    Head,
    Notice,
    Part,
    RibbonPart,
    Strip,
    Tick,
)

MIN = 60_000
NOW = 1_900_000_000_000 + 42 * MIN  # reads 18:12 on this board
EAT = NOW + 48 * MIN


def at(minutes: float) -> int:
    """A moment so many minutes from now."""
    return NOW + int(minutes * MIN)


def part(kind: Part, start: float, end: float, label: str, step: str = "") -> RibbonPart:
    return RibbonPart(kind, at(start), at(end), label, step)


def acts(name: str, *first: Act) -> tuple[Act, ...]:
    return (*first, Act("Drop the dish", DropDish(name)))


def job(digit: int, rank: Rank, line: str, detail: str, answer: Command, word: str, **others: object) -> HandsItem:
    key = f"job {line}"
    said = f"{line}, {detail}. Press {digit}: {word}"
    strip = str(getattr(answer, "step", getattr(answer, "timer", ""))).partition("/")[0]
    base = HandsItem(key, digit, rank, line, detail, answer, word, heard=HearAlarm(key), said=said, strip=strip)
    return replace(base, **others)  # type: ignore[arg-type]


HANDS = (
    job(
        1,
        Rank.DUE,
        "Baste the duck",
        "oven, lower rack · 0:40 ago",
        DoCue("Duck legs/roast", "baste"),
        "done",
        put_off=PutOff("job Baste the duck"),
        pass_over=PassOverCue("Duck legs/roast", "baste"),
    ),
    job(
        2,
        Rank.DUE,
        "Check the plum tart: just set?",
        "oven, upper rack · 25 of 25–30 min",
        EndStep("Plum tart/bake"),
        "end",
        not_yet=NotYet("Plum tart/bake"),
        put_off=PutOff("job Check the plum tart: just set?"),
    ),
    job(
        3,
        Rank.SOON,
        "Start lentils to boil",
        "back left ring · in 0:50",
        StartStep("Green lentils/boil"),
        "start",
        put_off=PutOff("job Start lentils to boil"),
    ),
)

STRIPS = (
    Strip(
        "Duck legs",
        "Duck legs",
        "Roast · oven, lower rack · core 68 °C → 78 °C",
        "21:00",
        "to the pull",
        "reach 78 °C 18:33 ± 4 · baste now",
        Rank.DUE,
        True,
        "now",
        (
            part(Part.RUNNING, -40, 17, "roast", "Duck legs/roast"),
            part(Part.UNCERTAIN, 17, 25, "", "Duck legs/roast"),
            part(Part.PLANNED, 25, 43, "rest", "Duck legs/rest"),
        ),
        (Tick(at(0), due=True), Tick(at(15))),
        acts(
            "Duck legs",
            Act("End the roast now", EndStep("Duck legs/roast")),
            Act("Take a reading", TakeReading("Duck legs/roast", 0.0), "Duck legs/roast"),
        ),
        said="Duck legs, roast, oven lower rack, 21 minutes to the pull, baste now",
    ),
    Strip(
        "Plum tart",
        "Plum tart with hazelnuts",
        "Bake · oven, upper rack",
        "0:00",
        "to the first look",
        "25 min reached, 5 left at most",
        Rank.DUE,
        True,
        "look",
        (
            part(Part.RUNNING, -25, 0, "bake", "Plum tart/bake"),
            part(Part.UNCERTAIN, 0, 5, "", "Plum tart/bake"),
            part(Part.PLANNED, 5, 48, "cool on the rack", "Plum tart/cool"),
        ),
        (),
        acts("Plum tart", Act("End the bake now", EndStep("Plum tart/bake"))),
        said="Plum tart with hazelnuts, bake, look now",
    ),
    Strip(
        "Green lentils",
        "Green lentils",
        "Boil next · back left ring",
        "0:50",
        "to the start",
        "may slip 4 min",
        Rank.SOON,
        False,
        "soon",
        (
            part(Part.PLANNED, 0.8, 20, "boil", "Green lentils/boil"),
            part(Part.PLANNED_UNCERTAIN, 20, 25, ""),
            part(Part.HOLD, 25, 48, "hold, lid on"),
        ),
        (Tick(at(12)),),
        acts("Green lentils"),
        said="Green lentils, boil in 50 seconds",
    ),
    Strip(
        "Red cabbage",
        "Braised red cabbage with apples",
        "Simmer · front right ring",
        "26:10",
        "to the end",
        "lid on · stir in 6 min",
        None,
        False,
        "",
        (part(Part.RUNNING, -30, 26, "simmer", "Red cabbage/simmer"), part(Part.HOLD, 26, 48, "hold, lid on")),
        (Tick(at(-24), done=True), Tick(at(6)), Tick(at(16))),
        acts("Red cabbage", Act("End the simmer now", EndStep("Red cabbage/simmer"))),
        answered="stirred 18:08, Ana",
        said="Braised red cabbage, simmer, 26 minutes left",
    ),
    Strip(
        "Roast beets",
        "Roast beets",
        "Waiting for the oven · 210 °C at 18:37",
        "25:40",
        "to the start",
        "may slip 9 min",
        None,
        False,
        "",
        (part(Part.PLANNED, 25.6, 44, "roast 210 °C", "Roast beets/roast"),),
        (Tick(at(34)),),
        acts("Roast beets"),
        said="Roast beets, roast in 25 minutes",
    ),
    Strip(
        "Smoked trout",
        "Smoked trout",
        "Standing out of the fridge · worktop",
        "1:05:00",
        "to the time limit",
        "back in the fridge by 19:17",
        None,
        False,
        "",
        (
            part(Part.DONE, -55, -40, "fillet", "Smoked trout/fillet"),
            part(Part.RUNNING, -40, 48, "stand", "Smoked trout/stand"),
        ),
        (),
        acts("Smoked trout", Act("Reopen the filleting", ReopenStep("Smoked trout/fillet"))),
        said="Smoked trout, standing out",
    ),
    Strip(
        "Beans",
        "Runner beans",
        "Later",
        "34:00",
        "to the start",
        "boil at 18:46",
        None,
        False,
        "",
        (part(Part.PLANNED, 34, 40, "boil", "Beans/boil"), part(Part.PLANNED, 40, 43, "", "Beans/drain")),
        (),
        acts("Beans"),
        said="Runner beans, later",
    ),
    Strip(
        "Sauce",
        "Sherry sauce",
        "Later · needs the duck's juices",
        "26:00",
        "to the start",
        "waits for the duck to rest",
        None,
        False,
        "",
        (part(Part.PLANNED, 26, 30, "", "Sauce/deglaze"), part(Part.PLANNED, 30, 44, "simmer", "Sauce/simmer")),
        (),
        acts("Sauce"),
        said="Sherry sauce, later",
    ),
    Strip(
        "timer Eggs",
        "Eggs",
        "Quick timer",
        "3:12",
        "to the end",
        "",
        None,
        False,
        "",
        (part(Part.RUNNING, -3.3, 3.2, ""),),
        (),
        (Act("Take it away", ClearQuickTimer("Eggs")),),
        said="Eggs, quick timer, 3 minutes 12 left",
    ),
)

LABELS = tuple(
    (at(8 + 10 * k), words) for k, words in enumerate(("18:20", "18:30", "18:40", "18:50", "19:00", "19:10"), 0)
)

SUPPER = BoardView(
    Head(
        "18:12",
        "Harbour supper for 8",
        "Eat at 19:00 · in 48 min",
        "9 min in hand",
        0.55,
        False,
        "on time 8 in 10",
        "tightest: lentils",
        ("oven 200 °C, 210 °C at 18:37", "hob 2 of 4"),
    ),
    HANDS,
    "",
    STRIPS,
    Axis(at(-12), at(60), NOW, EAT, LABELS),
    Foot("1–9 done · Shift+1–9 not yet", "18:08 cabbage stirred", "saved 18:12:07", True, "sound ok", True),
)

OFFER = Notice(
    "plan",
    "Lentils were late: start the beans 6 min later and eat at 19:04",
    Rank.NOTE,
    DropDish("Beans"),
    "Take the new plan",
    HearAlarm("plan"),
    "Keep the old one",
)


def troubled() -> BoardView:
    """Everything at once: danger, late, five jobs and more waiting, sound lost, a plan offered, sounds paused."""
    danger = job(
        1,
        Rank.DANGER,
        "Take the fritter oil off the heat",
        "front left ring · 1:20 over",
        EndStep("Fritters/fry"),
        "end",
    )
    hands = (
        danger,
        *(replace(item, digit=item.digit + 1) for item in HANDS),
        job(
            5,
            Rank.DUE,
            "Probe the trout",
            "worktop · due now",
            TakeReading("Smoked trout/stand", 0.0),
            "read",
            wants_reading="Smoked trout/stand",
            muted=True,
        ),
    )
    fritters = Strip(
        "Fritters",
        "Parsnip fritters",
        "Fry · front left ring · oil 191 °C",
        "+1:20",
        "past the end",
        "take the oil off the heat",
        Rank.DANGER,
        True,
        "over",
        (part(Part.RUNNING, -9, -2, "", "Fritters/fry"), part(Part.OVER, -2, 0, "", "Fritters/fry")),
        (),
        acts("Fritters", Act("End the fry now", EndStep("Fritters/fry"))),
        said="Parsnip fritters, over by 1:20, danger",
    )
    head = replace(
        SUPPER.head, margin="8 min late: green lentils", margin_share=0.0, late=True, chance="on time 1 in 10"
    )
    foot = replace(SUPPER.foot, sound="Sound lost: the speaker is gone. Watch the board.", sound_ok=False)
    return replace(
        SUPPER,
        head=head,
        hands=hands,
        waiting="and 4 more",
        strips=(fritters, *STRIPS),
        foot=foot,
        notices=(OFFER,),
        danger=True,
        hushed="",
    )


def hours(ms: int) -> str:
    """A countdown as the core writes it."""
    seconds = max(0, ms) // 1000
    minutes, rest = divmod(seconds, 60)
    return f"{minutes // 60}:{minutes % 60:02}:{rest:02}" if minutes >= 60 else f"{minutes}:{rest:02}"


def sixty(second: int = 0) -> BoardView:
    """Sixty running strips, `second` seconds after NOW."""
    now = NOW + second * 1000
    strips = tuple(
        Strip(
            f"Dish {n}",
            f"Dish {n}",
            "Simmer · ring",
            hours(at(10 + n) - now),
            "to the end",
            "may slip 3 min",
            None,
            False,
            "",
            (
                RibbonPart(Part.RUNNING, at(-5), at(10 + n), "simmer", f"Dish {n}/simmer"),
                part(Part.PLANNED, 10 + n, 15 + n, "rest"),
            ),
            (Tick(at(8)),),
            (Act("Drop the dish", DropDish(f"Dish {n}")),),
            said=f"Dish {n}, {hours(at(10 + n) - now)}",
        )
        for n in range(60)
    )
    return replace(SUPPER, strips=strips, hands=(), axis=replace(SUPPER.axis, now=now))
