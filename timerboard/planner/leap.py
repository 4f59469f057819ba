"""Several aims in one go: a plan that is as good as can be by each of them at once needs no proof of its own.

With one pair of hands the hands are the bottleneck machine, and the one-machine bound (`energy.py`) is nearly always
the latest first start there is. So instead of bettering one aim after another, a plan at every bound is asked for.
"""

import threading
from collections.abc import Callable
from dataclasses import replace
from time import perf_counter

from .objective import Stage
from .solve import Effort, run
from .variables import Model, Sketch

MOST_WORK = 0.12
"""What a leap may take in the solver's own measure, well under a second on a quiet machine."""

SHARE = 0.3
"""... and of the time that is left, at most."""

STRONG = ("use_strong_propagation_in_disjunctive",)
ORDERS = ("use_dynamic_precedence_in_disjunctive",)
"""Two searches that are fast on different menus: each alone needs twice as long as the sooner of both."""


def leap(model: Model, aims: list[Stage], effort: Effort) -> tuple[list[Stage], Sketch] | None:
    """A plan at the least of every aim, and the aims with that least as their floors; None when none was found."""
    leasts = [a.floor if a.at_best is None else a.at_best for a in aims]
    if not aims or aims[-1].at_best is None or any(least is None for least in leasts):
        return None
    floored = [replace(aim, floor=least) for aim, least in zip(aims, leasts, strict=True)]
    short = replace(effort, until=perf_counter() + SHARE * effort.left_s, workers=1, search=(), most_work=MOST_WORK)
    both = (ORDERS, STRONG)[: max(1, effort.workers)]
    found = _first_of([_racer(model, floored, replace(short, switched=switched)) for switched in both], effort)
    return (floored, found) if found is not None else None


Racer = Callable[[Callable[[], bool]], Sketch | None]


def _racer(model: Model, aims: list[Stage], effort: Effort) -> Racer:
    own = replace(model, cp=model.cp.clone())
    own.cp.clear_hints()  # type: ignore[no-untyped-call]  # hints of a plan that begins too early mislead
    own.cp.clear_objective()  # type: ignore[no-untyped-call]
    for aim in aims:
        own.cp.add(aim.cost <= (aim.floor or 0))
    if effort.switched == STRONG and model.hours is not None:
        hour, inside, work = model.hours
        own.cp.add(inside + model.later - hour - model.first >= work)
    return lambda stop: run(own, replace(effort, stop=stop)).sketch


def _first_of(racers: list[Racer], effort: Effort) -> Sketch | None:
    """What the first of them finds; the others are stopped. Threads, as the solver lets go of the interpreter."""
    found: list[Sketch] = []

    def over() -> bool:
        return bool(found) or (effort.stop is not None and effort.stop())

    def race(racer: Racer) -> None:
        if (sketch := racer(over)) is not None:
            found.append(sketch)

    others = [threading.Thread(target=race, args=(racer,)) for racer in racers[1:]]
    for other in others:
        other.start()
    race(racers[0])
    for other in others:
        other.join()
    return found[0] if found else None
