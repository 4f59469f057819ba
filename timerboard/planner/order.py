"""A plan's order as arcs between the beginnings and ends of steps: what is late pushes what comes after it.

Order of the recipe, rooms handed on from step to step (a resource flow network: Artigues, Michelon and Reusser 2003,
Eur. J. Oper. Res. 149: 249-267), temperatures that take turns, hands handed on from job to job, and shut doors.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from timerboard.core.busy import minded, most_pairs
from timerboard.core.check_places import agree, parts_of
from timerboard.core.plan import Placed, PlacedCue, Plan, Problem, Task
from timerboard.core.values import Seconds


@dataclass(frozen=True, slots=True)
class Point:
    """The beginning (or the end) of a step, and seconds from it."""

    task: str
    at_end: bool = False
    plus: Seconds = 0


@dataclass(frozen=True, slots=True)
class Arc:
    """`after` comes no earlier than `before`. `small`: one of them is a small job (a cue, the end of a step)."""

    before: Point
    after: Point
    small: bool = False

    @property
    def lag(self) -> Seconds:
        """Least seconds from the one step's beginning or end to the other's."""
        return self.before.plus - self.after.plus


@dataclass(frozen=True, slots=True)
class Limit:
    """An absolute moment that a point may not pass without leaving what the plan gave it."""

    point: Point
    at: Seconds


@dataclass(frozen=True, slots=True)
class _Use:
    """Something taken from one point to another. `block`: nobody's, it only takes."""

    start: Seconds
    end: Seconds
    parts: int
    begins: Point | None
    ends: Point | None
    small: bool = False


@dataclass(frozen=True, slots=True)
class Order:
    """The plan's order."""

    arcs: tuple[Arc, ...]
    limits: tuple[Limit, ...]


def order_of(problem: Problem, plan: Plan) -> Order:
    """Every arc and limit of a plan that keeps every rule, hands taken together."""
    return _order(problem, plan, (*_rooms(problem, plan.by_id), *_hands(problem, plan)))


def order_by_person(problem: Problem, plan: Plan) -> Order:
    """The order that cooks keep: each their own jobs one after another. Rooms are counted as they fill."""
    return _order(problem, plan, _own_jobs(problem, plan))


def _order(problem: Problem, plan: Plan, shared: Iterable[tuple[int, list[_Use]]]) -> Order:
    placed = plan.by_id
    arcs: list[Arc] = [*_recipe(problem, placed), *_heats(problem, placed), *_doors(problem, plan)]
    limits: list[Limit] = list(_closed(problem, placed))
    for room, uses in shared:
        _flow(room, uses, arcs, limits)
    return Order(tuple(dict.fromkeys(arcs)), tuple(limits))


def _recipe(problem: Problem, placed: Mapping[str, Placed]) -> Iterator[Arc]:
    for task in problem.tasks:
        for link in task.after:
            if link.task in placed:
                yield Arc(Point(link.task, True, link.wait_s), Point(task.id))


def _heats(problem: Problem, placed: Mapping[str, Placed]) -> Iterator[Arc]:
    for place in (p for p in problem.places if p.heated):
        hot = [t for t in problem.tasks if t.heat_c is not None and parts_of(t, place.name)]
        hot.sort(key=lambda t: (placed[t.id].start, placed[t.id].end))
        for first, second in combinations(hot, 2):
            if not agree(first, second):
                change = place.change_s(first.heat_c, second.heat_c or 0.0)
                yield Arc(Point(first.id, True, change), Point(second.id))


def _doors(problem: Problem, plan: Plan) -> Iterator[Arc]:
    """What opens a door comes before it is shut, or after it may be opened again."""
    for shut in (t for t in problem.tasks if t.shut_s):
        names = {name for name, _ in shut.uses}
        start = plan.by_id[shut.id].start
        for other in problem.tasks:
            if other.dish == shut.dish:
                continue
            for point, at in _openings(other, names, plan):
                if at <= start:
                    yield Arc(point, Point(shut.id), small=True)
                else:
                    yield Arc(Point(shut.id, plus=shut.shut_s), point, small=True)


def _openings(task: Task, doors: set[str], plan: Plan) -> Iterator[tuple[Point, Seconds]]:
    own = plan.by_id[task.id]
    if any(name in doors for name, _ in task.uses):
        yield Point(task.id), own.start
        yield Point(task.id, True), own.end
    opens = {slot.id for slot in task.cues if doors & set(slot.opens)}
    for cue in plan.cues:
        if cue.step == task.id and cue.id in opens:
            yield Point(task.id, plus=cue.at - own.start), cue.at


def _closed(problem: Problem, placed: Mapping[str, Placed]) -> Iterator[Limit]:
    for task in (t for t in problem.tasks if t.live_heat):
        closes = [s.start for s in problem.closed if s.start >= placed[task.id].end]
        if closes:
            yield Limit(Point(task.id, True), min(closes))


def _rooms(problem: Problem, placed: Mapping[str, Placed]) -> Iterator[tuple[int, list[_Use]]]:
    for place in (p for p in problem.places if p.room is not None):
        uses = [
            _Use(placed[t.id].start, placed[t.id].end, parts, Point(t.id), Point(t.id, True))
            for t in problem.tasks
            if (parts := parts_of(t, place.name)) and t.id in placed
        ]
        yield place.room or 0, uses


def _hands(problem: Problem, plan: Plan) -> Iterator[tuple[int, list[_Use]]]:
    """All hands together; and each named person alone."""
    by_task: dict[str, list[PlacedCue]] = {}
    for cue in plan.cues:
        by_task.setdefault(cue.step, []).append(cue)
    jobs = {t.id: list(_jobs(t, plan.by_id[t.id], by_task.get(t.id, ()))) for t in problem.tasks if t.ended is None}
    yield most_pairs(problem), [job for own in jobs.values() for job in own] + list(_away(problem))
    for person in sorted({t.person for t in problem.tasks if t.person is not None}):
        yield 1, [job for t in problem.tasks if t.person == person for job in jobs.get(t.id, ())]


def _own_jobs(problem: Problem, plan: Plan) -> Iterator[tuple[int, list[_Use]]]:
    jobs: dict[int, list[_Use]] = {}
    for task in (t for t in problem.tasks if t.ended is None):
        own = plan.by_id[task.id]
        if own.person is not None:
            jobs.setdefault(own.person, []).extend(j for j in _jobs(task, own, ()) if not j.small)
    yield from ((1, own_jobs) for own_jobs in jobs.values())


def _jobs(task: Task, own: Placed, cues: Iterable[PlacedCue]) -> Iterator[_Use]:
    if minded(task):
        yield _Use(own.start, own.end, 1, Point(task.id), Point(task.id, True))
    for piece in () if minded(task) else task.hands:
        offset, length = piece.offset_s, piece.length_s
        if piece.from_end:
            ends = Point(task.id, True, length - offset)
            yield _Use(own.end - offset, own.end - offset + length, 1, Point(task.id, True, -offset), ends, small=True)
        else:
            begins = Point(task.id, plus=offset)
            yield _Use(own.start + offset, own.start + offset + length, 1, begins, Point(task.id, plus=offset + length))
    work = {slot.id: slot.work_s for slot in task.cues}
    for cue in cues:
        if work.get(cue.id):
            at, length = cue.at - own.start, work[cue.id]
            ends = Point(task.id, plus=at + length)
            yield _Use(cue.at, cue.at + length, 1, Point(task.id, plus=at), ends, small=True)


def _away(problem: Problem) -> Iterator[_Use]:
    """Hands that are not there take their part, as jobs of nobody."""
    pairs = most_pairs(problem)
    changes = problem.hands
    for n, change in enumerate(changes):
        end = changes[n + 1].at if n + 1 < len(changes) else max(change.at, problem.eat_at) + 14 * 86_400
        if change.pairs < pairs:
            yield _Use(change.at, end, pairs - change.pairs, None, None)
    for hours in problem.closed:
        yield _Use(hours.start, hours.end, pairs, None, None)


def _flow(room: int, uses: list[_Use], arcs: list[Arc], limits: list[Limit]) -> None:
    """Hands every part on from what leaves it first to what begins next."""
    parts: list[tuple[Seconds, int, _Use | None]] = [(-(1 << 60), n, None) for n in range(room)]
    for use in sorted(uses, key=lambda u: (u.start, u.end)):
        parts.sort(key=lambda part: part[:2])
        taken = min(use.parts, room)
        for _, _, giver in parts[:taken]:
            if giver is None or giver.ends is None or giver.end > use.start:
                continue
            if use.begins is None:
                limits.append(Limit(giver.ends, use.start))
            elif giver.ends.task != use.begins.task:
                arcs.append(Arc(giver.ends, use.begins, giver.small or use.small))
        parts[:taken] = [(max(use.end, end), n, use) for end, n, _ in parts[:taken]]
