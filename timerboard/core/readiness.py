"""What stands between a step and its start: the steps before it, a wait, its place, its heat."""

from collections.abc import Iterable, Mapping
from enum import Enum, auto

from .cook import Cook, PlaceHeat, StepLife, StepState
from .menu import Link, Menu, Place, Step
from .plan import PlaceRoom
from .values import MS, Moment


def holds_back(link: Link, lives: Mapping[str, StepLife]) -> bool:
    """True while the step of a link has not ended. A dropped or unknown one is bought, and holds nothing back."""
    life = lives.get(link.step)
    return life is not None and life.state not in (StepState.ENDED, StepState.DROPPED)


def unended(step: Step, lives: Mapping[str, StepLife]) -> tuple[str, ...]:
    """Ids of the steps that this one still waits for."""
    return tuple(link.step for link in step.links if holds_back(link, lives))


def follows_one(cook: Cook, step: Step) -> bool:
    """True when a step that was really cooked comes before this one."""
    return any(link.step in cook.lives and cook.lives[link.step].ended is not None for link in step.links)


def earliest_start(cook: Cook, step: Step) -> Moment | None:
    """When a ready step may begin, its waits included; None while a step before it has not ended."""
    life = cook.lives[step.id]
    if life.ready_since is None or unended(step, cook.lives):
        return None
    waits = [_wait_over(link, cook.lives) for link in step.links]
    return max([life.ready_since, *waits])


def _wait_over(link: Link, lives: Mapping[str, StepLife]) -> Moment:
    life = lives.get(link.step)
    return 0 if life is None or life.ended is None else life.ended + link.wait_s * MS


class Lack(Enum):
    """Why a step cannot begin by itself."""

    NOTHING = auto()
    NOT_READY = auto()
    HANDS = auto()
    WAIT = auto()
    PLACE = auto()
    HEAT = auto()
    WARMTH = auto()  # set to the right heat, and not there yet


ALONE = frozenset({Lack.NOTHING, Lack.WAIT, Lack.WARMTH})
"""What a step lacks that begins by itself as soon as time has passed."""


def lacks(cook: Cook, step: Step, now: Moment) -> Lack:
    """What a step lacks to begin by itself at `now`.

    Only an unattended step that follows a cooked one begins by itself, when its wait is over, its place has room and
    the heat there suits. Anything that nobody cooked before (the first step of a dish) needs a person.
    """
    earliest = earliest_start(cook, step)
    if cook.lives[step.id].state is not StepState.READY or earliest is None:
        return Lack.NOT_READY
    if step.work.attended_start or not follows_one(cook, step):
        return Lack.HANDS
    if now < earliest:
        return Lack.WAIT
    if not _has_room(cook, step):
        return Lack.PLACE
    hot = [_hot_from(cook, step, use.place) for use in step.uses]
    if any(moment is None for moment in hot):
        return Lack.HEAT
    return Lack.NOTHING if warm_from(cook, step) <= now else Lack.WARMTH


def warm_from(cook: Cook, step: Step) -> Moment:
    """When the last of a step's places is hot enough; the beginning of time for places without heat."""
    return max((_hot_from(cook, step, use.place) or 0 for use in step.uses), default=0)


def running(cook: Cook) -> Iterable[Step]:
    """Every step that occupies its place now."""
    return (step for step in cook.menu.steps.values() if cook.lives[step.id].state is StepState.RUNNING)


def free_since(cook: Cook, step: Step) -> Moment | None:
    """Since when all of a step's places have had room for it without a break (0: always); None while one is full."""
    if not _has_room(cook, step):
        return None
    left = (life.ended for s, life in cook.lives.items() if life.ended is not None and _shares(cook, s, step))
    return max((ended for ended in left if not _had_room(cook, step, ended - 1)), default=0)


def _shares(cook: Cook, other: str, step: Step) -> bool:
    mine = {use.place for use in step.uses}
    return other != step.id and any(use.place in mine for use in cook.menu.steps[other].uses)


def _had_room(cook: Cook, step: Step, at: Moment) -> bool:
    """True when there was room for a step at a moment that is past."""
    used: dict[str, int] = {}
    for other in cook.menu.steps.values():
        life = cook.lives[other.id]
        if life.started is not None and life.started <= at and (life.ended is None or at < life.ended):
            for use in other.uses:
                used[use.place] = used.get(use.place, 0) + use.parts
    return all(_fits(cook.menu, use.place, used.get(use.place, 0) + use.parts) for use in step.uses)


def _has_room(cook: Cook, step: Step) -> bool:
    used: dict[str, int] = {}
    for other in running(cook):
        for use in other.uses:
            used[use.place] = used.get(use.place, 0) + use.parts
    return all(_fits(cook.menu, use.place, used.get(use.place, 0) + use.parts) for use in step.uses)


def _fits(menu: Menu, place: str, parts: int) -> bool:
    known = menu.place(place)
    return known is None or known.room is None or parts <= known.room


def _hot_from(cook: Cook, step: Step, name: str) -> Moment | None:
    """From when a place holds what the step wants; None when it is set to something else, or another step is."""
    place, heat = cook.menu.place(name), cook.heats.get(name)
    if place is None or place.heat is None or step.heat_c is None:
        return 0
    beside = [other for other in running(cook) if any(use.place == name for use in other.uses)]
    if heat is None or not agrees(step, heat.heat_c):
        return None
    if any(not agrees(step, other.heat_c, other.heat_within_c) for other in beside):
        return None
    if heat.hot_at is not None or any(other.heat_c is not None for other in beside):
        return heat.set_at
    return hot_moment(cook, name)


def hot_moment(cook: Cook, name: str) -> Moment | None:
    """When a place that was set will have had its time to heat up; None for one that nobody set or that has no heat."""
    place, heat = cook.menu.place(name), cook.heats.get(name)
    if place is None or place.heat is None or heat is None:
        return None
    return heat.set_at + room_of(place).change_s(None, heat.heat_c) * MS


def agrees(step: Step, heat_c: float | None, within_c: float | None = None) -> bool:
    """True when a heat is within the step's tolerance (and, for two steps, within the other's as well)."""
    if step.heat_c is None or heat_c is None:
        return True
    bound = step.heat_within_c if within_c is None else min(step.heat_within_c, within_c)
    return abs(step.heat_c - heat_c) <= bound


def room_of(place: Place) -> PlaceRoom:
    """A menu's place as the plan sees it, for its rule about how long a change of heat takes."""
    if place.heat is None:
        return PlaceRoom(name=place.name, room=place.room)
    heat = place.heat
    return PlaceRoom(
        name=place.name, room=place.room, heated=True, low_c=heat.low_c, high_c=heat.high_c, preheat_s=heat.preheat_s
    )


def taken_heat(cook_heats: Mapping[str, PlaceHeat], place: Place, step: Step, at: Moment) -> PlaceHeat | None:
    """What a person's start says of a heated place: food goes in, so it is hot. None: nothing new."""
    if place.heat is None or step.heat_c is None:
        return None
    known = cook_heats.get(place.name)
    if known is None or not agrees(step, known.heat_c):
        return PlaceHeat(heat_c=step.heat_c, set_at=at, hot_at=at)
    return None if known.hot_at is not None else PlaceHeat(heat_c=known.heat_c, set_at=known.set_at, hot_at=at)
