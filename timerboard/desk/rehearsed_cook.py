"""A cook who answers the board: how long each food really takes, and when the hands line is seen and answered.

Not a model of people; it makes the same code run through likely, late and forgetful evenings.
"""

import math
import random
from dataclasses import dataclass, field
from enum import StrEnum

from timerboard.core.cook import Cook
from timerboard.core.due import batch_of
from timerboard.core.menu import Step
from timerboard.core.values import MS, Moment, Seconds

FRIDGE_C = 5.0  # where a core starts; common practice, no source
WET_C = 100.0
"""What the core of wet food bends toward lies half way from here to the oven's air. A plausible curve, no source."""
LEAST_ABOVE_C = 15.0
LAG = 1.6
"""First coefficient of the one-term series for a long cylinder heated through (1.60 at a large Biot number)."""
LIFT_ALLOWANCE = 0.5  # °C above its pull that a piece out of the pan shows


class Manner(StrEnum):
    """How a rehearsed cook behaves."""

    LIKELY = "likely"  # food takes its likely time, answers within half a minute
    LATE = "late"  # food draws from its range, answers take one to four minutes
    FORGETFUL = "forgetful"  # as late, and one call in six is overheard for up to a quarter of an hour


@dataclass
class RehearsedCook:
    """Draws, once each, how long a step really takes and how long a call stays unanswered."""

    manner: Manner
    seed: int
    _rng: random.Random = field(init=False)
    _lengths: dict[str, Seconds] = field(init=False, default_factory=dict)
    _delays: dict[str, int] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._rng = random.Random(self.seed)

    def true_length_s(self, cook: Cook, step: Step) -> Seconds:
        """How long the food (or, where it is elastic, the plan) makes this step take."""
        if step.id not in self._lengths:
            self._lengths[step.id] = self._draw(cook, step)
        return self._lengths[step.id]

    def _draw(self, cook: Cook, step: Step) -> Seconds:
        span = cook.span(step)
        placed = cook.plan.of(step.id) if cook.plan else None
        if step.elastic:
            return placed.end - placed.start if placed else span.low
        if self.manner is Manner.LIKELY or span.certain:
            return span.likely
        return round(self._rng.triangular(span.low, span.high, span.likely))

    def load_done(self, cook: Cook, step: Step, now: Moment) -> bool:
        """True when the load that is in the pan is done; each load is drawn for itself."""
        batch = batch_of(step, cook.lives[step.id])
        if batch is None or step.batches is None:
            return True
        name, each = f"{step.id} {batch.number}", step.batches.each
        if name not in self._lengths:
            certain = self.manner is Manner.LIKELY or each.certain
            self._lengths[name] = (
                each.likely if certain else round(self._rng.triangular(each.low, each.high, each.likely))
            )
        return now - batch.loaded >= self._lengths[name] * MS

    def is_done(self, cook: Cook, step: Step, now: Moment) -> bool:
        """True when the food of a running step is as it should be."""
        if step.batches is not None:
            return self.load_done(cook, step, now)
        started = cook.lives[step.id].started
        return started is not None and now - started >= self.true_length_s(cook, step) * MS

    def core_c(self, cook: Cook, step: Step, now: Moment) -> float:
        """What a probe would show: slow at first, then quick, then bending toward what the oven can do to wet food. It
        shares nothing with the model that forecasts it, and is at the pull temperature when the food is done.
        """
        started, pull_c = cook.lives[step.id].started, step.pull_at_c
        if started is None or pull_c is None:
            return FRIDGE_C
        if step.batches is not None:
            return round(pull_c + (LIFT_ALLOWANCE if self.load_done(cook, step, now) else -4.0), 1)
        air_c = WET_C if step.heat_c is None else (step.heat_c + WET_C) / 2
        toward = max(air_c, pull_c + LEAST_ABOVE_C)
        left = (toward - pull_c) / (toward - FRIDGE_C)
        share = (now - started) / max(1, self.true_length_s(cook, step) * MS)
        shown = toward - (toward - FRIDGE_C) * LAG * math.pow(left / LAG, share)
        return math.ceil(max(FRIDGE_C, shown) * 10 - 1e-6) / 10

    def delay_ms(self, call: str) -> int:
        """How long this call stays unanswered after it was first seen."""
        if call not in self._delays:
            self._delays[call] = self._draw_delay_ms()
        return self._delays[call]

    def _draw_delay_ms(self) -> int:
        if self.manner is Manner.LIKELY:
            return self._rng.randint(3_000, 30_000)
        if self.manner is Manner.FORGETFUL and self._rng.random() < 1 / 6:
            return self._rng.randint(300_000, 900_000)
        return self._rng.randint(60_000, 240_000)
