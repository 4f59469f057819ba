"""When what is frozen must go into the fridge, or into cold water, to be thawed when it is first touched.

USDA FSIS, Safe Defrosting Methods: in the fridge (at 40 °F or below) 24 hours for every 4 to 5 pounds; in cold water,
in a leak-proof bag, 30 minutes a pound, the water changed every 30 minutes, and cooked at once; thawed in the fridge,
poultry and minced meat are cooked within 1 to 2 days, other meat within 3 to 5. Here the slower end is taken: 24 h for
every 4 lb, and a full day at least (FSIS says so of small amounts; from memory).
"""

import math
import re

from .civil import day_clock_words
from .food_kind import FoodKind, kind_of_words
from .list_values import ListGroup, ListLine, ListPage
from .menu import Dish, Menu
from .plan import Plan
from .quantity_words import duration_words
from .recipe_weights import KILOS, kilos_in
from .values import MS, Seconds
from .words import lower_first

DAY_S = 86_400
FRIDGE_S_PER_KG = DAY_S / (4 * KILOS["lb"])
WATER_S_PER_KG = 1800 / KILOS["lb"]
KEEPS_S = {FoodKind.POULTRY: DAY_S, FoodKind.GROUND: DAY_S, FoodKind.FISH: DAY_S}
"""How long it may wait once it has thawed in the fridge: the least of what FSIS gives; fish as poultry."""
MEAT_KEEPS_S = 3 * DAY_S
_FROZEN = re.compile(r"\b(?:frozen|from the freezer|to be thawed|defrosted|thawed)\b", re.IGNORECASE)


def thaw_list(menu: Menu, plan: Plan, zone: str) -> ListPage:
    """A line or two for each frozen thing that has to be thawed; empty when there is none."""
    lines = [line for dish in menu.dishes for one in dish.ingredients if must_thaw(one)
             for line in _lines(dish, one, plan, zone)]  # fmt: skip
    note = "Never on the counter. In cold water: in a bag that does not leak, the water changed every 30 minutes."
    return ListPage("Thawing", (ListGroup("", tuple(lines)),) if lines else (), note)


def must_thaw(line: str) -> bool:
    """Frozen meat, fish and eggs, and what the line itself says is thawed. Frozen peas go into the pot as they are."""
    if not _FROZEN.search(line):
        return False
    said = re.search(r"\b(?:to be thawed|defrosted|thawed)\b", line, re.IGNORECASE)
    return said is not None or kind_of_words(line) is not FoodKind.PLANT


def fridge_s(kilos: float) -> Seconds:
    """Seconds in the fridge: whole hours, a day at least."""
    return max(DAY_S, math.ceil(kilos * FRIDGE_S_PER_KG / 3600) * 3600)


def water_s(kilos: float) -> Seconds:
    """Seconds in cold water: whole half hours, as the water is changed."""
    return max(1800, math.ceil(kilos * WATER_S_PER_KG / 1800) * 1800)


def _lines(dish: Dish, line: str, plan: Plan, zone: str) -> list[ListLine]:
    first = min((p.start for step in dish.steps if (p := plan.of(step.id)) is not None), default=plan.eat_at)
    what = f"{line} ({lower_first(dish.name)})"
    kilos = kilos_in(line)
    if kilos is None:
        return [ListLine(what, small="no weight is written: a day in the fridge for every 1.8 kg")]
    slow, fast = fridge_s(kilos), water_s(kilos)
    keeps = KEEPS_S.get(kind_of_words(line), MEAT_KEEPS_S)
    latest, earliest = first - slow, first - slow - keeps
    in_fridge = ListLine(
        f"Into the fridge: {what}",
        _when(latest, zone, plan),
        f"{duration_words(slow)} at the slowest; not before {_when(earliest, zone, plan)}",
    )
    changes = fast // 1800 - 1
    water = (
        f"{duration_words(fast)}, the water changed {changes} time{'s' if changes != 1 else ''}; then cook it at once"
    )
    return [in_fridge, ListLine("or into cold water", _when(first - fast, zone, plan), water, tick=False)]


def _when(at: Seconds, zone: str, plan: Plan) -> str:
    return day_clock_words(at * MS, zone, plan.eat_at * MS)
