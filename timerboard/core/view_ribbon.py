"""A dish's ribbon: what was, what runs and what is planned, as stretches of the shared axis, and its cues as ticks."""

from dataclasses import replace

from .alarm_values import Kind
from .cook import StepState
from .cue_times import cues_to_come
from .due import pull_guess
from .engine import ends_of
from .menu import Dish, Step
from .outlook import Foreseen
from .quantities import span_words
from .scene import Scene, dish_key
from .values import MS, Moment
from .view_values import Part, RibbonPart, Tick
from .words import lower_first

UNSURE = frozenset((Part.UNCERTAIN, Part.PLANNED_UNCERTAIN))


def ribbon(scene: Scene, dish: Dish) -> tuple[RibbonPart, ...]:
    """Stretches in the order of time, none over another, up to when the dish is eaten."""
    parts = [part for step in scene.steps_of(dish) for part in _of_step(scene, step)]
    hold = _hold(scene, dish)
    return tuple(untangled(sorted([*parts, *hold], key=lambda part: (part.start, part.end))))


def _of_step(scene: Scene, step: Step) -> list[RibbonPart]:
    seen, life = scene.outlook.steps[step.id], scene.cook.lives[step.id]
    if scene.states[step.id] is StepState.ENDED:
        return [RibbonPart(Part.DONE, seen.start, seen.end_likely, lower_first(step.do), step.id)]
    if not scene.runs(step) or life.started is None:
        return _planned(scene, step, seen)
    low, high = _ends(scene, step)
    label = lower_first(step.do)
    parts = [RibbonPart(Part.RUNNING, life.started, low, label, step.id)]
    if high > low:
        parts.append(RibbonPart(Part.UNCERTAIN, low, high, "", step.id))
    if scene.now > high:
        parts.append(RibbonPart(Part.OVER, high, scene.now, "", step.id))
    return parts


def _ends(scene: Scene, step: Step) -> tuple[Moment, Moment]:
    """The range as the readings have it, else as the menu has it; what the cook may end at will has one predicted end.

    A pull that is late counts from the menu's end.
    """
    life = scene.cook.lives[step.id]
    low, high = ends_of(step, life)
    if step.elastic and scene.now <= high:
        return scene.outlook.steps[step.id].end_likely, scene.outlook.steps[step.id].end_likely
    guess = pull_guess(scene.cook, step, life)
    if guess is None or guess.late < scene.now:
        return low, high
    return max(guess.early, life.started or 0), guess.late


def _planned(scene: Scene, step: Step, seen: Foreseen) -> list[RibbonPart]:
    """A dashed stretch; the food's uncertainty is hatched, the cook's freedom (an elastic step) is only named."""
    label = _label(scene, step)
    if step.elastic or seen.end_high == seen.end_low:
        return [RibbonPart(Part.PLANNED, seen.start, seen.end_likely, label, step.id)]
    return [
        RibbonPart(Part.PLANNED, seen.start, seen.end_low, label, step.id),
        RibbonPart(Part.PLANNED_UNCERTAIN, seen.end_low, seen.end_high, "", step.id),
    ]


def _label(scene: Scene, step: Step) -> str:
    """'roast 220 °C', 'rest 25-40 min', 'mash'."""
    words = lower_first(step.do)
    if step.heat_c is not None:
        return f"{words} {scene.heat(step.heat_c)}"
    span = scene.cook.span(step)
    return f"{words} {span_words(span.low, span.high)}" if step.elastic and span.low < span.high else words


def untangled(parts: list[RibbonPart]) -> list[RibbonPart]:
    """Sorted stretches without overlaps: what is unsure is cut where the next one would end before it, else cuts it."""
    out: list[RibbonPart] = []
    for part in parts:
        last = out[-1] if out else None
        if last is not None and part.start < last.end:
            if part.end > last.end:
                part = replace(part, start=last.end)  # noqa: PLW2901  the visible rest of it
            elif last.part in UNSURE:
                out[-1] = replace(last, end=part.start)
            else:
                continue
        out.append(part)
    return [part for part in out if part.end > part.start]


def _hold(scene: Scene, dish: Dish) -> list[RibbonPart]:
    """From ready to eaten; longer than that while it is ready and nobody has eaten."""
    ahead = scene.outlook.dishes[dish.name]
    end = max(ahead.served, scene.now) if ahead.is_ready else ahead.served
    if end <= ahead.ready or not scene.cook.menu.on_table(dish):
        return []
    return [RibbonPart(Part.HOLD, ahead.ready, end, f"hold, {dish.keep}" if dish.keep else "hold")]


def ticks(scene: Scene, dish: Dish) -> tuple[Tick, ...]:
    """Cues that were done, that wait, and that will come."""
    steps = scene.steps_of(dish)
    calls = scene.calling.get(dish_key(dish.name), ())
    due = [Tick(call.since, due=True) for call in calls if call.kind is Kind.CUE]
    done = [Tick(at, done=True) for step in steps for at in scene.cues_done.get(step.id, ())]
    coming = [
        Tick(at)
        for step in steps
        if scene.runs(step)
        for at in cues_to_come(scene.cook, step, scene.cues[step.id])
        if at > scene.now
    ]
    return tuple(sorted((*done, *due, *coming, *_planned_ticks(scene, steps)), key=lambda tick: tick.at))


def _planned_ticks(scene: Scene, steps: tuple[Step, ...]) -> list[Tick]:
    """The plan's cues of steps to come, moved by as much as the step is."""
    plan = scene.cook.plan
    if plan is None:
        return []
    slipped: dict[str, Moment] = {}
    for step in steps:
        placed = plan.of(step.id)
        if placed is not None and scene.states[step.id] in (StepState.WAITING, StepState.READY):
            slipped[step.id] = scene.outlook.steps[step.id].start - placed.start * MS
    return [Tick(cue.at * MS + slipped[cue.step]) for cue in plan.cues if cue.step in slipped]
