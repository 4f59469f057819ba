"""A menu for another number of people: what is written anew, and what does not grow in step and has to be minded.

Amounts grow in proportion. Times, pans, seasoning, hands and the oven's room do not; nobody can know by how much, so
each is said with the steps that it is about. Common practice, no source.
"""

from dataclasses import dataclass
from fractions import Fraction

from .faults import Path
from .ingredient import scale_line
from .menu import Menu, Step
from .menu_written import Plain, Value, Written, at, entries_at
from .words import lower_first, sentence_list

SEASONINGS = ("salt", "pepper", "chilli", "spice", "cinnamon", "clove", "cumin", "fennel seed", "nutmeg", "yeast",
              "gelatine", "baking powder", "soda", "vinegar", "saffron", "mustard")  # fmt: skip
MUCH = Fraction(5, 4)
OFF = 0.12
MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class Scaled:
    """What to set in the text, in order, and what to tell the cook."""

    changes: tuple[tuple[Path, Value], ...]
    said: tuple[str, ...]


def scaled(document: Written | None, menu: Menu, people: int) -> Scaled:
    """The menu for so many people. Nothing changes when it serves as many already."""
    factor = Fraction(people, menu.serves)
    if factor == 1:
        return Scaled((), (f"It serves {people} already.",))
    changes: list[tuple[Path, Value]] = [(("serves",), Plain(str(people)))]
    off: list[str] = []
    untold: list[str] = []
    for path, line in _lines(document):
        made = scale_line(line, factor)
        if made is None:
            untold.append(line)
            continue
        changes.append((path, made.line))
        if abs(made.off) > OFF:
            off.append(f"{made.line} (exactly {made.exact})")
    batches = list(_batches(document, menu, factor))
    changes += [(path, count) for path, count, _ in batches]
    return Scaled(tuple(changes), tuple(_said(menu, factor, off, untold, [words for _, _, words in batches])))


def _lines(document: Written | None) -> list[tuple[Path, str]]:
    found: list[tuple[Path, str]] = []
    for n, _ in enumerate(entries_at(document, ("dishes",))):
        path: Path = ("dishes", n, "ingredients")
        written = at(document, path)
        if isinstance(written, str) and written:
            found.append((path, written))
        for k, line in enumerate(written if isinstance(written, list) else []):
            if isinstance(line, str):
                found.append(((*path, k), line))
    return found


def _batches(document: Written | None, menu: Menu, factor: Fraction) -> list[tuple[Path, Value, str]]:
    """A pan stays as large as it is: more food is more loads."""
    found: list[tuple[Path, Value, str]] = []
    for d, dish in enumerate(menu.dishes):
        for s, step in enumerate(dish.steps):
            if step.batches is None:
                continue
            count = max(1, -(-(step.batches.count * factor).numerator // (step.batches.count * factor).denominator))
            if count != step.batches.count:
                path = ("dishes", d, "steps", s, "batches", "count")
                words = f"{lower_first(step.do)} {count} instead of {step.batches.count}"
                found.append((path, Plain(str(count)), words))
    return found


def _said(menu: Menu, factor: Fraction, off: list[str], untold: list[str], batches: list[str]) -> list[str]:
    steps = list(menu.steps.values())
    more = factor > 1
    said = []
    if batches:
        said.append(f"The pans stay as large as they are, so the loads change: {_named(batches)}.")
    if off:
        said.append(f"Rounded to what can be measured: {_named(off)}.")
    thick = [s for s in steps if s.pull_at_c is not None]
    if thick:
        way = "more pieces take as long, a larger piece takes longer" if more else "a smaller piece is done sooner"
        said.append(f"Times stay as written: {way}. Go by the temperature: {_steps(thick)}.")
    else:
        said.append(
            "Times stay as written: a fuller pan or tin heats more slowly." if more else "Times stay as written."
        )
    hands = [s for s in steps if s.work.throughout and s.batches is None and s.span.high >= 300]
    if hands and not 1 / MUCH < factor < MUCH:
        word = "longer" if more else "shorter"
        said.append(f"Jobs by hand get {word}; change their times if they matter: {_steps(hands)}.")
    if any(season in line.lower() for dish in menu.dishes for line in dish.ingredients for season in SEASONINGS):
        said.append("Seasoning does not grow in step: add three quarters of it, taste, then the rest." if more
                    else "Seasoning does not shrink in step: taste.")  # fmt: skip
    if untold:
        said.append(f"No amount is written for {_named(untold)}.")
    return said + _room(menu, steps, factor)


def _room(menu: Menu, steps: list[Step], factor: Fraction) -> list[str]:
    """Food that fills more of an oven or a hob than there is."""
    if factor <= 1:
        return []
    full = [s for s in steps if s.batches is None and any(_too_much(menu, u.place, u.parts * factor) for u in s.uses)]
    tight = [
        s for s in steps
        if s not in full and s.batches is None and any(_limited(menu, u.place) for u in s.uses) and factor >= MUCH
    ]  # fmt: skip
    said = []
    if full:
        said.append(f"There may be no room for it at once: {_steps(full)}. Cook in two goes, or in another place.")
    if tight:
        said.append(f"Pans and tins may have to be larger, or two: {_steps(tight)}. Set how much room each takes.")
    return said


def _limited(menu: Menu, place: str) -> bool:
    found = menu.place(place)
    return found is not None and found.room is not None


def _too_much(menu: Menu, place: str, parts: Fraction) -> bool:
    found = menu.place(place)
    return found is not None and found.room is not None and parts > found.room


def _steps(steps: list[Step]) -> str:
    return _named([f"{lower_first(step.do)} ({lower_first(step.dish)})" for step in steps])


def _named(names: list[str]) -> str:
    if len(names) > MOST_NAMED + 1:
        return sentence_list([*names[:MOST_NAMED], f"{len(names) - MOST_NAMED} more"])
    return sentence_list(names)
