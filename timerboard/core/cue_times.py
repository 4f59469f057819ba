"""When the cues of a running step fall due from now on, were each done on time."""

from .cook import Cook
from .due import cues_due
from .menu import Step
from .values import MS, Moment

MOST_TICKS = 60
"""Enough for a day of basting every half hour; more could not be told apart on a ribbon."""


def next_cues(cook: Cook, step: Step) -> list[tuple[Moment, str]]:
    """The next falling-due of each cue of a running step, soonest first."""
    return sorted((due.at, due.cue) for due in cues_due(cook, step, cook.lives[step.id]))


def cues_to_come(cook: Cook, step: Step) -> list[Moment]:
    """Every falling-due still to come of a running step; none in its last tenth."""
    life = cook.lives[step.id]
    last = (life.started or 0) + cook.span(step).likely * MS * 9 // 10
    found: list[Moment] = []
    for due in cues_due(cook, step, life):
        cue = step.cue(due.cue)
        every = None if cue is None or cue.every_s is None else max(1, cue.every_s) * MS
        if every is None:
            found.append(due.at)
            continue
        left = MOST_TICKS if cue is None or cue.times is None else min(MOST_TICKS, cue.times - due.number + 1)
        found += [at for n in range(left) if (at := due.at + n * every) <= last]
    return sorted(found)
