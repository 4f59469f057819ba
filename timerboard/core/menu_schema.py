"""The written form of a menu: the keys a cook may write and what each may hold, lengths already in seconds.

Names are still as written; `menu_build.py` resolves them. Anything that cannot be read raises `Unreadable` inside
pydantic, so that every message is in the reader's words (`menu_misreadings.py` says the rest).
"""

from collections.abc import Callable
from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag

from .civil import read_eat_at
from .faults import Unreadable
from .menu import Closed
from .quantities import parse_celsius, parse_celsius_range, parse_degrees, parse_duration, parse_signed, parse_span
from .values import Seconds, Span

MOST_STEP_S = 7 * 86_400
MOST_PLAN_S = 14 * 86_400


class Written(BaseModel):
    """What stands in a menu file; unknown keys are refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


def _quantity(value: object, example: str) -> str:
    if isinstance(value, bool) or value is None or not isinstance(value, str | int | float):
        raise Unreadable(f"{_shown(value)} is not a quantity", f"write {example}")
    if not isinstance(value, str):
        raise Unreadable(f"{value} has no unit", f"write {value} {example.rpartition(' ')[2]}")
    return value


def _shown(value: object) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes or no"
    if isinstance(value, dict | list):
        return "a list" if isinstance(value, list) else "a group of keys"
    return f"'{str(value)[:40]}'"


def _read(reader: Callable[[str], int | float | Span], example: str, most: float | None = None) -> BeforeValidator:
    def read(value: object) -> int | float | Span:
        found = reader(_quantity(value, example))
        longest = found.high if isinstance(found, Span) else found
        if most is not None and abs(longest) > most:
            raise Unreadable(f"'{value}' is too long", f"write at most {int(most // 86_400)} days")
        return found

    return BeforeValidator(read)


def _range(value: object) -> tuple[float, float]:
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise Unreadable(f"{value} is not a range of temperatures", "write 60-250 C")
    return parse_celsius_range(_quantity(value, "60-250 C"))


def _text(value: object) -> str:
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise Unreadable(f"{value} is a number where words should be", f'put it in quotes: "{value}"')
    if not isinstance(value, str):
        raise Unreadable(f"{_shown(value)} stands where words should be", "write a few words")
    words = " ".join(value.split())
    if not words:
        raise Unreadable("nothing is written here", "write a few words")
    return words


def _number(least: int, most: int) -> Callable[[object], int]:
    def read(value: object) -> int:
        right = f"write a whole number from {least} to {most}"
        if isinstance(value, str) and value.strip().isdecimal():
            raise Unreadable(f"'{value}' is in quotes", f"write the number without them: {value.strip()}")
        if isinstance(value, bool) or not isinstance(value, int):
            raise Unreadable(f"{_shown(value)} is not a whole number", right)
        if not least <= value <= most:
            raise Unreadable(f"{value} is not possible here", right)
        return value

    return read


def _whole(least: int, most: int) -> BeforeValidator:
    return BeforeValidator(_number(least, most))


def _one_or_many(value: object) -> object:
    return value if isinstance(value, list) else [value]


def _on(value: object) -> object:
    return {value: 1} if isinstance(value, str) else value


def _closed(value: object) -> Closed:
    parts = _quantity(value, "23:00-07:00").replace("–", "-").split("-")
    if len(parts) != 2:
        raise Unreadable(f"'{value}' is not a stretch of the day", "write 23:00-07:00")
    times = [read_eat_at(part) for part in parts]
    if any(day is not None for day, _, _ in times):
        raise Unreadable(f"'{value}' has a date", "write the hours only, as 23:00-07:00")
    start, end = (hour * 60 + minute for _, hour, minute in times)
    if start == end:
        raise Unreadable(f"'{value}' begins and ends at the same time", "write 23:00-07:00")
    return Closed(start_min=start, end_min=end)


def _eat_at(value: object) -> str:
    words = _text(value)
    read_eat_at(words)
    return words


def _units(value: object) -> str:
    if value not in ("C", "F"):
        raise Unreadable(f"{_shown(value)} is not a unit of temperature", "write C or F")
    return str(value)


def _hands(value: object) -> object:
    return [{"from": "start", "pairs": _number(1, 20)(value)}] if not isinstance(value, list) else value


def _work_kind(value: object) -> str:
    return "ends" if isinstance(value, dict) else "all" if value == "all" else "span"


def _or_all(value: object) -> object:
    if isinstance(value, dict):
        return value
    return "all" if isinstance(value, str) and value.strip().lower() == "all" else parse_span(_quantity(value, "5 min"))


def _from(value: object) -> int | None:
    if isinstance(value, str) and value.strip().lower() == "start":
        return None
    return parse_signed(_quantity(value, "-40 min"))


def _person(value: object) -> int | None:
    return None if value == "any" else _number(1, 20)(value)


def _at(value: object) -> int | Literal["halfway"]:
    if isinstance(value, str) and value.strip().lower() == "halfway":
        return "halfway"
    return parse_duration(_quantity(value, "20 min"))


def _link(value: object) -> object:
    return value if isinstance(value, dict) else {"step": value}


def _empty_is_fine(value: object) -> object:
    return {} if value is None else value


Text: TypeAlias = Annotated[str, BeforeValidator(_text)]
Length: TypeAlias = Annotated[Seconds, _read(parse_duration, "25 min", MOST_PLAN_S)]
Signed: TypeAlias = Annotated[Seconds, _read(parse_signed, "-30 min", MOST_PLAN_S)]
Range: TypeAlias = Annotated[Span, _read(parse_span, "25 min", MOST_STEP_S)]
Celsius: TypeAlias = Annotated[float, _read(parse_celsius, "180 C")]
Degrees: TypeAlias = Annotated[float, _read(parse_degrees, "10 C")]
Names: TypeAlias = Annotated[list[Text], BeforeValidator(_one_or_many)]


class WrittenCue(Written):
    """A small job while a step runs."""

    do: Text
    every: Length | None = None
    at: Annotated[int | Literal["halfway"], BeforeValidator(_at)] | None = None
    times: Annotated[int, _whole(1, 1000)] | None = None
    work: Length | None = None


class WrittenBatches(Written):
    """A counted loop."""

    count: Annotated[int, _whole(1, 200)]
    each: Range
    recover: Range | None = None


class WrittenEnds(Written):
    """Hands at the ends of an unattended step."""

    start: Length | None = None
    end: Length | None = None


WrittenWork: TypeAlias = Annotated[
    Annotated[Span, Tag("span")] | Annotated[Literal["all"], Tag("all")] | Annotated[WrittenEnds, Tag("ends")],
    Discriminator(_work_kind),
    BeforeValidator(_or_all),
]


class WrittenLink(Written):
    """An entry of `after`."""

    step: Text
    wait: Length | None = None
    within: Length | None = None


class WrittenStep(Written):
    """One step of a dish."""

    do: Text
    id: Text | None = None
    on: Annotated[dict[str, Annotated[int, _whole(1, 1000)]], BeforeValidator(_on)] | None = None
    heat: Celsius | None = None
    heat_within: Degrees | None = None
    takes: Range | None = None
    lasts: Range | None = None
    batches: WrittenBatches | None = None
    work: WrittenWork | None = None
    ahead: Length | None = None
    until: Text | None = None
    pull_at: Celsius | None = None
    makes: Names = []
    needs: Names = []
    keep: Text | None = None
    note: Text | None = None
    person: Annotated[int | None, BeforeValidator(_person)] = None
    hazard: Text | None = None
    wait: Length | None = None
    within: Length | None = None
    after: Annotated[list[Annotated[WrittenLink, BeforeValidator(_link)]], BeforeValidator(_one_or_many)] | None = None
    shut: Length | None = None
    cues: list[WrittenCue] = []


class WrittenDish(Written):
    """What is counted at the table."""

    dish: Text
    course: Text | None = None
    hold: Length | None = None
    keep: Text | None = None
    ingredients: Names = []
    steps: list[WrittenStep]


class WrittenPlace(Written):
    """Something a step can occupy."""

    room: Annotated[int, _whole(1, 1000)] | None = None
    heat: Annotated[tuple[float, float], BeforeValidator(_range)] | None = None
    preheat: Length | None = None


class WrittenHands(Written):
    """Pairs of hands from a moment on."""

    from_: Annotated[int | None, BeforeValidator(_from)] = Field(alias="from")
    pairs: Annotated[int, _whole(0, 20)]


class WrittenKitchen(Written):
    """Hands, hours and places."""

    hands: Annotated[list[WrittenHands], BeforeValidator(_hands)] | None = None
    closed: Annotated[list[Annotated[Closed, BeforeValidator(_closed)]], BeforeValidator(_one_or_many)] = []
    places: dict[str, Annotated[WrittenPlace, BeforeValidator(_empty_is_fine)]] = {}


class WrittenCourse(Written):
    """When a course is eaten, relative to the meal."""

    eat: Signed
    until: Signed | None = None


class WrittenMenu(Written):
    """A whole menu file."""

    menu: Text
    serves: Annotated[int, _whole(1, 100_000)]
    eat_at: Annotated[str, BeforeValidator(_eat_at)] | None = None
    units: Annotated[str, BeforeValidator(_units)] = "C"
    kitchen: WrittenKitchen = WrittenKitchen()
    courses: dict[str, WrittenCourse] = {}
    table: Names | None = None
    dishes: list[WrittenDish]
