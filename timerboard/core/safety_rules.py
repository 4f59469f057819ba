"""What food codes ask for, as a table: each rule with whose it is, its section, its numbers and where it was read.

The paragraphs of the FDA Food Code were read in state adoptions of its 2009 to 2017 editions and are given under the
numbers of 2022; FSIS figures on fsis.usda.gov or in copies. Compare with the documents before relying on them, and
follow the local code and licensed practice where they are stricter. Temperatures are written in °F, as the codes do.
"""

from dataclasses import dataclass
from enum import StrEnum

from .food_kind import FoodKind


class Whose(StrEnum):
    """Whose rule."""

    FOOD_CODE = "FDA Food Code 2022"
    FSIS = "USDA FSIS"
    UK = "UK FSA"


def celsius(fahrenheit: float) -> float:
    """°F to °C."""
    return (fahrenheit - 32.0) / 1.8


@dataclass(frozen=True, slots=True)
class CookingRule:
    """A least core temperature, and how long at or above it; `rest`: the time may be a rest out of the heat."""

    whose: Whose
    section: str
    kinds: frozenset[FoodKind]
    fahrenheit: float
    hold_s: int
    rest: bool = False
    table: bool = False  # a row of a time-temperature table: the lethality integral must agree
    note: str = ""

    @property
    def celsius(self) -> float:
        """The least core temperature."""
        return celsius(self.fahrenheit)


_FC, _FSIS, _UK = Whose.FOOD_CODE, Whose.FSIS, Whose.UK
_CHART = "chart of minimum internal temperatures (14 Apr 2025)"  # its title says more than a board may
_STRICT = frozenset({FoodKind.POULTRY, FoodKind.STUFFED, FoodKind.GAME})
_GROUND, _EGGS = frozenset({FoodKind.GROUND}), frozenset({FoodKind.EGGS})
_MEAT, _FISH = frozenset({FoodKind.WHOLE_MEAT}), frozenset({FoodKind.FISH})

REHEATED = CookingRule(_FC, "3-403.11(A)", frozenset(FoodKind), 165, 15, note="within 2 h from the fridge; leftovers")
"""Cooked food that was cooled and is heated again: every kind, FSIS's chart says the same of leftovers."""

ROAST_ROWS: tuple[tuple[int, int], ...] = (
    (130, 6720), (131, 5340), (133, 3360), (135, 2160), (136, 1680), (138, 1080), (140, 720), (142, 480), (144, 300),
    (145, 240), (147, 134), (149, 85), (151, 54), (153, 34), (155, 22), (157, 14), (158, 0),
)  # fmt: skip
"""Food Code 3-401.11(B)(2): °F and seconds at or above it for whole meat roasts. Three copies agree."""

GROUND_ROWS: tuple[tuple[int, int], ...] = ((145, 180), (150, 60), (155, 17), (158, 0))
"""Food Code 3-401.11(A)(2): minced, injected or mechanically tenderised meat; pooled eggs."""

COOKING: tuple[CookingRule, ...] = (
    CookingRule(_FSIS, _CHART, _STRICT, 165, 0, note="thigh, wing and thickest breast, each checked"),
    CookingRule(_FSIS, _CHART, _GROUND | _EGGS, 160, 0),
    CookingRule(_FSIS, _CHART, _MEAT, 145, 180, rest=True),
    CookingRule(_FSIS, _CHART, _FISH, 145, 0),
    CookingRule(_FC, "3-401.11(A)(3)", _STRICT, 165, 15, note="15 s until the 2013 edition, instant since 2017"),
    *(CookingRule(_FC, "3-401.11(A)(2)", _GROUND, f, s, table=True) for f, s in GROUND_ROWS),
    CookingRule(_FC, "3-401.11(A)(2)", _EGGS, 155, 17),
    *(CookingRule(_FC, "3-401.11(B)(2)", _MEAT, f, s, table=True) for f, s in ROAST_ROWS),
    CookingRule(_FC, "3-401.11(A)(1)", _FISH, 145, 15),
    *(
        CookingRule(_UK, "core temperature equivalents to 70 °C for 2 min", _STRICT | _GROUND, celsius_f, s)
        for celsius_f, s in ((158, 120), (167, 30), (176, 6))
    ),
)
"""Least core temperatures. Of several rows of one section any one is enough; of several rules each must be met."""


@dataclass(frozen=True, slots=True)
class LimitRule:
    """One number for holding, cooling, reheating or thawing. `unit` is F, h, min or s; `most` False: at least."""

    whose: Whose
    section: str
    what: str
    value: float
    unit: str
    most: bool = True

    @property
    def celsius(self) -> float:
        """The value of a temperature limit."""
        return celsius(self.value)

    @property
    def seconds(self) -> int:
        """The value of a time limit."""
        return round(self.value * {"h": 3600, "min": 60, "s": 1}[self.unit])


LIMITS: dict[str, LimitRule] = {
    "hot": LimitRule(_FC, "3-501.16(A)(1)", "hot holding", 135, "F", most=False),
    "hot_home": LimitRule(_FSIS, "Danger Zone", "hot food kept at home", 140, "F", most=False),
    "cold": LimitRule(_FC, "3-501.16(A)(2)", "cold holding", 41, "F"),
    "out": LimitRule(_FSIS, "Leftovers and Food Safety", "out of heat and cold", 2, "h"),
    "out_hot_room": LimitRule(_FSIS, "Leftovers and Food Safety", "the same above 32 °C in the room", 1, "h"),
    "hot_room": LimitRule(_FSIS, "Leftovers and Food Safety", "a hot room", 90, "F", most=False),
    "time_control": LimitRule(_FC, "3-501.19(B)", "time in place of temperature, marked", 4, "h"),
    "cool_first": LimitRule(_FC, "3-501.14(A)(1)", "57 °C to 21 °C", 2, "h"),
    "cool_all": LimitRule(_FC, "3-501.14(A)(2)", "57 °C to 5 °C, in all", 6, "h"),
    "cool_middle": LimitRule(_FC, "3-501.14(A)(1)", "end of the first stage", 70, "F"),
    "reheat": LimitRule(_FC, "3-403.11(A)", "reheated for holding, all parts", 165, "F", most=False),
    "reheat_hold": LimitRule(_FC, "3-403.11(A)", "held there", 15, "s", most=False),
    "reheat_within": LimitRule(_FC, "3-403.11(D)", "from cold to that", 2, "h"),
    "thaw_cold": LimitRule(_FC, "3-501.13(A)", "thawing in the fridge, food at", 41, "F"),
    "thaw_water": LimitRule(_FC, "3-501.13(B)", "thawing in running water of", 70, "F"),
    "thaw_above": LimitRule(_FC, "3-501.13(B)(4)", "thawed parts above 5 °C", 4, "h"),
    "thaw_change": LimitRule(_FSIS, "Safe Defrosting Methods", "change still water every", 30, "min"),
    "come_up": LimitRule(_FSIS, "GD-2021-14, Come-Up-Time Option", "core between 10 °C and 54 °C", 6, "h"),
}
"""Limits by name. Where two speak of one thing, the stricter is the default."""

FOLLOW = "Follow your local code and licensed practice where they are stricter."
"""Said beside every verdict."""
