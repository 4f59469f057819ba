"""A supper to look at: seven dishes, their plan by hand, and what has been done by 17:42 of a meal at 18:30.

Built from values alone, so that every number on the board can be worked out on paper. Wall clock and kitchen clock are
the same here; the zone is Europe/Lisbon in December, which is UTC.
"""

from collections.abc import Iterable

from timerboard.core import events as ev
from timerboard.core.cook import Cook
from timerboard.core.fold import fold
from timerboard.core.menu import Cue, Dish, Heat, Link, Menu, Place, Step, Use, Work
from timerboard.core.plan import HeatSetting, Placed, PlacedCue, Plan, Status
from timerboard.core.values import MS, Moment, Span

ZONE = "Europe/Lisbon"
EAT_S = 1_797_877_800  # Mon 21 Dec 2026 18:30 in Lisbon
MIN = 60


def at(clock: str) -> Moment:
    """The Moment of a wall time of that day: '17:42' or '17:41:20'."""
    parts = [int(part) for part in clock.split(":")]
    seconds = parts[0] * 3600 + parts[1] * 60 + (parts[2] if len(parts) > 2 else 0)
    return (EAT_S - (18 * 3600 + 30 * 60) + seconds) * MS


def minutes(low: float, high: float | None = None) -> Span:
    """A span in minutes; the likely length is two thirds of the way from low to high."""
    top = low if high is None else high
    return Span(low=round(low * 60), likely=round((low + (top - low) * 2 / 3) * 60), high=round(top * 60))


def step(dish: str, do: str, span: Span, on: str = "", after: str = "", **rest: object) -> Step:
    """A step with as few words as its test needs."""
    uses = (Use(place=on),) if on else ()
    links = (Link(step=f"{dish}/{after}"),) if after else ()
    given = {"uses": uses, "links": links, **rest}
    return Step.model_validate({"id": f"{dish}/{do}", "dish": dish, "do": do, "span": span, **given})


def _dishes() -> tuple[Dish, ...]:
    pork, tart, cabbage = "Pork shoulder", "Pear frangipane", "Braised red cabbage"
    roots, mash, beans, gravy = "Roast roots", "Mashed potatoes", "Green beans", "Gravy"
    ends = Work(start_s=60, end_s=60)
    begin = Work(start_s=60)
    hands = Work(throughout=True)
    return (
        Dish(
            name=pork,
            hold_s=45 * MIN,
            steps=(
                step(
                    pork,
                    "Roast",
                    Span(low=176 * MIN, likely=180 * MIN, high=184 * MIN),
                    "oven",
                    heat_c=200.0,
                    pull_at_c=80.0,
                    work=Work(start_s=120, end_s=180),
                    cues=(Cue(do="Baste", every_s=30 * MIN, work_s=60),),
                    makes=("drippings",),
                ),
                step(pork, "Rest", minutes(25, 40), "counter", "Roast", elastic=True),
            ),
        ),
        Dish(
            name=tart,
            hold_s=60 * MIN,
            steps=(
                step(tart, "Bake", minutes(25, 30), "oven", heat_c=200.0, until="just set", work=ends),
                step(tart, "Cool on a rack", minutes(30, 60), "counter", "Bake", elastic=True),
            ),
        ),
        Dish(
            name=cabbage,
            hold_s=60 * MIN,
            keep="lid on",
            steps=(step(cabbage, "Simmer", minutes(60), "hob", work=begin, cues=(Cue(do="Stir", every_s=10 * MIN),)),),
        ),
        Dish(
            name=roots,
            hold_s=15 * MIN,
            steps=(
                step(
                    roots,
                    "Roast",
                    minutes(22),
                    "oven",
                    heat_c=220.0,
                    work=begin,
                    cues=(Cue(do="Turn the roots", at_fraction=0.5, work_s=60),),
                ),
            ),
        ),
        Dish(
            name=mash,
            hold_s=30 * MIN,
            keep="warm",
            steps=(
                step(mash, "Boil", minutes(18), "hob", work=begin),
                step(mash, "Drain", minutes(2), "", "Boil", work=hands),
                step(mash, "Mash", minutes(7), "hob", "Drain", work=hands),
            ),
        ),
        Dish(
            name=beans,
            hold_s=10 * MIN,
            steps=(
                step(beans, "Blanch", minutes(4), "hob", work=hands),
                step(beans, "Dress", minutes(3), "", "Blanch", work=hands),
            ),
        ),
        Dish(
            name=gravy,
            hold_s=20 * MIN,
            steps=(
                step(
                    gravy,
                    "Cook the roux",
                    minutes(3),
                    "hob",
                    work=hands,
                    needs=("drippings",),
                    links=(Link(step=f"{pork}/Roast"),),
                ),
                step(gravy, "Simmer", minutes(13), "hob", "Cook the roux"),
            ),
        ),
    )


MENU = Menu(
    title="Solstice supper",
    serves=12,
    places=(
        Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250)),
        Place(name="hob", room=4),
        Place(name="counter"),
    ),
    dishes=_dishes(),
)


def placed(step_id: str, start: str, end: str, *, person: int | None = 1) -> Placed:
    """Where a step stands in the plan, by wall times."""
    found = MENU.steps[step_id]
    places = tuple(use.place for use in found.uses)
    return Placed(id=step_id, start=at(start) // MS, end=at(end) // MS, places=places, person=person)


PLAN = Plan(
    status=Status.FEASIBLE,
    eat_at=EAT_S,
    placed=(
        placed("Pork shoulder/Roast", "15:03", "18:03"),
        placed("Pork shoulder/Rest", "18:03", "18:28", person=None),
        placed("Pear frangipane/Bake", "17:17", "17:45"),
        placed("Pear frangipane/Cool on a rack", "17:45", "18:30", person=None),
        placed("Braised red cabbage/Simmer", "17:08", "18:08"),
        placed("Roast roots/Roast", "18:06", "18:28"),
        placed("Mashed potatoes/Boil", "17:52", "18:10"),
        placed("Mashed potatoes/Drain", "18:10", "18:12"),
        placed("Mashed potatoes/Mash", "18:12", "18:19"),
        placed("Green beans/Blanch", "18:20", "18:24"),
        placed("Green beans/Dress", "18:24", "18:27"),
        placed("Gravy/Cook the roux", "18:07", "18:10"),
        placed("Gravy/Simmer", "18:10", "18:23", person=None),
    ),
    cues=(PlacedCue(step="Roast roots/Roast", id="Turn the roots", cue="Turn the roots", at=at("18:17") // MS),),
    settings=(
        HeatSetting(
            id="oven at 200 C for Pork shoulder/Roast",
            place="oven",
            heat_c=200.0,
            at=at("14:43") // MS,
            ready=at("15:03") // MS,
            for_step="Pork shoulder/Roast",
        ),
        HeatSetting(
            id="oven at 220 C for Roast roots/Roast",
            place="oven",
            heat_c=220.0,
            at=at("18:03") // MS,
            ready=at("18:06") // MS,
            for_step="Roast roots/Roast",
        ),
    ),
)


class Told:
    """Writes events one after another with the stamps they need."""

    def __init__(self, menu: Menu = MENU, *, opened: str = "14:30", plan: Plan | None = PLAN) -> None:
        self.events: list[ev.Event] = []
        self.tell(opened, ev.CookOpened, menu_text="", menu_hash="", menu=menu, eat_at=EAT_S * MS, zone=ZONE)
        if plan is not None:
            self.tell(opened, ev.PlanAdopted, plan=plan)

    def tell(self, clock: str, kind: type[ev.Stamp], **said: object) -> "Told":
        """One more event at that time of day."""
        when = at(clock)
        stamp = {"seq": len(self.events) + 1, "at": when, "wall_ms": when, "boot": "b", "board": "kitchen"}
        self.events.append(ev.EVENT.validate_python(kind.model_validate({**stamp, **said})))
        return self

    @property
    def cook(self) -> Cook:
        """The cook so far."""
        return fold(self.events)


def told(acts: Iterable[tuple[str, type[ev.Stamp], dict[str, object]]], plan: Plan | None = PLAN) -> Told:
    """A cook with these acts."""
    story = Told(plan=plan)
    for clock, kind, said in acts:
        story.tell(clock, kind, **said)
    return story


def supper(plan: Plan | None = PLAN) -> Told:
    """The supper as it stands at 17:42: pork to baste, frangipane at its low end, cabbage just stirred."""
    story = Told(plan=plan)
    oven = {"step": "@oven", "cue": "oven at 200 C for Pork shoulder/Roast"}
    story.tell("14:43", ev.CueDone, **oven)
    story.tell("15:03", ev.StepStarted, step="Pork shoulder/Roast")
    for clock in ("15:32", "16:01", "16:36", "17:11:20"):
        story.tell(clock, ev.CueDone, step="Pork shoulder/Roast", cue="Baste")
    story.events.sort(key=lambda event: event.at)
    story.tell("17:08:10", ev.StepStarted, step="Braised red cabbage/Simmer")
    story.tell("17:17", ev.StepStarted, step="Pear frangipane/Bake")
    for clock in ("17:18", "17:29"):
        story.tell(clock, ev.CueDone, step="Braised red cabbage/Simmer", cue="Stir")
    story.tell("17:38", ev.ReadingTaken, step="Pork shoulder/Roast", celsius=71.0)
    story.tell("17:41:10", ev.CueDone, step="Braised red cabbage/Simmer", cue="Stir", who="Ana")
    return story
