"""Cooks simulated by events, written apart from the forecast: one evening at a time, places counted as they fill.

Everybody keeps the plan's order of their own jobs; what was planned earlier keeps its part of a place. Nothing begins
before its planned moment but what follows on by itself, and elastic steps give way. Small jobs (cues, taking out) are
done when they fall due.
"""

from random import Random

from timerboard.core.plan import Plan, Problem, Task


def took(task: Task, dice: Random) -> float:
    """A PERT draw by the standard library's own beta."""
    span = task.span
    if span.low == span.high:
        return span.low
    a = 1 + 4 * (span.likely - span.low) / (span.high - span.low)
    return span.low + (span.high - span.low) * dice.betavariate(a, 6 - a)


def late_cooks(problem: Problem, plan: Plan, dice: Random, cooks: int) -> list[float]:
    """How many seconds late each of so many cooks is, below 0 when early."""
    ends = (SimulatedCook(problem, plan, dice).run() for _ in range(cooks))
    return [max(max(e[i] for i in g.last) - g.ready_by for g in problem.goals) for e in ends]


class SimulatedCook:
    """One evening."""

    def __init__(self, problem: Problem, plan: Plan, dice: Random) -> None:
        self.problem, self.plan = problem, plan
        self.waiting = sorted(problem.tasks, key=lambda t: (plan.by_id[t.id].start, plan.by_id[t.id].end, t.id))
        self.took = {t.id: took(t, dice) for t in problem.tasks}
        self.start: dict[str, float] = {}
        self.end: dict[str, float] = {}

    def run(self) -> dict[str, float]:
        """When every step ended."""
        now = float(self.plan.starts_at) - 86_400
        while self.waiting:
            begun = [t for n, t in enumerate(self.waiting) if self.may_begin(t, self.waiting[:n], now)]
            for task in begun[:1]:
                self.begin(task, now)
            if not begun:
                now = min(m for m in self.moments() if m > now)
        return self.end

    def begin(self, task: Task, now: float) -> None:
        self.waiting.remove(task)
        self.start[task.id] = now
        planned = self.plan.by_id[task.id].end
        if task.elastic:
            self.end[task.id] = min(max(planned, now + task.least_s), now + task.most_s)
        else:
            self.end[task.id] = now + self.took[task.id]

    def moments(self):
        yield from (self.plan.by_id[t.id].start for t in self.waiting)
        yield from self.end.values()
        for task in self.problem.tasks:
            if task.id in self.start:
                yield from (self.start[task.id] + p.offset_s + p.length_s for p in task.hands if not p.from_end)
        for place in (p for p in self.problem.places if p.heated):
            hot = [t for t in self.problem.tasks if t.heat_c is not None]
            for a in (a for a in hot if a.id in self.end):
                yield from (self.end[a.id] + place.change_s(a.heat_c, b.heat_c) for b in hot)

    def may_begin(self, task: Task, before: list[Task], now: float) -> bool:
        if any(self.end.get(link.task, 1e18) + link.wait_s > now for link in task.after):
            return False
        if not self.follows_on(task) and now < self.plan.by_id[task.id].start:
            return False
        return self.hands_free(task, before, now) and all(self.place_free(task, p, before, now) for p in task.uses)

    def follows_on(self, task: Task) -> bool:
        """Nobody's hands begin it, and the plan has it begin as soon as what is before it has ended."""
        if self.needs_hands(task) or not task.after:
            return False
        return max(self.plan.by_id[a.task].end + a.wait_s for a in task.after) == self.plan.by_id[task.id].start

    @staticmethod
    def needs_hands(task: Task) -> bool:
        return task.throughout or task.attend or any(not p.from_end for p in task.hands)

    def hands_until(self, task: Task) -> float:
        if task.throughout or task.attend:
            return self.end[task.id]
        return self.start[task.id] + max((p.offset_s + p.length_s for p in task.hands if not p.from_end), default=0)

    def hands_free(self, task: Task, before: list[Task], now: float) -> bool:
        if not self.needs_hands(task):
            return True
        who = self.plan.by_id[task.id].person
        own = [t for t in self.problem.tasks if self.needs_hands(t) and self.plan.by_id[t.id].person == who]
        if any(t in before for t in own):
            return False
        return not any(self.hands_until(t) > now for t in own if t.id in self.start)

    def place_free(self, task: Task, use: tuple[str, int], before: list[Task], now: float) -> bool:
        name, parts = use
        place = next(p for p in self.problem.places if p.name == name)
        there = [t for t in self.problem.tasks if any(n == name for n, _ in t.uses) and t.id != task.id]
        if place.room is not None:
            taken = [t for t in there if t in before or self.end.get(t.id, -1e18) > now]
            inside = sum(n for t in taken for m, n in t.uses if m == name)
            if inside + parts > place.room:
                return False
        for t in there if place.heated and task.heat_c is not None else []:
            if t.heat_c is None or abs(t.heat_c - task.heat_c) <= t.within_c + task.within_c:
                continue
            if t in before or self.end.get(t.id, -1e18) + place.change_s(t.heat_c, task.heat_c) > now:
                return False
        return True
