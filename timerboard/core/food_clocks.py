"""Clocks of food that stands in the danger zone. Nobody sets them: they follow from what people did.

A clock begins when the last heating step of a branch of a dish has ended, when what was chilled is taken out for its
next step, or when raw meat or fish (not eggs) is stood out to lose its chill. It ends when a later step heats or chills
the food again, when it was put away (eaten, chilled or thrown out), or when a reading since then shows it cold. That a
chilling step has ended takes nothing out of the fridge: an overnight soak stays there until its next step begins.
Where the menu says that it waits in the cold there is none until it is eaten; kept hot by its words, it has the four
hours of time control.
A reading at or above 57 °C begins it anew: it was still hot then. One under 57 °C begins the two stages of cooling.
"""

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from .choices import food_kinds, room_c
from .cook import Cook, Reading, StepState
from .food_kind import FoodKind, food_kind, perishable
from .food_places import Kept, kept, kept_by_words
from .menu import Dish, Step
from .safety_rules import LIMITS, LimitRule
from .values import MS, Moment

THAW = re.compile(r"\b(?:de-?frost|thaw)")
STOOD_OUT = re.compile(r"\b(?:chill|room temperature|temper|stand|marinate|brine|salt|cure|steep|dry|come up)")
"""What raw meat and fish do on a counter by themselves; beans that soak beside them are not meant."""
PUT_AWAY = "Put away"
"""The act that ends the clocks of a dish: a cue of that name, done on a step that has ended."""


class ClockKind(StrEnum):
    """Which clock runs."""

    LEFT_HEAT = "out of the heat"
    LEFT_COLD = "out of the cold"
    ON_TABLE = "on the table"
    COOL_FIRST = "cooling to 21 °C"
    COOL_ALL = "cooling to 5 °C"
    THAWING = "thawing out of the fridge"


@dataclass(frozen=True, slots=True)
class FoodClock:
    """One clock of a dish: since when, until when at most, and by which rule. `step` is where it began."""

    kind: ClockKind
    dish: str
    step: str
    since: Moment
    limit: Moment
    rule: LimitRule
    left: ClockKind | None = None  # of what is on the table: what it left, where that was before it was eaten
    stands: bool = False  # its step still runs: what ends it is the next step, and nobody puts it away

    @property
    def said(self) -> str:
        """'out of the heat', 'on the table': since when it counts, in words."""
        return str(self.left or self.kind)


def food_clocks(cook: Cook, now: Moment, *, coming: bool = False) -> tuple[FoodClock, ...]:
    """Every clock that runs at `now`, the nearest limit first; with `coming` also those that are known to begin.

    What a dish is and how warm the room is count as the cook chose (`choices.py`).
    """
    kinds = food_kinds(cook)
    kitchen = _Kitchen(cook, _after(cook), now, room_c(cook))
    found = (
        clock
        for dish in cook.menu.dishes
        if dish.name not in cook.dropped and _begun(cook, dish) and perishable(dish, kinds)
        for clock in _of_dish(kitchen, dish)
        if coming or clock.since <= now
    )
    return tuple(sorted(found, key=lambda c: (c.limit, c.dish)))


@dataclass(frozen=True, slots=True)
class _Kitchen:
    """What every dish's clocks are derived from. `after`: the steps that follow each step."""

    cook: Cook
    after: Mapping[str, list[Step]]
    now: Moment
    room_c: float


def _after(cook: Cook) -> dict[str, list[Step]]:
    found: dict[str, list[Step]] = {}
    for step in cook.menu.steps.values():
        for link in step.links:
            found.setdefault(link.step, []).append(step)
    return found


def _begun(cook: Cook, dish: Dish) -> bool:
    return any(cook.lives[step.id].started is not None for step in dish.steps)


_Out = tuple[ClockKind, str, Moment]


def _of_dish(kitchen: _Kitchen, dish: Dish) -> Iterator[FoodClock]:
    yield from _thawing(kitchen, dish)
    away = put_away_at(kitchen.cook, dish)
    out = _warm(kitchen, dish, _out(kitchen, dish, away)) or _warm(kitchen, dish, _served_cold(kitchen, dish, away))
    if out:  # of several parts the nearest limit: one that is kept hot by its words has longer than the others
        yield min((_out_clock(kitchen, dish, one) for one in out), key=lambda clock: clock.limit)
    if cooling := _cools(kitchen, dish, away):  # of several pieces the one that has cooled longest
        yield min((_cooling(dish, *one) for one in cooling), key=lambda clock: clock.limit)


def _is_cold(readings: tuple[Reading, ...]) -> bool:
    return bool(readings) and readings[-1].celsius <= LIMITS["cold"].celsius + 0.01


def _warm(kitchen: _Kitchen, dish: Dish, out: list[_Out]) -> list[_Out]:
    """The parts that no reading has shown to be cold since they came to stand out. What still stands there to lose its
    chill is read cold at first, and warms on.
    """
    lives = kitchen.cook.lives
    return [one for one in out if lives[one[1]].ended is None or not _is_cold(_read_since(kitchen, dish, one))]


def _read_since(kitchen: _Kitchen, dish: Dish, out: _Out) -> tuple[Reading, ...]:
    """What was read of a part since it has been out. Another part, raw or in the heat, says nothing of it."""
    kind, step, since = out
    part = {s.id for s in dish.steps} if kind is ClockKind.ON_TABLE else _one_piece(kitchen, step)
    return tuple(r for r in dish_readings(kitchen.cook, dish, part) if r.at >= since)


def _one_piece(kitchen: _Kitchen, step: str) -> set[str]:
    """A step with all that it follows and all that follows it: readings of any of them are of the same food."""
    found, ahead, behind = {step}, [step], [step]
    while ahead:
        found |= (new := {s.id for s in kitchen.after.get(ahead.pop(), [])} - found)
        ahead += new
    while behind:
        known = kitchen.cook.menu.steps.get(behind.pop())
        found |= (new := {link.step for link in (known.links if known else ())} - found)
        behind += new
    return found


def _cools(kitchen: _Kitchen, dish: Dish, away: Moment | None) -> list[tuple[str, Moment, tuple[Reading, ...]]]:
    """Each piece that cools: the step it left the heat with, since when, what was read of it. A reading of another
    piece, raw or in the heat, says nothing of it. The step has ended, so that the clock can be answered on it.
    """
    found: list[tuple[str, Moment, tuple[Reading, ...]]] = []
    for step in dish.steps:
        if kitchen.cook.lives[step.id].ended is None or kept(kitchen.cook.menu, step) is not Kept.HOT:
            continue
        part = _one_piece(kitchen, step.id)
        read = dish_readings(kitchen.cook, dish, part)
        since = None if _is_cold(read) else _under(read, _left_heat(kitchen, dish, part))
        if since is not None and (away is None or read[-1].at > away):
            found.append((step.id, since, read))
    return found


def _left_heat(kitchen: _Kitchen, dish: Dish, part: Collection[str]) -> Moment:
    """When a piece last left the heat, into the fridge or out: what is read after that cools. 0 while it heats."""
    hot = [s.id for s in dish.steps if s.id in part and kept(kitchen.cook.menu, s) is Kept.HOT]
    lives = [kitchen.cook.lives[step] for step in hot]
    if any(life.state is StepState.RUNNING for life in lives):
        return 0
    return max((life.ended for life in lives if life.ended is not None), default=0)


def _thawing(kitchen: _Kitchen, dish: Dish) -> Iterator[FoodClock]:
    """A step that thaws in water or on the counter: thawed parts may be above 5 °C for four hours with all handling."""
    rule = LIMITS["thaw_above"]
    for step in dish.steps:
        life = kitchen.cook.lives[step.id]
        running = life.state is StepState.RUNNING and life.started is not None
        if running and THAW.search(step.do.lower()) and kept(kitchen.cook.menu, step) is Kept.OUT:
            since = life.started or 0
            yield FoodClock(ClockKind.THAWING, dish.name, step.id, since, since + rule.seconds * MS, rule, stands=True)


def _out(kitchen: _Kitchen, dish: Dish, away: Moment | None) -> list[_Out]:
    """Every branch that is out, the longest first: what it left, the step it began with, since when. What was put away
    counts no more, until it is taken out again.
    """
    found: list[_Out] = []
    for step in dish.steps:
        how = kept(kitchen.cook.menu, step)
        since = _out_since(kitchen, dish, step, how)
        if since is None or since <= (away or 0) or _kept_since(kitchen, step):
            continue
        if _waits(kitchen, dish, step) is Kept.COLD:
            continue
        found.append((ClockKind.LEFT_HEAT if how is Kept.HOT else ClockKind.LEFT_COLD, step.id, since))
    return sorted(found, key=lambda o: o[2])


def _out_since(kitchen: _Kitchen, dish: Dish, step: Step, how: Kept) -> Moment | None:
    """When the food of a step came to stand out; None for what does not, or not because of this step."""
    life = kitchen.cook.lives[step.id]
    if how is Kept.HOT:
        return life.ended
    if how is Kept.COLD:
        after = [kitchen.cook.lives[s.id].started for s in _followers(kitchen, step)] if life.ended is not None else []
        return min((at for at in after if at is not None), default=None)
    return life.started if _stood_out_raw(kitchen, dish, step) else None


def _stood_out_raw(kitchen: _Kitchen, dish: Dish, step: Step) -> bool:
    """Raw animal food that stands somewhere by itself before any heat: 'Take off the chill', on the counter."""
    if step.work.throughout or not step.uses or not STOOD_OUT.search(step.do.lower()):
        return False
    if food_kind(dish, food_kinds(kitchen.cook)) in (FoodKind.PLANT, FoodKind.EGGS):
        return False
    menu = kitchen.cook.menu
    own = [before for link in step.links if (before := menu.steps.get(link.step)) and before.dish == step.dish]
    # A clock that began before covers what follows it; what left heat or cold has one.
    return all(kept(menu, one) is Kept.OUT and not _stood_out_raw(kitchen, dish, one) for one in own)


def _waits(kitchen: _Kitchen, dish: Dish, step: Step) -> Kept:
    """How the food waits by the menu's own words: of the step, of what was begun after it (a rest in a warmed box), and
    of the dish once it is ready.
    """
    ready = all(kitchen.cook.lives[last].ended is not None for last in dish.last_steps)
    last = [s.keep for s in dish.steps if s.id in dish.last_steps] if ready else []
    begun = [s.keep for s in _followers(kitchen, step) if s.dish == dish.name and _has_begun(kitchen, s)]
    said = (step.keep, *begun, dish.keep if ready else None, *last)
    return kept_by_words(" ".join(words for words in said if words))


def _has_begun(kitchen: _Kitchen, step: Step) -> bool:
    return kitchen.cook.lives[step.id].started is not None


def _kept_since(kitchen: _Kitchen, step: Step) -> bool:
    """Whether a later step has taken this food into heat or cold again (it then has a clock of its own)."""
    for other in _followers(kitchen, step):
        begun = kitchen.cook.lives[other.id].state in (StepState.RUNNING, StepState.ENDED)
        if begun and (kept(kitchen.cook.menu, other) is not Kept.OUT or _kept_since(kitchen, other)):
            return True
    return False


def _followers(kitchen: _Kitchen, step: Step) -> list[Step]:
    """Steps of the dish that come after; those of other dishes where it is only a part of them."""
    after = kitchen.after.get(step.id, [])
    own = [s for s in after if s.dish == step.dish]
    dish = kitchen.cook.menu.dish(step.dish)
    return own or ([] if dish is None or kitchen.cook.menu.on_table(dish) else after)


def _served_cold(kitchen: _Kitchen, dish: Dish, away: Moment | None) -> list[_Out]:
    """A dish that is ready and has no clock yet: nothing has kept it hot or cold, or it waits in the cold. Its clock
    begins when it is eaten, or when it is ready where that is later.
    """
    lives = kitchen.cook.lives
    ends = [lives[step].ended for step in dish.last_steps]
    if not kitchen.cook.menu.on_table(dish) or any(end is None for end in ends):
        return []
    eaten = max([_eaten(kitchen.cook, dish), *(end for end in ends if end is not None)])
    return [] if eaten <= (away or 0) else [(ClockKind.ON_TABLE, dish.last_steps[-1], eaten)]


def _eaten(cook: Cook, dish: Dish) -> Moment:
    return cook.eat_at + cook.menu.course_of(dish).eat_s * MS


def _out_clock(kitchen: _Kitchen, dish: Dish, out: _Out) -> FoodClock:
    kind, step, since = out
    hot_c = LIMITS["hot"].celsius - 0.01
    hot = [r.at for r in _read_since(kitchen, dish, out) if r.celsius >= hot_c]
    held = next(s for s in dish.steps if s.id == step)
    hot_room = kitchen.room_c > LIMITS["hot_room"].celsius
    rule = LIMITS["out_hot_room" if hot_room else "out"]
    if _waits(kitchen, dish, held) is Kept.HOT:  # said to be kept hot, not read: a new reading begins it anew
        rule = LIMITS["time_control"]
    since = max([since, *hot])
    heated = any(kitchen.cook.lives[s.id].ended is None for s in dish.steps if kept(kitchen.cook.menu, s) is Kept.HOT)
    served = not heated and kitchen.now >= _eaten(kitchen.cook, dish) and kitchen.cook.menu.on_table(dish)
    shown = ClockKind.ON_TABLE if served else kind
    left = kind if served and since < _eaten(kitchen.cook, dish) else None
    return FoodClock(
        shown, dish.name, step, since, since + rule.seconds * MS, rule, left, kitchen.cook.lives[step].ended is None
    )


def dish_readings(cook: Cook, dish: Dish, part: Collection[str] | None = None) -> tuple[Reading, ...]:
    """Core readings of all its steps, or of those in `part`, in order of time."""
    steps = [step.id for step in dish.steps if part is None or step.id in part]
    found = [r for step in steps for r in cook.lives[step].readings if r.of == "core"]
    return tuple(sorted(found, key=lambda r: r.at))


def put_away_at(cook: Cook, dish: Dish) -> Moment | None:
    """When somebody last said that it was put away, if no step has been opened again since."""
    logs = [cook.lives[step.id].cues.get(PUT_AWAY) for step in dish.steps]
    return max((log.last for log in logs if log is not None and log.last is not None), default=None)


def _under(readings: tuple[Reading, ...], since: Moment) -> Moment | None:
    """The first reading under 57 °C after the food had left the heat and after the last one at or above that."""
    under: Moment | None = None
    for reading in readings:
        if reading.celsius >= LIMITS["hot"].celsius - 0.01:
            under = None
        elif reading.at > since > 0 and under is None:
            under = reading.at
    return under


def _cooling(dish: Dish, step: str, since: Moment, readings: tuple[Reading, ...]) -> FoodClock:
    """The stage that is still open: the first until a reading at 21 °C or less, then the second."""
    reached = any(r.at >= since and r.celsius <= LIMITS["cool_middle"].celsius + 0.2 for r in readings)
    kind, rule = (ClockKind.COOL_ALL, LIMITS["cool_all"]) if reached else (ClockKind.COOL_FIRST, LIMITS["cool_first"])
    return FoodClock(kind, dish.name, step, since, since + rule.seconds * MS, rule)
