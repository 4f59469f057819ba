"""One written value at a time: what a key of the menu may hold, read or refused in the reader's words.

Each reader takes what stands in the file and raises Unreadable; the types at the end are what the written form is
made of.
"""

from collections.abc import Callable
from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator

from .civil import read_eat_at
from .faults import Unreadable
from .menu import Closed
from .quantities import parse_celsius, parse_celsius_range, parse_degrees, parse_duration, parse_signed, parse_span
from .values import Seconds, Span

MOST_STEP_S = 7 * 86_400
MOST_PLAN_S = 14 * 86_400


def as_quantity(value: object, example: str) -> str:
    """A number with its unit, as text; a bare number or anything else is told what to write."""
    if isinstance(value, bool) or value is None or not isinstance(value, str | int | float):
        raise Unreadable(f"{shown(value)} is not a quantity", f"write {example}")
    if not isinstance(value, str):
        raise Unreadable(f"{value} has no unit", f"write {value} {example.rpartition(' ')[2]}")
    return value


def shown(value: object) -> str:
    """A value as a reader would call it."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes or no"
    if isinstance(value, dict | list):
        return "a list" if isinstance(value, list) else "a group of keys"
    return f"'{str(value)[:40]}'"


def read_by(reader: Callable[[str], int | float | Span], example: str, most: float | None = None) -> BeforeValidator:
    """A validator that reads a quantity with `reader`; at most `most` seconds when that is given."""

    def read(value: object) -> int | float | Span:
        found = reader(as_quantity(value, example))
        longest = found.high if isinstance(found, Span) else found
        if most is not None and abs(longest) > most:
            raise Unreadable(f"'{value}' is too long", f"write at most {int(most // 86_400)} days")
        return found

    return BeforeValidator(read)


def as_heat(value: object) -> tuple[float, float]:
    """What a heated place can be set to, in Celsius."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise Unreadable(f"{value} is not a range of temperatures", "write 60-250 C")
    return parse_celsius_range(as_quantity(value, "60-250 C"))


def as_text(value: object) -> str:
    """A few words, spaces tidied."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise Unreadable(f"{value} is a number where words should be", f'put it in quotes: "{value}"')
    if not isinstance(value, str):
        raise Unreadable(f"{shown(value)} stands where words should be", "write a few words")
    words = " ".join(value.split())
    if not words:
        raise Unreadable("nothing is written here", "write a few words")
    return words


def as_note(value: object) -> str:
    """Words as they are written, lines and all."""
    as_text(value)
    return str(value).strip()


def number_from(least: int, most: int) -> Callable[[object], int]:
    """A reader of whole numbers from `least` to `most`."""

    def read(value: object) -> int:
        right = f"write a whole number from {least} to {most}"
        if isinstance(value, str) and value.strip().isdecimal():
            raise Unreadable(f"'{value}' is in quotes", f"write the number without them: {value.strip()}")
        if isinstance(value, bool) or not isinstance(value, int):
            raise Unreadable(f"{shown(value)} is not a whole number", right)
        if not least <= value <= most:
            raise Unreadable(f"{value} is not possible here", right)
        return value

    return read


def whole(least: int, most: int) -> BeforeValidator:
    """A validator of whole numbers from `least` to `most`."""
    return BeforeValidator(number_from(least, most))


def as_list(value: object) -> object:
    """One entry or a list of them, as a list."""
    return value if isinstance(value, list) else [value]


def as_uses(value: object) -> object:
    """`oven` for `{oven: 1}`."""
    return {value: 1} if isinstance(value, str) else value


def as_closed(value: object) -> Closed:
    """Hours of the day with no hands: 23:00-07:00."""
    parts = as_quantity(value, "23:00-07:00").replace("–", "-").split("-")
    if len(parts) != 2:
        raise Unreadable(f"'{value}' is not a stretch of the day", "write 23:00-07:00")
    times = [read_eat_at(part) for part in parts]
    if any(day is not None for day, _, _ in times):
        raise Unreadable(f"'{value}' has a date", "write the hours only, as 23:00-07:00")
    start, end = (hour * 60 + minute for _, hour, minute in times)
    if start == end:
        raise Unreadable(f"'{value}' begins and ends at the same time", "write 23:00-07:00")
    return Closed(start_min=start, end_min=end)


def as_eat_at(value: object) -> str:
    """A time of day or a day and a time, kept as written."""
    words = as_text(value)
    read_eat_at(words)
    return words


def as_units(value: object) -> str:
    """C or F."""
    if value not in ("C", "F"):
        raise Unreadable(f"{shown(value)} is not a unit of temperature", "write C or F")
    return str(value)


def as_hands(value: object) -> object:
    """A number of cooks from the start, or the list of changes."""
    return [{"from": "start", "pairs": number_from(1, 20)(value)}] if not isinstance(value, list) else value


def kind_of_work(value: object) -> str:
    """Which of its three forms a step's `work` has."""
    return "ends" if isinstance(value, dict) else "all" if value == "all" else "span"


def as_work(value: object) -> object:
    """A length, `all`, or hands at the ends."""
    if isinstance(value, dict):
        return value
    return (
        "all" if isinstance(value, str) and value.strip().lower() == "all" else parse_span(as_quantity(value, "5 min"))
    )


def as_from(value: object) -> int | None:
    """Seconds relative to the meal; None for `start`."""
    if isinstance(value, str) and value.strip().lower() == "start":
        return None
    return parse_signed(as_quantity(value, "-40 min"))


def as_person(value: object) -> int | None:
    """A cook's number; None for `any`."""
    return None if value == "any" else number_from(1, 20)(value)


def as_cue_moment(value: object) -> int | Literal["halfway"]:
    """Seconds from a step's start, or `halfway`."""
    if isinstance(value, str) and value.strip().lower() == "halfway":
        return "halfway"
    return parse_duration(as_quantity(value, "20 min"))


def as_link(value: object) -> object:
    """A step's name for `{step: its name}`."""
    return value if isinstance(value, dict) else {"step": value}


def as_group(value: object) -> object:
    """A place with nothing after its colon has no limit of room."""
    return {} if value is None else value


Text: TypeAlias = Annotated[str, BeforeValidator(as_text)]
Length: TypeAlias = Annotated[Seconds, read_by(parse_duration, "25 min", MOST_PLAN_S)]
Signed: TypeAlias = Annotated[Seconds, read_by(parse_signed, "-30 min", MOST_PLAN_S)]
Range: TypeAlias = Annotated[Span, read_by(parse_span, "25 min", MOST_STEP_S)]
Celsius: TypeAlias = Annotated[float, read_by(parse_celsius, "180 C")]
Degrees: TypeAlias = Annotated[float, read_by(parse_degrees, "10 C")]
Names: TypeAlias = Annotated[list[Text], BeforeValidator(as_list)]
Note: TypeAlias = Annotated[str, BeforeValidator(as_note)]
