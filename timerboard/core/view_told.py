"""What a strip's drawer tells beside its acts: the pull, the rules and the readings, clocks, oil, height."""

from .altitude import boiling_at_c, is_boiled
from .choices import food_kinds, height_m, whose_rules
from .cook import StepState
from .cooling_log import entry_lines
from .food_clocks import dish_readings
from .food_kind import food_kind
from .heat_words import coast_words
from .holding import holding_lines
from .hot_oil import AFTERWARDS, BEFORE, IF_IT_GOES_WRONG, is_hot_oil, last_oil, oil_says
from .menu import Dish, Step
from .safety import verdicts
from .safety_alarms import clock_line
from .safety_rules import FOLLOW
from .scene import Scene
from .view_pull import doubt_lines
from .view_strip_words import forecast_of
from .words import upper_first


def told_lines(scene: Scene, dish: Dish) -> tuple[str, ...]:
    """Sentences, the most pressing first; empty for a dish of which no rule speaks."""
    steps = scene.steps_of(dish)
    running = [step for step in steps if scene.runs(step)]
    lines = [line for step in steps for line in _oil(scene, step)]
    lines += [line for step in running for line in _pull(scene, step)]
    lines += _rules(scene, dish)
    lines += [line for step in running for line in _height(scene, step)]
    return tuple(lines)


def _oil(scene: Scene, step: Step) -> list[str]:
    if not is_hot_oil(step):
        return []
    state = scene.states[step.id]
    if state in (StepState.READY, StepState.WAITING):
        return list(BEFORE) if state is StepState.READY else []
    if state is StepState.ENDED:
        gone = scene.now - (scene.cook.lives[step.id].ended or 0)
        return list(AFTERWARDS) if gone < AFTER_MS and not _fried_in_again(scene, step) else []
    read = last_oil(scene.cook.lives[step.id])
    says = [oil_says(step, read.celsius, scene.cook.menu.units).said] if read else []
    return [*says, *IF_IT_GOES_WRONG, BEFORE[0], BEFORE[2]]


AFTER_MS = 3600 * 1000


def _fried_in_again(scene: Scene, step: Step) -> bool:
    """Whether the fat of a step is still wanted: nobody is to turn it off between two fryings."""
    after = (s for s in scene.cook.menu.steps.values() if any(link.step == step.id for link in s.links))
    open_ = (s for s in after if scene.states[s.id] not in (StepState.ENDED, StepState.DROPPED))
    return any(is_hot_oil(s) for s in open_)


def _pull(scene: Scene, step: Step) -> list[str]:
    """Doubtful readings first, then what it will coast to."""
    found = forecast_of(scene, step)
    if found is None:
        return []
    coasting = [] if found.peak_c is None else [f"Pulled at {scene.heat(found.pull_c)}, {_coast(scene, step)}."]
    return [*doubt_lines(scene.cook, step, found), *coasting]


def _coast(scene: Scene, step: Step) -> str:
    found = forecast_of(scene, step)
    return "" if found is None else coast_words(found, scene.cook.menu.units)


def _rules(scene: Scene, dish: Dish) -> list[str]:
    """Each rule with whose it is and whether the readings meet it; then clocks and cooling; once, whom to follow."""
    cook, units = scene.cook, scene.cook.menu.units
    readings = dish_readings(cook, dish)
    lines: list[str] = []
    if readings or any(step.pull_at_c is not None for step in dish.steps):
        found = verdicts(food_kind(dish, food_kinds(cook)), readings, scene.now, units, whose_rules(cook))
        lines += [verdict.said.removesuffix(FOLLOW).strip() for verdict in found]
    lines += holding_lines(cook, dish, scene.now)
    clock = scene.clocks.get(dish.name)
    if clock is not None:
        lines.append(f"{upper_first(clock_line(cook, clock, scene.now))} ({clock.rule.whose}, {clock.rule.section}).")
    lines += entry_lines(cook, dish, scene.now)
    return [*lines, FOLLOW] if lines else []


def _height(scene: Scene, step: Step) -> list[str]:
    height = height_m(scene.cook)
    if height <= 0 or not is_boiled(scene.cook.written.get(step.id, step)):
        return []
    boils = scene.heat(round(boiling_at_c(height)))
    return [f"At {height:g} m water boils at {boils}: longer than written. Core temperatures stay the same."]
