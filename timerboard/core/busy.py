"""When a plan keeps hands busy, and how many pairs there are."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from .lenience import is_fact
from .plan import Placed, PlacedCue, Problem, Task
from .values import Seconds


@dataclass(frozen=True, slots=True)
class Busy:
    """One unbroken stretch of one pair of hands, in [start, end)."""

    start: Seconds
    end: Seconds
    task: Task
    what: str  # what is done, for a reader
    whole: bool = False  # the whole of a task that one person must stay with

    @property
    def fact(self) -> bool:
        """True when it belongs to something that has begun."""
        return is_fact(self.task)


def minded(task: Task) -> bool:
    """True when one person stays with a task from its start to its end."""
    return task.throughout or task.attend


def busy_of(task: Task, placed: Placed, cues: Mapping[str, Seconds]) -> list[Busy]:
    """Every stretch a task asks for: itself, or its pieces; and its cues by slot id. Nothing once it has ended."""
    if task.ended is not None:
        return []
    if minded(task):
        found = [Busy(placed.start, placed.end, task, task.id, whole=True)]
    else:
        found = [_piece(task, placed, p.offset_s, p.length_s, p.from_end) for p in task.hands]
    jobs = [
        Busy(cues[slot.id], cues[slot.id] + slot.work_s, task, f"{slot.cue} ({task.id})")
        for slot in task.cues
        if slot.work_s and slot.id in cues
    ]
    return [b for b in found + jobs if b.start < b.end]


def _piece(task: Task, placed: Placed, offset: Seconds, length: Seconds, from_end: bool) -> Busy:
    start = placed.end - offset if from_end else placed.start + offset
    return Busy(start, start + length, task, f"the {'end' if from_end else 'start'} of {task.id}")


def all_busy(problem: Problem, placed: Mapping[str, Placed], cues: Iterable[PlacedCue]) -> list[Busy]:
    """Every stretch of hands in a plan, in order of time."""
    by_task: dict[str, dict[str, Seconds]] = {}
    for cue in cues:
        by_task.setdefault(cue.step, {})[cue.id] = cue.at
    found = (busy_of(t, placed[t.id], by_task.get(t.id, {})) for t in problem.tasks if t.id in placed)
    return sorted((b for some in found for b in some), key=lambda b: (b.start, b.end, b.task.id))


def fewest_pairs(problem: Problem, start: Seconds, end: Seconds) -> int:
    """The smallest number of pairs of hands anywhere in [start, end); closed hours are not counted here."""
    changes = problem.hands
    if not changes:
        return 0
    at_start = changes[0].pairs
    for change in changes:
        if change.at <= start:
            at_start = change.pairs
    return min([at_start, *(c.pairs for c in changes if start < c.at < end)])


def most_pairs(problem: Problem) -> int:
    """How many people cook at the fullest time."""
    return max((change.pairs for change in problem.hands), default=0)
