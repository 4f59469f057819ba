"""What a choice does to a cook: it is noted, and a height above sea makes boiled steps longer than written."""

from .altitude import boiled_longer, is_boiled, step_by_step
from .choices import HEIGHT, chosen_key, times_longer, why_not
from .draft import Draft
from .events import SettingChosen
from .menu import Step


def setting_chosen(draft: Draft, event: SettingChosen) -> str:
    """The newest choice counts."""
    why = why_not(frozenset(dish.name for dish in draft.menu.dishes), event.setting, event.value, event.dish)
    if why:
        return why
    draft.chosen = {**draft.chosen, chosen_key(event.setting, event.dish): event.value}
    if event.setting == HEIGHT:
        at_the_height(draft)
    return ""


def at_the_height(draft: Draft) -> None:
    """Every boiled step at the length of the chosen height, counted from what was written; nothing without a choice."""
    if HEIGHT not in draft.chosen:
        return
    times = times_longer(draft.chosen[HEIGHT])
    draft.menu = step_by_step(draft.menu, lambda step: _step(draft, step, times))
    draft.followers = None


def _step(draft: Draft, step: Step, times: float) -> Step:
    written = draft.written.get(step.id, step)
    if not is_boiled(written):
        return step
    draft.written = {**draft.written, step.id: written}
    return boiled_longer(written, times)
