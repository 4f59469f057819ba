"""Pull forecasts while a cook runs: asked again after each reading, kept until a newer one comes.

The fit takes tens of milliseconds and loads numpy: it is asked of the planner's process and never reckoned on the
window's thread. Until it has answered, the straight line through the readings stands.
"""

from collections.abc import Callable, Mapping
from typing import Protocol

from timerboard.core.cook import Cook
from timerboard.core.heat_question import heat_question
from timerboard.core.heat_values import HeatQuestion, PullForecast
from timerboard.core.values import MS, Moment

ASK_AGAIN_MS = 10 * 60 * MS
"""Without a new reading a forecast is good for so long: what should have happened by now has moved it."""


class Predictor(Protocol):
    """Answers pull questions later, on the caller's own thread; of two about one step only the newer."""

    def predict(self, question: HeatQuestion, on_pull: Callable[[PullForecast], None]) -> None:
        """Ask; an answer that cannot be had never comes."""


class Pulls:
    """The newest forecast of each running step that is pulled by temperature."""

    def __init__(self, predictor: Predictor | None, tell: Callable[[], None]) -> None:
        self._predictor, self._tell = predictor, tell
        self._asked: dict[str, HeatQuestion] = {}
        self._found: dict[str, PullForecast] = {}

    @property
    def forecasts(self) -> Mapping[str, PullForecast]:
        """By step. A forecast of older readings is left out: the line through the new ones says more."""
        fresh = {step: len(question.readings) for step, question in self._asked.items()}
        return {step: found for step, found in self._found.items() if found.readings == fresh.get(step)}

    def look(self, cook: Cook, now: Moment) -> None:
        """Ask about every running step whose readings or oven changed, or whose forecast is old; forget the others."""
        questions = {step: heat_question(cook, step, now) for step in cook.lives}
        running = {step: question for step, question in questions.items() if question is not None}
        self._asked = {step: asked for step, asked in self._asked.items() if step in running}
        self._found = {step: found for step, found in self._found.items() if step in running}
        for step, question in running.items():
            if question.readings and self._stale(self._asked.get(step), question):
                self._asked[step] = question
                if self._predictor is not None:
                    self._predictor.predict(question, self._hear)

    @staticmethod
    def _stale(asked: HeatQuestion | None, question: HeatQuestion) -> bool:
        if asked is None or question.now - asked.now >= ASK_AGAIN_MS:
            return True
        return asked != question.model_copy(update={"now": asked.now})

    def _hear(self, found: PullForecast) -> None:
        if found.step in self._asked:
            self._found[found.step] = found
            self._tell()
