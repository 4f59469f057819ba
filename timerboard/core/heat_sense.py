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
LAGGING_C = 60.0
"""And by so much in as long as it has been in the oven: a thick joint's core stays cold first, then rises fast. The
middle of a sphere feels nothing for a twentieth of L^2 / alpha; after that, 100 °C outside give it 25 °C in each."""
USUAL_START_C = 10.0
COLDEST_C, HOTTEST_C = -30.0, 130.0


def reached(question: HeatQuestion) -> CoreReading | None:
    """The last reading when it is at the pull temperature and not an odd one."""
    last = question.readings[-1] if question.readings else None
    return last if last is not None and last.celsius >= question.pull_c and last in fitting(question) else None


def fitting(question: HeatQuestion) -> tuple[CoreReading, ...]:
    """The most readings that go together, each with the one kept before it; of two such sets the one kept longer."""
    best: list[tuple[CoreReading, ...]] = []
    for reading in question.readings:
        before = [kept for kept in best if not odd(kept, reading, question.started)]
        if before or not odd((), reading, question.started):
            best.append((*max(before, key=len, default=()), reading))
    return max(best, key=len, default=())


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
    if new.celsius - known[-1].celsius > max(LEAST_JUMP_C, _fastest(known, started) * minutes):
        return "the core cannot have risen so fast"
    return ""


def _fastest(known: Sequence[CoreReading], started: Moment) -> float:
    """Degrees a minute that the core may rise from now on."""
    so_far = [STEEPER * _per_minute(a, b) for a, b in pairwise(known)]
    gone = max((known[-1].at - started) / (60 * MS), 1.0)
    return min(FASTEST_C_PER_MIN, max([*so_far, LAGGING_C / gone])) if len(known) > 1 else FASTEST_C_PER_MIN


def _per_minute(one: CoreReading, other: CoreReading) -> float:
    return (other.celsius - one.celsius) / max((other.at - one.at) / (60 * MS), 1.0)
