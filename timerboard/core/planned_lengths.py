"""How long a plan takes a step to be, when the food has not decided yet."""

from .menu import Dish, Menu, Step
from .survey import Survey
from .values import Seconds

LONG_S = 45 * 60
"""From here on an uncertain step is long. Under it the whole spread is a handful of minutes, which any rest or hold
absorbs; above it being wrong costs a course. Common practice, no source: cooks leave room for a roast, not for rice."""


def planned_length(survey: Survey, step: Step) -> tuple[Seconds, Seconds]:
    """Least and most seconds a plan may give to a step; equal for all but elastic ones.

    Uncertain steps count at their likely length. Long ones that something can wait for (an elastic step after them, or
    a dish that may stand for at least as long as the spread) count at their high end: being done early then costs
    nothing, being done late would cost the meal.
    """
    if step.elastic:
        return step.span.low, step.span.high
    if step.span.likely > LONG_S and _can_wait(survey, step):
        return step.span.high, step.span.high
    return step.span.likely, step.span.likely


def _can_wait(survey: Survey, step: Step) -> bool:
    """True when something after a step can absorb its being done early."""
    followers = survey.followers.get(step.id, [])
    if any(s.elastic for s, _ in followers):
        return True
    dish = survey.menu.dish(step.dish)
    if dish is None or step.id not in dish.last_steps:
        return False
    waits_long = all(link.within_s is None for _, link in followers)
    return waits_long and _hold_is_enough(survey.menu, dish, step)


def _hold_is_enough(menu: Menu, dish: Dish, step: Step) -> bool:
    """A component waits as long as it must; a dish for the table as long as its hold says."""
    return not menu.on_table(dish) or dish.hold_s >= step.span.high - step.span.low
