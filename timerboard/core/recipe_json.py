"""schema.org Recipe data as a recipe: every form that its properties may have.

Property names and their allowed types are those of schema.org's Recipe, HowToSection, HowToStep, HowToDirection,
ItemList and QuantitativeValue; the old `ingredients` is what `recipeIngredient` was called before. Unknown or
damaged parts are passed over, never fatal.
"""

import html
import re
from collections.abc import Iterator

from .quantities import parse_duration
from .recipe_numbers import AMOUNT, amount
from .recipe_times import find_times
from .recipe_values import Paragraph, Range, Recipe, Section
from .values import Seconds

_DEEPEST = 40
_TAG = re.compile(r"<(?:/?[a-zA-Z][^<>]*|!--.*?--)>", re.DOTALL)
_BREAK = re.compile(r"<\s*(?:br|/p|/li|/div|/h[1-6])\b[^<>]*>", re.IGNORECASE)
_NOTHING = re.compile(r"(?<![0-9.])0+(?:\.0+)?[YMWDHS]")
_KEPT_WORDS = ("description", "recipeYield", "yield", "suitableForDiet", "tool", "cookingMethod")
_TIME_WORDS = (("prepTime", "Preparation"), ("cookTime", "Cooking"), ("performTime", "Work"), ("totalTime", "In all"))


def recipes_in(data: object) -> tuple[Recipe, ...]:
    """Every Recipe anywhere in JSON-LD data: at the top, in lists, in `@graph`, in `mainEntity`; each title once."""
    found = {recipe.title.casefold() or str(n): recipe for n, recipe in enumerate(map(_recipe, _nodes(data, 0)))}
    return tuple(found.values())


def _nodes(data: object, depth: int) -> Iterator[dict[str, object]]:
    if depth > _DEEPEST:
        return
    if isinstance(data, list):
        for one in data:
            yield from _nodes(one, depth + 1)
    elif isinstance(data, dict):
        node = {_short(key): value for key, value in data.items() if isinstance(key, str)}
        if "Recipe" in _types(node):
            yield node
            return
        for value in node.values():
            if isinstance(value, dict | list):
                yield from _nodes(value, depth + 1)


def _short(name: str) -> str:
    """`https://schema.org/cookTime` and `schema:cookTime` are `cookTime`."""
    return name if name.startswith("@") else re.sub(r"^(?:https?://schema\.org/|schema:)", "", name)


def _types(node: dict[str, object]) -> set[str]:
    said = node.get("@type", node.get("type"))
    return {_short(one) for one in (said if isinstance(said, list) else [said]) if isinstance(one, str)}


def _plain(node: object) -> dict[str, object]:
    return {_short(k): v for k, v in node.items() if isinstance(k, str)} if isinstance(node, dict) else {}


def _recipe(node: dict[str, object]) -> Recipe:
    serves, yields = _yield(node.get("recipeYield", node.get("yield")))
    hands, cooking = _seconds(node.get("prepTime")), _seconds(node.get("cookTime", node.get("performTime")))
    total = _seconds(node.get("totalTime"))
    if cooking is None and total is not None and hands is not None and total > hands:
        cooking = total - hands
    return Recipe(
        title=" ".join(_words(node.get("name", node.get("headline"))).split()),
        serves=serves,
        yields=yields,
        ingredients=tuple(_ingredients(node)),
        method=tuple(_sections(node.get("recipeInstructions"), 0)),
        before=tuple(_kept(node)),
        hands_s=hands,
        cooking_s=cooking,
    )


def _kept(node: dict[str, object]) -> Iterator[str]:
    """Words that are neither an ingredient nor a step: kept as notes."""
    for name in _KEPT_WORDS:
        for words in _all_words(node.get(name)):
            yield f"Yield: {words}" if "ield" in name else words
    for name, said in _TIME_WORDS:
        for words in _all_words(node.get(name)):
            yield f"{said}: {words}"


def _ingredients(node: dict[str, object]) -> Iterator[str]:
    for name in ("recipeIngredient", "ingredients", "supply"):
        value = node.get(name)
        for one in value if isinstance(value, list) else [value]:
            yield from _lines(_words(one))


def _words(value: object) -> str:
    """Text of a value: a string, a number, or what a Thing says of itself; HTML taken off."""
    if isinstance(value, str):
        return text_of(value)
    if isinstance(value, bool) or value is None:
        return ""
    if isinstance(value, int | float):
        return f"{value:g}"
    if isinstance(value, list):
        return "\n".join(words for one in value if (words := _words(one)))
    node = _plain(value)
    counts = (node[key] for key in ("value", "minValue", "maxValue") if isinstance(node.get(key), int | float | str))
    amounts = [f"{one:g}" if isinstance(one, float) else str(one) for one in counts]
    said = [_words(node.get(key)) for key in ("@value", "text", "name", "unitText") if isinstance(node.get(key), str)]
    return " ".join(word for word in ("-".join(amounts), *said) if word)


def _all_words(value: object) -> list[str]:
    found = (_words(one) for one in (value if isinstance(value, list) else [value]))
    return [line for words in dict.fromkeys(found) for line in _lines(words)]


def text_of(markup: str) -> str:
    """Text without HTML: a break or the end of a paragraph becomes a new line, entities become characters."""
    text = markup
    if "<" in text:
        text = _TAG.sub(" ", _BREAK.sub("\n", text))
    if "&" in text:
        text = html.unescape(html.unescape(text))
        if "<" in text:
            text = _TAG.sub(" ", _BREAK.sub("\n", text))
    return text


def _lines(text: str) -> list[str]:
    return [line for raw in text.splitlines() if (line := " ".join(raw.split()))]


def _yield(value: object) -> tuple[int | None, str]:
    """People from `recipeYield`: 4, "4", "4 servings", "Serves 4-6", ["4", "4 people"], a QuantitativeValue."""
    made = ""
    for one in value if isinstance(value, list) else [value]:
        node = _plain(one)
        words = _words(one if not node else node.get("value", node.get("minValue", one)))
        unit = _words(node.get("unitText")) if node else ""
        found = re.search(r"[0-9]{1,5}", words) or AMOUNT.search(words)
        if found is None:
            made = made or " ".join(words.split())
            continue
        count, rest = int(amount(found[0])), f"{words[: found.start()]} {words[found.end() :]} {unit}".strip().lower()
        if not 1 <= count <= 100_000:
            continue
        if not rest or re.search(r"serv|portion|people|person|feeds|^[-–0-9 to]+$", rest):
            return count, ""
        made = made or " ".join(f"{words} {unit}".split())
    return None, made


def _seconds(value: object) -> Seconds | None:
    """A Duration: ISO 8601 with empty years and months allowed, a QuantitativeValue's longest, or plain words."""
    if isinstance(value, list):
        return next((found for one in value if (found := _seconds(one)) is not None), None)
    if isinstance(value, dict):
        node = _plain(value)
        return _seconds(node.get("maxValue", node.get("value", node.get("@value", node.get("name")))))
    if not isinstance(value, str):
        return None
    written = value.strip().upper()
    if written.startswith("P"):
        try:
            return parse_duration(_without_nothing(written)) or None
        except ValueError:
            return None
    times = find_times(value)
    return times[0].high if times else None


def _without_nothing(written: str) -> str:
    """'P0Y0M0DT0H35M0.000S' is 'PT35M'."""
    bare = _NOTHING.sub("", written)
    return "PT0S" if bare in ("P", "PT") else bare


def _sections(value: object, depth: int) -> Iterator[Section]:
    """`recipeInstructions`: text, a list, an ItemList, HowToSections with HowToSteps, one inside the other."""
    loose: list[Paragraph] = []
    for one in value if isinstance(value, list) else [value]:
        node = _plain(one)
        nested = node.get("itemListElement", node.get("steps")) if node else None
        if nested is not None and depth < _DEEPEST and not _is_step(node):
            if loose:
                yield Section("", tuple(loose))
                loose = []
            yield from _nested(node, nested, depth)
        else:
            loose += _step(one)
    if loose:
        yield Section("", tuple(loose))


def _is_step(node: dict[str, object]) -> bool:
    return bool(_types(node) & {"HowToStep", "HowToDirection", "HowToTip", "ListItem"})


def _nested(node: dict[str, object], nested: object, depth: int) -> Iterator[Section]:
    heading = " ".join(_words(node.get("name")).split())
    about = _lines(_words(node.get("description")))
    inner = [section for section in _sections(nested, depth + 1) if section.heading or section.paragraphs]
    first, *rest = inner or [Section("", ())]
    heading = ": ".join(part for part in (heading, first.heading) if part)
    yield Section(heading, (*(Paragraph(line) for line in about), *first.paragraphs))
    yield from rest


def _step(one: object, depth: int = 0) -> list[Paragraph]:
    """A step as one or more paragraphs, with the time that stands beside it."""
    if depth > _DEEPEST:
        return []
    if not isinstance(one, dict):
        return [Paragraph(line) for line in _lines(_words(one))]
    node = _plain(one)
    inner = node.get("itemListElement", node.get("item"))
    name, text = (" ".join(_words(node.get(key)).split()) for key in ("name", "text"))
    text = text or " ".join(_words(node.get("description")).split())
    lines = _lines(_words(node.get("text")) or text)
    lasts = _lasts(node)
    if name and name.rstrip(".… ").lower() not in text.lower():
        lines = [name, *lines] if not lines else [f"{name.rstrip('.:')}: {lines[0]}", *lines[1:]]
    found = [Paragraph(line, lasts) for line in lines]
    for part in inner if isinstance(inner, list) else [inner] if inner is not None else []:
        found += [Paragraph(p.text, p.lasts or lasts) for p in _step(part, depth + 1) if p.text not in lines]
    return found


def _lasts(node: dict[str, object]) -> Range | None:
    for key in ("performTime", "totalTime", "timeRequired"):
        if (seconds := _seconds(node.get(key))) is not None and 0 < seconds <= 7 * 86_400:
            return seconds, seconds
    return None
