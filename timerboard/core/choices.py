"""What a cook chose for a kitchen: whose food rules, how hot the room is, how high it lies, what food a dish is.

What was not chosen is as it always was: the stricter of the two American federal codes, a usual room, boiling water at
100 °C, and the food that a dish's own words speak of.
"""

import re
from collections.abc import Mapping

from .altitude import FOOT_M, HIGHEST_M, LOWEST_M, at_height, boiling_at_c, longer, pressure_pa
from .cook import Cook
from .events import Setting
from .food_kind import FoodKind
from .menu import Menu
from .quantity_words import celsius_words
from .safety import ALL
from .safety_rules import Whose

RULES: Setting = "rules"
ROOM: Setting = "room"
HEIGHT: Setting = "height"
FOOD: Setting = "food"

STRICTER = "stricter"
WHOSE: dict[str, tuple[str, frozenset[Whose]]] = {
    STRICTER: (f"the stricter of {Whose.FOOD_CODE} and {Whose.FSIS}", ALL),
    "food code": (str(Whose.FOOD_CODE), frozenset({Whose.FOOD_CODE})),
    "fsis": (str(Whose.FSIS), frozenset({Whose.FSIS})),
    "uk": (f"{Whose.UK}; where it has none, the stricter of the others", frozenset({Whose.UK})),
    "every": ("every one of the three, the strictest counts", frozenset(Whose)),
}
"""Value of the choice: its words, and whose rules then count."""

USUAL_ROOM, HOT_ROOM = "usual", "hot"
ROOMS: dict[str, tuple[str, float]] = {USUAL_ROOM: ("at most 32 °C", 22.0), HOT_ROOM: ("above 32 °C", 34.0)}
"""Value of the choice: its words, and the air that is reckoned with."""

BY_ITS_WORDS = "by its words"


def chosen_key(setting: str, dish: str = "") -> str:
    """Under which name a cook keeps a choice."""
    return f"{setting}|{dish}" if dish else setting


def why_not(cook_dishes: frozenset[str], setting: str, value: str, dish: str) -> str:
    """Why a choice is none, in words; "" for one that can be made."""
    if setting == FOOD:
        if dish not in cook_dishes:
            return "there is no such dish"
        return "" if value == BY_ITS_WORDS or value in set(FoodKind) else "there is no such kind of food"
    if setting == HEIGHT:
        return "" if height_of(value) is not None else f"a height lies between {LOWEST_M:g} and {HIGHEST_M:g} m"
    known: dict[str, frozenset[str]] = {RULES: frozenset(WHOSE), ROOM: frozenset(ROOMS)}
    return "" if value in known.get(setting, frozenset()) else "there is no such choice"


def height_of(value: str) -> float | None:
    """Metres above sea, from what was chosen; None for what is no height where people cook."""
    try:
        height = float(value)
        pressure_pa(height)
    except ValueError:
        return None
    return height


def whose_rules(cook: Cook) -> frozenset[Whose]:
    """Whose rules readings are measured against."""
    return WHOSE[cook.chosen.get(RULES, STRICTER)][1]


def room_c(cook: Cook) -> float:
    """The kitchen's air, as far as it matters."""
    return ROOMS[cook.chosen.get(ROOM, USUAL_ROOM)][1]


def height_m(cook: Cook) -> float:
    """How high the kitchen lies above sea; 0 unless somebody said so."""
    return height_of(cook.chosen.get(HEIGHT, "0")) or 0.0


def food_kinds(cook: Cook) -> Mapping[str, FoodKind]:
    """What the cook said that dishes are."""
    told = {key.removeprefix(f"{FOOD}|"): value for key, value in cook.chosen.items() if key.startswith(f"{FOOD}|")}
    return {dish: FoodKind(value) for dish, value in told.items() if value != BY_ITS_WORDS}


_HEIGHT = re.compile(r"\s*([+-]?\d+(?:\.\d+)?)\s*(m|metres?|meters?|ft|feet)?\s*", re.IGNORECASE)


def height_asked(text: str) -> str:
    """A height as a cook writes it ('1500 m', '5000 ft') as the value of that choice. Raises ValueError with words."""
    found = _HEIGHT.fullmatch(text)
    metres = None if found is None else float(found[1]) * (FOOT_M if (found[2] or "m").lower()[0] == "f" else 1.0)
    value = "" if metres is None else f"{metres:g}"
    if height_of(value) is None:
        right = f"write 1500 m or 5000 ft, between {LOWEST_M:g} and {HIGHEST_M:g} m"
        raise ValueError(f"'{text[:40]}' is no height where people cook: {right}")
    return value


def menu_at(menu: Menu, height: str) -> Menu:
    """A menu as it is cooked at the height that was chosen: what boils takes longer."""
    metres = height_of(height) or 0.0
    return at_height(menu, boiling_at_c(metres)) if metres > 0 else menu


def height_note(height: str, units: str = "C") -> str:
    """'At 1500 m water boils at 95 °C: what boils is given 35 % more time than is written.'; '' at sea level."""
    metres = height_of(height) or 0.0
    if metres <= 0:
        return ""
    level, boils, longer_by = height_words(height, units).split(" · ")
    more = longer_by.removesuffix(" longer")
    return f"At {level} water boils at {boils}: what boils is given {more} more time than is written."


def height_words(value: str, units: str = "C") -> str:
    """'1500 m · 95 °C · 35 % longer': the height, where water boils, how much longer boiled steps take; or 'off'."""
    height = height_of(value) or 0.0
    if height <= 0:
        return "off"
    more = round((longer(boiling_at_c(height)) - 1.0) * 100)
    metres = f"{height:g} m" if units != "F" else f"{round(height / FOOT_M, -2):.0f} ft"
    return f"{metres} · {celsius_words(round(boiling_at_c(height)), units)} · {more} % longer"


def times_longer(value: str) -> float:
    """How many times longer boiled steps take at that height."""
    height = height_of(value) or 0.0
    return longer(boiling_at_c(height)) if height > 0 else 1.0
