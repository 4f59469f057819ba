"""The question put to a planner and the answer that comes back. No solver, no clock.

The axis is whole seconds of Unix time (a cook's kitchen clock starts on it, so `Moment // 1000` is on it too).
"""

from enum import StrEnum
from functools import cached_property

from pydantic import Field

from .values import Frozen, Seconds, Span

LONGEST_PLAN_S = 14 * 86_400
"""A plan is at most 14 days: nothing begins earlier than that before the meal."""


class HandsPiece(Frozen):
    """Seconds of a task in which one pair of hands is busy, counted from its start or back from its end."""

    offset_s: Seconds  # from start: begin of the piece; from end: how long before the end it begins
    length_s: Seconds
    from_end: bool = False


class CueSlot(Frozen):
    """One falling-due of a cue: nominal offset from the task's start, and how far the planner may move it."""

    id: str  # "cue name" or "cue name 2", unique within its task
    cue: str
    offset_s: Seconds
    play_s: Seconds  # may move by at most this much either way
    work_s: Seconds
    opens: tuple[str, ...] = ()  # places whose door it opens


class After(Frozen):
    """A precedence with least and most seconds between the end of `task` and our start."""

    task: str
    wait_s: Seconds = 0
    within_s: Seconds | None = None


class Task(Frozen):
    """A step as a planner sees it. Uncertain steps have `least_s == most_s`; elastic ones leave room between."""

    id: str
    dish: str
    do: str
    least_s: Seconds
    most_s: Seconds
    likely_s: Seconds
    span: Span  # as written: what a forecast draws from
    elastic: bool = False
    uses: tuple[tuple[str, int], ...] = ()  # (place, parts)
    heat_c: float | None = None
    within_c: float = 5.0
    hands: tuple[HandsPiece, ...] = ()
    throughout: bool = False  # hands for the whole task, however long it gets
    attend: bool = False  # hot oil: never alone; the person at it counts as busy throughout
    person: int | None = None
    cues: tuple[CueSlot, ...] = ()
    shut_s: Seconds = 0
    after: tuple[After, ...] = ()
    within_s: Seconds | None = None  # most time between the end of the LATEST task of `after` and our start
    earliest: Seconds | None = None  # make-ahead limit, on the axis
    live_heat: bool = False  # a hob or hot oil: not in closed hours
    started: Seconds | None = None  # a fact: it began then
    ended: Seconds | None = None  # a fact: it ended then

    def cue_by_s(self, slot: CueSlot) -> Seconds:
        """The latest seconds from the start that one of its cues may be moved to: none falls in the last tenth."""
        return max(slot.offset_s, min(slot.offset_s + slot.play_s, self.least_s * 9 // 10))


class PlaceRoom(Frozen):
    """A place: its room (None: no limit), and when heated how fast it changes and what it holds at `Problem.now`."""

    name: str
    room: int | None = None
    heated: bool = False
    low_c: float = 0.0
    high_c: float = 0.0
    preheat_s: Seconds = 0
    now_c: float | None = None  # what it is set to now; None: cold

    def change_s(self, before_c: float | None, after_c: float) -> Seconds:
        """Seconds to go from one temperature to another: the preheat time in proportion to the way from 20 C.

        From cold the whole preheat is paid; a part of it counts up to the next whole minute, as nobody turns a dial to
        the second. Source: the menu format's rule; common practice, no table.
        """
        if before_c is None:
            return self.preheat_s
        way = max(1.0, self.high_c - 20.0)
        exact = round(self.preheat_s * min(1.0, abs(after_c - before_c) / way))
        return min(self.preheat_s, -(-exact // 60) * 60)


class Goal(Frozen):
    """When a dish must be ready: in [ready_from, ready_by]; `last` are the tasks that make it ready."""

    dish: str
    last: tuple[str, ...]
    ready_from: Seconds | None  # None: a component, or nothing limits how early
    ready_by: Seconds
    hold_s: Seconds


class HandsChange(Frozen):
    """Pairs of hands from a point of the axis on."""

    at: Seconds
    pairs: int


class Stretch(Frozen):
    """A half-open stretch [start, end) of the axis."""

    start: Seconds
    end: Seconds


class Problem(Frozen):
    """The whole question. `not_before` None: the plan may start as early as it must."""

    tasks: tuple[Task, ...]
    places: tuple[PlaceRoom, ...]
    goals: tuple[Goal, ...]
    hands: tuple[HandsChange, ...]  # sorted; the first holds from the beginning of time
    closed: tuple[Stretch, ...] = ()
    eat_at: Seconds
    not_before: Seconds | None = None
    late_ok: bool = False  # while cooking: rather late than no answer
    soonest: bool = False  # `--soonest`: eat as early as possible from `not_before`; goals move with the meal
    zone: str | None = None  # the IANA name that reasons say clock times in; None: counted from the meal
    units: str = "C"  # C or F, how reasons say temperatures
    in_hand_s: Seconds = 0  # a wish, never a rule: ready that much earlier where it costs nothing (`in_hand.py`)


class Status(StrEnum):
    """How good an answer is."""

    OPTIMAL = "optimal"
    FEASIBLE = "feasible"
    IMPOSSIBLE = "impossible"  # proven: no plan keeps every rule
    UNKNOWN = "unknown"  # none was found in the time given; there may be one


class Placed(Frozen):
    """A task in the plan. `person` counts from 1; None when it needs no hands."""

    id: str
    start: Seconds
    end: Seconds
    places: tuple[str, ...] = ()
    person: int | None = None
    slack_s: Seconds = 0  # how much later it may start with nothing else of the plan's order broken


class PlacedCue(Frozen):
    """A cue in the plan."""

    step: str
    id: str
    cue: str
    at: Seconds


class HeatSetting(Frozen):
    """The plan's 'set the oven' job: turn `place` to `heat_c` at `at`, so that it is hot at `ready`."""

    id: str  # "oven at 160 C for Pork shoulder/Roast"
    place: str
    heat_c: float
    at: Seconds
    ready: Seconds
    for_step: str


class Standing(Frozen):
    """How far from the best a plan may be: of its aims, in their order, the first that was not proven.

    By the aims in `proven` no plan is better. Of all plans that are as good by those, none costs less than `bound` by
    `aim` (None: nothing is known); this one costs `cost`. Both are in `unit`: "s", "minutes", "changes", or
    "hundredths" (of a hold lost, of an hour too much; a call too many counts one).
    """

    aim: str  # "on time", "limits", "holds", "least change", "oven changes", "hands", "latest first start"
    cost: int
    bound: int | None
    unit: str
    proven: tuple[str, ...] = ()

    @property
    def gap(self) -> int | None:
        """By how much, at most, there may be a better plan."""
        return None if self.bound is None else self.cost - self.bound


class Plan(Frozen):
    """An answer that keeps every rule. `late_s` is above 0 only where the problem allowed it."""

    status: Status
    eat_at: Seconds
    placed: tuple[Placed, ...]
    cues: tuple[PlacedCue, ...] = ()
    settings: tuple[HeatSetting, ...] = ()
    late_s: Seconds = 0
    bound_s: Seconds | None = None  # no plan can have a smaller span than this
    standing: Standing | None = None  # where a search ended; None: it was not searched for, or is OPTIMAL
    warnings: tuple[str, ...] = ()

    @property
    def starts_at(self) -> Seconds:
        """When the first task begins."""
        return min((p.start for p in self.placed), default=self.eat_at)

    @property
    def span_s(self) -> Seconds:
        """From the first start to the last end (the makespan)."""
        return max((p.end for p in self.placed), default=self.eat_at) - self.starts_at

    def of(self, task: str) -> Placed | None:
        """Where a task was placed, or None."""
        return self.by_id.get(task)

    @cached_property
    def by_id(self) -> dict[str, Placed]:
        """Every placed task by id."""
        return {p.id: p for p in self.placed}


class WayOut(Frozen):
    """Something that was tried and makes a plan possible."""

    said: str
    cost: int = 0  # for ordering: cheaper first


class NoPlan(Frozen):
    """Why there is none: reasons a cook can act on, and the cheapest way out that was found to work.

    IMPOSSIBLE is proven; UNKNOWN says that time was up before a plan was found or ruled out.
    """

    status: Status = Status.IMPOSSIBLE
    reasons: tuple[str, ...] = Field(min_length=1)
    ways_out: tuple[WayOut, ...] = ()


class Forecast(Frozen):
    """What simulated cooks say of a plan whose order is kept. Shares are 0..1, times whole seconds."""

    cooks: int  # how many were simulated
    on_time: float  # share that ate at or before `Plan.eat_at`
    late_likely_s: Seconds  # median lateness, 0 when on time
    late_bad_s: Seconds  # lateness that 9 of 10 stay under
    dish_slack_s: tuple[tuple[str, Seconds], ...] = ()  # per dish: median time in hand before it holds up the meal
    blame: tuple[tuple[str, float], ...] = ()  # per step: share of late cooks it made late, most first
