"""The rules that cannot be kept together, said so that a cook can act."""

from collections.abc import Iterable
from itertools import combinations

from timerboard.core.busy import most_pairs
from timerboard.core.check_places import agree
from timerboard.core.check_words import when
from timerboard.core.civil import day_clock_words
from timerboard.core.plan import PlaceRoom, Problem, Task
from timerboard.core.quantity_words import celsius_words, duration_words
from timerboard.core.values import MS, Seconds
from timerboard.core.words import lower_first, plural, sentence_list, the, upper_first

from .relax import Rule
from .windows import NEVER, Window, windows


def said(problem: Problem, rules: list[Rule]) -> tuple[str, ...]:
    """A sentence for every rule in the trouble, what the kitchen lacks first. `problem` has the dishes in it only."""
    by_kind: dict[str, list[str]] = {}
    for rule in rules:
        by_kind.setdefault(rule.kind, []).append(rule.of)
    tasks = {t.id: t for t in problem.tasks}
    lines = _heat(problem, [tasks[i] for i in by_kind.get("heat", ())])
    lines += [_room(problem, name) for name in by_kind.get("room", ())]
    if "hands" in by_kind:
        lines.append(_hands(problem))
    if "closed" in by_kind:
        lines.append(f"Closed hours leave no hands for {_dishes(problem)} in time.")
    if "now" in by_kind:
        lines.append(_passed(problem))
    lines += [_hold(problem, dish) for dish in by_kind.get("hold", ())]
    lines += [_within(tasks[i]) for i in by_kind.get("within", ())]
    lines += [_ahead(problem, tasks[i]) for i in by_kind.get("ahead", ())]
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
    lines = [_clash(problem, place, a, b, reach) for a, b in clashes]
    if clashes or not tasks:
        return lines
    need = max(place.change_s(place.now_c, t.heat_c or 0) for t in tasks)
    names = sentence_list([step_words(t) for t in tasks])
    return [f"The {place.name} needs {duration_words(need)} to heat up before it can take {names}."]


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


def _room(problem: Problem, name: str) -> str:
    place = next(p for p in problem.places if p.name == name)
    users = [t for t in problem.tasks if any(n == name for n, _ in t.uses)]
    has = plural(place.room or 0, "part")
    return f"The {name} has {has}: too few for {_steps(users)} in the time there is."


def _hands(problem: Problem) -> str:
    pairs = plural(most_pairs(problem), "pair")
    busy = [t for t in problem.tasks if t.hands or t.throughout or t.attend]
    if len(busy) > 3:
        return f"{pairs} of hands cannot do the work for {_dishes(problem)} in the time there is."
    return f"{pairs} of hands cannot do {_steps(busy)} in the time there is."


def _steps(tasks: list[Task]) -> str:
    names = [step_words(t) for t in tasks]
    return sentence_list(names if len(names) <= 5 else [*names[:4], f"{len(names) - 4} more"])


def _passed(problem: Problem) -> str:
    reach = windows(problem.model_copy(update={"not_before": None}))
    first = min(problem.tasks, key=lambda t: reach[t.id].start_by)
    by, now = reach[first.id].start_by, problem.not_before or 0
    if by < now:
        return f"{upper_first(step_words(first))} would have to start by {clock(problem, by)}: that has passed."
    return f"Starting at {clock(problem, now)} leaves too little time for {_dishes(problem)}."


def _hold(problem: Problem, dish: str) -> str:
    goal = next(g for g in problem.goals if g.dish == dish)
    if goal.hold_s == 0:
        return f"{upper_first(the(dish))} must go straight to the table."
    return f"{upper_first(the(dish))} may stand ready for {duration_words(goal.hold_s)} at most."


def _within(task: Task) -> str:
    most = [a.within_s for a in task.after if a.within_s is not None] or [task.within_s or 0]
    return f"{upper_first(step_words(task))} must start within {duration_words(min(most))} of what it follows."


def _ahead(problem: Problem, task: Task) -> str:
    ahead = problem.eat_at - (task.earliest or problem.eat_at)
    return f"{upper_first(step_words(task))} may be done {duration_words(ahead)} ahead at most."


def _shut(task: Task) -> str:
    return f"{upper_first(step_words(task))} keeps the door shut for {duration_words(task.shut_s)}."


def _dishes(problem: Problem) -> str:
    names: Iterable[str] = dict.fromkeys(the(t.dish) for t in problem.tasks)
    return sentence_list(list(names))
