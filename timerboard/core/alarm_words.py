"""The words of alarms: verb, food, place, in that order."""

from typing import NamedTuple

from .alarm_values import Alarm, Kind, Rank
from .menu import Step
from .values import Moment
from .words import job_sentence, lower_first, the


def food(step: Step) -> str:
    """The food of a step in a sentence: 'the pork shoulder'."""
    return the(step.dish)


def where(step: Step) -> str:
    """The places of a step: 'oven', 'hob, counter'."""
    return ", ".join(use.place for use in step.uses)


def job(do: str, dish: str) -> tuple[str, str]:
    """A job as verb and food: ('Baste', 'the pork'); one that names its own object keeps it: ('Turn the tray', '')."""
    sentence, named = job_sentence(do, dish)
    if not named or not sentence.endswith(the(dish)):
        return sentence, ""
    return sentence.removesuffix(the(dish)).rstrip(), the(dish)


def start_words(step: Step) -> tuple[str, str]:
    """'Start to roast the pork' is nobody's English: 'Start: roast', 'the pork'; 'Start: score the skin'."""
    verb, what = job(step.do, step.dish)
    return f"Start: {lower_first(verb)}", what


class Words(NamedTuple):
    """What an alarm says: verb, food, and what more there is to know."""

    verb: str
    food: str = ""
    detail: str = ""


def step_alarm(kind: Kind, rank: Rank, step: Step, since: Moment, words: Words, *, n: int = 0) -> Alarm:
    """An alarm of a step. `n` tells one falling-due from the next."""
    return Alarm(
        id=f"{kind}|{step.id}||{n}",
        kind=kind,
        rank=rank,
        since=since,
        dish=step.dish,
        step=step.id,
        cue=None,
        verb=words.verb,
        food=words.food,
        where=where(step),
        detail=words.detail,
    )
