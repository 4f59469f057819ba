"""The rule of hot oil: never unattended, its temperature read between batches, and words for when it goes wrong.

Sources: USDA FSIS, Deep Fat Frying and Food Safety (oil can go above 204 °C and then needs extreme care; a grease fire
gets a lid, never water; an extinguisher stands within reach); USDA/FSIS and FEMA frying advice (thawed and dry: water
flashes to steam). Water makes 1,603 times its volume in steam at 100 °C (IAPWS-IF97). Half full at most: secondary.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from .alarm_meals import start_calls
from .alarm_values import Alarm, Kind, Rank
from .alarm_words import Words, food, step_alarm
from .cook import Cook, Reading, StepLife
from .engine import LIFT
from .menu import Step
from .quantity_words import celsius_words
from .readiness import running
from .values import MS, Moment
from .words import lower_first

USUAL_C = 175.0
TOO_HOT_C = 200.0
"""Take it off the heat: 4 degrees under the 400 °F above which oil needs extreme care (USDA FSIS). The margin is common
practice, no source; recipes end at 190 °C."""
WARMER_C = 8.0
"""Oil may be so much above what the step asks for before a batch goes in. Common practice, no source."""
COOLER_C = 5.0
OIL_CUE = "oil"
READ_EVERY_MS = 10 * 60 * MS
"""Oil that heats or fries for long is read at least so often. Common practice, no source."""

BEFORE = (
    "Stay with the oil: from the first flame until it is off and cooling.",
    "Pan half full at most. A lid that fits and an extinguisher within reach, children and pets away.",
    "Food thawed through and dried: water and ice flash to steam and throw oil on to the flame.",
    "Lower food in slowly, away from you.",
)
"""Said when a hot-oil step is about to start."""

IF_IT_SMOKES = (
    "Heat off. Do not move the pan.",
    "Lid on. Let it cool before anything else; smoke comes shortly before fire.",
)

IF_IT_BURNS = (
    "Heat off. Metal lid on, and leave it on.",
    "Never water, never carry the pan.",
    "If it does not die at once: out, door shut, call the fire service.",
)

AFTERWARDS = ("Heat off. Let the oil stand for an hour or more before it is moved or poured.",)


@dataclass(frozen=True, slots=True)
class OilSays:
    """What a reading of the oil means before the next batch."""

    ready: bool
    said: str


def is_hot_oil(step: Step) -> bool:
    """Whether a step is under this rule."""
    return step.hazard is not None


def wanted_c(step: Step) -> float:
    """What the oil should be at: the step's own temperature, else the usual one."""
    return USUAL_C if step.heat_c is None else step.heat_c


def oil_says(step: Step, celsius: float, units: str = "C") -> OilSays:
    """Whether the next batch may go in at this reading, and what to do when not."""
    wanted, read = wanted_c(step), celsius_words(celsius, units)
    if celsius >= TOO_HOT_C:
        return OilSays(False, f"Oil at {read}: take it off the heat now, lid near, and do not put food in.")
    if celsius > wanted + WARMER_C:
        return OilSays(False, f"Oil at {read}, wanted {celsius_words(wanted, units)}: heat down, wait.")
    if celsius < wanted - COOLER_C:
        return OilSays(False, f"Oil at {read}, wanted {celsius_words(wanted, units)}: wait for the next batch.")
    return OilSays(True, f"Oil at {read}: the next batch may go in.")


def oil_calls(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """'Read the oil': from each lifted batch on until it is read; where there are no batches and the menu has no such
    cue, ten minutes after it was lit or last read. It asks quietly: nobody leaves the oil to answer it.
    """
    for step in running(cook):
        since = read_from(step, cook.lives[step.id]) if is_hot_oil(step) else None
        if since is not None:
            words = Words("Read the oil of", food(step), f"{celsius_words(wanted_c(step), cook.menu.units)}?")
            alarm = step_alarm(Kind.READ, Rank.SOON, step, since, words)
            yield replace(alarm, id=f"{Kind.READ}|{step.id}|oil|{since}", spoils_at=since + READ_EVERY_MS)


CAUTION_MS = 3 * 60 * MS
"""So long before a hot-oil step is called for its caution is shown: time to look for the lid. Common practice."""


def oil_cautions(cook: Cook, now: Moment) -> Iterator[Alarm]:
    """The rule of hot oil, as a note before it is lit; it stays until somebody has seen it or the step has begun."""
    for call in start_calls(cook, now):
        step = cook.step(call.step or "")
        if step is not None and is_hot_oil(step):
            words = Words(f"Hot oil soon, {food(step)}.", " ".join(BEFORE))
            note = step_alarm(Kind.NOTE, Rank.NOTE, step, max(0, call.since - CAUTION_MS), words)
            yield replace(note, where="")


def read_from(step: Step, life: StepLife) -> Moment | None:
    """From when a reading of the oil is asked for; None while none is wanted."""
    started, last = life.started or 0, last_oil(life)
    if step.batches is None:
        cued = any(OIL_CUE in cue.do.lower() for cue in step.cues)
        return None if cued else (last.at if last else started) + READ_EVERY_MS
    lifted = life.cues[LIFT].last if LIFT in life.cues else None
    return None if lifted is None or (last is not None and last.at >= lifted) else lifted


def asks_for_oil(alarm: Alarm) -> bool:
    """Whether a call for a reading means the oil, not the core."""
    return alarm.kind is Kind.READ and alarm.id.startswith(f"{Kind.READ}|{alarm.step}|oil|")


def last_oil(life: StepLife) -> Reading | None:
    """The last reading of the oil."""
    return next((r for r in reversed(life.readings) if r.of == "oil"), None)


def oil_words(step: Step, life: StepLife, units: str) -> str:
    """For a strip: 'oil 172 °C', as last read; 'oil to 175 °C' before that, where the menu says how hot."""
    last = last_oil(life)
    if last is not None:
        return f"oil {celsius_words(last.celsius, units)}"
    return "" if step.heat_c is None else f"oil to {celsius_words(step.heat_c, units)}"


STRIP_RULE = "never leave it, no water"
"""The rule in few words, on the strip for as long as the step runs."""

IF_IT_GOES_WRONG = (
    f"If it smokes: {lower_first(' '.join(IF_IT_SMOKES))}",
    f"If it burns: {lower_first(' '.join(IF_IT_BURNS))}",
)
"""What a cook is told at one key."""
