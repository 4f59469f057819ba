"""One strip per dish that still matters, and one per loose countdown, in the order that the board keeps."""

from dataclasses import replace

from .alarm_values import Alarm, Answered, Kind, Rank
from .cook import QuickTimer
from .cue_times import next_cues
from .menu import Dish
from .quantities import countdown_words
from .scene import Scene
from .values import MS, Moment
from .view_acts import acts, timer_acts
from .view_focus import Focus, Stage, countdown, counts, focus_of
from .view_order import reorder
from .view_record import answered
from .view_ribbon import ribbon, ticks
from .view_strip_words import line, matter
from .view_values import Part, RibbonPart, Strip
from .words import MINUTE, length_words, upper_first

EATEN_AFTER = 5 * MINUTE
MARKS = {Kind.OVER: "over", Kind.CHECK: "look", Kind.PULL: "look", Kind.READ: "look", Kind.HEADS_UP: "soon"}


def strips(scene: Scene) -> tuple[Strip, ...]:
    """Every strip in the order to show: only one that rings or was just answered leaves its place."""
    made = [(_need(scene, dish), _dish_strip(scene, dish)) for dish in scene.cook.menu.dishes if _shown(scene, dish)]
    made += [(timer.ends, _timer_strip(scene, name, timer)) for name, timer in scene.cook.timers.items()]
    pressing = {alarm.id: at for at, alarm in enumerate(scene.alarms)}
    ranked = sorted(made, key=lambda pair: (_pressing(scene, pair[1], pressing), pair[0], pair[1].key))
    moved = {strip.key for _, strip in made if strip.juts or strip.answered}
    by_key = {strip.key: strip for _, strip in ranked}
    return tuple(by_key[key] for key in reorder(scene.extras.order, tuple(by_key), moved))


def dish_key(dish: str) -> str:
    """The key of a dish's strip."""
    return f"dish:{dish}"


def timer_key(timer: str) -> str:
    """The key of a loose countdown's strip."""
    return f"timer:{timer}"


def alarms_of(scene: Scene, key: str) -> list[Alarm]:
    """The calls that belong to a strip, most pressing first."""
    return [alarm for alarm in scene.alarms if alarm.rank is not Rank.NOTE and strip_of(scene, alarm) == key]


def strip_of(scene: Scene, alarm: Alarm) -> str:
    """The key of the strip an alarm calls from, '' when it is nobody's."""
    if alarm.kind is Kind.TIMER:
        return timer_key(alarm.cue or alarm.food)
    step = scene.cook.step(alarm.step) if alarm.step is not None else None
    dish = alarm.dish or (step.dish if step is not None else "")
    return dish_key(dish) if dish else ""


def _pressing(scene: Scene, strip: Strip, pressing: dict[str, int]) -> int:
    mine = [pressing[alarm.id] for alarm in alarms_of(scene, strip.key) if alarm.rank >= Rank.DUE]
    return min(mine, default=len(pressing))


def _shown(scene: Scene, dish: Dish) -> bool:
    """Not dropped, and not eaten already. A component goes once nothing that follows it is still to do."""
    ahead = scene.outlook.dishes.get(dish.name)
    if ahead is None:
        return False
    if not ahead.is_ready:
        return True
    if not scene.cook.menu.on_table(dish):
        return any(_still_follows(scene, dish, step) for step in scene.states)
    return scene.now < ahead.eaten + EATEN_AFTER


def _still_follows(scene: Scene, dish: Dish, step: str) -> bool:
    whole = scene.cook.menu.steps[step]
    waits = scene.cook.lives[step].started is None and scene.cook.lives[step].ended is None
    own = {mine.id for mine in dish.steps}
    return waits and any(link.step in own for link in whole.links)


def _need(scene: Scene, dish: Dish) -> Moment:
    """When hands are next needed for a dish."""
    focus = focus_of(scene, dish)
    running = [step for step in scene.steps_of(dish) if scene.runs(step)]
    return min([focus.until, *(at for step in running for at, _ in next_cues(scene.cook, step))])


def _dish_strip(scene: Scene, dish: Dish) -> Strip:
    focus, key = focus_of(scene, dish), dish_key(dish.name)
    mine = alarms_of(scene, key)
    strip = Strip(
        key=key,
        name=dish.name,
        line=line(scene, dish, focus),
        countdown=countdown(scene, focus),
        counts=counts(scene, focus),
        matter=matter(scene, dish, focus),
        rank=mine[0].rank if mine else None,
        juts=juts(mine),
        mark=_mark(scene, dish, focus, mine),
        ribbon=ribbon(scene, dish),
        ticks=ticks(scene, dish),
        acts=acts(scene, dish),
        answered=answered(scene, dish.name),
    )
    return _with_words(strip, mine)


def juts(mine: list[Alarm]) -> bool:
    """True when hands are needed now: something due that was not put off."""
    return any(alarm.rank >= Rank.DUE and alarm.answered is not Answered.PUT_OFF for alarm in mine)


def _mark(scene: Scene, dish: Dish, focus: Focus, mine: list[Alarm]) -> str:
    """The word for a strip's state: shape and word say it, colour comes third."""
    if mine:
        first = mine[0]
        if first.answered is Answered.PUT_OFF:
            return "put off"
        return "danger" if first.rank is Rank.DANGER else MARKS.get(first.kind, "now")
    if focus.stage is Stage.OVER:
        return "over"
    if scene.outlook.dishes[dish.name].slip_ms < 0 and focus.stage is not Stage.READY:
        return "late"
    return "ready" if focus.stage is Stage.READY else ""


def _timer_strip(scene: Scene, name: str, timer: QuickTimer) -> Strip:
    key, over = timer_key(name), timer.ends <= scene.now
    mine = alarms_of(scene, key)
    parts = [RibbonPart(Part.RUNNING, timer.set_at, timer.ends, timer.name)]
    if scene.now > timer.ends:
        parts.append(RibbonPart(Part.OVER, timer.ends, scene.now))
    strip = Strip(
        key=key,
        name=upper_first(timer.name),
        line="Timer",
        countdown=countdown_words(timer.ends - scene.now),
        counts="over its time" if over else "to its end",
        matter=f"set for {length_words((timer.ends - timer.set_at) // MS * MS)}",
        rank=mine[0].rank if mine else None,
        juts=juts(mine),
        mark="now" if over else "",
        ribbon=tuple(parts),
        acts=timer_acts(name),
    )
    return _with_words(strip, mine)


def _with_words(strip: Strip, mine: list[Alarm]) -> Strip:
    """The strip with its accessible name: its whole state in one sentence per thing."""
    counted = f"{strip.countdown} {strip.counts}" if strip.countdown else ""
    calls = [alarm.sentence for alarm in mine if alarm.rank >= Rank.DUE]
    parts = [strip.name, strip.line.replace(" · ", ", "), counted, strip.matter.replace(" · ", ", "), strip.mark]
    return replace(strip, said=". ".join(part for part in [*parts, *calls, strip.answered] if part) + ".")
