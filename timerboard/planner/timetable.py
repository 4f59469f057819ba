"""What is taken when: the kitchen while a greedy plan is being put together, step by step, and taken apart again."""

from bisect import bisect_right

from timerboard.core.busy import busy_of, minded, most_pairs
from timerboard.core.plan import Placed, PlaceRoom, Problem, Task
from timerboard.core.values import Seconds

EVER = 1 << 60
"""Beyond any axis."""


class Load:
    """How much of something is taken, as a step function of time."""

    __slots__ = ("levels", "room", "times")

    def __init__(self, room: int) -> None:
        self.room = room
        self.times = [-EVER]
        self.levels = [0]

    def _cut(self, at: Seconds) -> int:
        """The index of the step that begins at `at`, made when there is none."""
        n = bisect_right(self.times, at) - 1
        if self.times[n] == at:
            return n
        self.times.insert(n + 1, at)
        self.levels.insert(n + 1, self.levels[n])
        return n + 1

    def add(self, start: Seconds, end: Seconds, parts: int) -> None:
        """Takes `parts` in [start, end), or gives them back when negative."""
        if start >= end:
            return
        first = self._cut(start)
        for n in range(first, self._cut(end)):
            self.levels[n] += parts

    def full_from(self, start: Seconds, end: Seconds, parts: int) -> Seconds | None:
        """The beginning of the first stretch touching [start, end) where `parts` more do not fit; None when they do."""
        times, levels, most = self.times, self.levels, self.room - parts
        n = bisect_right(times, start) - 1
        last = len(times)
        while n < last and times[n] < end:
            if levels[n] > most:
                return times[n]
            n += 1
        return None


class Timetable:
    """Rooms, heats, hands, doors and closed hours of one problem, with what is placed so far."""

    def __init__(self, problem: Problem, *, by_person: bool = False) -> None:
        """`by_person`: jobs that nobody is named for take somebody as well, as soon as they are put."""
        self.problem = problem
        self.rooms = {p.name: Load(p.room) for p in problem.places if p.room is not None}
        self.heated: dict[str, PlaceRoom] = {p.name: p for p in problem.places if p.heated}
        self.heats: dict[str, list[tuple[Seconds, Seconds, Task]]] = {name: [] for name in self.heated}
        self.hands = _hands(problem)
        self.people = _people(problem)
        self.by_person = by_person and bool(self.people)
        self._given: dict[str, int] = {}
        self._named = {n: sum(t.least_s for t in problem.tasks if t.person == n) for n in self.people}
        self.closed = [(s.start, s.end) for s in problem.closed]
        self.shuts: list[tuple[Seconds, Seconds, str, frozenset[str]]] = []
        self.opens: list[tuple[Seconds, str, frozenset[str]]] = []
        self.minds_doors = any(t.shut_s for t in problem.tasks)

    def put(self, task: Task, start: Seconds, end: Seconds, cues: dict[str, Seconds]) -> None:
        """Takes what a task needs in [start, end)."""
        self._change(task, start, end, cues, 1)
        for name, _ in task.uses:
            if name in self.heats and task.heat_c is not None:
                self.heats[name].append((start, end, task))
        if self.minds_doors:
            self.shuts += self._shut(task, start)
            self.opens += self._opened(task, start, end, cues)

    def take(self, task: Task, start: Seconds, end: Seconds, cues: dict[str, Seconds]) -> None:
        """Gives back what `put` took."""
        self._change(task, start, end, cues, -1)
        for name, _ in task.uses:
            if name in self.heats and task.heat_c is not None:
                self.heats[name].remove((start, end, task))
        if self.minds_doors:
            for shut in self._shut(task, start):
                self.shuts.remove(shut)
            for opened in self._opened(task, start, end, cues):
                self.opens.remove(opened)

    def _change(self, task: Task, start: Seconds, end: Seconds, cues: dict[str, Seconds], sign: int) -> None:
        for name, parts in task.uses:
            if name in self.rooms:
                self.rooms[name].add(start, end, sign * parts)
        for busy in busy_of(task, Placed.model_construct(id=task.id, start=start, end=end), cues):
            self.hands.add(busy.start, busy.end, sign)
            if task.person is not None:
                self.people[task.person].add(busy.start, busy.end, sign)
        if task.person is not None:
            self._named[task.person] -= sign * task.least_s
        if self.by_person and task.person is None and task.ended is None and minded(task):
            self._given_to_somebody(task, start, end, sign)

    def _given_to_somebody(self, task: Task, start: Seconds, end: Seconds, sign: int) -> None:
        """A job that one person must stay with takes who is free and has the least work by name still to be put.

        Among equals who is wanted soonest after it: that leaves nobody a gap too short for a job (best fit).
        """
        free = [n for n in self.unnamed() if self.people[n].full_from(start, end, 1) is None]
        person = min(free, key=lambda n: (self._named[n], self._idle_after(n, end), -n), default=0) if sign > 0 else 0
        person = person or self._given.pop(task.id, 0)
        if person:
            self.people[person].add(start, end, sign)
        if person and sign > 0:
            self._given[task.id] = person

    def unnamed(self) -> list[int]:
        """Who may be given a job of nobody's: all but who has the most work by name still to be put."""
        most = max(self._named.values(), default=0)
        return [n for n, work in self._named.items() if work < most] or list(self._named)

    def _idle_after(self, person: int, end: Seconds) -> Seconds:
        """How long a person would have nothing to do after `end`."""
        busy = self.people[person].full_from(end, EVER, 1)
        return (EVER if busy is None else max(busy, end)) - end

    @staticmethod
    def _shut(task: Task, start: Seconds) -> list[tuple[Seconds, Seconds, str, frozenset[str]]]:
        names = frozenset(name for name, _ in task.uses)
        return [(start, start + task.shut_s, task.dish, names)] if task.shut_s else []

    @staticmethod
    def _opened(
        task: Task, start: Seconds, end: Seconds, cues: dict[str, Seconds]
    ) -> list[tuple[Seconds, str, frozenset[str]]]:
        names = frozenset(name for name, _ in task.uses)
        doors = [(cues[c.id], task.dish, frozenset(c.opens)) for c in task.cues if c.opens and c.id in cues]
        return [(start, task.dish, names), (end, task.dish, names), *doors] if names else doors


def _hands(problem: Problem) -> Load:
    """Every pair of hands, with those taken that are not there."""
    load = Load(most_pairs(problem))
    for n, change in enumerate(problem.hands):
        start = -EVER + 1 if n == 0 else change.at
        end = problem.hands[n + 1].at if n + 1 < len(problem.hands) else EVER
        load.add(start, end, load.room - change.pairs)
    for hours in problem.closed:
        load.add(hours.start, hours.end, load.room)
    return load


def _people(problem: Problem) -> dict[int, Load]:
    """Everybody by number where it matters who does what: somebody is named, or people come and go."""
    named = {t.person for t in problem.tasks if t.person is not None}
    varies = len({change.pairs for change in problem.hands}) > 1
    if not named and not varies:
        return {}
    return {n: _person(problem, n) for n in range(1, max(most_pairs(problem), *named, 1) + 1)}


def _person(problem: Problem, person: int) -> Load:
    """One named person, taken while fewer than that many are there."""
    load = Load(1)
    for n, change in enumerate(problem.hands):
        start = -EVER + 1 if n == 0 else change.at
        end = problem.hands[n + 1].at if n + 1 < len(problem.hands) else EVER
        if change.pairs < person:
            load.add(start, end, 1)
    return load
