"""Small grammar for the board's sentences: articles, plurals, what was done, how long ago.

English as spoken in a kitchen; a rule where the language has one, a short table where it has none.
"""

from functools import lru_cache

from .kitchen_verbs import PARTICLES, PREPOSITIONS, done_form, verb_length
from .values import Moment

MINUTE = 60_000
HOUR = 60 * MINUTE

NO_ARTICLE = frozenset(("the", "a", "an", "our", "my", "your", "some", "all", "half"))


def plural(count: int, one: str, many: str | None = None) -> str:
    """A number with its noun: '1 dish', '2 dishes'. `many` is by rule when not given."""
    if count == 1:
        return f"1 {one}"
    if many is None:
        many = one + ("es" if one.endswith(("s", "sh", "ch", "x", "z")) else "s")
    return f"{count} {many}"


def lower_first(text: str) -> str:
    """A name inside a sentence: 'Pork shoulder' -> 'pork shoulder', but 'BBQ ribs' and 'T-bone' stay."""
    if len(text) > 1 and (text[1].isupper() or text[1] in "-'’."):
        return text
    return text[:1].lower() + text[1:]


def upper_first(text: str) -> str:
    """The beginning of a sentence."""
    return text[:1].upper() + text[1:]


@lru_cache(maxsize=2048)
def the(name: str) -> str:
    """A food with its article: 'the pork shoulder'; none twice."""
    name = lower_first(name.strip())
    return name if not name or name.split()[0].lower() in NO_ARTICLE else f"the {name}"


@lru_cache(maxsize=2048)
def job_sentence(do: str, dish: str) -> tuple[str, bool]:
    """A job in the order verb-food-place, and whether the dish is named in it.

    A bare verb takes the dish: ('Roast', 'Pork shoulder') -> 'Roast the pork shoulder'. A job that already has its
    object keeps it: 'Score and salt the skin'; the caller then names the dish beside it.
    """
    words = do.strip().split()
    head = verb_length(words)
    if not words or head is None:
        return upper_first(do.strip()), False
    rest = words[head:]
    if len(rest) == 1 and rest[0].lower() in PARTICLES:  # a phrasal verb stays together: 'Tray up the trout'
        head, rest = len(words), []
    return upper_first(" ".join([*words[:head], the(_without_place(_without_verb(dish, words[0]), rest)), *rest])), True


def _without_verb(dish: str, verb: str) -> str:
    """'Roast roots' are roasted as 'the roots', 'Mashed potatoes' mashed as 'the potatoes'."""
    first, _, rest = dish.strip().partition(" ")
    return rest if rest and first.lower() in (verb.lower(), done_form(verb)) else dish


def _without_place(dish: str, rest: list[str]) -> str:
    """'Pears in tea' are cooled as 'the pears in the tea'."""
    words = dish.split()
    cut = next((n for n, word in enumerate(words) if n and word.lower() in PREPOSITIONS), len(words))
    said_again = cut < len(words) and words[-1].lower() in (word.lower().strip(",.") for word in rest)
    return " ".join(words[:cut]) if said_again else dish


@lru_cache(maxsize=4096)
def names(sentence: str, dish: str) -> bool:
    """True when a sentence speaks of a dish already, in full or by its last word ('Turn the roots')."""
    said, last = sentence.lower(), dish.lower().split()[-1:]
    return dish.lower() in said or any(word in said.replace(":", " ").split() for word in last)


def what_was_done(do: str, dish: str) -> str:
    """A job as an act of the past: 'Stir' -> 'red cabbage stirred'; 'Turn the tray' -> 'tray turned'."""
    words = do.strip().split()
    if not words:
        return lower_first(dish)
    head = verb_length(words)
    if head is not None:
        verbs = [
            w if w.lower() in ("and", "or") else done_form(w.rstrip(",")) + ("," if w.endswith(",") else "")
            for w in words[:head]
        ]
        return " ".join([lower_first(dish), *verbs, *words[head:]])
    thing = words[1:]
    if thing[0].lower() in PARTICLES and len(thing) > 2 and "and" not in thing:  # 'Take off the lid': 'lid taken off'
        thing = [*thing[1:], thing[0]]
    if thing[0].lower() in ("and", "or") or thing[0].lower() in PREPOSITIONS or words[0].endswith(","):
        return f"{lower_first(dish)}: {lower_first(do)}, done"
    if thing[0].lower() in ("the", "a", "an") and len(thing) > 1:
        thing = thing[1:]
    cut = next((i for i, word in enumerate(thing) if i and word.lower() in PREPOSITIONS), len(thing))
    return " ".join([*thing[:cut], done_form(words[0]), *thing[cut:]])


def length_words(ms: int) -> str:
    """A rounded length for people: '40 s', '48 min', '2 h 5 min', '2 days 3 h'. Negative lengths count as nothing."""
    seconds = max(0, ms) // 1000
    if seconds < 60:
        return f"{seconds} s"
    minutes = seconds // 60
    hours, rest = divmod(minutes, 60)
    if hours < 1:
        return f"{minutes} min"
    if hours < 48:
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    days, hours = divmod(hours, 24)
    return f"{days} days {hours} h" if hours else f"{days} days"


def minutes_words(ms: int) -> str:
    """Like `length_words`, never in seconds: what is under a minute is '0 min'."""
    return "0 min" if max(0, ms) < MINUTE else length_words(ms)


def ago_words(since: Moment, now: Moment) -> str:
    """How long something has waited, or how soon it comes: '0:40 ago', 'now', 'in 2 min'."""
    if now < since:
        return "in " + length_words(max(since - now, 1000) if since - now < MINUTE else _up(since - now))
    waited = (now - since) // 1000
    if waited < 5:
        return "now"
    if waited < 3600:
        return f"{waited // 60}:{waited % 60:02d} ago"
    return f"{length_words(waited * 1000)} ago"


def _up(ms: int) -> int:
    """To the next whole minute, so that 'in 2 min' holds until the last of the two begins."""
    return -(-ms // MINUTE) * MINUTE


def in_words(ms: int) -> str:
    """'in 48 min' for what comes, 'since 5 min' for what has been."""
    return f"in {minutes_words(_up(ms))}" if ms > 0 else f"since {minutes_words(-ms)}"


def sentence_list(items: tuple[str, ...] | list[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    items = [item for item in items if item]
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def dots(*parts: str) -> str:
    """What is said of one thing, one beside the other; empty parts leave no dot."""
    return " · ".join(part for part in parts if part)
