"""A menu as the program knows it: read, checked, every name resolved, every length in whole seconds.

`core/menu_build.py` makes these from what a cook wrote; nothing else does. They are pydantic values so that the journal
can keep them and read them back. Dish, place, course and step names keep the cook's spelling; references are already
resolved to those spellings, so equality is enough from here on.
"""

from functools import cached_property

from .values import Frozen, Seconds, Span


class Use(Frozen):
    """A place that a step occupies, and how many equal parts of its room."""

    place: str
    parts: int = 1


class Work(Frozen):
    """When hands are busy during a step: throughout, or only for its first and last seconds."""

    throughout: bool = False
    start_s: Seconds = 0
    end_s: Seconds = 0

    @property
    def attended_start(self) -> bool:
        """True when hands are needed to begin it."""
        return self.throughout or self.start_s > 0


class Cue(Frozen):
    """A small job while a step runs. Exactly one of `every_s`, `at_s`, `at_fraction` is set."""

    do: str  # unique within its step
    every_s: Seconds | None = None
    at_s: Seconds | None = None
    at_fraction: float | None = None  # 0.5 for `halfway`
    times: int | None = None
    work_s: Seconds = 0


class Batches(Frozen):
    """A counted loop: `count` loads, each followed (but for the last) by recovery."""

    count: int
    each: Span
    recover: Span


class Link(Frozen):
    """A step that must have ended first; least and most seconds between its end and our start."""

    step: str  # full id, "dish/step"
    wait_s: Seconds = 0
    within_s: Seconds | None = None
    own: bool = False  # its `within` was written at this entry of `after`, not once for the whole step


class Step(Frozen):
    """One component step. `id` is "dish name/step name" (or the step's own `id:`), unique in the menu."""

    id: str
    dish: str
    do: str
    uses: tuple[Use, ...] = ()
    heat_c: float | None = None
    heat_within_c: float = 5.0
    elastic: bool = False  # `lasts`: the cook may end it anywhere in the span; else the food decides
    span: Span  # for batches: of the whole loop
    work: Work = Work()
    ahead_s: Seconds | None = None
    until: str | None = None
    pull_at_c: float | None = None
    makes: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    keep: str | None = None
    note: str | None = None
    person: int | None = None  # None: any
    hazard: str | None = None
    batches: Batches | None = None
    links: tuple[Link, ...] = ()  # order in the dish, `after`, and makes/needs, all resolved
    shut_s: Seconds = 0
    cues: tuple[Cue, ...] = ()

    def cue(self, do: str) -> Cue | None:
        """The cue of that name, or None."""
        return next((c for c in self.cues if c.do == do), None)


class Dish(Frozen):
    """What is counted at the table. `course` is None when it is eaten at the meal itself."""

    name: str
    course: str | None = None
    hold_s: Seconds = 1800
    keep: str | None = None
    ingredients: tuple[str, ...] = ()
    steps: tuple[Step, ...]

    @cached_property
    def last_steps(self) -> tuple[str, ...]:
        """Ids of the steps that no other step of this dish follows: the dish is ready when all have ended."""
        followed = {link.step for step in self.steps for link in step.links}
        return tuple(step.id for step in self.steps if step.id not in followed)

    @cached_property
    def words(self) -> str:
        """Name, steps and ingredients, each on its line: what tells what food it is."""
        return "\n".join((self.name, *(step.do for step in self.steps), *self.ingredients))

    @cached_property
    def places(self) -> str:
        """The places of its steps, each on its line."""
        return "\n".join(use.place for step in self.steps for use in step.uses)


class Heat(Frozen):
    """A place that holds one temperature at a time."""

    low_c: float
    high_c: float
    preheat_s: Seconds = 1200  # from cold (20 C) to any temperature; in proportion between two temperatures


class Place(Frozen):
    """Something a step can occupy. `room` None: no limit."""

    name: str
    room: int | None = None
    heat: Heat | None = None


class HandsFrom(Frozen):
    """Pairs of hands from a moment on, relative to the meal (None: from the start)."""

    from_s: Seconds | None
    pairs: int


class Closed(Frozen):
    """Hours of the day with no hands, in minutes after midnight; `end` may be smaller than `start` (over midnight)."""

    start_min: int
    end_min: int


class Course(Frozen):
    """When a course is eaten, relative to the meal; `until_s` makes it a window, as for a buffet."""

    name: str
    eat_s: Seconds = 0
    until_s: Seconds | None = None


class Menu(Frozen):
    """A whole meal. `eat_at` keeps the cook's writing ("18:30" or "2026-12-21 18:30"); `civil.py` resolves it."""

    title: str
    serves: int
    eat_at: str | None = None
    units: str = "C"
    in_hand_s: Seconds = 300  # a plan has all ready that much early where it costs nothing (see `in_hand.py`)
    hands: tuple[HandsFrom, ...] = (HandsFrom(from_s=None, pairs=1),)
    closed: tuple[Closed, ...] = ()
    places: tuple[Place, ...] = ()
    courses: tuple[Course, ...] = ()
    table: tuple[str, ...] | None = None  # None: every dish is for the table
    dishes: tuple[Dish, ...]

    @cached_property
    def steps(self) -> dict[str, Step]:
        """Every step by id, in the order written."""
        return {step.id: step for dish in self.dishes for step in dish.steps}

    def dish(self, name: str) -> Dish | None:
        """The dish of that name, or None."""
        return next((d for d in self.dishes if d.name == name), None)

    def place(self, name: str) -> Place | None:
        """The place of that name, or None."""
        return next((p for p in self.places if p.name == name), None)

    def course_of(self, dish: Dish) -> Course:
        """The course a dish is eaten in; the meal itself when it names none."""
        return next((c for c in self.courses if c.name == dish.course), Course(name=""))

    def on_table(self, dish: Dish) -> bool:
        """False for a component: a given `table` leaves it out and another dish needs it. It has no hold of its own."""
        return self.table is None or dish.name in self.table or dish.name not in self.needed_dishes

    @cached_property
    def needed_dishes(self) -> frozenset[str]:
        """Dishes that steps of other dishes follow."""
        steps = self.steps
        links = ((step.dish, link.step) for step in steps.values() for link in step.links)
        return frozenset(steps[before].dish for dish, before in links if before in steps and steps[before].dish != dish)
