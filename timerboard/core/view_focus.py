"""Which step a strip speaks of, and what its one large countdown counts."""

from dataclasses import dataclass
from enum import Enum, auto

from .alarm_values import Kind
from .cook import StepState
from .due import BatchNow, ask_at, batch_now, pull_guess
from .engine import LIVE, ends_of
from .menu import Dish, Step
from .quantities import countdown_words
from .readiness import free_since, unended
from .scene import Scene, dish_key
from .values import MS, Moment


class Stage(Enum):
    """Where a dish is, as far as its strip is concerned."""

    RUNS = auto()
    IN_RANGE = auto()
    OVER = auto()
    WAITS = auto()
    READY = auto()


@dataclass(frozen=True, slots=True)
class Focus:
    """The step a strip speaks of (None when the dish is ready) and the moment that matters next."""

    stage: Stage
    step: Step | None
    until: Moment
    counts: str  # what the countdown goes to, for the ear
    others: int = 0  # further steps of the dish that run as well


def focus_of(scene: Scene, dish: Dish) -> Focus:
    """The running step whose next moment comes first; else the next to start; else the ready dish itself."""
    steps = scene.steps_of(dish)
    running = [step for step in steps if scene.runs(step)]
    if running:
        found = [_running(scene, step) for step in running]
        first = min(found, key=lambda focus: focus.until)
        return Focus(first.stage, first.step, first.until, first.counts, len(running) - 1)
    waiting = [step for step in steps if scene.states[step.id] in (StepState.WAITING, StepState.READY)]
    if waiting:
        next_up = min(waiting, key=lambda step: scene.outlook.steps[step.id].start)
        return Focus(Stage.WAITS, next_up, _start_of(scene, next_up), "to its start")
    ahead, clock = scene.outlook.dishes[dish.name], scene.clocks.get(dish.name)
    if clock is not None and scene.now >= ahead.eaten:
        return Focus(Stage.READY, None, clock.limit, AWAY)
    return Focus(Stage.READY, None, ahead.served, "to eating")


def _running(scene: Scene, step: Step) -> Focus:
    life = scene.cook.lives[step.id]
    low, high = ends_of(step, life)
    again = life.look_again or 0
    batch = batch_now(scene.cook, step, scene.now)
    if batch is not None:
        return _batch(scene, step, batch)
    guess = pull_guess(scene.cook, step, life)
    if guess is not None and guess.at > max(scene.now, again):
        stage = {StepState.IN_RANGE: Stage.IN_RANGE, StepState.OVER: Stage.OVER}.get(scene.states[step.id], Stage.RUNS)
        return Focus(stage, step, guess.at, "to the pull")
    if again > scene.now:
        return Focus(Stage.OVER if scene.now > high else Stage.IN_RANGE, step, again, "to the next look")
    asked = ask_at(scene.cook, step, life)
    if step.elastic and scene.now < asked:
        return Focus(Stage.RUNS, step, asked, "to its end")
    if scene.now < low:
        return Focus(Stage.RUNS, step, low, "to its end" if low == high else "to the first look")
    if scene.now <= high and high > low:
        return Focus(Stage.IN_RANGE, step, high, "to its latest end")
    return Focus(Stage.OVER, step, high, "over its time")


def _batch(scene: Scene, step: Step, now: BatchNow) -> Focus:
    """The load that cooks: to its first look, through its range, over it; between two loads to the next one."""
    batch = now.batch
    if now.recovering:
        return Focus(Stage.RUNS, step, batch.loaded, f"to loading batch {batch.number}")
    if scene.now < batch.low:
        return Focus(Stage.RUNS, step, batch.low, f"to lifting batch {batch.number}")
    if scene.now <= batch.high and batch.high > batch.low:
        return Focus(Stage.IN_RANGE, step, batch.high, f"to the latest end of batch {batch.number}")
    return Focus(Stage.OVER, step, batch.high, "over its time")


def _start_of(scene: Scene, step: Step) -> Moment:
    """The predicted start; once somebody is called to start it, since when."""
    start = scene.outlook.steps[step.id].start
    called = next(
        (a for a in scene.calling.get(dish_key(step.dish), ()) if a.kind is Kind.START and a.step == step.id), None
    )
    return start if called is None or waits_for_place(scene, step) else called.since


def waits_for_place(scene: Scene, step: Step) -> bool:
    """True when nothing but a place that others use now, at another heat or in full, stands before the start."""
    if not step.uses or unended(step, scene.cook.lives):
        return False
    if scene.states[step.id] is StepState.READY and free_since(scene.cook, step) is None:
        return True
    if scene.outlook.steps[step.id].start <= scene.now:
        return False
    mine = {use.place for use in step.uses}
    steps = scene.cook.menu.steps
    others = (steps[other] for other, state in scene.states.items() if state in LIVE)
    return any(_in_the_way(scene, step, other) for other in others if any(use.place in mine for use in other.uses))


def _in_the_way(scene: Scene, step: Step, other: Step) -> bool:
    shared = {use.place for use in step.uses} & {use.place for use in other.uses}
    places = [place for place in scene.cook.menu.places if place.name in shared]
    if any(p.heat is not None for p in places) and step.heat_c is not None and other.heat_c is not None:
        return abs(step.heat_c - other.heat_c) > step.heat_within_c + other.heat_within_c
    return any(place.room == 1 for place in places)


def countdown(scene: Scene, focus: Focus) -> str:
    """'21:00', '1:05:00'; past zero '+2:10'. Far things are said by their clock time, not counted: ''."""
    left = focus.until - scene.now
    return "" if left > FAR else countdown_words(left)


def counts(scene: Scene, focus: Focus) -> str:
    """What the countdown goes to; past it, what it has gone over."""
    if focus.until >= scene.now:
        return focus.counts
    if focus.counts == AWAY:
        return "past its limit"
    return {Stage.WAITS: "late to start", Stage.READY: "since eating"}.get(focus.stage, "over its time")


AWAY = "until it must be put away"
FAR = 24 * 3600 * MS
