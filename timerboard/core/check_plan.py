"""Does a plan keep every rule of its problem? Asked of every plan, without the solver that made it.

Each rule is read again from the menu format, so that a fault in a model shows. What has begun is a fact: facts among
themselves are never blamed, what is planned around them is. What `lenience.py` forgives is not reported.
"""

from collections.abc import Iterator, Mapping

from .check_hands import broken_hands
from .check_places import broken_places
from .check_words import when
from .lenience import hold_binds, is_fact, shift_s, within_binds
from .plan import Goal, Placed, Plan, Problem, Task
from .quantity_words import duration_words
from .question import LONGEST_PLAN_S
from .values import Seconds


def broken_rules(problem: Problem, plan: Plan) -> tuple[str, ...]:
    """A sentence for every rule that the plan breaks; empty when it keeps them all."""
    placed = {p.id: p for p in plan.placed}
    shift = shift_s(problem, plan.eat_at, plan.late_s)
    return (
        *_whole(problem, plan),
        *(said for task in problem.tasks if task.id in placed for said in _task(problem, task, placed, shift)),
        *_cues(problem, plan, placed),
        *broken_places(problem, placed, plan.cues),
        *broken_hands(problem, placed, plan.cues),
        *_meal(problem, plan, placed, shift),
    )


def _whole(problem: Problem, plan: Plan) -> Iterator[str]:
    """Every step once, and nothing else."""
    ids = [p.id for p in plan.placed]
    wanted = {t.id for t in problem.tasks}
    yield from (f"{step} is not in the plan" for step in sorted(wanted - set(ids)))
    yield from (f"{step} is in the plan but not in the menu" for step in sorted(set(ids) - wanted))
    yield from (f"{step} is in the plan twice" for step in sorted({i for i in ids if ids.count(i) > 1}))


def _task(problem: Problem, task: Task, placed: Mapping[str, Placed], shift: Seconds) -> Iterator[str]:
    own = placed[task.id]
    if is_fact(task):
        if own.start != task.started or (task.ended is not None and own.end != task.ended):
            yield f"{task.id} has begun or ended at another moment than the plan says"
        if task.ended is not None:
            return
    length = own.end - own.start
    if not task.least_s <= length <= task.most_s:
        limits = f"{duration_words(task.least_s)} to {duration_words(task.most_s)}"
        yield f"{task.id} is given {duration_words(length)}: it takes {limits}"
    if not is_fact(task):
        yield from _early(problem, task, own, shift)
        yield from _order(problem, task, placed)


def _early(problem: Problem, task: Task, own: Placed, shift: Seconds) -> Iterator[str]:
    if problem.not_before is not None and own.start < problem.not_before:
        yield f"{task.id} would start {when(problem, own.start)}: that moment has passed"
    if task.earliest is not None and own.start < task.earliest + shift:
        yield f"{task.id} starts {when(problem, own.start)}: that is too long ahead of the meal"
    if own.start < problem.eat_at + shift - LONGEST_PLAN_S:
        yield f"{task.id} starts {when(problem, own.start)}: a plan is at most 14 days"


def _order(problem: Problem, task: Task, placed: Mapping[str, Placed]) -> Iterator[str]:
    """Least and most time after what it follows."""
    tasks = {t.id: t for t in problem.tasks}
    start = placed[task.id].start
    for link in task.after:
        if link.task not in placed:
            continue
        gap = start - placed[link.task].end
        if gap < link.wait_s:
            least = f" (least {duration_words(link.wait_s)})" if link.wait_s else ""
            yield f"{task.id} starts {duration_words(gap)} after {link.task} has ended{least}"
        if link.within_s is not None and gap > link.within_s and within_binds(problem, tasks[link.task]):
            yield _too_long(task, link.task, gap, link.within_s)
    before = [placed[link.task] for link in task.after if link.task in placed]
    if task.within_s is not None and before and all(within_binds(problem, tasks[p.id]) for p in before):
        latest = max(before, key=lambda p: p.end)
        if start - latest.end > task.within_s:
            yield _too_long(task, latest.id, start - latest.end, task.within_s)


def _too_long(task: Task, before: str, gap: Seconds, within: Seconds) -> str:
    return f"{task.id} starts {duration_words(gap)} after {before} has ended, most {duration_words(within)}"


def _cues(problem: Problem, plan: Plan, placed: Mapping[str, Placed]) -> Iterator[str]:
    """Every cue once, near where it falls due, inside its step."""
    at = {(cue.step, cue.id): cue.at for cue in plan.cues}
    slots = {(task.id, slot.id): (task, slot) for task in problem.tasks for slot in task.cues}
    if len(at) < len(plan.cues):
        yield "a cue is in the plan twice"
    yield from (f"{step} has no cue '{cue}'" for step, cue in sorted(set(at) - set(slots)))
    for key, (task, slot) in slots.items():
        if task.id not in placed:
            continue
        if key not in at:
            yield f"{slot.id} ({task.id}) is not in the plan"
            continue
        own, due = placed[task.id], placed[task.id].start + slot.offset_s
        if abs(at[key] - due) > slot.play_s:
            off = duration_words(abs(at[key] - due))
            yield f"{slot.id} ({task.id}) is {off} off, most {duration_words(slot.play_s)}"
        elif at[key] - own.start > task.cue_by_s(slot):
            yield f"{slot.id} ({task.id}) falls in the last tenth of its step, {when(problem, at[key])}"
        if at[key] < own.start or at[key] + slot.work_s > own.end:
            yield f"{slot.id} ({task.id}) falls outside its step, {when(problem, at[key])}"


def _meal(problem: Problem, plan: Plan, placed: Mapping[str, Placed], shift: Seconds) -> Iterator[str]:
    if not problem.soonest and plan.eat_at != problem.eat_at:
        yield "the plan eats at another moment than was asked"
    if plan.late_s and (problem.soonest or not problem.late_ok):
        yield f"the plan is {duration_words(plan.late_s)} late, and late was not allowed"
    ready = {
        g.dish: max(placed[i].end for i in g.last) for g in problem.goals if g.last and all(i in placed for i in g.last)
    }
    late = max((ready[g.dish] - g.ready_by for g in problem.goals if g.dish in ready), default=0)
    if problem.late_ok and plan.late_s != max(0, late):
        yield f"the plan is {duration_words(max(0, late))} late and says {duration_words(plan.late_s)}"
    for goal in problem.goals:
        if goal.dish in ready:
            yield from _ready(problem, goal, ready[goal.dish], shift)


def _ready(problem: Problem, goal: Goal, ready: Seconds, shift: Seconds) -> Iterator[str]:
    if ready > goal.ready_by + shift:
        late = duration_words(ready - goal.ready_by - shift)
        yield f"{goal.dish} is ready {when(problem, ready)}: {late} too late"
    if goal.ready_from is not None and hold_binds(problem, goal) and ready < goal.ready_from + shift:
        early = duration_words(goal.ready_from + shift - ready)
        yield f"{goal.dish} is ready {when(problem, ready)}: it would stand {early} longer than its hold"
