"""What every part of the view looks at: the cook at a moment, with its outlook and its alarms worked out once."""

from collections.abc import Mapping
from dataclasses import dataclass

from .alarm_values import Alarm
from .alarms import alarms
from .civil import clock_words, day_clock_words
from .cook import Cook, StepState
from .engine import LIVE, phase
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
    alarms: tuple[Alarm, ...]
    states: Mapping[str, StepState]

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
        return tuple(step for step in dish.steps if step.id in self.states)

    def runs(self, step: Step) -> bool:
        """True while a step occupies its place."""
        return self.states[step.id] in LIVE

    def doors(self, step: Step | None) -> frozenset[str]:
        """The heated places a step uses: to get at it their doors are opened."""
        if step is None:
            return frozenset()
        places = (self.cook.menu.place(use.place) for use in step.uses)
        return frozenset(place.name for place in places if place is not None and place.heat is not None)


def scene_of(cook: Cook, now: Moment, extras: Extras) -> Scene:
    """Works out once what all parts of the view need."""
    foreseen = outlook(cook, now)
    states = {step: phase(cook, step, now) for step in foreseen.steps}
    return Scene(cook, now, extras, foreseen, alarms(cook, now), states)
