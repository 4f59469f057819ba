"""The latest place in time where one more step fits a timetable.

A step is pushed earlier by whatever is in its way, each time just past it, until nothing is: every push is needed for
what was in the way, so no later fit is passed over (for elastic steps: none with the same end).
"""

from dataclasses import dataclass

from timerboard.core.busy import minded
from timerboard.core.check_places import agree
from timerboard.core.plan import CueSlot, Task
from timerboard.core.values import Seconds

from .timetable import EVER, Load, Timetable


@dataclass(frozen=True, slots=True)
class Fit:
    """Where a step goes."""

    start: Seconds
    end: Seconds
    cues: dict[str, Seconds]


def latest_fit(table: Timetable, task: Task, start_by: Seconds, end_by: Seconds, not_before: Seconds) -> Fit | None:
    """The latest fit that starts by `start_by`, ends by `end_by` and does not start before `not_before`."""
    least, most = _least(task), max(task.most_s, _least(task))
    end = min(end_by, start_by + most)
    start = min(start_by, end - least)
    while start >= not_before:
        cues: dict[str, Seconds] = {}
        start_max, end_max = _in_the_way(table, task, start, end, cues)
        if start_max is None and end_max is None:
            return Fit(start, end, cues)
        if end_max is not None:
            end = min(end, end_max)
        start = min(start if start_max is None else start_max, end - least)
        end = min(end, start + most)
    return None


def _least(task: Task) -> Seconds:
    """Long enough for the hands at both ends where the length is the cook's."""
    if not task.elastic or minded(task):
        return task.least_s
    return max(task.least_s, min(task.most_s, sum(p.length_s for p in task.hands)))


Push = tuple[Seconds | None, Seconds | None]
"""Latest start and latest end that would get past what is in the way; None: not pushed."""

FREE: Push = (None, None)


def _in_the_way(table: Timetable, task: Task, start: Seconds, end: Seconds, cues: dict[str, Seconds]) -> Push:
    """The first thing in the way. Fills `cues` when there is none."""
    push = _places(table, task, start, end)
    if push == FREE and (task.hands or minded(task)):
        push = _hands(table, task, start, end)
    if push == FREE and task.live_heat:
        push = next(((None, a) for a, b in table.closed if start < b and a < end), FREE)
    if push == FREE and table.minds_doors and task.uses:
        push = _doors(table, task, start, end)
    if push == FREE and task.cues:
        push = _cues(table, task, start, end, cues)
    return push


def _places(table: Timetable, task: Task, start: Seconds, end: Seconds) -> Push:
    for name, parts in task.uses:
        load = table.rooms.get(name)
        if load is not None and (full := load.full_from(start, end, parts)) is not None:
            return None, full
        if task.heat_c is None or name not in table.heats:
            continue
        place = table.heated[name]
        for other_start, other_end, other in table.heats[name]:
            if agree(task, other) or other.heat_c is None:
                continue
            until = other_start - place.change_s(task.heat_c, other.heat_c)
            if end > until and start < other_end + place.change_s(other.heat_c, task.heat_c):
                return None, until
    return FREE


def _loads(table: Timetable, task: Task) -> list[Load]:
    return [table.hands] if task.person is None else [table.hands, table.people[task.person]]


def _hands(table: Timetable, task: Task, start: Seconds, end: Seconds) -> Push:
    for load in _loads(table, task):
        if minded(task):
            if (full := load.full_from(start, end, 1)) is not None:
                return None, full
            continue
        for piece in task.hands:
            at = end - piece.offset_s if piece.from_end else start + piece.offset_s
            full = load.full_from(at, at + piece.length_s, 1)
            if full is not None:
                back = at + piece.length_s - full
                return (None, end - back) if piece.from_end else (start - back, None)
    if table.by_person and task.person is None and minded(task):
        return None, _somebody(table, start, end)
    return FREE


def _somebody(table: Timetable, start: Seconds, end: Seconds) -> Seconds | None:
    """None when one person is free for all of it; else the latest end that gets past what keeps somebody busy."""
    full = [load.full_from(start, end, 1) for load in (table.people[n] for n in table.unnamed())]
    return None if None in full else max(at for at in full if at is not None)


def _doors(table: Timetable, task: Task, start: Seconds, end: Seconds) -> Push:
    names = {name for name, _ in task.uses}
    for shut, until, dish, doors in table.shuts:
        if dish == task.dish or not doors & names:
            continue
        if shut < start < until:
            return shut, None
        if shut < end < until:
            return None, shut
    if task.shut_s:
        for at, dish, doors in table.opens:
            if dish != task.dish and doors & names and start < at < start + task.shut_s:
                return at - task.shut_s, None
    return FREE


def _cues(table: Timetable, task: Task, start: Seconds, end: Seconds, cues: dict[str, Seconds]) -> Push:
    """Each cue where it falls due, or as near before the end of its play as hands and doors allow."""
    own = [] if minded(task) else _own_pieces(task, start, end)
    for slot in task.cues:
        first = max(start, start + slot.offset_s - slot.play_s)
        last = min(start + task.cue_by_s(slot), end - slot.work_s)
        due = min(start + slot.offset_s, last)
        at = due if _latest_cue(table, task, slot, due, own) == due else _latest_cue(table, task, slot, last, own)
        if at < first:
            return start - max(1, first - at), None
        cues[slot.id] = at
        if slot.work_s:
            own.append((at, at + slot.work_s))
    return FREE


def _own_pieces(task: Task, start: Seconds, end: Seconds) -> list[tuple[Seconds, Seconds]]:
    begins = [end - p.offset_s if p.from_end else start + p.offset_s for p in task.hands]
    return [(at, at + piece.length_s) for at, piece in zip(begins, task.hands, strict=True)]


def _latest_cue(
    table: Timetable, task: Task, slot: CueSlot, at: Seconds, own: list[tuple[Seconds, Seconds]]
) -> Seconds:
    """The latest moment up to `at` with hands for a cue and no door kept shut against it."""
    for _ in range(200):
        before = at
        if slot.work_s:
            for load in _loads(table, task):
                full = load.full_from(at, at + slot.work_s, 1)
                if full is not None:
                    at = min(at, full - slot.work_s)
            for begin, until in own:
                if begin < at + slot.work_s and at < until:
                    at = begin - slot.work_s
        for shut, until, dish, doors in table.shuts if slot.opens else ():
            if dish != task.dish and doors & set(slot.opens) and shut < at < until:
                at = shut
        if at == before:
            return at
    return -EVER
