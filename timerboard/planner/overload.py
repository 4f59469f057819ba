"""More work than there is time for it, found by counting alone: the quickest 'no', and the one a cook follows best.

What lies whole between two moments in any plan must fit between them. A window whose work is more than its hands (or a
place's room) can give proves that there is no plan; the other way round nothing is proven. (The overload rule of
Baptiste, Le Pape and Nuijten 2001, Constraint-Based Scheduling, chapter 3.)
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from timerboard.core.busy import minded
from timerboard.core.lenience import is_fact
from timerboard.core.plan import Problem, Stretch, Task
from timerboard.core.values import Seconds

from .windows import NEVER, Window, windows


@dataclass(frozen=True)
class Overload:
    """A window [start, end) with more to do than fits. `place` "": hands. `tasks`: the fewest that are too many."""

    place: str
    start: Seconds
    end: Seconds
    work_s: Seconds  # of `tasks`; of a place: times the parts they take
    room_s: Seconds  # what hands, or the place's parts, can give in the window
    tasks: tuple[Task, ...]

    @property
    def dishes(self) -> tuple[str, ...]:
        """The dishes of its tasks."""
        return tuple(dict.fromkeys(t.dish for t in self.tasks))

    @property
    def size(self) -> tuple[int, int, Seconds]:
        """The fewer dishes and tasks, and the shorter, the better it is understood."""
        return len(self.dishes), len(self.tasks), self.end - self.start


@dataclass(frozen=True)
class _Piece:
    """Work that lies in [start, end) in any plan."""

    task: Task
    start: Seconds
    end: Seconds
    work_s: Seconds


def overload(problem: Problem) -> Overload | None:
    """The window with too much work in it that takes the fewest dishes to tell; None when counting finds none."""
    if problem.soonest or problem.late_ok:  # the meal moves: no window has an end
        return None
    reach = windows(problem)
    free = [t for t in problem.tasks if not is_fact(t) and not _is_torn(reach[t.id])]
    found = list(_overloads("", [p for t in free for p in _hands(t, reach[t.id])], hands_between(problem)))
    for place in problem.places:
        if place.room is not None:
            pieces = [p for t in free for p in _parts(t, place.name, reach[t.id])]
            found += _overloads(place.name, pieces, _steady(place.room))
    return min(found, key=lambda one: one.size, default=None)


def _is_torn(reach: Window) -> bool:
    """True for a step that its own recipe leaves no time for: that is another trouble than too much work."""
    return reach.start_by < reach.start_from or reach.end_by < reach.end_from


def _hands(task: Task, reach: Window) -> Iterator[_Piece]:
    if minded(task):
        yield _Piece(task, reach.start_from, reach.end_by, task.least_s)
    for piece in () if minded(task) else task.hands:
        first, last = reach.start_from + piece.offset_s, reach.start_by + piece.offset_s
        if piece.from_end:
            first, last = reach.end_from - piece.offset_s, reach.end_by - piece.offset_s
        yield _Piece(task, first, last + piece.length_s, piece.length_s)
    for slot in task.cues:
        first = reach.start_from + max(0, slot.offset_s - slot.play_s)
        yield _Piece(task, first, reach.start_by + task.cue_by_s(slot) + slot.work_s, slot.work_s)


def _parts(task: Task, place: str, reach: Window) -> Iterator[_Piece]:
    parts = sum(n for name, n in task.uses if name == place)
    yield _Piece(task, reach.start_from, reach.end_by, parts * task.least_s)


Room = Callable[[Seconds, Seconds], Seconds]
"""What can be given between two moments, in seconds of one."""


def _overloads(place: str, pieces: list[_Piece], room: Room) -> Iterator[Overload]:
    """For each first moment the smallest window from it that has too much in it."""
    real = sorted((p for p in pieces if p.work_s and _is_bounded(p)), key=lambda p: p.end)
    for start in sorted({p.start for p in real}):
        inside, total = [p for p in real if p.start >= start], 0
        for n, piece in enumerate(inside):
            total += piece.work_s
            if total > (can := room(start, piece.end)):
                yield _told(place, start, piece.end, inside[: n + 1], can)
                break


def _is_bounded(piece: _Piece) -> bool:
    return piece.start > -NEVER // 2 and piece.end < NEVER // 2


def _told(place: str, start: Seconds, end: Seconds, inside: list[_Piece], can: Seconds) -> Overload:
    """Without the smallest dishes that are not needed for it to be too much."""
    work: dict[str, Seconds] = {}
    for piece in inside:
        work[piece.task.dish] = work.get(piece.task.dish, 0) + piece.work_s
    total = sum(work.values())
    for dish in sorted(work, key=lambda d: work[d]):
        if total - work[dish] > can:
            total -= work.pop(dish)
    tasks = dict.fromkeys(p.task.id for p in inside if p.task.dish in work)
    by_id = {p.task.id: p.task for p in inside}
    return Overload(place, start, end, total, can, tuple(by_id[i] for i in tasks))


def _steady(parts: int) -> Room:
    return lambda start, end: parts * (end - start)


def hands_between(problem: Problem) -> Room:
    """Seconds that all pairs of hands can give between two moments, closed hours left out."""
    levels = _levels(problem)
    if len(levels) == 1:
        return _steady(levels[0][2])
    return lambda start, end: sum(n * max(0, min(b, end) - max(a, start)) for a, b, n in levels)


def _levels(problem: Problem) -> list[tuple[Seconds, Seconds, int]]:
    """(from, until, pairs) one after another: hands by time, none in closed hours."""
    closed = _merged(problem.closed)
    moments = sorted({-NEVER, NEVER, *(h.at for h in problem.hands[1:]), *(at for s in closed for at in s)})
    out = []
    for start, end in pairwise(moments):
        shut = any(a <= start and end <= b for a, b in closed)
        there = [h.pairs for h in problem.hands[:1]] + [h.pairs for h in problem.hands[1:] if h.at <= start]
        if not shut and there and there[-1]:
            out.append((start, end, there[-1]))
    return out


def _merged(stretches: tuple[Stretch, ...]) -> list[tuple[Seconds, Seconds]]:
    out: list[tuple[Seconds, Seconds]] = []
    for one in sorted(stretches, key=lambda s: s.start):
        if out and one.start <= out[-1][1]:
            out[-1] = (out[-1][0], max(out[-1][1], one.end))
        elif one.end > one.start:
            out.append((one.start, one.end))
    return out
