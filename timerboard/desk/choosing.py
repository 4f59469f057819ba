"""Choices that outlive a cook: whose food rules count and how high the kitchen lies. How hot it is is of the day."""

from collections.abc import Mapping

from timerboard.core.answers import At
from timerboard.core.choices import HEIGHT, RULES, STRICTER, height_of
from timerboard.core.commands import ChooseSetting
from timerboard.core.cook import Cook
from timerboard.core.decide import decide
from timerboard.core.events import Event, Setting

from .ports import Memory

REMEMBERED: Mapping[Setting, str] = {RULES: "food rules", HEIGHT: "height"}
"""Setting, and under which name a board remembers it."""

AS_ALWAYS: Mapping[Setting, str] = {RULES: STRICTER, HEIGHT: "0"}


def remembered_height(memory: Memory | None) -> str:
    """How high the kitchen lies, as it was chosen on a board: what every plan of a menu is made for; '0' without."""
    value = memory.recall().get(REMEMBERED[HEIGHT]) if memory else None
    return value if isinstance(value, str) and height_of(value) is not None else AS_ALWAYS[HEIGHT]


def choices_of_old(memory: Memory | None, cook: Cook, stamp: At) -> tuple[Event, ...]:
    """What was chosen at the last cook, for a new one. What makes no sense any more is left out."""
    kept = memory.recall() if memory else {}
    found: list[Event] = []
    for setting, name in REMEMBERED.items():
        value = kept.get(name)
        if isinstance(value, str) and value != AS_ALWAYS[setting]:
            command = ChooseSetting(setting, value, by_itself=True)
            made = decide(cook, command, stamp.further(len(found)))
            found += made if isinstance(made, tuple) else ()
    return tuple(found)


def remember_choices(memory: Memory | None, before: Mapping[str, str], now: Mapping[str, str]) -> None:
    """Keep what an act changed, a taking back as well."""
    for setting, name in REMEMBERED.items():
        if memory and before.get(setting) != now.get(setting):
            memory.remember(name, now.get(setting, AS_ALWAYS[setting]))
