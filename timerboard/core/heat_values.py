"""The question 'when does it reach its pull temperature?' and its answer, as values that travel as JSON.

Moments are on the kitchen clock (milliseconds), temperatures in Celsius, weights in kilograms.
"""

from typing import Literal

from .values import Frozen, Moment, Span


class CoreReading(Frozen):
    """The core temperature somebody read."""

    at: Moment
    celsius: float


class HeatQuestion(Frozen):
    """A joint in an oven. What is not known is None and is allowed for with a wide margin."""

    step: str
    started: Moment
    now: Moment
    readings: tuple[CoreReading, ...]
    pull_c: float
    oven_c: float | None = None
    span: Span | None = None  # how long the menu thinks it takes
    weight_kg: float | None = None
    shape: Literal["slab", "cylinder", "sphere"] = "sphere"
    start_c: float | None = None
    room_c: float = 22.0


class CurvePoint(Frozen):
    """The core at a moment: likely, and the band that four of five joints keep to."""

    at: Moment
    low_c: float
    likely_c: float
    high_c: float


class PullForecast(Frozen):
    """When the core reaches `pull_c`. `early`..`late` holds the truth four times in five; None: cannot be said.

    `at` None: it will not get there in this oven, or nothing can be said yet (`why`). `peak_*`: what the core coasts to
    when it is pulled at `pull_c`, about `peak_after_s` later. `doubtful`: moments of readings that do not fit the rest.
    """

    step: str
    pull_c: float
    readings: int
    at: Moment | None
    early: Moment | None
    late: Moment | None
    plateau: bool = False
    why: str = ""
    doubtful: tuple[Moment, ...] = ()
    peak_c: float | None = None
    peak_low_c: float | None = None
    peak_high_c: float | None = None
    peak_after_s: int | None = None
    curve: tuple[CurvePoint, ...] = ()
