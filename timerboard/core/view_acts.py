"""What can be done to a strip, from its menu or by key, when nothing calls for it."""

from .alarm_words import start_words
from .commands import (
    ClearQuickTimer,
    DoCue,
    DropDish,
    EndStep,
    Look,
    NotYet,
    ReopenStep,
    ReviseDuration,
    StartStep,
)
from .cook import StepState
from .food_clocks import PUT_AWAY
from .menu import Dish, Step
from .scene import Scene
from .values import Span
from .view_choices import food_choice
from .view_values import Act
from .words import lower_first, the

MORE_S = 300


def acts(scene: Scene, dish: Dish) -> tuple[Act, ...]:
    """Ends and readings of what runs, starts of what may begin, the last end taken back, and the whole dish dropped."""
    found: list[Act] = []
    for step in scene.steps_of(dish):
        if scene.runs(step):
            found += _of_running(scene, step)
        elif scene.states[step.id] is StepState.READY:
            found.append(Act(" ".join(start_words(step)).strip(), StartStep(step.id)))
    drop = Act(f"Drop {the(dish.name)}", DropDish(dish.name))
    return (*found, *_reopen(scene, dish), *_cooling(scene, dish), food_choice(scene, dish), drop)


def timer_acts(name: str) -> tuple[Act, ...]:
    """A loose countdown can only be cleared."""
    return (Act("Clear the timer", ClearQuickTimer(name)),)


def thing(step: Step) -> str:
    """A step as a thing: 'the roast'; a job of several words is quoted as it was written: 'cook the roux'."""
    return the(step.do) if len(step.do.split()) == 1 else f"‘{lower_first(step.do)}’"


def _of_running(scene: Scene, step: Step) -> list[Act]:
    found = [Act(f"End {thing(step)} now", EndStep(step.id))]
    if scene.states[step.id] is StepState.RUNNING:
        span = scene.cook.span(step)
        longer = Span(low=span.low + MORE_S, likely=span.likely + MORE_S, high=span.high + MORE_S)
        found.append(Act(f"Give {thing(step)} 5 min more", ReviseDuration(step.id, longer)))
    else:
        found.append(Act(f"Give {thing(step)} more time", NotYet(step.id)))
    if step.pull_at_c is not None or step.hazard is not None or step.heat_c is not None:
        # Look changes nothing: the reading itself is asked for first and sent in its place.
        found.append(Act("Enter a temperature", Look(), reading_for=step.id))
    return found


def _cooling(scene: Scene, dish: Dish) -> list[Act]:
    """What has left the heat can still be read, and put away: the clocks of food that stands go by it."""
    ended = [step for step in scene.steps_of(dish) if scene.states[step.id] is StepState.ENDED]
    if not ended or any(scene.runs(step) for step in scene.steps_of(dish)):
        return []
    last = max(ended, key=lambda step: scene.outlook.steps[step.id].end_likely)
    found = [Act("Enter a temperature", Look(), reading_for=last.id)]
    clock = scene.clocks.get(dish.name)
    if clock is not None:
        found.append(Act(f"Put away {the(dish.name)}", DoCue(clock.step, PUT_AWAY)))
    return found


def _reopen(scene: Scene, dish: Dish) -> list[Act]:
    ended = [step for step in scene.steps_of(dish) if scene.states[step.id] is StepState.ENDED]
    if not ended:
        return []
    last = max(ended, key=lambda step: scene.outlook.steps[step.id].end_likely)
    return [Act(f"Go on with {thing(last)}: it was not done", ReopenStep(last.id))]
