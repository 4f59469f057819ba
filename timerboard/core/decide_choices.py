"""Choices for the kitchen and for a dish's food."""

from .answers import At, Refusal
from .choices import chosen_key, why_not
from .commands import ChooseSetting
from .cook import Cook
from .events import Event, SettingChosen
from .words import upper_first


def choose(cook: Cook, command: ChooseSetting, stamp: At) -> tuple[Event, ...] | Refusal:
    """A choice is noted; one that stands already changes nothing."""
    why = why_not(frozenset(d.name for d in cook.menu.dishes), command.setting, command.value, command.dish)
    if why:
        return Refusal(f"{upper_first(why)}.")
    if cook.chosen.get(chosen_key(command.setting, command.dish)) == command.value:
        return ()
    fields = {"setting": command.setting, "value": command.value, "dish": command.dish}
    return (SettingChosen(**stamp.fields(), **fields, by_itself=command.by_itself),)
