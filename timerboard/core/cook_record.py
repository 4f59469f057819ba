"""A cook's record to keep: what was done and when, planned and real, what it really took, what was read and what rules
ask of it, and how what was left cooled. It repeats rules and readings, and never says more of the food than they do.
"""

from collections.abc import Iterator

from .choices import food_kinds, whose_rules
from .civil import day_clock_words
from .cook import Cook
from .cooling_log import record_lines
from .events import PlanAdopted, StepStarted
from .food_clocks import dish_readings
from .food_kind import food_kind
from .plan import Plan
from .quantity_words import celsius_words
from .record_words import Teller, happened, what_it_took
from .safety import verdicts
from .safety_rules import FOLLOW
from .values import MS, Moment
from .words import lower_first


def cook_record(cook: Cook, now: Moment) -> tuple[str, ...]:
    """Lines of text. `now` only tells how long food that still stands has stood."""
    eaten = day_clock_words(cook.eat_at + cook.offset_ms, cook.zone, cook.opened + cook.offset_ms)
    told = [line for noted in cook.record if (line := happened(cook, noted))]
    parts = (
        ("Planned and real:", planned_and_real(cook)),
        ("What it took:", what_it_took(cook)),
        ("Core temperatures and what rules ask:", tuple(_rules(cook, now))),
        ("Cooling and leftovers:", record_lines(cook, now)),
    )
    lines = [f"{cook.menu.title} for {cook.menu.serves}, eaten {eaten}", "", "What was done:", *_in(told)]
    for title, found in parts:
        lines += ["", title, *_in(found)] if found else []
    return tuple(lines)


def planned_and_real(cook: Cook) -> tuple[str, ...]:
    """Each step that was begun: when the plan it was begun on had it, and when it was."""
    plan, teller = _first_plan(cook), Teller(cook)
    lines = []
    for step in cook.menu.steps.values():
        life, placed = cook.lives[step.id], plan.of(step.id) if plan is not None else None
        if life.started is None:
            continue
        end = f"-{teller.clock(life.ended)}" if life.ended is not None else ", not ended"
        was = f"{teller.clock(life.started)}{end}"
        wanted = (
            f"planned {teller.clock(placed.start * MS)}-{teller.clock(placed.end * MS)}" if placed else "not planned"
        )
        lines.append(f"{step.dish}: {lower_first(step.do)} {wanted}, was {was}")
    return tuple(lines)


def _first_plan(cook: Cook) -> Plan | None:
    """The plan in force when the first step was begun; a later one knows already what happened."""
    plan: Plan | None = None
    for noted in cook.record:
        if noted.undone or noted.effect:
            continue
        if isinstance(noted.event, StepStarted) and plan is not None:
            return plan
        if isinstance(noted.event, PlanAdopted):
            plan = noted.event.plan
    return plan


def _rules(cook: Cook, now: Moment) -> Iterator[str]:
    """Of each dish whose core was read: the readings, every rule with whether they meet it; last, whom to follow."""
    clock, told = Teller(cook).clock, False
    for dish in cook.menu.dishes:
        readings = dish_readings(cook, dish)
        found = verdicts(food_kind(dish, food_kinds(cook)), readings, now, cook.menu.units, whose_rules(cook))
        if not readings or not found:
            continue
        read = ", ".join(f"{clock(r.at)} {celsius_words(r.celsius, cook.menu.units)}" for r in readings)
        yield f"{dish.name}: {read}"
        yield from (f"{dish.name}: {verdict.said.removesuffix(FOLLOW).strip()}" for verdict in found)
        told = True
    if told:
        yield FOLLOW


def last_moment(cook: Cook) -> Moment:
    """When the last event of a cook was noted: 'now' for a record that is printed later."""
    return max((noted.event.at for noted in cook.record), default=cook.opened) // MS * MS


def _in(lines: tuple[str, ...] | list[str]) -> list[str]:
    return [f"  {line}" for line in lines]
