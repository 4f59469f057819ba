"""The two lines of a strip: what is going on, and what of it matters most."""

from .alarm_words import where
from .cook import StepState, cores_read
from .due import batch_now
from .engine import LIFT, ends_of
from .heat_values import PullForecast
from .heat_words import pull_line
from .hot_oil import STRIP_RULE, is_hot_oil, oil_words
from .menu import Dish, Step
from .plan_order import Why
from .readiness import unended
from .safety_alarms import clock_line
from .scene import Scene
from .to_the_table import is_served
from .values import Moment
from .view_focus import Focus, Stage, waits_for_place
from .view_head import is_late
from .words import (
    MINUTE,
    ago_words,
    dots,
    in_words,
    length_words,
    lower_first,
    minutes_words,
    sentence_list,
    the,
    upper_first,
)

START_SOON = 10 * MINUTE
CUE_SOON = 20 * MINUTE
CLOCK_SHOWN = 60 * MINUTE
"""A food clock is shown from an hour before its limit on, and from the meal on."""


def line(scene: Scene, dish: Dish, focus: Focus) -> str:
    """'Roast · oven · core 71 °C → 80 °C', 'Waiting for the oven · 220 °C at 18:03', 'Start in 2 min · hob'."""
    step = focus.step
    if step is None:
        return "On the table" if is_served(scene.cook, dish) else dots("Ready", dish.keep or "")
    if focus.stage is not Stage.WAITS:
        more = f"and {focus.others} more" if focus.others else ""
        return dots(
            upper_first(step.do),
            _batch_words(scene, step),
            where(step),
            core_words(scene, step),
            more,
        )
    return _waiting_line(scene, step, focus)


def _batch_words(scene: Scene, step: Step) -> str:
    """'batch 2 of 4'."""
    found = batch_now(scene.cook, step, scene.now)
    return "" if found is None else f"batch {found.batch.number} of {found.batch.of}"


def core_words(scene: Scene, step: Step) -> str:
    """'core 71 °C → 80 °C'; without a reading 'core to 80 °C'."""
    if step.pull_at_c is None:
        return ""
    cores = [r.celsius for r in scene.cook.lives[step.id].readings if r.of == "core"]
    target = scene.heat(step.pull_at_c)
    return f"core {scene.heat(cores[-1])} → {target}" if cores else f"core to {target}"


def _waiting_line(scene: Scene, step: Step, focus: Focus) -> str:
    behind = scene.outlook.steps[step.id].behind
    if waits_for_place(scene, step):
        at = scene.day_clock(focus.until)
        soon = focus.until > scene.now
        heat = f"{scene.heat(step.heat_c)} at {at}" if step.heat_c is not None else f"free at {at}" if soon else "full"
        return dots(f"Waiting for {the(step.uses[0].place)}", heat)
    if focus.until <= scene.now:
        return dots("Start now", where(step)) if _may_start(scene, step) else dots("Waiting", where(step))
    if focus.until - scene.now <= START_SOON:
        return dots(f"Start {in_words(focus.until - scene.now)}", where(step))
    if behind is not None and behind.why is Why.HANDS:
        return "Waiting for hands"
    return "Later"


def _may_start(scene: Scene, step: Step) -> bool:
    return scene.states[step.id] is StepState.READY


def matter(scene: Scene, dish: Dish, focus: Focus) -> str:
    """The one thing that matters most beside the countdown; on the table, only how long it has been out of the heat."""
    if is_served(scene.cook, dish):
        return clock_words_of(scene, dish)
    if focus.step is None:
        return dots(_hold_words(scene, dish), clock_words_of(scene, dish))
    if focus.stage is Stage.WAITS:
        return _matter_of_waiting(scene, dish, focus.step, focus.until)
    words = _matter_of_running(scene, dish, focus.step, focus.stage)
    return dots(_oil(scene, focus.step), words) if is_hot_oil(focus.step) else words


def _oil(scene: Scene, step: Step) -> str:
    """'oil 172 °C: never leave it, no water', in one piece: a narrow strip cuts no more than what comes after it."""
    oil = oil_words(step, scene.cook.lives[step.id], scene.cook.menu.units)
    return f"{oil}: {STRIP_RULE}" if oil else STRIP_RULE


def clock_words_of(scene: Scene, dish: Dish) -> str:
    """'out of the heat 1 h 20 min, limit 20:05', once the limit is near enough to matter or the meal has begun."""
    clock = scene.clocks.get(dish.name)
    if clock is None or (clock.limit - scene.now > CLOCK_SHOWN and scene.now < scene.cook.eat_at):
        return ""
    return clock_line(scene.cook, clock, scene.now)


def _hold_words(scene: Scene, dish: Dish) -> str:
    left = scene.outlook.dishes[dish.name].hold_left_ms
    if left is None:
        return ""
    ready = scene.outlook.dishes[dish.name].ready
    if left < 0:
        return f"held {minutes_words(max(MINUTE, -left))} too long by eating"
    stays = ready + dish.hold_s * 1000 - scene.now
    return f"holds {minutes_words(stays)} more" if stays >= MINUTE else "eat it now"


def _matter_of_running(scene: Scene, dish: Dish, step: Step, stage: Stage) -> str:
    seen = scene.outlook.steps[step.id]
    low, high = _ends(scene, step)
    sign = f"until {step.until}" if step.until else ""
    if step.pull_at_c is not None and (forecast_of(scene, step) or stage is Stage.RUNS) and step.batches is None:
        return pull_words(scene, step)
    if stage is Stage.OVER:
        over = f"{length_words(scene.now - high)} past its longest" if high > low else ""
        return dots(sign, over) or "its time is up"
    if stage is Stage.IN_RANGE:
        return dots(sign, f"{length_words(high - scene.now)} left at most")
    return dots(_next_cue(scene, step), sign) or _slip(scene, dish) or f"done {scene.day_clock(seen.end_likely)}"


def _ends(scene: Scene, step: Step) -> tuple[Moment, Moment]:
    """The range that counts now: of the load that cooks where there are several, else of the step."""
    found = batch_now(scene.cook, step, scene.now)
    return ends_of(step, scene.cook.lives[step.id]) if found is None else (found.batch.low, found.batch.high)


def pull_words(scene: Scene, step: Step) -> str:
    """'reach 80 °C 18:03 ± 4': the middle of the predicted range and half its width, in minutes."""
    fitted = forecast_of(scene, step)
    if fitted is not None:
        return pull_line(fitted, scene.now, scene.cook.offset_ms, scene.cook.zone, scene.cook.menu.units)
    seen = scene.outlook.steps[step.id]
    middle = (seen.end_low + seen.end_high) // 2
    either = -(-(seen.end_high - seen.end_low) // (2 * MINUTE))
    heat = "" if step.pull_at_c is None else scene.heat(step.pull_at_c)
    return f"reach {heat} {scene.day_clock(middle)}" + (f" ± {either}" if either else "")


def forecast_of(scene: Scene, step: Step) -> PullForecast | None:
    """The forecast of all its readings: the adopted one, else one that the board has only just been told."""
    life = scene.cook.lives[step.id]
    known = life.foreseen if life.foreseen is not None and life.foreseen.readings == cores_read(life) else None
    return known or scene.extras.pulls.get(step.id)


def _next_cue(scene: Scene, step: Step) -> str:
    """'lid on, stir in 6 min'."""
    coming = [due for due in scene.cues[step.id] if due.cue != LIFT]  # the countdown itself counts to lifting
    if not coming:
        return ""
    at, do = coming[0].at, coming[0].cue
    if at - scene.now > CUE_SOON:
        return ""
    return f"{lower_first(do)} {ago_words(max(at, scene.now), scene.now)}"


def _matter_of_waiting(scene: Scene, dish: Dish, step: Step, start: Moment) -> str:
    missing = [need for need in step.needs if _still_made(scene, step, need)]
    if missing:
        return f"needs {sentence_list([_whose(scene, need) for need in missing])}"
    if start - scene.now <= START_SOON or waits_for_place(scene, step):  # the line beside the name says what and when
        return _slip(scene, dish)
    late = is_late(scene.outlook.dishes[dish.name].slip_ms)
    slip = _slip(scene, dish) if late or start - scene.now <= 3 * START_SOON else ""
    return dots(f"{lower_first(step.do)} at {scene.day_clock(start)}", slip)


def _still_made(scene: Scene, step: Step, need: str) -> bool:
    makers = [link.step for link in step.links if link.step in unended(step, scene.cook.lives)]
    return any(need in scene.cook.menu.steps[maker].makes for maker in makers if maker in scene.cook.menu.steps)


def _whose(scene: Scene, need: str) -> str:
    """'pork drippings': what is made, named after the first word of its dish unless that says it already."""
    maker = next((s for s in scene.cook.menu.steps.values() if need in s.makes), None)
    if maker is None:
        return need
    dish = lower_first(maker.dish)
    first, _, rest = need.partition(" ")
    return f"{dish} {rest if rest and dish.split()[-1] == first.lower() else need}"


def _slip(scene: Scene, dish: Dish) -> str:
    """'may slip 9 min', 'must not slip', 'late by 4 min'."""
    slip = scene.outlook.dishes[dish.name].slip_ms
    if is_late(slip):
        return f"late by {minutes_words(-slip)}"
    return f"may slip {minutes_words(slip)}" if slip >= MINUTE else "must not slip"
