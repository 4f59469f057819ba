"""Until when a step may begin after what it follows: its `within`."""

from .cook import Cook, StepState
from .menu import Step
from .values import MS, Moment


def begin_by(cook: Cook, step: Step) -> Moment | None:
    """The last moment to begin a step without leaving food that has ended for too long; None: nothing says so yet.

    One limit for several links counts from the latest of their ends, and so only once all have ended (the menu format:
    'between the end of the latest step it follows and its start'); limits of their own count each from its own.
    """
    lives = {link.step: cook.lives.get(link.step) for link in step.links}
    ends = {name: life.ended for name, life in lives.items() if life and life.state is not StepState.DROPPED}
    limits = {link.within_s for link in step.links}
    if len(limits) == 1:
        within = limits.pop()
        known = [end for end in ends.values() if end is not None]
        return max(known) + within * MS if within is not None and known and len(known) == len(ends) else None
    each = ((ends.get(link.step), link.within_s) for link in step.links)
    return min((end + within * MS for end, within in each if end is not None and within is not None), default=None)
