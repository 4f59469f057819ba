"""What a practised cook does when a joint is early or the guests are late. All of it common practice, no source."""

from .cook import Cook
from .menu import Dish
from .outlook import Outlook
from .quantities import celsius_words
from .values import MS, Seconds
from .words import sentence_list, the

A_WHILE_S, LONG_S, TOO_LONG_S = 30 * 60, 90 * 60, 5 * 3600
"""Until when a joint that is early only rests longer, is kept warm, or is boxed; common practice, no source."""

WAITS_FOR_NOBODY_S = 15 * 60
"""A dish that may stand no longer is not begun before people are there; common practice, no source."""

GUESTS_LATE_S = 10 * 60
"""By less nobody speaks of late guests."""

COOKED_WHILE_THEY_SIT_S = 20 * 60
"""What takes no longer can wait until people are there without them waiting for it; common practice, no source."""


def joint_early(early_s: Seconds, units: str) -> str:
    """What to do with a joint that is ready by so much too early."""
    if early_s < A_WHILE_S:
        return "let it rest longer, loosely covered"
    if early_s < LONG_S:
        low, high = celsius_words(65, units), celsius_words(95, units)
        return f"rest it 20-30 min uncovered so that it stops cooking, then cover it, or hold it at {low} to {high}"
    if early_s <= TOO_LONG_S:
        return f"wrap it in towels in a warmed box and read it: it must stay above {celsius_words(63, units)}"
    return "carve it, chill it at once, and reheat it in stock"


def early_joints(cook: Cook, seen: Outlook) -> tuple[str, ...]:
    """'The pork shoulder is early: …' for every joint that would stand longer than it may; a joint has a pull."""
    said = []
    for dish in cook.menu.dishes:
        own = seen.dishes.get(dish.name)
        if own is None or own.hold_left_ms is None or own.hold_left_ms >= 0 or not _is_joint(dish):
            continue
        said.append(f"{the(dish.name)} is early: {joint_early(-own.hold_left_ms // MS, cook.menu.units)}")
    return tuple(said)


def guests_late(cook: Cook, seen: Outlook) -> str:
    """Once the meal was moved well behind its plan: what not to begin, and what to leave in the heat; else empty.

    A meal that was moved because the kitchen is late has no such time to give away: nothing is said then.
    """
    moved_ms = 0 if cook.plan is None else cook.eat_at - cook.plan.eat_at * MS
    if min(moved_ms, seen.margin_ms) < GUESTS_LATE_S * MS:
        return ""
    waiting = [the(d.name) for d in cook.menu.dishes if d.name not in cook.dropped and _waits_for_people(cook, d)]
    if not waiting:
        return "leave what is in the heat as it is"
    return f"do not begin {sentence_list(waiting)} until people are there; leave the rest in the heat"


def _is_joint(dish: Dish) -> bool:
    return any(step.pull_at_c is not None for step in dish.steps)


def _waits_for_people(cook: Cook, dish: Dish) -> bool:
    """Nothing holds it once it is made, and its last steps are short and have not begun."""
    if dish.hold_s > WAITS_FOR_NOBODY_S or not cook.menu.on_table(dish):
        return False
    return all(
        cook.lives[step].started is None and cook.span(cook.menu.steps[step]).low <= COOKED_WHILE_THEY_SIT_S
        for step in dish.last_steps
    )
