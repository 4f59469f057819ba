"""A step of a menu as a planner sees it, on an axis of whole seconds."""

from .begin_by import shared_within
from .cue_slots import cue_slots
from .menu import Step
from .plan import After, HandsPiece, Task
from .planned_lengths import planned_length
from .survey import Survey
from .values import Seconds


def task_of(survey: Survey, step: Step, eat_at: Seconds) -> Task:
    """The task of a step for a meal at `eat_at`, in the order the menu gives, at its planned length."""
    least, most = planned_length(survey, step)
    after, within = _after(step)
    minded = step.work.throughout or step.hazard is not None
    return Task(
        id=step.id,
        dish=step.dish,
        do=step.do,
        least_s=least,
        most_s=most,
        likely_s=step.span.likely,
        span=step.span,
        elastic=step.elastic,
        uses=_uses(step),
        heat_c=step.heat_c,
        within_c=step.heat_within_c,
        hands=() if minded else _pieces(step),
        throughout=step.work.throughout,
        attend=step.hazard is not None,
        person=step.person,
        cues=cue_slots(survey, step, least),
        shut_s=step.shut_s,
        after=after,
        within_s=within,
        earliest=None if step.ahead_s is None else eat_at - step.ahead_s,
        live_heat=_live(survey, step),
    )


def _after(step: Step) -> tuple[tuple[After, ...], Seconds | None]:
    """Links, and the most time after the latest of them where several share one `within`."""
    shared = shared_within(step)
    after = tuple(
        After(task=link.step, wait_s=link.wait_s, within_s=link.within_s if link.own or shared is None else None)
        for link in step.links
    )
    return after, shared


def _uses(step: Step) -> tuple[tuple[str, int], ...]:
    parts: dict[str, int] = {}
    for use in step.uses:
        parts[use.place] = parts.get(use.place, 0) + use.parts
    return tuple(parts.items())


def _pieces(step: Step) -> tuple[HandsPiece, ...]:
    start, end = step.work.start_s, step.work.end_s
    pieces = []
    if start:
        pieces.append(HandsPiece(offset_s=0, length_s=start))
    if end:
        pieces.append(HandsPiece(offset_s=end, length_s=end, from_end=True))
    return tuple(pieces)


def _live(survey: Survey, step: Step) -> bool:
    """A hob or hot oil that burns: not for hours with nobody there."""
    return step.hazard is not None or any(use.place in survey.hearths for use in step.uses)
