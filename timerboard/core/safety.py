"""Whether the readings of a food meet the rules that were chosen. It never says that food is safe: it says what the
rule is, whether the readings meet it, and whose rule that is.

Two verdicts stand side by side where a code gives a table of times: the row (with 'instant' as the convention it is),
and the lethality integral along the readings. The stricter of the two counts; of several codes each must be met.
A reading speaks for the moment it was taken; between two readings at or above a temperature the core is taken to
have stayed there, after the last one nothing is known, but for a rest that a rule itself prescribes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from .cook import Reading
from .food_kind import FoodKind
from .lethality import GROUND_LOGS, WHOLE_MEAT_LOGS, log_reduction
from .quantity_words import celsius_words, duration_words
from .safety_rules import COOKING, FOLLOW, CookingRule, Whose
from .values import MS, Moment

ALL = frozenset({Whose.FOOD_CODE, Whose.FSIS})
"""Whose rules count unless the cook chooses: the American federal two; the stricter of them wins."""

NO_TABLE_BELOW_F = 136.0
"""Rows under this are not leant on: a study missed 6.5 logs at 54.4 °C (McMinn et al., Meat and Muscle Biology)."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """One rule (or one row of a table) against the readings. `logs`: reductions reached and asked for, if counted."""

    rule: CookingRule
    met: bool
    said: str
    logs: tuple[float, float] | None = None


def verdicts(
    kind: FoodKind, readings: Sequence[Reading], now: Moment, units: str = "C", whose: frozenset[Whose] = ALL
) -> tuple[Verdict, ...]:
    """One verdict for each chosen code's section that speaks of this kind; empty for food without raw animal parts."""
    core = [r for r in readings if r.of == "core"]
    rules = _rules(kind, whose)
    sections = groupby(rules, key=lambda r: (r.whose, r.section))
    return tuple(_of_section(list(rows), core, now, units) for _, rows in sections)


def met(verdicts_: Sequence[Verdict]) -> bool:
    """Whether the readings meet every one of them."""
    return all(v.met for v in verdicts_)


def _of_section(rows: list[CookingRule], core: list[Reading], now: Moment, units: str) -> Verdict:
    """Any row is enough; told is the row that is met, else the one the readings come nearest to."""
    usable = [r for r in rows if not r.table or r.fahrenheit >= NO_TABLE_BELOW_F]
    judged = [_judge(rule, core, now, units) for rule in usable]
    return next((v for v in judged if v.met), _nearest(judged, core))


def _nearest(judged: list[Verdict], core: list[Reading]) -> Verdict:
    """The hottest row that a reading has reached, else the coolest."""
    hottest = max((r.celsius for r in core), default=-273.0)
    reached = [v for v in judged if v.rule.celsius <= hottest]
    return reached[-1] if reached else judged[0]


def _judge(rule: CookingRule, core: list[Reading], now: Moment, units: str) -> Verdict:
    held = held_s(core, rule.celsius, now if rule.rest else None)
    enough = held is not None and held >= rule.hold_s
    logs = _logs(rule, core) if rule.table else None
    if logs is not None:
        enough = enough and logs[0] >= logs[1]
    return Verdict(rule, enough, _said(rule, held, logs, enough, units, read=bool(core)), logs)


def held_s(core: Sequence[Reading], celsius: float, until: Moment | None) -> int | None:
    """The longest time for which successive readings were at or above `celsius`, in seconds; None without any.

    `until` counts a rest that goes on after the last reading.
    """
    run: list[Reading] = []
    best: int | None = None
    for reading in core:
        run = [*run, reading] if reading.celsius >= celsius - 0.005 else []
        if run:
            best = max(best or 0, (run[-1].at - run[0].at) // MS)
    if run and until is not None:
        best = max(best or 0, (until - run[0].at) // MS)
    return best


def _logs(rule: CookingRule, core: list[Reading]) -> tuple[float, float]:
    wanted = GROUND_LOGS if FoodKind.GROUND in rule.kinds else WHOLE_MEAT_LOGS
    return log_reduction([(r.at / MS, r.celsius) for r in core]), wanted


def needs_words(rule: CookingRule, units: str) -> str:
    """'62.8 °C and a rest of 3 min'."""
    least_c = celsius_words(rule.celsius, units)
    if not rule.hold_s:
        return least_c
    held = duration_words(rule.hold_s)
    return f"{least_c} and a rest of {held}" if rule.rest else f"{least_c} for {held}"


def rule_words(rule: CookingRule, units: str) -> str:
    """The same with whose rule it is: '62.8 °C for 4 min (FDA Food Code 2022, 3-401.11(B)(2))'."""
    return f"{needs_words(rule, units)} ({rule.whose}, {rule.section})"


def _said(
    rule: CookingRule, held: int | None, logs: tuple[float, float] | None, enough: bool, units: str, *, read: bool
) -> str:
    asked = f"The rule asks for {rule_words(rule, units)}."
    if enough:
        return f"{asked} The readings meet it. {FOLLOW}"
    if held is None:
        return f"{asked} {'No reading is at it yet' if read else 'No reading is there yet'}. {FOLLOW}"
    if held == 0 and rule.hold_s:
        return f"{asked} One reading is at it; for how long was not read. {FOLLOW}"
    if held < rule.hold_s:
        return f"{asked} The readings show {duration_words(held)} of it. {FOLLOW}"
    reached, wanted = logs or (0.0, 0.0)
    return f"{asked} The table is met; reckoned along the readings it is {reached:.1f} of {wanted:.1f} logs. {FOLLOW}"


def least(kind: FoodKind, whose: frozenset[Whose] = ALL) -> CookingRule | None:
    """The chosen rule with the highest temperature: what a pull is measured against.

    Of the rows of one section any is enough: the coolest that asks for no more than four minutes speaks for it. A
    chart's figure goes before a table of times.
    """
    short = [r for r in _rules(kind, whose) if r.hold_s <= SHORT_HOLD_S]
    sections = [list(rows) for _, rows in groupby(short, key=lambda r: (r.whose, r.section))]
    coolest = [min(rows, key=lambda r: r.fahrenheit) for rows in sections]
    return max([r for r in coolest if not r.table] or coolest, key=lambda r: r.fahrenheit, default=None)


SHORT_HOLD_S = 240


def _rules(kind: FoodKind, whose: frozenset[Whose]) -> list[CookingRule]:
    """The chosen codes' rules for a kind; where they have none, those that count without a choice."""
    rules = [r for r in COOKING if kind in r.kinds]
    return [r for r in rules if r.whose in whose] or [r for r in rules if r.whose in ALL]
