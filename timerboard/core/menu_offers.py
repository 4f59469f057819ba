"""What a box of the form offers while it is typed: whole lines, the likeliest first."""

import re
from collections.abc import Iterable, Iterator

from .menu_form import Completes, Shape
from .menu_written import Written, at, entries_at, keys_at, words_at

MOST = 12
_NUMBER = re.compile(r"[-+]?[0-9]+(?:[-–/][0-9]+)*(?:\.[0-9]+)?")
_FIXED: dict[Completes, tuple[str, ...]] = {
    Completes.UNITS: ("C", "F"),
    Completes.HAZARDS: ("hot oil", "hot sugar", "open flame"),
    Completes.MOMENTS: ("halfway",),
    Completes.FROM: ("start",),
    Completes.PERSONS: ("any", "1", "2"),
}


def offers(shape: Shape, completes: Completes, line: str, document: Written | None, dish: int | None) -> list[str]:
    """Lines that `line` may become; none when it is one of them already."""
    head, tail = _last_part(shape, line)
    found = _fitting(tail, _candidates(completes, tail, document, dish))
    lines = [head + one for one in found]
    return [] if lines == [line] else lines[:MOST]


def _last_part(shape: Shape, line: str) -> tuple[str, str]:
    """What is done and what is being typed, in a line (or box) of several."""
    ends = {Shape.NAMES: ",;", Shape.USES: ",", Shape.LINES: "\n", Shape.WORK: ","}.get(shape, "")
    cut = max((line.rfind(end) for end in ends), default=-1) + 1
    space = " " if cut and shape is not Shape.LINES else ""
    return line[:cut] + space, line[cut:].lstrip()


def _fitting(tail: str, candidates: Iterable[str]) -> list[str]:
    """Those that begin so, then those that have it somewhere."""
    low, every = tail.casefold(), list(dict.fromkeys(candidates))
    begins = [one for one in every if one.casefold().startswith(low)]
    return begins + [one for one in every if low in one.casefold() and one not in begins]


def _candidates(completes: Completes, tail: str, document: Written | None, dish: int | None) -> Iterator[str]:
    match completes:
        case Completes.TIMES:
            yield from _with_units(tail, ("min", "h", "s", "days"))
        case Completes.HEATS:
            yield from _with_units(tail, ("F", "C") if words_at(document, ("units",)) == "F" else ("C", "F"))
        case Completes.WORK:
            yield from (*_ends(tail), "all")
        case Completes.PLACES:
            yield from keys_at(document, ("kitchen", "places"))
        case Completes.COURSES:
            yield from keys_at(document, ("courses",))
        case Completes.DISHES:
            yield from _dishes(document)
        case Completes.ITEMS:
            yield from _items(document)
        case Completes.STEPS:
            yield from _steps(document, dish)
        case _:
            yield from _FIXED.get(completes, ())


def _with_units(tail: str, units: tuple[str, ...]) -> Iterator[str]:
    number = _NUMBER.match(tail)
    if number:
        yield from (f"{number[0]} {unit}" for unit in units)


def _ends(tail: str) -> Iterator[str]:
    number = _NUMBER.match(tail)
    if number:
        yield from (f"{number[0]} min", f"{number[0]} min at the start", f"{number[0]} min at the end")


def _dishes(document: Written | None) -> Iterator[str]:
    for n, _ in enumerate(entries_at(document, ("dishes",))):
        yield words_at(document, ("dishes", n, "dish"))


def _items(document: Written | None) -> Iterator[str]:
    for dish, _ in enumerate(entries_at(document, ("dishes",))):
        for step, _ in enumerate(entries_at(document, ("dishes", dish, "steps"))):
            made = at(document, ("dishes", dish, "steps", step, "makes"))
            yield from ([made] if isinstance(made, str) else [one for one in made or () if isinstance(one, str)])


def _steps(document: Written | None, own: int | None) -> Iterator[str]:
    """The steps of this dish by their names, then all others with their dish."""
    every = list(enumerate(_dishes(document)))
    for dish, name in sorted(every, key=lambda pair: pair[0] != own):
        for step, _ in enumerate(entries_at(document, ("dishes", dish, "steps"))):
            path = ("dishes", dish, "steps", step)
            words = words_at(document, (*path, "id")) or words_at(document, (*path, "do"))
            yield words if dish == own else f"{name}/{words}"
