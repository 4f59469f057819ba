"""What can be chosen, as acts of a drawer: for the whole kitchen, and what food a dish is."""

from .choices import (
    BY_ITS_WORDS,
    FOOD,
    HEIGHT,
    ROOM,
    ROOMS,
    RULES,
    STRICTER,
    USUAL_ROOM,
    WHOSE,
    chosen_key,
    height_words,
)
from .commands import ChooseSetting, Look
from .food_kind import FoodKind, food_kind
from .menu import Dish
from .scene import Scene
from .view_values import Act

HEIGHTS_M = (0, 300, 600, 900, 1200, 1500, 1800, 2100, 2400, 2700, 3000, 3600, 4200)
"""What is offered: water boils about a degree lower every 300 m."""


def kitchen_choices(scene: Scene) -> tuple[Act, ...]:
    """Whose rules, the room, the height; each word says what stands."""
    chosen, units = scene.cook.chosen, scene.cook.menu.units
    rules, room, height = chosen.get(RULES, STRICTER), chosen.get(ROOM, USUAL_ROOM), chosen.get(HEIGHT, "0")
    heights = tuple(Act(height_words(str(m), units), ChooseSetting(HEIGHT, str(m))) for m in HEIGHTS_M)
    return (
        Act(
            f"Food rules: {WHOSE[rules][0]}",
            Look(),
            choices=tuple(Act(words, ChooseSetting(RULES, value)) for value, (words, _) in WHOSE.items()),
        ),
        Act(
            f"Room: {_room(room, units)}",
            Look(),
            choices=tuple(Act(_room(value, units), ChooseSetting(ROOM, value)) for value in ROOMS),
        ),
        Act(f"Height above sea, for what boils: {height_words(height, units)}", Look(), choices=heights),
    )


def _room(value: str, units: str) -> str:
    words = ROOMS[value][0]
    return words.replace("32 °C", "90 °F") if units == "F" else words


def food_choice(scene: Scene, dish: Dish) -> Act:
    """'Food: minced meat'; which rules a dish comes under hangs on it."""
    told = scene.cook.chosen.get(chosen_key(FOOD, dish.name), BY_ITS_WORDS)
    now = FoodKind(told) if told != BY_ITS_WORDS else food_kind(dish)
    by_words = Act(f"by its words: {food_kind(dish)}", ChooseSetting(FOOD, BY_ITS_WORDS, dish.name))
    kinds = tuple(Act(str(kind), ChooseSetting(FOOD, kind.value, dish.name)) for kind in FoodKind)
    return Act(f"Food: {now}", Look(), choices=(by_words, *kinds))
