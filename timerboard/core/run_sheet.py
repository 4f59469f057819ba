"""The run sheet as values: when, what, where, who, until, then. Paper, terminal and calendar all read it.

The columns are those that written work-back plans share (time, order of work, place, person, test of doneness, what
comes next): common practice, no source.
"""

from dataclasses import dataclass

from .menu import Menu, Step
from .plan import HeatSetting, Placed, PlacedCue, Plan
from .quantity_words import celsius_words, duration_words
from .values import Seconds


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One job on the sheet. `at` and `ends` are on the plan's axis; `ends` equals `at` for a job of a moment."""

    at: Seconds
    ends: Seconds
    what: str
    dish: str
    where: str = ""
    who: str = ""
    until: str = ""
    then: str = ""
    hands: bool = True  # False: it starts by itself and asks for nobody


def run_sheet(menu: Menu, plan: Plan) -> tuple[SheetLine, ...]:
    """Every start, cue and oven setting of a plan, and the meal itself, by time."""
    lines = [_step_line(menu, plan, placed) for placed in plan.placed if placed.id in menu.steps]
    lines += [_cue_line(menu, cue) for cue in plan.cues if cue.step in menu.steps]
    lines += [_setting_line(menu, setting) for setting in plan.settings]
    lines += _table_lines(menu, plan)
    return tuple(sorted(lines, key=lambda line: (line.at, line.ends, line.what)))


def doneness(menu: Menu, step: Step) -> str:
    """The test of doneness of a step: what to look for, what to read on the probe, how long at least and at most."""
    words = [step.until or ""]
    if step.pull_at_c is not None:
        words.append(f"{celsius_words(step.pull_at_c, menu.units)} in the middle")
    span = step.span
    words.append(
        duration_words(span.low) if span.certain else f"{duration_words(span.low)} to {duration_words(span.high)}"
    )
    return ", ".join(word for word in words if word)


def _step_line(menu: Menu, plan: Plan, placed: Placed) -> SheetLine:
    step = menu.steps[placed.id]
    hands = step.work.attended_start or step.hazard is not None or not step.links
    return SheetLine(
        at=placed.start,
        ends=placed.end,
        what=step.do,
        dish=step.dish,
        where=_where(menu, step),
        who=_who(plan, placed),
        until=doneness(menu, step),
        then=_then(menu, step),
        hands=hands,
    )


def _where(menu: Menu, step: Step) -> str:
    places = ", ".join(use.place for use in step.uses)
    heat = "" if step.heat_c is None else celsius_words(step.heat_c, menu.units)
    return " ".join(word for word in (places, heat) if word)


def _who(plan: Plan, placed: Placed) -> str:
    several = any((p.person or 1) > 1 for p in plan.placed)
    return f"cook {placed.person}" if several and placed.person is not None else ""


def _then(menu: Menu, step: Step) -> str:
    following = next((s for s in menu.steps.values() if any(link.step == step.id for link in s.links)), None)
    if following is None:
        return step.keep or "ready"
    return following.do if following.dish == step.dish else f"{following.do} ({following.dish})"


def _cue_line(menu: Menu, cue: PlacedCue) -> SheetLine:
    step = menu.steps[cue.step]
    return SheetLine(at=cue.at, ends=cue.at, what=cue.cue, dish=step.dish, where=_where(menu, step))


def _setting_line(menu: Menu, setting: HeatSetting) -> SheetLine:
    heat = celsius_words(setting.heat_c, menu.units)
    step = menu.steps.get(setting.for_step)
    return SheetLine(
        at=setting.at,
        ends=setting.ready,
        what=f"Set the {setting.place} to {heat}",
        dish=step.dish if step else "",
        where=setting.place,
        until="really hot",
        then=step.do if step else "",
    )


def _table_lines(menu: Menu, plan: Plan) -> list[SheetLine]:
    times = {plan.eat_at + menu.course_of(dish).eat_s for dish in menu.dishes if menu.on_table(dish)}
    return [_table_line(menu, plan, at) for at in sorted(times)]


def _table_line(menu: Menu, plan: Plan, at: Seconds) -> SheetLine:
    dishes = [d.name for d in menu.dishes if menu.on_table(d) and plan.eat_at + menu.course_of(d).eat_s == at]
    return SheetLine(at=at, ends=at, what="To the table: " + ", ".join(dishes), dish="", where="table")
