"""What cooks' verbs tell: whether hands are busy, where the food is meanwhile, and how long it is when nobody says.

The lengths are common practice, no source; whoever takes one from here marks it as a guess.
"""

import re
from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    """How a job goes on."""

    HANDS = "hands"  # busy for all of it
    PAN = "pan"  # at the hob, hands for all of it while it is short
    HEAT = "heat"  # by itself in the heat
    WAIT = "wait"  # by itself; the cook may end it anywhere in its range


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb of the kitchen; minutes are least and most, taken when the recipe gives none."""

    kind: Kind
    place: str
    minutes: tuple[float, float]


def _table(kind: Kind, place: str, minutes: tuple[float, float], words: str) -> dict[str, Verb]:
    return {word: Verb(kind, place, minutes) for word in words.split()}


VERBS: dict[str, Verb] = {
    **_table(Kind.HEAT, "oven", (30, 40), "bake roast"),
    **_table(Kind.HEAT, "grill", (6, 10), "grill broil barbecue chargrill"),
    **_table(Kind.HEAT, "grill", (3, 5), "toast"),
    **_table(Kind.HEAT, "hob", (15, 20), "simmer stew poach steam reduce cook bubble thicken"),
    **_table(Kind.HEAT, "hob", (60, 90), "braise"),
    **_table(Kind.HEAT, "hob", (10, 12), "boil parboil par-boil"),
    **_table(Kind.HEAT, "hob", (5, 8), "bring heat warm reheat scald"),
    **_table(Kind.HEAT, "hob", (2, 3), "blanch"),
    **_table(Kind.HEAT, "microwave", (3, 5), "microwave"),
    **_table(Kind.HEAT, "smoker", (240, 360), "smoke"),
    **_table(Kind.PAN, "hob", (3, 5), "fry sauté saute sear brown sweat soften stir-fry pan-fry shallow-fry scramble"),
    **_table(Kind.PAN, "hob", (4, 6), "deep-fry"),
    **_table(Kind.PAN, "hob", (3, 5), "melt render wilt char"),
    **_table(Kind.PAN, "hob", (15, 20), "caramelise caramelize"),
    **_table(Kind.WAIT, "counter", (10, 20), "rest stand sit infuse steep set wait settle"),
    **_table(Kind.WAIT, "counter", (30, 60), "cool soak rise dry ferment macerate"),
    **_table(Kind.WAIT, "counter", (60, 90), "prove proof"),
    **_table(Kind.WAIT, "fridge", (60, 180), "chill refrigerate marinate marinade brine cure defrost thaw"),
    **_table(Kind.WAIT, "freezer", (120, 240), "freeze"),
    **_table(Kind.HANDS, "counter", (8, 12), "knead"),
    **_table(
        Kind.HANDS, "counter", (5, 8), "peel chop slice dice shred grate fillet bone joint stuff shape roll shell"
    ),
    **_table(Kind.HANDS, "counter", (5, 8), "julienne carve debone trim clean pod hull pit stone core pare quarter"),
    **_table(
        Kind.HANDS,
        "counter",
        (3, 5),
        "whisk beat mix cream whip blend blitz purée puree mash rub crush grind pound mince combine knock cut halve"
        " tie score truss coat dredge bread assemble layer spread pipe decorate ice glaze wrap thread skewer zest"
        " squeeze press line grease butter flour prepare make form divide crimp fill fold work sift sieve strain pass"
        " process pulse toss dress wash rinse scrub snip tear crumble pick skin devein butterfly flatten bash bruise",
    ),
    **_table(
        Kind.HANDS,
        "counter",
        (1, 3),
        "add stir pour place put arrange transfer tip turn spoon ladle scatter sprinkle drizzle brush season top cover"
        " remove take lift flip lay drop crack break separate measure weigh dissolve swirl finish garnish return push"
        " pat dust lower discard skim baste prick pierce dot reserve gather moisten wipe dip tuck seal scoop"
        " invert unmould loosen adjust taste check save deglaze use plate"
        " shake dampen uncover pack scrape drain massage stretch press",
    ),
}

LEADING = frozenset("let leave allow keep continue set start begin".split())  # noqa: SIM905
"""Verbs that only lead to another: 'leave to cool', 'continue to simmer'."""

SERVING = frozenset("serve enjoy eat".split())  # noqa: SIM905

JOBS = {
    "basting": "baste", "stirring": "stir", "turning": "turn", "shaking": "shake", "tossing": "toss",
    "skimming": "skim", "spritzing": "spritz", "brushing": "brush", "flipping": "flip", "rotating": "rotate",
    "spraying": "spray", "checking": "check", "topping": "top", "swirling": "swirl", "whisking": "whisk",
    "folding": "fold", "mopping": "mop", "changing": "change", "feeding": "feed", "glazing": "glaze",
    "swapping": "swap", "scraping": "scrape", "moving": "move", "knocking": "knock", "beating": "beat",
    "pressing": "press",
}  # fmt: skip
"""Small jobs while something runs, as participles."""

CUE_VERBS = frozenset(JOBS.values())

PLACES: tuple[tuple[str, str], ...] = (
    ("fridge", r"\b(?:fridge|refrigerator)\b"),
    ("freezer", r"\bfreezer\b"),
    ("smoker", r"\b(?:in|into|on) (?:the|a|your) smoker\b"),
    ("slow cooker", r"\bslow[- ]cooker\b"),
    ("pressure cooker", r"\bpressure[- ]cooker\b"),
    ("microwave", r"\bmicrowave\b"),
    ("grill", r"\b(?:under|on) (?:the|a|an) (?:\w+ )?(?:grill|broiler|barbecue)\b"),
    ("oven", r"\b(?:in|into|to|from|through) (?:the|a|an) (?:\w+[- ]){0,3}oven\b|\boven for\b"),
    ("hob", r"\b(?:on|to) the (?:hob|stove|heat)\b|\bover (?:a |an |the )?(?:\w+[- ,]*){0,3}(?:heat|flame)\b"),
    ("oven", r"\b(?:baking|roasting) (?:tray|tin|sheet)\b.*\boven\b"),
)
"""Where a sentence says that the food is, the plainest words first."""


def place_said(text: str) -> str:
    """The place that a sentence names; '' when it names none."""
    return next((place for place, pattern in PLACES if re.search(pattern, text, re.IGNORECASE)), "")
