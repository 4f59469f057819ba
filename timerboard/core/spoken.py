"""A call as it is said aloud: verb, food, place; what shares the door; and in a flood how many more wait."""

from collections.abc import Sequence

from .alarm_values import Alarm
from .words import lower_first, sentence_list

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def spoken(lead: Alarm, others: Sequence[Alarm] = (), more: int = 0) -> str:
    """'Baste the pork and turn the tart, oven. And four more.'"""
    jobs = list(dict.fromkeys([lead.sentence, *(lower_first(other.sentence) for other in others)]))
    place = f", {lead.where}" if lead.where and lead.where.lower() not in lead.sentence.lower().split() else ""
    return f"{sentence_list(jobs)}{place}." + (f" And {number(more)} more." if more else "")


def number(count: int) -> str:
    """A number as it is said: 'four'; above twelve in digits."""
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else str(count)
