"""What events do to whole dishes."""

from .draft import Draft
from .engine import What
from .events import DishAdded, DishDropped
from .fold_choices import at_the_height
from .menu import Menu


def dish_dropped(draft: Draft, event: DishDropped) -> str:
    """A dish is struck off: its places and hands are free, and what others needed from it is bought."""
    dish = draft.menu.dish(event.dish)
    if dish is None:
        return "there is no such dish"
    if event.dish in draft.dropped:
        return "it was dropped already"
    draft.dropped = draft.dropped | {event.dish}
    for step in dish.steps:
        draft.move(step.id, What.DROPPED)
    for step in dish.steps:
        draft.free_followers(step.id, event.at)
    return ""


def dish_added(draft: Draft, event: DishAdded) -> str:
    """A dish comes late. A name or a step that is there already forbids it."""
    if draft.menu.dish(event.dish.name) is not None:
        return "there is a dish of that name already"
    clash = next((step.id for step in event.dish.steps if step.id in draft.lives), None)
    if clash is not None:
        return f"there is a step {clash} already"
    # Built anew and not copied: a copy would keep the old menu's remembered steps.
    fields = {name: getattr(draft.menu, name) for name in Menu.model_fields}
    draft.menu = Menu(**{**fields, "dishes": (*draft.menu.dishes, event.dish)})
    draft.followers = None
    at_the_height(draft)
    draft.add(event.dish, event.at)
    return ""
