"""One greedy pass: every step put as late as it fits, followers before what they follow.

A backward (right-shifted) serial schedule generation scheme. Source: Kolisch and Hartmann 1999, Heuristic algorithms
for the resource-constrained project scheduling problem. Chains tied by a `within` are put as one: when the step before
finds no place in time, the step after it is pushed earlier.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush

from timerboard.core.lenience import hold_binds, is_fact, within_binds
from timerboard.core.plan import Goal, Problem, Task
from timerboard.core.values import Seconds

from .fitting import Fit, latest_fit
from .timetable import EVER, Timetable

MOST_PUSHES = 40
"""How often a chain is pushed earlier before its place is given up."""

MOST_PUSHES_IN_ALL = 1_000
"""... and in a whole pass: chains of chains would otherwise try every combination."""


@dataclass
class Known:
    """What every pass over one problem needs: who follows whom, and how early each step could begin at best."""

    problem: Problem
    tasks: dict[str, Task] = field(default_factory=dict)
    followers: dict[str, list[tuple[Task, Seconds, Seconds | None]]] = field(default_factory=dict)
    goals: dict[str, list[Goal]] = field(default_factory=dict)
    binding: set[str] = field(default_factory=set)  # dishes whose hold is a rule
    heads: dict[str, Seconds] = field(default_factory=dict)  # earliest start that order alone allows, without a shift
    work_before: dict[str, Seconds] = field(default_factory=dict)  # longest chain of work before and with it
    aheads: dict[str, Seconds] = field(default_factory=dict)  # earliest start that make-ahead limits allow, if any do


@dataclass
class Pass:
    """One attempt. `rank` says which of the steps that could be put next is put first: the greatest."""

    known: Known
    shift: Seconds
    floor: Seconds | None  # no step that has not begun may start before it; None: as `heads` say
    rank: Callable[[Task, Seconds, Seconds], float]
    start_by: dict[str, Seconds] = field(
        default_factory=dict
    )  # steps that must start by then, or another finds no place
    by_person: bool = False  # whether jobs of nobody's are given to somebody at once
    table: Timetable = field(init=False)
    fits: dict[str, Fit] = field(default_factory=dict)
    stuck: str = ""  # the dish that found no place
    in_the_way: dict[str, Seconds] = field(default_factory=dict)  # what would have to start earlier, and by when
    pushes: int = 0
    _hint: Seconds | None = None  # the latest end of the step that found no place in time

    def __post_init__(self) -> None:
        """Begins with the facts."""
        self.table = Timetable(self.known.problem, by_person=self.by_person)
        for task in self.known.problem.tasks:
            if task.started is not None:
                end = task.ended if task.ended is not None else task.started + task.least_s
                self._put(task, Fit(task.started, end, {c.id: task.started + c.offset_s for c in task.cues}))

    def run(self) -> bool:
        """Puts every step; False when one found no place (`stuck` names its dish)."""
        left = {t.id: len(self._open(t)) for t in self.known.problem.tasks if t.id not in self.fits}
        queue = [self._ranked(i) for i, followers in left.items() if followers == 0]
        heapify(queue)
        while queue:
            task = self.known.tasks[heappop(queue)[1]]
            if task.id in self.fits:
                continue
            before = len(self.fits)
            if not self._chain(task, EVER):
                self.stuck = task.dish
                return False
            put = list(self.fits)[before:]
            for link in (link for done in put for link in self.known.tasks[done].after):
                if link.task in left:
                    left[link.task] -= 1
                    if left[link.task] == 0 and link.task not in self.fits:
                        heappush(queue, self._ranked(link.task))
        return len(self.fits) == len(self.known.tasks)

    def _ranked(self, step: str) -> tuple[float, str]:
        task = self.known.tasks[step]
        return -self.rank(task, self._end_by(task), self._end_from(task)), step

    def _open(self, task: Task) -> list[Task]:
        return [f for f, _, _ in self.known.followers[task.id] if f.id not in self.fits]

    def _put(self, task: Task, fit: Fit) -> None:
        self.table.put(task, fit.start, fit.end, fit.cues)
        self.fits[task.id] = fit

    def _take(self, task: Task) -> None:
        fit = self.fits.pop(task.id)
        self.table.take(task, fit.start, fit.end, fit.cues)

    def _chain(self, task: Task, start_by: Seconds) -> bool:
        """Puts a step and, at once, what is tied to its beginning; pushed earlier until all of them fit."""
        for _ in range(MOST_PUSHES):
            self.pushes += 1
            if self.pushes > MOST_PUSHES_IN_ALL:
                break
            by = min(start_by, self.start_by.get(task.id, EVER))
            fit = latest_fit(self.table, task, by, self._end_by(task), self._start_from(task))
            if fit is None or fit.end < self._end_from(task):
                self._hint = fit.end if fit is not None else None
                self.in_the_way = self._blocking(task, self._hint)
                return False
            self._put(task, fit)
            put: list[Task] = []
            push = self._tied(task, put)
            if push is None:
                return True
            for other in reversed(put):
                self._untie(other)
            self._take(task)
            start_by = min(push, fit.start - 1)
        self._hint, self.in_the_way = None, {}
        return False

    def _blocking(self, task: Task, end: Seconds | None) -> dict[str, Seconds]:
        """Followers that would have to start earlier for a step to end at `end`; empty: a hold is broken."""
        if end is None:
            return {}
        tied = [(f, w) for f, _, w in self.known.followers[task.id] if w is not None and f.id in self.fits]
        return {f.id: end + w for f, w in tied if self.fits[f.id].start - w > end and not self._relieved(f, task, w)}

    def _untie(self, task: Task) -> None:
        """Takes a step away and all that was put before it in its chain."""
        for link in task.after:
            before = self.known.tasks.get(link.task)
            if before is not None and before.id in self.fits and not is_fact(before) and self._is_tied(before, task):
                self._untie(before)
        self._take(task)

    def _is_tied(self, before: Task, task: Task) -> bool:
        return any(f.id == task.id and within is not None for f, _, within in self.known.followers[before.id])

    def _tied(self, task: Task, put: list[Task]) -> Seconds | None:
        """Puts every step that must end just before this one; else how early this one must start for it to fit."""
        for link in task.after:
            before = self.known.tasks.get(link.task)
            if before is None or before.id in self.fits or not self._is_tied(before, task) or self._open(before):
                continue
            within = next(w for f, _, w in self.known.followers[before.id] if f.id == task.id and w is not None)
            if not self._chain(before, EVER):
                return self._hint + within if self._hint is not None else -EVER
            put.append(before)
        return None

    def _end_by(self, task: Task) -> Seconds:
        """The latest end that what follows, and the table, allow."""
        ends = [self.fits[f.id].start - wait for f, wait, _ in self.known.followers[task.id] if f.id in self.fits]
        ends += [g.ready_by + self.shift for g in self.known.goals.get(task.id, ())]
        return min(ends, default=self.known.problem.eat_at + self.shift)

    def _end_from(self, task: Task) -> Seconds:
        """The earliest end that what follows, and the hold, allow."""
        ends = [-EVER]
        for follower, _, within in self.known.followers[task.id]:
            if within is not None and follower.id in self.fits and not self._relieved(follower, task, within):
                ends.append(self.fits[follower.id].start - within)
        for goal in self.known.goals.get(task.id, ()):
            if goal.dish in self.known.binding and goal.ready_from is not None:
                from_ = goal.ready_from + self.shift
                if not any(i in self.fits and self.fits[i].end >= from_ for i in goal.last):
                    ends.append(from_)
        return max(ends)

    def _relieved(self, follower: Task, task: Task, within: Seconds) -> bool:
        """A shared `within` binds only the latest of those before; another may be it already."""
        if follower.within_s is None or any(a.task == task.id and a.within_s is not None for a in follower.after):
            return False
        others = (self.fits.get(link.task) for link in follower.after if link.task != task.id)
        return any(o is not None and o.end >= self.fits[follower.id].start - within for o in others)

    def _start_from(self, task: Task) -> Seconds:
        limits = [self.known.heads[task.id]] if self.floor is None else [self.floor]
        if task.earliest is not None:
            limits.append(task.earliest + self.shift)
        return max(limits)


def known_of(problem: Problem) -> Known:
    """Everything about a problem that does not change from pass to pass. Raises ValueError for a circle."""
    known = Known(problem, {t.id: t for t in problem.tasks})
    known.followers = {t.id: [] for t in problem.tasks}
    for task in problem.tasks:
        for link in task.after:
            before = known.tasks.get(link.task)
            if before is not None and not is_fact(task):
                limit = task.within_s if link.within_s is None else link.within_s
                binds = limit is not None and within_binds(problem, before)
                known.followers[before.id].append((task, link.wait_s, limit if binds else None))
    for goal in problem.goals:
        for last in goal.last:
            known.goals.setdefault(last, []).append(goal)
        if hold_binds(problem, goal):
            known.binding.add(goal.dish)
    return known
