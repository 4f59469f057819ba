"""A cook's record to keep: what was done and when, what it really took, and how what was left cooled."""

from .civil import day_clock_words
from .cook import Cook
from .cooling_log import record_lines
from .record_words import happened, what_it_took
from .values import MS, Moment


def cook_record(cook: Cook, now: Moment) -> tuple[str, ...]:
    """Lines of text. `now` only tells how long food that still stands has stood."""
    eaten = day_clock_words(cook.eat_at + cook.offset_ms, cook.zone, cook.opened + cook.offset_ms)
    told = [line for noted in cook.record if (line := happened(cook, noted))]
    took, cooled = what_it_took(cook), record_lines(cook, now)
    lines = [f"{cook.menu.title} for {cook.menu.serves}, eaten {eaten}", "", "What was done:", *_in(told)]
    lines += ["", "What it took:", *_in(took)] if took else []
    lines += ["", "Cooling and leftovers:", *_in(cooled)] if cooled else []
    return tuple(lines)


def last_moment(cook: Cook) -> Moment:
    """When the last event of a cook was noted: 'now' for a record that is printed later."""
    return max((noted.event.at for noted in cook.record), default=cook.opened) // MS * MS


def _in(lines: tuple[str, ...] | list[str]) -> list[str]:
    return [f"  {line}" for line in lines]
