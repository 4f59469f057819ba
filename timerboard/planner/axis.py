"""The solver's own axis: whole ticks counted from the meal, a tick being the widest that loses nothing.

Every number of a problem (lengths, gaps, limits, moments against the meal) is a multiple of the tick. With every
disjunction decided, what is left are difference constraints with constants on that grid, so an optimal plan lies on
it too (Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, on difference constraints): nothing is lost.
While cooking, what has begun and the moment it is now lie anywhere; they count from the next tick on, so that a cook's
seconds cost less than a tick and the grid stays wide. Rounding every moment up keeps all these constraints.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import gcd

from timerboard.core.lenience import is_fact
from timerboard.core.plan import PlaceRoom, Problem, Task
from timerboard.core.values import Seconds

LONGEST_PLAN_S = 14 * 86_400
"""A plan is at most 14 days long: the menu format's limit."""


COOKING_TICK_S = 20
"""The widest tick while cooking: so much may be lost to rounding, and no more."""


@dataclass(frozen=True)
class Axis:
    """Turns seconds into ticks and back. `origin` is the meal as it was asked for."""

    origin: Seconds
    tick: Seconds

    def length(self, seconds: Seconds) -> int:
        """A duration in ticks; rounded up where it is not on the grid, so that nothing gets shorter."""
        return -(-seconds // self.tick)

    def point(self, at: Seconds) -> int:
        """A moment in ticks from the meal; rounded up where it is not on the grid."""
        return -((self.origin - at) // self.tick)

    def before(self, at: Seconds) -> int:
        """The last tick that is not after a moment."""
        return (at - self.origin) // self.tick

    def seconds(self, ticks: int) -> Seconds:
        """A duration in seconds."""
        return ticks * self.tick

    def moment(self, ticks: int) -> Seconds:
        """The moment of a tick, on the problem's axis."""
        return self.origin + ticks * self.tick


def axis_of(problem: Problem) -> Axis:
    """The widest grid that every number of `problem` lies on."""
    cooking = (COOKING_TICK_S,) if any(is_fact(t) for t in problem.tasks) else ()
    return Axis(origin=problem.eat_at, tick=max(1, gcd(*cooking, *_numbers(problem, cooking=bool(cooking)))))


def _numbers(problem: Problem, *, cooking: bool) -> Iterator[Seconds]:
    eat = problem.eat_at
    for task in problem.tasks:
        if not is_fact(task):
            yield from _of_task(task, eat)
    for goal in problem.goals:
        yield goal.ready_by - eat
        if goal.ready_from is not None:
            yield goal.ready_from - eat
    for change in problem.hands:
        yield change.at - eat
    for stretch in problem.closed:
        yield from (stretch.start - eat, stretch.end - eat)
    if problem.not_before is not None and not cooking:
        yield problem.not_before - eat
    for place in problem.places:
        yield from _changes(problem, place)


def _of_task(task: Task, eat: Seconds) -> Iterator[Seconds]:
    yield from (task.least_s, task.most_s, task.shut_s, task.within_s or 0)
    if task.earliest is not None:
        yield task.earliest - eat
    for piece in task.hands:
        yield from (piece.offset_s, piece.length_s)
    for cue in task.cues:
        yield from (cue.offset_s, cue.play_s, cue.work_s)
    for link in task.after:
        yield from (link.wait_s, link.within_s or 0)


def _changes(problem: Problem, place: PlaceRoom) -> Iterator[Seconds]:
    """Every time that the place may take from one temperature to another."""
    if place.heated:
        heats = {t.heat_c for t in problem.tasks if t.heat_c is not None and any(p == place.name for p, _ in t.uses)}
        for after in heats:
            yield place.change_s(place.now_c, after)
            yield from (place.change_s(before, after) for before in heats)
