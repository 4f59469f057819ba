"""When the cues of a running step fall due from now on, were each done on time."""

from collections.abc import Iterable

from .cook import Cook
from .due import CueDue
from .menu import Step
from .values import MS, Moment

MOST_TICKS = 60
"""Enough for a day of basting every half hour; more could not be told apart on a ribbon."""


def cues_to_come(cook: Cook, step: Step, cues: Iterable[CueDue]) -> list[Moment]:
    """Every falling-due still to come of a running step, from the next of each cue on; none in its last tenth."""
    last = (cook.lives[step.id].started or 0) + cook.span(step).likely * MS * 9 // 10
    found: list[Moment] = []
    for due in cues:
        cue = step.cue(due.cue)
        every = None if cue is None or cue.every_s is None else max(1, cue.every_s) * MS
        if cue is None or every is None:
            found.append(due.at)
            continue
        left = MOST_TICKS if cue.times is None else min(MOST_TICKS, cue.times - due.number + 1)
        found += range(due.at, min(last + 1, due.at + left * every), every)
    return found
