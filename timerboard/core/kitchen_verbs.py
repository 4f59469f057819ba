"""Verbs of the kitchen: which words of a job are only verb, what follows them, and what was done.

English has verbs of two words ('take off', 'fold in'); what stands behind such a verb is its object, and nothing goes
between ('Take off the chill', 'Break in the eggs'). A verb alone takes its dish before the place ('Brown the lamb in
the oven').
"""

PREPOSITIONS = frozenset(
    """about apart at back before between by down for from in into off on onto out over through to under until up
    with without""".split()  # noqa: SIM905  a table of words reads best as words
)
"""Words that end the verb of a job: the food goes before them ('Cool the tart on a rack')."""

PARTICLES = frozenset(("down", "in", "off", "out", "over", "up"))

DONE_FORMS = {
    "beat": "beaten",
    "bring": "brought",
    "cut": "cut",
    "feed": "fed",
    "freeze": "frozen",
    "give": "given",
    "grind": "ground",
    "keep": "kept",
    "lay": "laid",
    "let": "left",
    "make": "made",
    "put": "put",
    "set": "set",
    "shake": "shaken",
    "spread": "spread",
    "take": "taken",
}
"""Past participles that no rule makes."""

DOUBLED = frozenset(
    """chop dip drop flip mop pat pit plan rub scrub shred skim spin stir strip swap tip top trim whip
    wrap""".split()  # noqa: SIM905  a table of words reads best as words
)
"""Short verbs whose last letter doubles before -ed ('stirred')."""

AWAY = frozenset(("down", "off", "out", "over", "up"))
"""Particles that make one thing of the verb before them when an article follows: 'Boil down the juices'."""

JOINS = frozenset(
    """add beat blend break crack crumble drop fold grate knead melt mix pour press rub scatter sift spoon squeeze
    stir tip toss whip whisk work""".split()  # noqa: SIM905  a table of words reads best as words
)
"""Verbs that bring one thing into another; what they speak of is seldom the whole dish ('Whisk into the yolks')."""

VESSELS = frozenset(
    """basin bowl box case casserole cups dish foil glass glasses jar jug machine mixer mortar mould oven pan pans
    parchment pot pots processor sieve sink skillet smoker steamer tin tins tray wok""".split()  # noqa: SIM905  as above
)
"""What food is in, and is no food: 'Toss in the pan' is said of the dish."""

HEATS = frozenset(("boil", "bone", "burner", "fire", "flame", "flames", "grill", "heat", "hob", "ring", "stove"))
"""What food is taken off or put over: 'Take off the heat' is said of the dish, 'Take off the lid' is not."""


def verb_length(words: list[str]) -> int | None:
    """How many leading words are only verb; None when its object is told, or is no whole dish."""
    if not words:
        return None
    at = 1
    while at < len(words):
        word = words[at].lower()
        if word in PREPOSITIONS or word.endswith("ly") or word == "again":
            return None if _of_two_words(words, at) else at
        if word not in ("and", "or") and not (words[at - 1].lower() in ("and", "or") or words[at - 1].endswith(",")):
            return None
        at += 1
    return at


def _of_two_words(words: list[str], at: int) -> bool:
    """True where the particle at `at` belongs to the verb before it, or what that verb joins is not the dish."""
    particle, joins = words[at].lower(), words[at - 1].lower() in JOINS
    rest = [word.lower().strip(",.") for word in words[at + 1 :]]
    if not rest:
        return joins and particle == "over"  # 'Layer and pour over': over what, is known to the recipe only
    if rest[0] not in ("the", "a", "an"):
        return False
    end = next((n for n, word in enumerate(rest) if word in PREPOSITIONS or word == "and"), len(rest))
    if particle in AWAY and (joins or particle != "over"):
        return rest[end - 1] not in HEATS
    return joins and particle in ("in", "into") and rest[end - 1] not in VESSELS


def done_form(verb: str) -> str:
    """The past participle of a kitchen verb: 'Stir' -> 'stirred', 'Baste' -> 'basted', 'Cut' -> 'cut'."""
    verb = verb.lower()
    if verb in DONE_FORMS:
        return DONE_FORMS[verb]
    head, dash, tail = verb.rpartition("-")
    if dash:
        return f"{head}-{done_form(tail)}"
    if verb in DOUBLED:
        return verb + verb[-1] + "ed"
    if verb.endswith("e"):
        return verb + "d"
    if verb.endswith("y") and verb[-2:-1] not in "aeiou":
        return verb[:-1] + "ied"
    return verb + "ed"
