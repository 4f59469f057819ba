"""A recipe from a file: a saved page or a JSON file with schema.org data, or plain text."""

import json
from html.parser import HTMLParser
from pathlib import Path as File

from timerboard.core.faults import Unreadable
from timerboard.core.recipe_json import recipes_in, text_of
from timerboard.core.recipe_text import read_recipe_text
from timerboard.core.recipe_values import Recipe

MOST_BYTES = 8 << 20  # a saved page carries much beside its recipe
MOST_TEXT = 200_000  # characters of one pasted recipe
_SKIPPED = frozenset(("script", "style", "noscript", "template", "nav", "header", "footer", "form", "svg"))
_BLOCKS = frozenset(
    "p div li br h1 h2 h3 h4 h5 h6 tr section article ul ol table".split()  # noqa: SIM905
)


def load_recipes(path: File) -> tuple[Recipe, ...]:
    """Every recipe in a file, at least one. Raises Unreadable in the reader's words, OSError when it cannot be read."""
    with path.open("rb") as file:
        raw = file.read(MOST_BYTES + 1)
    if len(raw) > MOST_BYTES:
        raise Unreadable("this file is too large for a recipe", "save the recipe alone, as text")
    return read_recipes(_decoded(raw))


def read_recipes(text: str) -> tuple[Recipe, ...]:
    """Every recipe in a text of any kind. Raises Unreadable."""
    start = text.lstrip("\ufeff \t\r\n")
    if not start:
        raise Unreadable("there is nothing in it", "paste the recipe's text, or save the page")
    if start[0] in "{[" and (data := _json(start)) is not None:
        return _some(recipes_in(data), "this JSON holds no schema.org Recipe")
    if start[0] == "<" or "application/ld+json" in text[:100_000]:
        return _page(text)
    if len(text) > MOST_TEXT:
        raise Unreadable("this text is too long for one recipe", "save one recipe to a file")
    return (read_recipe_text(text),)


def _page(text: str) -> tuple[Recipe, ...]:
    page = _Page()
    page.feed(text)
    page.close()
    found = tuple(recipe for script in page.scripts for recipe in recipes_in(_json(script)))
    if found:
        return found
    words = page.words()
    if not words.strip() or len(words) > MOST_TEXT:
        raise Unreadable("this page holds no recipe that can be found", "paste the recipe's text into a file")
    return (read_recipe_text(words),)


def _some(found: tuple[Recipe, ...], wrong: str) -> tuple[Recipe, ...]:
    if not found:
        raise Unreadable(wrong, "save the page itself, or paste the recipe's text into a file")
    return found


def _json(text: str) -> object:
    """Data, or None when it is no JSON. Comments that pages put around it, and bare line ends in it, are let pass."""
    bare = text.strip().removeprefix("<!--").removesuffix("-->").strip().removesuffix(";")
    bare = bare.removeprefix("//<![CDATA[").removesuffix("//]]>").strip()
    try:
        return json.loads(bare, strict=False)
    except (ValueError, RecursionError):
        return None


def _decoded(raw: bytes) -> str:
    """UTF-8, UTF-16 with its mark, else the old Windows letters that such files are in."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", errors="replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace")


class _Page(HTMLParser):
    """Collects the data scripts of a page, and its words in case there are none."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.scripts: list[str] = []
        self._words: list[str] = []
        self._script: list[str] | None = None
        self._skipping: list[str] = []

    def words(self) -> str:
        """The page's text, a line for each block."""
        return text_of("".join(self._words))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin to collect, or to skip."""
        kind = next((value or "" for name, value in attrs if name == "type"), "")
        if tag == "script" and kind.split(";")[0].strip().lower() == "application/ld+json":
            self._script = []
        elif tag in _SKIPPED:
            self._skipping.append(tag)
        elif tag in _BLOCKS:
            self._words.append("\n")

    def handle_endtag(self, tag: str) -> None:
        """End of what was begun."""
        if tag == "script" and self._script is not None:
            self.scripts.append("".join(self._script))
            self._script = None
        elif tag in self._skipping:
            del self._skipping[self._skipping.index(tag) :]
        elif tag in _BLOCKS:
            self._words.append("\n")

    def handle_data(self, data: str) -> None:
        """Words between tags."""
        if self._script is not None:
            self._script.append(data)
        elif not self._skipping:
            self._words.append(" ".join(data.split("\n")))
