"""The top line: time of day, what is eaten when, and whether it will be."""

from .menu import Place
from .plan import Forecast, HeatSetting
from .scene import Scene
from .values import MS
from .view_values import Head
from .words import MINUTE, in_words, lower_first, minutes_words

FULL_MARGIN = 15 * MINUTE
"""Time in hand that fills the bar: more than a quarter of an hour is nothing to watch."""


def head(scene: Scene) -> Head:
    """The whole top line."""
    cook, ahead = scene.cook, scene.outlook
    return Head(
        clock=scene.clock(scene.now),
        title=f"{cook.menu.title} for {cook.menu.serves}",
        eat=f"Eat at {scene.day_clock(cook.eat_at)} · {_until_eating(scene)}",
        margin=margin_words(scene),
        margin_share=min(1.0, max(0.0, ahead.margin_ms / FULL_MARGIN)),
        late=is_late(ahead.margin_ms),
        chance="" if scene.extras.forecast is None or ahead.all_ready else chance_words(scene.extras.forecast),
        tightest=f"tightest: {lower_first(ahead.tightest)}" if ahead.tightest and not is_late(ahead.margin_ms) else "",
        places=tuple(words for place in cook.menu.places if (words := _place(scene, place))),
    )


def is_late(slip_ms: int) -> bool:
    """A meal is late from a whole minute on: tapping half a minute after the call is no lateness at any table."""
    return slip_ms <= -MINUTE


def margin_words(scene: Scene) -> str:
    """'9 min in hand', '8 min late: mashed potatoes', 'everything is ready'.

    Under a minute is 'just in time': the forecast beside it may well be ten in ten, and 'none in hand' denied that.
    """
    ahead = scene.outlook
    if ahead.all_ready:
        return "everything is ready" if ahead.dishes else "no dishes left"
    if is_late(ahead.margin_ms):
        return f"{minutes_words(-ahead.margin_ms)} late: {lower_first(ahead.tightest)}"
    if ahead.margin_ms < MINUTE:
        return "just in time"
    return f"{minutes_words(ahead.margin_ms)} in hand"


def chance_words(forecast: Forecast) -> str:
    """Tenths, rounded down: 'on time 8 in 10'. Ten in ten is only said when no simulated cook in 200 was late."""
    return f"on time {10 if forecast.on_time >= 0.995 else min(9, int(forecast.on_time * 10))} in 10"


def _until_eating(scene: Scene) -> str:
    left = scene.cook.eat_at - scene.now
    return "now" if -MINUTE < left <= 0 else in_words(left)


def _place(scene: Scene, place: Place) -> str:
    if place.heat is not None:
        return _heated(scene, place)
    if place.room is None:
        return ""
    used = sum(
        use.parts
        for step in scene.cook.menu.steps.values()
        if step.id in scene.states and scene.runs(step)
        for use in step.uses
        if use.place == place.name
    )
    return f"{place.name} {used} of {place.room}"


def _heated(scene: Scene, place: Place) -> str:
    """'oven 200 °C, 220 °C at 18:03'; 'oven off, 160 °C at 14:20'; 'oven heating to 200 °C'."""
    heat = scene.cook.heats.get(place.name)
    words = f"{place.name} off" if heat is None else f"{place.name} {scene.heat(heat.heat_c)}"
    coming = next_setting(scene, place.name)
    if coming is None or (heat is not None and coming.heat_c == heat.heat_c):
        return words
    at = setting_at(scene, coming)
    return f"{words}, {scene.heat(coming.heat_c)} {'now' if at <= scene.now else 'at ' + scene.day_clock(at)}"


def settings_left(scene: Scene) -> list[HeatSetting]:
    """The plan's heat settings that nobody has done and that a step to come still wants."""
    plan, cook = scene.cook.plan, scene.cook
    if plan is None:
        return []
    return [
        setting
        for setting in plan.settings
        if setting.id not in cook.settings_done
        and setting.for_step in scene.states
        and cook.lives[setting.for_step].started is None
        and cook.lives[setting.for_step].ended is None
    ]


def next_setting(scene: Scene, place: str) -> HeatSetting | None:
    """What a place is set to next, or None."""
    coming = [setting for setting in settings_left(scene) if setting.place == place]
    return min(coming, key=lambda setting: setting.at, default=None)


def setting_at(scene: Scene, setting: HeatSetting) -> int:
    """When to set it: as long before the predicted start of its step as the plan had it."""
    placed = scene.cook.plan.of(setting.for_step) if scene.cook.plan else None
    if placed is None:
        return setting.at * MS
    slipped = scene.outlook.steps[setting.for_step].start - placed.start * MS
    return setting.at * MS + max(0, slipped)
