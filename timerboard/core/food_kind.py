"""What kind of food a dish is, as food codes sort it, from the words of its menu. In doubt, the stricter.

Only words: a cook may overrule it (`overruled`). Kinds are about raw animal food; a dish without any is `PLANT`.
"""

import re
from collections.abc import Mapping
from enum import StrEnum
from functools import lru_cache

from .food_places import HOT_PLACES
from .menu import Dish


class FoodKind(StrEnum):
    """Strictest first."""

    POULTRY = "poultry"
    STUFFED = "stuffed food"
    GAME = "game"
    GROUND = "minced meat"
    EGGS = "eggs"
    WHOLE_MEAT = "meat in one piece"
    FISH = "fish"
    PLANT = "no raw animal food"


MEATS = frozenset(set(FoodKind) - {FoodKind.PLANT, FoodKind.EGGS, FoodKind.FISH})
"""Meat and poultry."""

NOT_MEANT = (
    "chicken stock", "chicken broth", "beef stock", "beef broth", "veal stock", "fish stock", "lamb stock",
    "turkey stock", "meat stock", "fish sauce", "oyster sauce", "oyster mushroom", "hen of the woods",
    "chicken of the woods", "beef tomato", "beefsteak tomato", "eggplant", "egg plant", "egg noodle", "goose fat",
    "duck fat", "goose egg", "duck egg", "quail egg", "quail's egg", "lamb's lettuce", "lambs lettuce",
    "crab apple", "gooseberr", "ham fat", "chickpea", "chick pea", "vegetarian", "vegan", "meatless", "mincemeat",
    "mince pie", "steak fries", "steak seasoning", "kidney bean", "cauliflower steak", "celery rib",
    "ribs of celery", "beef dripping", "beef tallow", "pork scratching", "egg wash", "egg-free", "eggless",
    "fish slice", "fish kettle",
)  # fmt: skip
"""Phrases in which an animal is only a name (or a cooked stock): taken out before words are looked for."""

WORDS: tuple[tuple[FoodKind, str], ...] = (
    (
        FoodKind.POULTRY,
        r"chickens?|hens?|poussins?|turkeys?|ducks?|ducklings?|goose|geese|capons?|guinea ?fowl|quails?|poultry"
        r"|giblets?",
    ),
    (FoodKind.STUFFED, r"stuffed|stuffing"),
    (FoodKind.GAME, r"venison|pheasants?|partridges?|grouse|wild boar|hares?|pigeons?|squabs?|ostrich|wild duck"),
    (
        FoodKind.GROUND,
        r"(?:ground|minced) (?:beef|pork|lamb|veal|meat|mutton)|(?:beef|pork|lamb|veal|meat|k?g|lean) mince|burgers?"
        r"|meat ?balls?|meat ?loaf|sausages?|sausagemeat|koftas?|kofte|patty|patties|forcemeat|tartare?|bratwurst",
    ),
    (FoodKind.EGGS, r"eggs?|omelettes?|omelets?|frittatas?|custards?|quiches?|souffl[eé]s?|meringues?"),
    (
        FoodKind.WHOLE_MEAT,
        r"beef|pork|lamb|veal|mutton|goat|ham|gammon|bacon|steaks?|brisket|sirloin|shoulder|loin|tenderloin"
        r"|shanks?|oxtail|rabbit|liver|kidneys?|joint|leg of \w+|cutlets?|belly|kebabs?|ribs",
    ),
    (
        FoodKind.FISH,
        r"fish|salmon|cod|trout|haddock|hake|halibut|sole|plaice|mackerel|sardines?|tuna|bass|bream|monkfish|turbot|eel"
        r"|prawns?|shrimps?|crabs?|lobsters?|mussels?|clams?|oysters?|scallops?|squid|octopus|shellfish|seafood"
        r"|anchov(?:y|ies)",
    ),
)

DRY = re.compile(
    r"\b(?:bread|loaf|rolls?|crackers?|biscuits?|cookies?|almonds?|nuts?|seeds?|toast|jam|marmalade|granola|shortbread"
    r"|scones?|buns?|brioche|bagels?|sponge cake|flat ?breads?|flat ?cakes?|olives|crisps|popcorn|butter|hard cheese"
    r"|honey)\b"
)
MOIST = re.compile(r"\b(?:pudding|sauce|cream|custard|rice|soup|salad|dip|milk|stew|gratin|cheesecake|filled)\b")

_PATTERNS = tuple((kind, re.compile(rf"\b(?:{words})\b")) for kind, words in WORDS)


def food_kind(dish: Dish, overruled: Mapping[str, FoodKind] | None = None) -> FoodKind:
    """The strictest kind that the dish's name, steps or ingredients speak of; what the cook said instead, if any."""
    if overruled and dish.name in overruled:
        return overruled[dish.name]
    return kind_of_words(dish.words)


@lru_cache(maxsize=1024)
def kind_of_words(text: str) -> FoodKind:
    """The strictest kind that a text speaks of."""
    said = text.lower()
    for phrase in NOT_MEANT:
        said = said.replace(phrase, " ")
    return next((kind for kind, pattern in _PATTERNS if pattern.search(said)), FoodKind.PLANT)


RAW = re.compile(
    r"\b(?:salads?|leaves|slaw|coleslaw|fruit|berries|grapes|citrus|cr[uú]dit[ée]s|pickles?|pickled|chutney|relish)\b"
)
"""Dishes of raw or sour plants."""

SOUR = re.compile(r"\b(?:pickles?|pickled|chutney|relish)\b")
"""Greens and tomatoes so made that they keep: the Code names only those that are not."""

GREENS = re.compile(
    r"\b(?:leaves|greens|lettuces?|romaine|cos|iceberg|escarole|endives?|chicory|radicchio|spinach|cabbages?|kale"
    r"|rocket|arugula|chard|watercress|(?:green|mixed|garden|side|spring) (?:salad|mix)|slaw|coleslaw)\b"
)
TOMATOES = re.compile(r"\b(?:tomato(?:es)?)\b(?! (?:paste|pur[ée]e|ketchup|soup))")
"""Cut leafy greens, cut tomatoes and mixtures of them are under time and temperature control like cut melon: FDA Food
Code 2022, 1-201.10(B), "cut leafy greens" (cabbage is one) and "time/temperature control for safety food", both from
memory. Herbs are not meant there, nor leaves that stay whole. So is plant food that is heated."""

NO_GREENS = re.compile(
    r"\b(?:bay|basil|mint|curry|lime|tea|sage|parsley|coriander|cilantro|thyme|oregano|tarragon|celery) leaves"
    r"|\b(?:dried|sun-dried|semi-dried) tomato(?:es)?"
)
WHOLE = re.compile(
    r"\b(?:whole|uncut)(?: \w+)? (?:leaves|greens|tomato(?:es)?)\b"
    r"|\b(?:leaves|greens|tomato(?:es)?),?(?: left| kept)? (?:whole|uncut)\b"
)
CUT = re.compile(r"\b(?:cut|shred|slice|sliced|chop|chopped|tear|torn|shave|grate|halve|halved|quarter|dice)\b")

RICH = re.compile(
    r"\b(?:yoghurt|yogurt|cream|mayonnaise|aioli|cheese|feta|ricotta|mozzarella|curd|milk|rice|pasta|noodles?|beans?"
    r"|lentils?|chickpeas?|chick ?peas|potato(?:es)?|tofu|sprouts|couscous|bulgur|quinoa|barley|farro|melon)\b"
)
"""What makes a salad keep no longer than cooked food: dairy, cooked grains and pulses, sprouts, cut melon."""

_BAKED = frozenset({FoodKind.PLANT, FoodKind.EGGS})
"""An egg in a baked dough is dry when it is done."""


@lru_cache(maxsize=1024)
def _stands(kind: FoodKind, name: str, words: str, places: str) -> bool:
    name, words = name.lower(), words.lower()
    if re.search(r"\bbatter puddings?\b", name):
        return kind in _BAKED
    if kind in _BAKED and DRY.search(name) and not MOIST.search(name):
        return not TOMATOES.search(NO_GREENS.sub(" ", name))
    heated = HOT_PLACES.search(places.lower()) is not None
    if kind is not FoodKind.PLANT or RAW.search(name) is None or (heated and SOUR.search(name) is None):
        return False
    return RICH.search(words) is None and (SOUR.search(name) is not None or not _cut_greens(words))


def _cut_greens(words: str) -> bool:
    """Whether there are leafy greens or tomatoes that nobody says are whole; said to be, and something is cut: in
    doubt, they are.
    """
    text = NO_GREENS.sub(" ", words)
    if not (GREENS.search(text) or TOMATOES.search(text)):
        return False
    return WHOLE.search(text) is None or CUT.search(text) is not None


def perishable(dish: Dish, overruled: Mapping[str, FoodKind] | None = None) -> bool:
    """Whether time out of the heat or the cold matters: yes, but for plainly dry, baked, raw, sweet or sour things."""
    return not _stands(food_kind(dish, overruled), dish.name, dish.words, dish.places)
