"""What is taken when: the kitchen while a greedy plan is being put together, step by step, and taken apart again."""

from bisect import bisect_right

from timerboard.core.busy import busy_of, most_pairs
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

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.rooms = {p.name: Load(p.room) for p in problem.places if p.room is not None}
        self.heated: dict[str, PlaceRoom] = {p.name: p for p in problem.places if p.heated}
        self.heats: dict[str, list[tuple[Seconds, Seconds, Task]]] = {name: [] for name in self.heated}
        self.hands = _hands(problem)
        self.people = {t.person: _person(problem, t.person) for t in problem.tasks if t.person is not None}
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


def _person(problem: Problem, person: int) -> Load:
    """One named person, taken while fewer than that many are there."""
    load = Load(1)
    for n, change in enumerate(problem.hands):
        start = -EVER + 1 if n == 0 else change.at
        end = problem.hands[n + 1].at if n + 1 < len(problem.hands) else EVER
        if change.pairs < person:
            load.add(start, end, 1)
    return load
