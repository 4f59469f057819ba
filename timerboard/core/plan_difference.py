"""What a new plan asks of the cook that the old one did not, in words: 'start the beans 6 min later; eat at 18:38'."""

from collections.abc import Mapping
from dataclasses import dataclass

from .civil import day_clock_words
from .cook import Cook, StepState
from .menu import Step
from .plan import Plan
from .quantities import celsius_words
from .values import MS, Moment, Seconds
from .words import job_sentence, length_words, lower_first, names, sentence_list

WORTH_S = 60
"""A start that moves by less is not told: nobody cooks by the second."""

MOST_TOLD = 3
"""So many moves are told each; of more only the furthest is, and the rest are counted: the line is read standing."""


@dataclass(frozen=True, slots=True)
class Move:
    """A step that is to start at another moment; `by_s` above 0: later."""

    step: str
    by_s: Seconds


def moves(cook: Cook, expected: Mapping[str, Moment], plan: Plan) -> tuple[Move, ...]:
    """Every step still to start that the plan moves by a minute or more, the furthest first.

    `expected` is when each step would start as things stand, in Moments; a step it does not know is not compared.
    """
    found = []
    for step, at in expected.items():
        placed, life = plan.of(step), cook.lives.get(step)
        if placed and life and life.started is None and life.state not in {StepState.ENDED, StepState.DROPPED}:
            found.append(Move(step, placed.start - at // MS))
    told = [move for move in found if abs(move.by_s) >= WORTH_S]
    return tuple(sorted(told, key=lambda move: (-abs(move.by_s), move.step)))


def difference(cook: Cook, expected: Mapping[str, Moment], plan: Plan) -> tuple[str, ...]:
    """Phrases for what changes, the most telling first; empty when nothing worth telling does."""
    moved = moves(cook, expected, plan)
    each = moved if len(moved) <= MOST_TOLD else moved[:1]
    told = [_move_words(cook.menu.steps[move.step], move.by_s) for move in each]
    if len(moved) > len(each):
        told.append(f"{len(moved) - len(each)} more starts move")
    return (*told, *_elsewhere(cook, plan), *_hotter(cook, plan), *_eating(cook, plan))


def difference_words(cook: Cook, expected: Mapping[str, Moment], plan: Plan) -> str:
    """The phrases as one line; empty when nothing changes."""
    return "; ".join(difference(cook, expected, plan))


def _move_words(step: Step, by_s: Seconds) -> str:
    """'boil the beans 6 min later'; the dish is named where the job does not."""
    sentence, named = job_sentence(step.do, step.dish)
    start = lower_first(sentence)
    dish = "" if named or names(sentence, step.dish) else f" ({lower_first(step.dish)})"
    return f"{start}{dish} {length_words(abs(by_s) * MS)} {'later' if by_s > 0 else 'sooner'}"


def _elsewhere(cook: Cook, plan: Plan) -> list[str]:
    """Steps still to start for which the plan has another place."""
    before = cook.plan.by_id if cook.plan else {}
    said = []
    for placed in plan.placed:
        old, step = before.get(placed.id), cook.menu.steps.get(placed.id)
        if step and old and set(old.places) != set(placed.places) and cook.lives[placed.id].started is None:
            sentence, _ = job_sentence(step.do, step.dish)
            said.append(f"{lower_first(sentence)}: now {sentence_list(placed.places)}")
    return said


def _hotter(cook: Cook, plan: Plan) -> list[str]:
    """Settings of a place that the plan in force does not have: 'oven to 200 °C at 17:50'."""
    before = {(s.place, s.heat_c, s.for_step) for s in cook.plan.settings} if cook.plan else set()
    return [
        f"{s.place} to {celsius_words(s.heat_c, cook.menu.units)} at {_clock(cook, s.at * MS)}"
        for s in plan.settings
        if cook.plan and (s.place, s.heat_c, s.for_step) not in before and s.id not in cook.settings_done
    ]


def _eating(cook: Cook, plan: Plan) -> list[str]:
    """When the meal moves against the plan in force."""
    late_before = cook.plan.late_s if cook.plan else 0
    if plan.late_s == late_before and plan.late_s == 0:
        return []
    return [f"eat at {_clock(cook, cook.eat_at + plan.late_s * MS)}"]


def _clock(cook: Cook, at: Moment) -> str:
    return day_clock_words(at + cook.offset_ms, cook.zone, cook.eat_at + cook.offset_ms)
