"""The steps of a cook as a network: what must come before what, in an order that can be walked once."""

from collections.abc import Mapping
from dataclasses import dataclass

from .cook import Cook, StepState
from .menu import Step
from .plan import Placed
from .plan_order import Arc, link_arcs, plan_arcs


@dataclass(frozen=True, slots=True)
class Network:
    """Steps that are part of the cook in an order that respects every arc, with the arcs into and out of each."""

    order: tuple[Step, ...]
    before: Mapping[str, tuple[Arc, ...]]
    after: Mapping[str, tuple[Arc, ...]]
    placed: Mapping[str, Placed]


def network_of(cook: Cook) -> Network:
    """The network of all steps that are not dropped, without the arcs into steps that have begun: they bind no more."""
    steps = [s for s in cook.menu.steps.values() if is_alive(cook, s)]
    alive = {s.id for s in steps}
    arcs = link_arcs(steps, alive.__contains__)
    if cook.plan is not None:
        arcs += plan_arcs(cook.menu, cook.plan, alive.__contains__)
    before: dict[str, list[Arc]] = {s.id: [] for s in steps}
    after: dict[str, list[Arc]] = {s.id: [] for s in steps}
    for arc in arcs:
        if cook.lives[arc.after].started is None and cook.lives[arc.after].state is not StepState.ENDED:
            before[arc.after].append(arc)
            after[arc.before].append(arc)
    order = _walk(steps, before, after)
    placed = {} if cook.plan is None else cook.plan.by_id
    return Network(
        tuple(order), {k: tuple(v) for k, v in before.items()}, {k: tuple(v) for k, v in after.items()}, placed
    )


def is_alive(cook: Cook, step: Step) -> bool:
    """True while a step is part of the cook: known, and neither it nor its dish was dropped."""
    life = cook.lives.get(step.id)
    return life is not None and life.state is not StepState.DROPPED and step.dish not in cook.dropped


def _walk(steps: list[Step], before: Mapping[str, list[Arc]], after: Mapping[str, list[Arc]]) -> list[Step]:
    """Topological order (Kahn 1962). A plan against the recipe could close a circle: it is cut, never fatal."""
    by_id = {s.id: s for s in steps}
    open_arcs = {step: len(arcs) for step, arcs in before.items()}
    free = [s.id for s in reversed(steps) if not open_arcs[s.id]]
    order: list[Step] = []
    while len(order) < len(steps):
        if not free:
            free.append(next(s.id for s in steps if s.id in by_id))
        step = free.pop()
        if step not in by_id:
            continue
        order.append(by_id.pop(step))
        for arc in after[step]:
            open_arcs[arc.after] -= 1
            if not open_arcs[arc.after] and arc.after in by_id:
                free.append(arc.after)
    return order
