"""From a running cook to the question of a pull: what is known of the joint, read from the menu's words."""

import re

from .choices import room_c as room_now_c
from .cook import Cook, StepState
from .heat_values import CoreReading, HeatQuestion
from .menu import Dish
from .values import Moment

_WEIGHT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(kg|g|lb|lbs|oz)\b\s*(.*)", re.IGNORECASE)
_IN_KG = {"kg": 1.0, "g": 0.001, "lb": 0.45359237, "lbs": 0.45359237, "oz": 0.028349523}
_LEAST_KG, _MOST_KG = 0.1, 20.0
_FLAT = re.compile(r"\b(?:steaks?|fillets?|chops?|breasts?|gratin|loaf|belly|bavette|flank|escalopes?)\b")
_LONG = re.compile(r"\b(?:loin|tenderloin|rolled|roulade|sausages?|leg|shank)\b")


def heat_question(cook: Cook, step_id: str, now: Moment, room_c: float | None = None) -> HeatQuestion | None:
    """The question for a running step with a pull temperature; None for any other, and for one that goes in loads.

    It is put as of the last reading (without one, as of `now`): the answer then follows from the facts alone.
    """
    step = cook.step(step_id)
    if step is None or step.pull_at_c is None or step.batches is not None:
        return None
    life = cook.lives[step_id]
    dish = cook.menu.dish(step.dish)
    if life.state is not StepState.RUNNING or life.started is None or dish is None:
        return None
    readings = tuple(CoreReading(at=r.at, celsius=r.celsius) for r in life.readings if r.of == "core")
    heat = next((cook.heats[use.place].heat_c for use in step.uses if use.place in cook.heats), step.heat_c)
    return HeatQuestion(
        step=step_id,
        started=life.started,
        now=readings[-1].at if readings else now,
        readings=readings,
        pull_c=step.pull_at_c,
        oven_c=heat,
        span=cook.span(step),
        weight_kg=weight_kg(dish),
        shape=shape_of(dish),
        room_c=room_now_c(cook) if room_c is None else room_c,
    )


def weight_kg(dish: Dish) -> float | None:
    """The weight of the joint: of the ingredient that shares most words with the dish's name; None when none tells."""
    name = set(re.findall(r"\w+", dish.name.lower()))
    found = [(match, line) for line in dish.ingredients if (match := _WEIGHT.match(line.strip()))]
    named = [(_kg(m), len(name & set(re.findall(r"\w+", m[3].lower())))) for m, _ in found]
    fitting = [(share, kg) for kg, share in named if share and _LEAST_KG <= kg <= _MOST_KG]
    return max(fitting)[1] if fitting else None


def _kg(match: re.Match[str]) -> float:
    return float(match[1].replace(",", ".")) * _IN_KG[match[2].lower()]


def shape_of(dish: Dish) -> str:
    """What its words make of its shape: flat pieces a slab, long ones a cylinder, else a sphere."""
    said = "\n".join((dish.name, *dish.ingredients)).lower()
    if _FLAT.search(said):
        return "slab"
    return "cylinder" if _LONG.search(said) else "sphere"
