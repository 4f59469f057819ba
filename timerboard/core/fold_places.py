"""What events do to heated places: set, seen to be hot, or told by food going in."""

from .cook import PlaceHeat
from .draft import Draft
from .events import CueDone
from .plan import HeatSetting
from .readiness import taken_heat
from .values import Moment

CHECKED = "?"
"""Ends the name of a place (and of a setting) when the heat was checked, not set."""


def setting_done(draft: Draft, event: CueDone) -> str:
    """'@oven': the place was set; '@oven?': it was seen to be hot, which says that it was set as well."""
    setting = _setting(draft, event.cue)
    if setting is None:
        return "the plan has no such setting"
    known = draft.heats.get(setting.place)
    if event.step.endswith(CHECKED):
        draft.settings_done.setdefault(setting.id, event.at)
        draft.settings_done[setting.id + CHECKED] = event.at
        since = known.set_at if known is not None and known.heat_c == setting.heat_c else event.at
        draft.heats[setting.place] = PlaceHeat(setting.heat_c, since, event.at)
    else:
        draft.settings_done[setting.id] = event.at
        draft.heats[setting.place] = PlaceHeat(setting.heat_c, event.at)
    return ""


def _setting(draft: Draft, name: str) -> HeatSetting | None:
    return next((s for s in draft.plan.settings if s.id == name), None) if draft.plan else None


def heated_by(draft: Draft, step_id: str, at: Moment) -> None:
    """A person put food in: its place is taken to be as hot as the step wants."""
    step = draft.menu.steps[step_id]
    for use in step.uses:
        place = draft.menu.place(use.place)
        heat = taken_heat(draft.heats, place, step, at) if place is not None else None
        if heat is not None:
            draft.heats[use.place] = heat
