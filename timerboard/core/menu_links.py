"""What follows what: the order in a dish, `after`, and what is made for what needs it; and no circle among them."""

from collections.abc import Iterable, Mapping
from graphlib import CycleError, TopologicalSorter

from .faults import Path, Unreadable
from .menu import Link
from .menu_gathering import Gathering
from .menu_names import Named, StepNames, fold_name
from .menu_schema import WrittenLink
from .menu_steps import less_than_wait

_MOST_PAIRS = 20_000


def links_of(steps: list[Named], names: StepNames, gathering: Gathering) -> dict[str, tuple[Link, ...]]:
    """The links of every step by its id. Two links to one step become one that keeps both."""
    makers = _makers(steps)
    if _too_many(steps, makers, gathering):
        makers = {}
    before: dict[str, Named] = {}
    links: dict[str, tuple[Link, ...]] = {}
    for step in steps:
        own = _ordered(step, before.get(step.dish), names, gathering)
        made = [m.id for item in step.written.needs for m in makers.get(fold_name(item), ())]
        wait, within = step.written.wait or 0, step.written.within
        links[step.id] = _merged([*own, *(Link(step=m, wait_s=wait, within_s=within) for m in made)])
        before[step.dish] = step
    _judge_circles(steps, links, gathering)
    return links


def _makers(steps: Iterable[Named]) -> Mapping[str, list[Named]]:
    makers: dict[str, list[Named]] = {}
    for step in steps:
        for item in step.written.makes:
            makers.setdefault(fold_name(item), []).append(step)
    return makers


def _too_many(steps: Iterable[Named], makers: Mapping[str, list[Named]], gathering: Gathering) -> bool:
    """Whether makes and needs tie more pairs of steps together than a menu can mean; a fault where it gets too many."""
    pairs = 0
    for step in steps:
        for item in step.written.needs:
            pairs += len(makers.get(fold_name(item), ()))
            if pairs > _MOST_PAIRS:
                wrong = f"'{item}' and other things are made and needed by too many steps"
                gathering.fault((*step.path, "needs"), wrong, "give what each step makes a name of its own")
                return True
    return False


def _ordered(step: Named, before: Named | None, names: StepNames, gathering: Gathering) -> list[Link]:
    """Links from the order written, or from `after` where that replaces it."""
    written = step.written
    if written.after is None:
        return [Link(step=before.id, wait_s=written.wait or 0, within_s=written.within)] if before else []
    links = []
    for n, entry in enumerate(() if gathering.full else written.after):
        path = (*step.path, "after", n)
        try:
            links.append(_link(entry, step, names))
        except Unreadable as trouble:
            if not gathering.names_lost:
                gathering.fault(path, trouble.wrong, trouble.right)
    return links


def _link(entry: WrittenLink, step: Named, names: StepNames) -> Link:
    found = names.find(entry.step, step.dish)
    if found.id == step.id:
        raise Unreadable(f"'{step.name}' cannot come after itself", "name the step before it")
    wait = entry.wait if entry.wait is not None else step.written.wait
    within = entry.within if entry.within is not None else step.written.within
    if within is not None and within < (wait or 0):
        raise Unreadable(*less_than_wait(within, wait or 0))
    return Link(step=found.id, wait_s=wait or 0, within_s=within, own=entry.within is not None)


def _merged(links: list[Link]) -> tuple[Link, ...]:
    merged: dict[str, Link] = {}
    for link in links:
        other = merged.get(link.step, link)
        most = [w for w in (link.within_s, other.within_s) if w is not None]
        merged[link.step] = Link(
            step=link.step,
            wait_s=max(link.wait_s, other.wait_s),
            within_s=min(most, default=None),
            own=link.own or other.own,
        )
    return tuple(merged.values())


def _judge_circles(steps: list[Named], links: Mapping[str, tuple[Link, ...]], gathering: Gathering) -> None:
    """One fault for each circle of steps that wait for one another; each is opened before the next is looked for."""
    graph = {id_: {link.step for link in found} for id_, found in links.items()}
    by_id = {step.id: step for step in steps}
    while not gathering.full:
        try:
            TopologicalSorter(graph).prepare()
        except CycleError as found:
            circle = list(reversed(found.args[1]))  # each waits for the next
            graph[circle[0]].discard(circle[1])
            _say_circle(circle, by_id, gathering)
        else:
            return


def _say_circle(circle: list[str], by_id: Mapping[str, Named], gathering: Gathering) -> None:
    first = next((step for id_ in circle if (step := by_id[id_]).written.after or step.written.needs), by_id[circle[0]])
    if len(circle) == 2:
        gathering.fault(_key(first), f"'{first.name}' needs what it makes itself", "let another step make it")
        return
    shown = [f"'{id_}'" for id_ in circle[:6]] + (["…"] if len(circle) > 6 else [])
    gathering.fault(_key(first), f"these steps wait for one another: {' after '.join(shown)}", "take one link away")


def _key(step: Named) -> Path:
    key = "after" if step.written.after else "needs" if step.written.needs else "do"
    return (*step.path, key)
