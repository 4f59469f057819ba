"""A recipe as it was found, before it is a dish: words in the order written, nothing thrown away."""

import re
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from .faults import Path
from .menu_written import Value
from .values import Seconds

Range: TypeAlias = tuple[Seconds, Seconds]
"""Least and most seconds."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A piece of the method that belongs together: a numbered step, or a paragraph. `lasts` is said beside it."""

    text: str
    lasts: Range | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the method under one heading ('For the sauce'); the heading may be empty."""

    heading: str
    paragraphs: tuple[Paragraph, ...]


@dataclass(frozen=True, slots=True)
class Recipe:
    """One recipe: every word of it is in one of these."""

    title: str
    serves: int | None = None  # None: nothing says so
    yields: str = ""  # as written, when it is not a number of people: '12 rolls'
    ingredients: tuple[str, ...] = ()
    method: tuple[Section, ...] = ()
    before: tuple[str, ...] = ()  # what stands before the method and is no ingredient
    after: tuple[str, ...] = ()  # what stands after it
    hands_s: Seconds | None = None  # preparation, as a whole
    cooking_s: Seconds | None = None


_NO_LETTER = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")


def readable(recipe: Recipe) -> Recipe:
    """The recipe without control characters and halves of characters, which no menu may hold: spaces in their place."""
    return replace(
        recipe,
        title=_clean(recipe.title),
        yields=_clean(recipe.yields),
        ingredients=tuple(map(_clean, recipe.ingredients)),
        before=tuple(map(_clean, recipe.before)),
        after=tuple(map(_clean, recipe.after)),
        method=tuple(
            Section(_clean(s.heading), tuple(Paragraph(_clean(p.text), p.lasts) for p in s.paragraphs))
            for s in recipe.method
        ),
    )


def _clean(text: str) -> str:
    return _NO_LETTER.sub(" ", text)


@dataclass(frozen=True, slots=True)
class Guess:
    """Something that the recipe does not say: the path of the value in the dish, and what to check about it."""

    path: Path
    said: str


@dataclass(frozen=True, slots=True)
class TakenDish:
    """A recipe as a dish of a menu, ready to be written: `dish` and `places` in the menu file's own form."""

    dish: dict[str, Value]
    places: dict[str, Value]
    serves: int
    units: str  # C or F: how the recipe writes temperatures
    guesses: tuple[Guess, ...] = field(default=())  # paths within the dish
    serves_guess: str = ""  # why `serves` is a guess; '' when it is none

    @property
    def name(self) -> str:
        """What the dish is called."""
        return str(self.dish["dish"])
