"""The rules that cannot be kept together, said so that a cook can act."""

from itertools import combinations

from timerboard.core.busy import minded, most_pairs
from timerboard.core.check_places import agree
from timerboard.core.check_words import when
from timerboard.core.civil import day_clock_words
from timerboard.core.plan import Goal, PlaceRoom, Problem, Task
from timerboard.core.quantity_words import celsius_words, duration_words, span_words
from timerboard.core.values import MS, Seconds
from timerboard.core.words import lower_first, plural, sentence_list, the, upper_first

from .overload import Overload
from .relax import Trouble
from .windows import NEVER, Window, windows

MOST_ONE_BY_ONE = 3
"""Rules of one kind that get a sentence each; more are told in one: nobody reads forty lines of 'at most'."""


def said(trouble: Trouble) -> tuple[str, ...]:
    """A sentence for every rule in the trouble, what the kitchen lacks first; many of one kind are told in one."""
    problem, over = trouble.small, trouble.over
    by_kind: dict[str, list[str]] = {}
    for rule in trouble.rules:
        by_kind.setdefault(rule.kind, []).append(rule.of)
    tasks = {t.id: t for t in problem.tasks}
    lines = _heat(problem, [tasks[i] for i in by_kind.get("heat", ())])
    lines += [_room(problem, name, over) for name in by_kind.get("room", ())]
    if "hands" in by_kind and not (over is not None and over.room_s == 0 and "closed" in by_kind):
        lines.append(_hands(problem, over))
    if "closed" in by_kind:
        lines.append(f"Closed hours leave no hands for {_dishes(problem)} in time.")
    if "now" in by_kind:
        lines.append(_passed(problem))
    lines += _holds(problem, by_kind.get("hold", []))
    lines += _withins([tasks[i] for i in by_kind.get("within", ())])
    lines += _aheads(problem, [tasks[i] for i in by_kind.get("ahead", ())])
    lines += [_shut(tasks[i]) for i in by_kind.get("shut", ())]
    return tuple(lines) or (f"The steps of {_dishes(problem)} cannot follow one another as they are linked.",)


def clock(problem: Problem, at: Seconds) -> str:
    """'18:05', with the day when it is another one; counted from the meal when no zone is known."""
    if problem.zone is None:
        return when(problem, at)
    return day_clock_words(at * MS, problem.zone, problem.eat_at * MS)


def step_words(task: Task) -> str:
    """A step in a sentence: 'the pork shoulder (roast)'."""
    do = lower_first(task.do)
    return the(task.dish) if not do or do in task.dish.lower() else f"{the(task.dish)} ({do})"


def _heat(problem: Problem, tasks: list[Task]) -> list[str]:
    place = next((p for p in problem.places if p.heated and any(p.name == n for t in tasks for n, _ in t.uses)), None)
    if place is None:
        return []
    reach = windows(problem)
    clashes = [(a, b) for a, b in combinations(tasks, 2) if not agree(a, b)]
    if len(clashes) > MOST_ONE_BY_ONE:
        return [_heats(problem, place, tasks)]
    lines = [_clash(problem, place, a, b, reach) for a, b in clashes]
    if clashes or not tasks:
        return lines
    need = max(place.change_s(place.now_c, t.heat_c or 0) for t in tasks)
    names = sentence_list([step_words(t) for t in tasks])
    return [f"The {place.name} needs {duration_words(need)} to heat up before it can take {names}."]


def _heats(problem: Problem, place: PlaceRoom, tasks: list[Task]) -> str:
    """Many steps at a few heats, told heat by heat."""
    by_heat: dict[float, list[Task]] = {}
    for task in tasks:
        by_heat.setdefault(task.heat_c or 0, []).append(task)
    wanted = [f"at {celsius_words(c, problem.units)} for {_steps(some, 3)}" for c, some in sorted(by_heat.items())]
    return f"The {place.name} is wanted {', and '.join(wanted)}: one {place.name}."


def _clash(problem: Problem, place: PlaceRoom, a: Task, b: Task, reach: dict[str, Window]) -> str:
    if reach[b.id].end_from + reach[b.id].start_by < reach[a.id].end_from + reach[a.id].start_by:
        a, b = b, a
    until, by = reach[a.id].end_from, reach[b.id].start_by
    one = f"{step_words(a)} needs the {place.name} at {celsius_words(a.heat_c or 0, problem.units)}"
    change = place.change_s(a.heat_c, b.heat_c or 0)
    clash = until > -NEVER // 2 and by < NEVER // 2 and until + change > by  # else room or hands keep them apart too
    if clash:
        one += f" until {clock(problem, until)}"
    other = f"{step_words(b)} needs it at {celsius_words(b.heat_c or 0, problem.units)}"
    if clash:
        other += f" from {clock(problem, by)}"
    between = f", and {duration_words(change)} to change" if change else ""
    return f"{upper_first(one)} and {other}{between}: one {place.name}."


def _room(problem: Problem, name: str, over: Overload | None) -> str:
    place = next(p for p in problem.places if p.name == name)
    mine = over if over is not None and over.place == name else None
    users = list(mine.tasks) if mine is not None else [t for t in problem.tasks if any(n == name for n, _ in t.uses)]
    has = plural(place.room or 0, "part")
    return f"The {name} has {has}: too few for {_steps(users)} in the time there is{_between(problem, mine)}."


def _hands(problem: Problem, over: Overload | None) -> str:
    pairs = plural(most_pairs(problem), "pair")
    mine = over if over is not None and over.place == "" else None
    busy = list(mine.tasks) if mine is not None else [t for t in problem.tasks if t.hands or minded(t)]
    what = _steps(busy) if len(busy) <= MOST_ONE_BY_ONE else f"the work for {_dishes(problem)}"
    much = f": {duration_words(mine.work_s)} of work in {duration_words(mine.room_s)}" if mine is not None else ""
    return f"{pairs} of hands cannot do {what} in the time there is{much}{_between(problem, mine)}."


def _between(problem: Problem, over: Overload | None) -> str:
    if over is None or problem.zone is None:
        return ""
    return f", from {clock(problem, over.start)} to {clock(problem, over.end)}"


def _steps(tasks: list[Task], most: int = 5) -> str:
    return _some([step_words(t) for t in tasks], most)


def _some(names: list[str], most: int = 5) -> str:
    """The first of many, and how many more."""
    return sentence_list(names if len(names) <= most else [*names[: most - 1], f"{len(names) - most + 1} more"])


def _passed(problem: Problem) -> str:
    reach = windows(problem.model_copy(update={"not_before": None}))
    first = min(problem.tasks, key=lambda t: reach[t.id].start_by)
    by, now = reach[first.id].start_by, problem.not_before or 0
    if by < now:
        return f"{upper_first(step_words(first))} would have to start by {clock(problem, by)}: that has passed."
    return f"Starting at {clock(problem, now)} leaves too little time for {_dishes(problem)}."


def _holds(problem: Problem, dishes: list[str]) -> list[str]:
    goals = [next(g for g in problem.goals if g.dish == dish) for dish in dishes]
    if len(goals) <= MOST_ONE_BY_ONE:
        return [_hold(goal) for goal in goals]
    straight, kept = [g for g in goals if g.hold_s == 0], [g for g in goals if g.hold_s]
    lines = (
        [f"{upper_first(_some([the(g.dish) for g in straight]))} must go straight to the table."] if straight else []
    )
    if kept:
        most = span_words(min(g.hold_s for g in kept), max(g.hold_s for g in kept))
        lines.append(f"{upper_first(_some([the(g.dish) for g in kept]))} may stand ready for {most} at most.")
    return lines


def _hold(goal: Goal) -> str:
    if goal.hold_s == 0:
        return f"{upper_first(the(goal.dish))} must go straight to the table."
    return f"{upper_first(the(goal.dish))} may stand ready for {duration_words(goal.hold_s)} at most."


def _withins(tasks: list[Task]) -> list[str]:
    if len(tasks) <= MOST_ONE_BY_ONE:
        return [
            f"{upper_first(step_words(t))} must start within {duration_words(_most_gap(t))} of what it follows."
            for t in tasks
        ]
    most = span_words(min(map(_most_gap, tasks)), max(map(_most_gap, tasks)))
    return [f"{upper_first(_steps(tasks))} must start within {most} of what they follow."]


def _most_gap(task: Task) -> Seconds:
    return min([a.within_s for a in task.after if a.within_s is not None] or [task.within_s or 0])


def _aheads(problem: Problem, tasks: list[Task]) -> list[str]:
    ahead = {t.id: problem.eat_at - (t.earliest or problem.eat_at) for t in tasks}
    if len(tasks) <= MOST_ONE_BY_ONE:
        return [f"{upper_first(step_words(t))} may be done {duration_words(ahead[t.id])} ahead at most." for t in tasks]
    most = span_words(min(ahead.values()), max(ahead.values()))
    return [f"{upper_first(_steps(tasks))} may be done {most} ahead at most."]


def _shut(task: Task) -> str:
    return f"{upper_first(step_words(task))} keeps the door shut for {duration_words(task.shut_s)}."


def _dishes(problem: Problem) -> str:
    return _some([the(dish) for dish in dict.fromkeys(t.dish for t in problem.tasks)])
