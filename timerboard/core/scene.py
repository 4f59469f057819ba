"""What every part of the view looks at: the cook at a moment, with its outlook and its alarms worked out once."""

from collections.abc import Mapping
from dataclasses import dataclass

from .alarm_values import Alarm, Kind, Rank
from .alarms import alarms, calls
from .civil import clock_words, day_clock_words
from .cook import Cook, StepState
from .due import CueDue, cues_due
from .engine import LIVE, phase
from .events import CueDone
from .food_clocks import FoodClock, food_clocks
from .menu import Dish, Step
from .outlook import Outlook, outlook
from .quantities import celsius_words
from .values import Moment
from .view_values import Extras


@dataclass(frozen=True, slots=True)
class Scene:
    """A cook at `now`. `alarms` come most pressing first; `states` has every step that is not dropped."""

    cook: Cook
    now: Moment
    extras: Extras
    outlook: Outlook
    called: tuple[Alarm, ...]  # everything that calls or will call
    alarms: tuple[Alarm, ...]
    states: Mapping[str, StepState]
    calling: Mapping[str, tuple[Alarm, ...]]  # by strip, most pressing first, notes left out
    cues: Mapping[str, tuple[CueDue, ...]]  # of running steps: the next falling-due of each, soonest first
    cues_done: Mapping[str, tuple[Moment, ...]]  # by step
    clocks: Mapping[str, FoodClock]  # by dish: of what stands out of heat and cold, the nearest limit

    def clock(self, at: Moment) -> str:
        """The wall clock at a moment: '18:30'."""
        return clock_words(at + self.cook.offset_ms, self.cook.zone)

    def day_clock(self, at: Moment) -> str:
        """The wall clock with the day where it is not today: 'Tue 18:30'."""
        return day_clock_words(at + self.cook.offset_ms, self.cook.zone, self.now + self.cook.offset_ms)

    def heat(self, celsius: float) -> str:
        """A temperature in the menu's unit."""
        return celsius_words(celsius, self.cook.menu.units)

    def steps_of(self, dish: Dish) -> tuple[Step, ...]:
        """The steps of a dish that are part of the cook, in the order written."""
        return tuple([step for step in dish.steps if step.id in self.states])

    def runs(self, step: Step) -> bool:
        """True while a step occupies its place."""
        return self.states[step.id] in LIVE

    def doors(self, step: Step | None) -> frozenset[str]:
        """The heated places a step uses: to get at it their doors are opened."""
        if step is None:
            return frozenset()
        places = (self.cook.menu.place(use.place) for use in step.uses)
        return frozenset(place.name for place in places if place is not None and place.heat is not None)


def scene_of(cook: Cook, now: Moment, extras: Extras, called: tuple[Alarm, ...] | None = None) -> Scene:
    """Works out once what all parts of the view need. `called`: what `calls` says, where it was asked already."""
    called = tuple(calls(cook, now)) if called is None else called
    foreseen = outlook(cook, now)
    states = {step: phase(cook, step, now) for step in foreseen.steps}
    found = alarms(cook, now, called)
    return Scene(
        cook,
        now,
        extras,
        foreseen,
        called,
        found,
        states,
        _by_strip(cook, found),
        _cues(cook, states),
        _cues_done(cook),
        {clock.dish: clock for clock in reversed(food_clocks(cook, now))},
    )


def dish_key(dish: str) -> str:
    """The key of a dish's strip."""
    return f"dish:{dish}"


def timer_key(timer: str) -> str:
    """The key of a loose countdown's strip."""
    return f"timer:{timer}"


def _by_strip(cook: Cook, found: tuple[Alarm, ...]) -> dict[str, tuple[Alarm, ...]]:
    """What calls from each strip; what is nobody's (the meal itself) is under ''."""
    sorted_out: dict[str, list[Alarm]] = {}
    for alarm in found:
        if alarm.rank is not Rank.NOTE:
            sorted_out.setdefault(strip_of(cook, alarm), []).append(alarm)
    return {key: tuple(mine) for key, mine in sorted_out.items()}


def strip_of(cook: Cook, alarm: Alarm) -> str:
    """The key of the strip that an alarm rings on; "" when it is nobody's (the meal itself)."""
    if alarm.kind is Kind.TIMER:
        return timer_key(alarm.cue or alarm.food)
    step = cook.step(alarm.step) if alarm.step is not None else None
    dish = alarm.dish or (step.dish if step is not None else "")
    return dish_key(dish) if dish else ""


def _cues(cook: Cook, states: Mapping[str, StepState]) -> dict[str, tuple[CueDue, ...]]:
    running = (cook.menu.steps[step] for step, state in states.items() if state in LIVE)
    return {s.id: tuple(sorted(cues_due(cook, s, cook.lives[s.id]), key=lambda due: due.at)) for s in running}


def _cues_done(cook: Cook) -> dict[str, tuple[Moment, ...]]:
    """When cues were done, by step, as far as it still counts."""
    done: dict[str, list[Moment]] = {}
    for noted in cook.record:
        if isinstance(noted.event, CueDone) and not noted.undone and not noted.effect:
            done.setdefault(noted.event.step, []).append(noted.event.at)
    return {step: tuple(moments[-MOST_DONE_TICKS:]) for step, moments in done.items()}


MOST_DONE_TICKS = 40
