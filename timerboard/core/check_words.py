"""How a checker names a moment of a plan: by its distance from the meal, as cooks count."""

from .plan import Problem
from .quantity_words import duration_words
from .values import Seconds


def when(problem: Problem, at: Seconds) -> str:
    """'1 h 20 min before the meal', 'at the meal', '5 min after the meal'."""
    apart = problem.eat_at - at
    if apart == 0:
        return "at the meal"
    return f"{duration_words(abs(apart))} {'before' if apart > 0 else 'after'} the meal"


def degrees(celsius: float) -> str:
    """'160 °C': a checker speaks Celsius, as the plan does."""
    return f"{celsius:g} °C"
