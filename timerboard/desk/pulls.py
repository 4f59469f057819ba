"""Pull forecasts while a cook runs: asked again after each reading, kept until a newer one comes.

The fit takes tens of milliseconds and loads numpy: it is asked of the planner's process and never reckoned on the
window's thread. Until it has answered, the straight line through the readings stands.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Protocol

from timerboard.core.cook import Cook
from timerboard.core.heat_question import heat_question
from timerboard.core.heat_values import HeatQuestion, PullForecast
from timerboard.core.values import MS, Moment

ASK_AGAIN_MS = 10 * 60 * MS
"""An answer that has not come in so long is asked for again: the process it was asked of may have ended."""


class Predictor(Protocol):
    """Answers pull questions later, on the caller's own thread; of two about one step only the newer."""

    def predict(self, question: HeatQuestion, on_pull: Callable[[PullForecast], None]) -> None:
        """Ask; an answer that cannot be had never comes."""


class Pulls:
    """Asks for a forecast of each running step that is pulled by temperature, and has the desk adopt what is new."""

    def __init__(self, predictor: Predictor | None, adopt: Callable[[PullForecast], None]) -> None:
        self._predictor, self._adopt = predictor, adopt
        self._asked: dict[str, _Asked] = {}
        self._found: dict[str, PullForecast] = {}

    @property
    def forecasts(self) -> Mapping[str, PullForecast]:
        """By step. A forecast of older readings is left out: the line through the new ones says more."""
        fresh = {step: len(asked.question.readings) for step, asked in self._asked.items()}
        return {step: found for step, found in self._found.items() if found.readings == fresh.get(step)}

    def look(self, cook: Cook, now: Moment) -> None:
        """Ask about every running step whose readings or oven changed; forget the others."""
        if self._predictor is None:
            return
        wanted = (step.id for step in cook.menu.steps.values() if step.pull_at_c is not None)
        questions = {step: heat_question(cook, step, now) for step in wanted if step in cook.lives}
        running = {step: question for step, question in questions.items() if question is not None}
        self._asked = {step: asked for step, asked in self._asked.items() if step in running}
        self._found = {step: found for step, found in self._found.items() if step in running}
        for step, question in running.items():
            if question.readings and self._stale(step, question, now):
                self._asked[step] = _Asked(question, now)
                self._predictor.predict(question, self._hear)

    def _stale(self, step: str, question: HeatQuestion, now: Moment) -> bool:
        asked, found = self._asked.get(step), self._found.get(step)
        if asked is None or asked.question != question:
            return True
        answered = found is not None and found.readings == len(question.readings)
        return not answered and now - asked.at >= ASK_AGAIN_MS

    def _hear(self, found: PullForecast) -> None:
        if found.step in self._asked:
            self._found[found.step] = found
            if found.step in self.forecasts:
                self._adopt(found)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What was asked, and when."""

    question: HeatQuestion
    at: Moment
