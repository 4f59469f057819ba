"""One strip per dish that still matters, and one per loose countdown, in the order that the board keeps."""

from collections.abc import Sequence
from typing import NamedTuple

from .alarm_values import Alarm, Answered, Kind, Rank
from .cook import QuickTimer
from .events import PlanAdopted
from .menu import Dish
from .quantities import countdown_words, duration_words
from .scene import Scene, dish_key, timer_key
from .values import MS, Moment
from .view_acts import acts, timer_acts
from .view_focus import Focus, Stage, countdown, counts, focus_of
from .view_head import is_late
from .view_order import reorder
from .view_pull import pull_picture
from .view_record import answered
from .view_ribbon import ribbon, ticks
from .view_strip_words import CLOCK_SHOWN, line, matter
from .view_told import told_lines
from .view_values import Part, RibbonPart, Strip
from .words import MINUTE, upper_first

EATEN_AFTER = 5 * MINUTE
JUST_TAKEN = MINUTE // 60
MARKS = {Kind.OVER: "over", Kind.CHECK: "look", Kind.PULL: "look", Kind.READ: "look", Kind.HEADS_UP: "soon"}


def strips(scene: Scene) -> tuple[Strip, ...]:
    """Every strip in the order to show: one that rings or was just answered leaves its place, all with a new plan."""
    made = [_dish_strip(scene, dish) for dish in scene.cook.menu.dishes if _shown(scene, dish)]
    made += [(timer.ends, _timer_strip(scene, name, timer)) for name, timer in scene.cook.timers.items()]
    pressing = {alarm.id: at for at, alarm in enumerate(scene.alarms)}
    ranked = sorted(made, key=lambda pair: (_pressing(scene, pair[1], pressing), pair[0], pair[1].key))
    planned = _planned_anew(scene)
    moved = {strip.key for _, strip in made if planned or strip.juts or strip.answered}
    by_key = {strip.key: strip for _, strip in ranked}
    return tuple(by_key[key] for key in reorder(scene.extras.order, tuple(by_key), moved))


def _planned_anew(scene: Scene) -> bool:
    """True just after a plan was taken: what hands are wanted for next is then another."""
    for noted in reversed(scene.cook.record):
        if scene.now - noted.event.at >= JUST_TAKEN:
            return False
        if isinstance(noted.event, PlanAdopted) and not noted.undone:
            return True
    return False


def _pressing(scene: Scene, strip: Strip, pressing: dict[str, int]) -> int:
    mine = [pressing[alarm.id] for alarm in scene.calling.get(strip.key, ()) if alarm.rank >= Rank.DUE]
    return min(mine, default=len(pressing))


def _shown(scene: Scene, dish: Dish) -> bool:
    """Not dropped, and not eaten already, but for what still stands out when its limit nears or the cooking is done.

    A component goes once nothing that follows it is still to do.
    """
    ahead = scene.outlook.dishes.get(dish.name)
    if ahead is None:
        return False
    if not ahead.is_ready:
        return True
    if scene.now >= ahead.eaten and _stands_out(scene, dish):
        return True
    if not scene.cook.menu.on_table(dish):
        return any(_still_follows(scene, dish, step) for step in scene.states)
    return scene.now < ahead.eaten + EATEN_AFTER


def _stands_out(scene: Scene, dish: Dish) -> bool:
    """Its food clock is watched: from an hour before its limit, and once nothing is left to be cooked."""
    clock = scene.clocks.get(dish.name)
    if clock is None or clock.limit - scene.now <= CLOCK_SHOWN:
        return clock is not None
    return all(scene.cook.lives[step].ended is not None for step in scene.states)


def _still_follows(scene: Scene, dish: Dish, step: str) -> bool:
    whole = scene.cook.menu.steps[step]
    waits = scene.cook.lives[step].started is None and scene.cook.lives[step].ended is None
    own = {mine.id for mine in dish.steps}
    return waits and any(link.step in own for link in whole.links)


def _need(scene: Scene, dish: Dish, focus: Focus) -> Moment:
    """When hands are next needed for a dish."""
    running = [step for step in scene.steps_of(dish) if scene.runs(step)]
    return min([focus.until, *(due.at for step in running for due in scene.cues[step.id])])


def _dish_strip(scene: Scene, dish: Dish) -> tuple[Moment, Strip]:
    """When hands are next needed for a dish, and its strip."""
    focus, key = focus_of(scene, dish), dish_key(dish.name)
    mine = scene.calling.get(key, ())
    words = _Words(
        dish.name,
        line(scene, dish, focus),
        countdown(scene, focus),
        counts(scene, focus),
        matter(scene, dish, focus),
        _mark(scene, dish, focus, mine),
        answered(scene, dish.name),
    )
    strip = Strip(
        key=key,
        **words._asdict(),
        rank=mine[0].rank if mine else None,
        juts=juts(mine),
        ribbon=ribbon(scene, dish),
        ticks=ticks(scene, dish),
        acts=acts(scene, dish),
        said=words.said(mine),
        told=told_lines(scene, dish),
        pull=pull_picture(scene, focus.step) if focus.step is not None and scene.runs(focus.step) else None,
    )
    return _need(scene, dish, focus), strip


class _Words(NamedTuple):
    """Everything that is read on a strip."""

    name: str
    line: str
    countdown: str
    counts: str
    matter: str
    mark: str
    answered: str = ""

    def said(self, mine: Sequence[Alarm]) -> str:
        """The accessible name: the whole state of the strip, one sentence per thing."""
        counted = f"{self.countdown} {self.counts}" if self.countdown else ""
        calls = [alarm.sentence for alarm in mine if alarm.rank >= Rank.DUE]
        lines = [self.name, self.line.replace(" · ", ", "), counted, self.matter.replace(" · ", ", "), self.mark]
        return ". ".join(upper_first(part) for part in [*lines, *calls, self.answered] if part) + "."


def juts(mine: Sequence[Alarm]) -> bool:
    """True when hands are needed now: something due that was not put off."""
    return any(alarm.rank >= Rank.DUE and alarm.answered is not Answered.PUT_OFF for alarm in mine)


def _mark(scene: Scene, dish: Dish, focus: Focus, mine: Sequence[Alarm]) -> str:
    """The word for a strip's state: shape and word say it, colour comes third."""
    if mine:
        first = mine[0]
        if first.answered is Answered.PUT_OFF:
            return "put off"
        return "danger" if first.rank is Rank.DANGER else MARKS.get(first.kind, "now")
    if focus.stage is Stage.OVER:
        return "over"
    if is_late(scene.outlook.dishes[dish.name].slip_ms) and focus.stage is not Stage.READY:
        return "late"
    return "ready" if focus.stage is Stage.READY else ""


def _timer_strip(scene: Scene, name: str, timer: QuickTimer) -> Strip:
    key, over = timer_key(name), timer.ends <= scene.now
    mine = scene.calling.get(key, ())
    parts = [RibbonPart(Part.RUNNING, timer.set_at, timer.ends, timer.name)]
    if scene.now > timer.ends:
        parts.append(RibbonPart(Part.OVER, timer.ends, scene.now))
    words = _Words(
        upper_first(timer.name),
        "Timer",
        countdown_words(timer.ends - scene.now),
        "over its time" if over else "to its end",
        f"set for {duration_words((timer.ends - timer.set_at) // MS)}",
        "now" if over else "",
    )
    return Strip(
        key=key,
        **words._asdict(),
        rank=mine[0].rank if mine else None,
        juts=juts(mine),
        ribbon=tuple(parts),
        acts=timer_acts(name),
        said=words.said(mine),
    )
