"""Until when a step may begin after what it follows: its `within`."""

from .cook import Cook, StepState
from .menu import Step
from .values import MS, Moment, Seconds


def begin_by(cook: Cook, step: Step) -> Moment | None:
    """The last moment to begin a step without leaving food that has ended for too long; None: nothing says so yet.

    The step's own limit counts from the latest of what it follows, and so only once all have ended (the menu format:
    'between the end of the latest step it follows and its start'); the limit of one entry counts from that one's end.
    """
    lives = {link.step: cook.lives.get(link.step) for link in step.links}
    ends = {name: life.ended for name, life in lives.items() if life and life.state is not StepState.DROPPED}
    shared = shared_within(step)
    each = [(ends.get(link.step), link.within_s) for link in step.links if link.own or shared is None]
    limits = [end + within * MS for end, within in each if end is not None and within is not None]
    known = [end for end in ends.values() if end is not None]
    if shared is not None and known and len(known) == len(ends):
        limits.append(max(known) + shared * MS)
    return min(limits, default=None)


def shared_within(step: Step) -> Seconds | None:
    """The most time after the latest of several steps that it follows; None where each link speaks for itself.

    It is what the step says for all of `after`: entries with a limit of their own keep that one as well.
    """
    limits = {link.within_s for link in step.links if not link.own}
    return limits.pop() if len(step.links) > 1 and len(limits) == 1 else None
