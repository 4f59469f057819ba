"""What readings of a core say by themselves, without a model: got there, standing still, or mistyped."""

from collections.abc import Sequence
from itertools import pairwise

from .heat_values import CoreReading, HeatQuestion
from .values import MS, Moment

PLATEAU_MS = 20 * 60 * MS
PLATEAU_RISE_C = 1.0
PLATEAU_FROM_C, PLATEAU_LEFT_C = 55.0, 3.0

FALL_C = 4.0
"""A core in a hot oven does not fall by more than a thermometer's error: such a reading is asked about."""
FASTEST_C_PER_MIN = 8.0
"""No joint's core rises faster; a 2.6 cm piece of beef at 175 °C measured 11 °C in its first minute, then 3."""
STEEPER = 3.0
"""A core may go on rising at most so many times faster than in its fastest stretch so far."""
LEAST_JUMP_C = 12.0
USUAL_START_C = 10.0
COLDEST_C, HOTTEST_C = -30.0, 130.0


def reached(question: HeatQuestion) -> CoreReading | None:
    """The last reading when it is at the pull temperature and not an odd one."""
    last = question.readings[-1] if question.readings else None
    if last is None or last.celsius < question.pull_c:
        return None
    return None if odd(question.readings[:-1], last, question.started) else last


def fitting(question: HeatQuestion) -> tuple[CoreReading, ...]:
    """The readings that go with the ones before them."""
    kept: list[CoreReading] = []
    for reading in question.readings:
        if not odd(kept, reading, question.started):
            kept.append(reading)
    return tuple(kept)


def plateau(question: HeatQuestion) -> bool:
    """Whether the core has stood still short of the pull for PLATEAU_MS: evaporation takes what the oven gives."""
    readings = fitting(question)
    if not readings or not PLATEAU_FROM_C <= readings[-1].celsius <= question.pull_c - PLATEAU_LEFT_C:
        return False
    last = readings[-1]
    before = [r for r in readings if last.at - r.at >= PLATEAU_MS]
    return bool(before) and last.celsius - before[-1].celsius <= PLATEAU_RISE_C * (last.at - before[-1].at) / PLATEAU_MS


def odd(before: Sequence[CoreReading], new: CoreReading, started: Moment) -> str:
    """Why a core reading looks mistyped ("" when it does not): what a board asks about before it takes it."""
    if not COLDEST_C <= new.celsius <= HOTTEST_C:
        return "a core is never that hot or cold"
    if before and new.celsius < before[-1].celsius - FALL_C:
        return "the core does not cool in the heat"
    known = (CoreReading(at=started, celsius=USUAL_START_C), *before)
    minutes = max(new.at - known[-1].at, 0) / (60 * MS)
    steepest = max((_per_minute(a, b) for a, b in pairwise(known)), default=FASTEST_C_PER_MIN)
    fastest = min(FASTEST_C_PER_MIN, STEEPER * max(steepest, 0.0))
    if new.celsius - known[-1].celsius > max(LEAST_JUMP_C, fastest * minutes):
        return "the core cannot have risen so fast"
    return ""


def _per_minute(one: CoreReading, other: CoreReading) -> float:
    return (other.celsius - one.celsius) / max((other.at - one.at) / (60 * MS), 1.0)
