"""The one time axis that all strips share."""

from datetime import datetime
from zoneinfo import ZoneInfo

from .cook import Cook
from .scene import Scene
from .values import Moment
from .view_values import Axis
from .words import HOUR, MINUTE

BEFORE = 10 * MINUTE
PAST_MEAL = 12 * MINUTE
AFTER_MEAL = 30 * MINUTE
NEAR = 90 * MINUTE
FAR_WINDOW = 3 * HOUR
MOST_LABELS = 8
STEPS = (5 * MINUTE, 10 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR)


def axis(scene: Scene) -> Axis:
    """From a little before now to a little past the meal; three hours when the meal is far, with eating beyond it."""
    now, eat = scene.now, scene.cook.eat_at
    start, end = now - BEFORE, now + FAR_WINDOW
    if eat <= now + NEAR:
        end = max(eat, last_needed(scene), now + PAST_MEAL) + PAST_MEAL
    return Axis(start, end, now, eat, labels(scene.cook, start, end))


def last_needed(scene: Scene) -> Moment:
    """When the last dish gets ready or is eaten, at most half an hour after the meal: what is near needs the room."""
    ends = [max(dish.ready_high, dish.eaten) for dish in scene.outlook.dishes.values() if not dish.is_ready]
    return min(max(ends, default=scene.now), max(scene.now, scene.cook.eat_at) + AFTER_MEAL)


def labels(cook: Cook, start: Moment, end: Moment) -> tuple[tuple[Moment, str], ...]:
    """Round civil times inside the axis, at most eight, with the words of the clock."""
    step = next((s for s in STEPS if (end - start) // s <= MOST_LABELS), STEPS[-1])
    zone = ZoneInfo(cook.zone)
    found = []
    at = _next_round(start, cook.offset_ms, zone, step)
    while at <= end:
        local = datetime.fromtimestamp((at + cook.offset_ms) // 1000, zone)
        found.append((at, f"{local:%H:%M}"))
        at = _next_round(at + 1, cook.offset_ms, zone, step)
    return tuple(found)


def _next_round(at: Moment, offset_ms: int, zone: ZoneInfo, step: int) -> Moment:
    """The first moment at or after `at` whose civil time is a multiple of `step` (as the clocks stand then)."""
    shift = datetime.fromtimestamp((at + offset_ms) // 1000, zone).utcoffset()
    civil = at + offset_ms + (round(shift.total_seconds()) * 1000 if shift is not None else 0)
    return at + (-civil) % step
