"""The record in words: what was done, by whom and when, and what it really took."""

from dataclasses import dataclass
from typing import Protocol

from . import events as ev
from .civil import clock_words, day_clock_words
from .cook import Cook, Noted
from .food_clocks import PUT_AWAY
from .quantity_words import celsius_words, duration_words
from .to_the_table import served_dish
from .values import MS, Moment
from .words import lower_first, the, what_was_done

QUIET = (ev.CookOpened, ev.PullForeseen, ev.ClockStepped, ev.BoardReturned, ev.EventUndone)


class Tells(Protocol):
    """What is needed to put an act into words: a scene has it, and so has a `Teller`."""

    @property
    def cook(self) -> Cook:
        """Whose record it is."""

    def clock(self, at: Moment) -> str:
        """The wall clock at a moment."""

    def day_clock(self, at: Moment) -> str:
        """The wall clock with the day where it is another one."""

    def heat(self, celsius: float) -> str:
        """A temperature in the menu's unit."""


@dataclass(frozen=True, slots=True)
class Teller:
    """A cook that can be told of, with nothing of now."""

    cook: Cook

    def clock(self, at: Moment) -> str:
        """'18:30'."""
        return clock_words(at + self.cook.offset_ms, self.cook.zone)

    def day_clock(self, at: Moment) -> str:
        """'Tue 18:30' on another day than the meal's."""
        return day_clock_words(at + self.cook.offset_ms, self.cook.zone, self.cook.eat_at + self.cook.offset_ms)

    def heat(self, celsius: float) -> str:
        """'80 °C'."""
        return celsius_words(celsius, self.cook.menu.units)


def happened(cook: Cook, noted: Noted) -> str:
    """A line of the record: 'Tue 22:40  red cabbage: braise started', or '' for what is not worth one."""
    teller, event = Teller(cook), noted.event
    words = act_words(teller, noted)
    if isinstance(event, ev.StepStarted) and event.by_itself and not noted.undone and not noted.effect:
        words = _step(teller, event.step, "began by itself")
    if noted.effect:
        words = f"without effect: {noted.effect}"
    who = f" ({event.who})" if event.who else ""
    return f"{teller.day_clock(event.at)}  {words}{who}" if words else ""


def what_it_took(cook: Cook) -> tuple[str, ...]:
    """For next time: each step that was run, how long it really took and what the menu says."""
    lines = []
    for step in cook.menu.steps.values():
        life = cook.lives[step.id]
        if life.started is None or life.ended is None:
            continue
        took = duration_words(max(0, life.ended - life.started) // MS // 60 * 60 or (life.ended - life.started) // MS)
        span = cook.written.get(step.id, step).span
        written = (
            duration_words(span.low) if span.certain else f"{duration_words(span.low)}-{duration_words(span.high)}"
        )
        lines.append(f"{step.dish}: {lower_first(step.do)} took {took}, the menu says {written}")
    return tuple(lines)


def act_words(teller: Tells, noted: Noted) -> str:
    """An act of a person that still counts, as an act of the past; '' for everything else."""
    if noted.undone or noted.effect or isinstance(noted.event, QUIET):
        return ""
    return _words(teller, noted.event)


def _words(teller: Tells, event: ev.Event) -> str:  # noqa: PLR0912  one line per kind of event, in their order
    match event:
        case ev.PlanAdopted():
            return "plan taken"
        case ev.StepStarted():
            return "" if event.by_itself else _step(teller, event.step, "started")
        case ev.StepEnded():
            return _step(teller, event.step, "ended")
        case ev.StepReopened():
            return _step(teller, event.step, "goes on")
        case ev.GivenMoreTime():
            return _step(teller, event.step, f"given more time, look again {teller.clock(event.until)}")
        case ev.CueDone():
            return _cue(teller, event.step, event.cue)
        case ev.CuePassedOver():
            return _step(teller, event.step, f"without: {lower_first(event.cue)}")
        case ev.ReadingTaken():
            return _step(teller, event.step, f"{event.of} {teller.heat(event.celsius)} read", job=False)
        case ev.DishDropped():
            return f"{lower_first(event.dish)} dropped"
        case ev.DishAdded():
            return f"{lower_first(event.dish.name)} added"
        case ev.DurationRevised():
            return _step(teller, event.step, "given another length")
        case ev.EatTimeMoved():
            return f"eating moved to {teller.day_clock(event.eat_at)}"
        case ev.QuickTimerSet():
            return f"{lower_first(event.timer)} timer set"
        case ev.QuickTimerCleared():
            return f"{lower_first(event.timer)} timer cleared"
        case ev.AlarmHeard():
            dish = served_dish(event.alarm)
            return f"{lower_first(dish)} brought in" if dish else ""
        case ev.SettingChosen():
            return "" if event.by_itself else f"{event.setting} chosen: {event.value}"
        case ev.Hushed():
            return "sounds paused"
        case ev.CookClosed():
            return "meal ended"
        case _:
            return ""


def _step(teller: Tells, step: str, happened: str, *, job: bool = True) -> str:
    known = teller.cook.menu.steps.get(step)
    if known is None:
        return ""
    return f"{lower_first(known.dish)}: {f'{lower_first(known.do)} ' if job else ''}{happened}"


def _cue(teller: Tells, step: str, cue: str) -> str:
    if step.startswith("@"):
        place = step.strip("@?")
        return f"{the(place)} is hot" if step.endswith("?") or cue.endswith("?") else f"{place} set"
    known = teller.cook.menu.steps.get(step)
    if known is not None and cue == PUT_AWAY:
        return f"{lower_first(known.dish)} put away"
    return "" if known is None else what_was_done(cue, known.dish)
