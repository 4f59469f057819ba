"""The written form of a menu: the keys a cook may write and what each may hold, lengths already in seconds.

Names are still as written; `menu_build.py` resolves them. Anything that cannot be read raises `Unreadable` inside
pydantic, so that every message is in the reader's words (`menu_misreadings.py` says the rest).
"""

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag

from .menu import Closed
from .menu_readings import (
    Celsius,
    Degrees,
    Length,
    Names,
    Note,
    Range,
    Signed,
    Text,
    as_closed,
    as_cue_moment,
    as_eat_at,
    as_from,
    as_group,
    as_hands,
    as_heat,
    as_link,
    as_list,
    as_person,
    as_units,
    as_uses,
    as_work,
    kind_of_work,
    whole,
)
from .values import Span


class Written(BaseModel):
    """What stands in a menu file; unknown keys are refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class WrittenCue(Written):
    """A small job while a step runs."""

    do: Text
    every: Length | None = None
    at: Annotated[int | Literal["halfway"], BeforeValidator(as_cue_moment)] | None = None
    times: Annotated[int, whole(1, 1000)] | None = None
    work: Length | None = None


class WrittenBatches(Written):
    """A counted loop."""

    count: Annotated[int, whole(1, 200)]
    each: Range
    recover: Range | None = None


class WrittenEnds(Written):
    """Hands at the ends of an unattended step."""

    start: Length | None = None
    end: Length | None = None


WrittenWork: TypeAlias = Annotated[
    Annotated[Span, Tag("span")] | Annotated[Literal["all"], Tag("all")] | Annotated[WrittenEnds, Tag("ends")],
    Discriminator(kind_of_work),
    BeforeValidator(as_work),
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
    on: Annotated[dict[str, Annotated[int, whole(1, 1000)]], BeforeValidator(as_uses)] | None = None
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
    note: Note | None = None
    person: Annotated[int | None, BeforeValidator(as_person)] = None
    hazard: Text | None = None
    wait: Length | None = None
    within: Length | None = None
    after: Annotated[list[Annotated[WrittenLink, BeforeValidator(as_link)]], BeforeValidator(as_list)] | None = None
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

    room: Annotated[int, whole(1, 1000)] | None = None
    heat: Annotated[tuple[float, float], BeforeValidator(as_heat)] | None = None
    preheat: Length | None = None


class WrittenHands(Written):
    """Pairs of hands from a moment on."""

    from_: Annotated[int | None, BeforeValidator(as_from)] = Field(alias="from")
    pairs: Annotated[int, whole(0, 20)]


class WrittenKitchen(Written):
    """Hands, hours and places."""

    hands: Annotated[list[WrittenHands], BeforeValidator(as_hands)] | None = None
    closed: Annotated[list[Annotated[Closed, BeforeValidator(as_closed)]], BeforeValidator(as_list)] = []
    places: dict[str, Annotated[WrittenPlace, BeforeValidator(as_group)]] = {}


class WrittenCourse(Written):
    """When a course is eaten, relative to the meal."""

    eat: Signed
    until: Signed | None = None


class WrittenMenu(Written):
    """A whole menu file."""

    menu: Text
    serves: Annotated[int, whole(1, 100_000)]
    eat_at: Annotated[str, BeforeValidator(as_eat_at)] | None = None
    units: Annotated[str, BeforeValidator(as_units)] = "C"
    in_hand: Length | None = None
    kitchen: WrittenKitchen = WrittenKitchen()
    courses: dict[str, WrittenCourse] = {}
    table: Names | None = None
    dishes: list[WrittenDish]
