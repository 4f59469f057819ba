"""A dish that comes late, from one line: 'rolls, 12 min, oven 200 C'. Resolved against the menu that is being cooked.

After the name come, in any order and parted by commas: a time or a range; a place, with its heat; 'by hand'; 'hold
10 min'; 'rest 5 min'; 'until golden'. What is put on a heated place or a hob takes a minute of hands at both ends.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from .faults import Unreadable
from .menu import Dish, Link, Menu, Place, Step, Use, Work
from .menu_misreadings import nearest
from .menu_names import fold_name
from .menu_readings import MOST_STEP_S
from .quantities import celsius_words, parse_celsius, parse_duration, parse_span
from .values import Seconds, Span

EXAMPLE = "rolls, 12 min, oven 200 C"
_HANDS_S = 60
_HEAT = re.compile(r"(.*?)\s*(?:at\s+)?([-−]?[0-9]+(?:\.[0-9]+)?)\s*(°?\s*[CF])?", re.IGNORECASE)
_PARTS = re.compile(r"(.*\S)\s*(?:×|\bx)\s*([0-9]+)", re.IGNORECASE)
_BY_HAND = ("by hand", "hands", "all hands", "work")
_BAKES_C = 140.0
_COLD = ("fridge", "freezer", "ice")


@dataclass(slots=True)
class _Said:
    """What the parts of a line have said so far."""

    span: Span | None = None
    place: Place | None = None
    parts: int = 1
    heat_c: float | None = None
    by_hand: bool = False
    hold_s: Seconds = 1800
    rest: Span | None = None
    until: str | None = None
    seen: set[str] = field(default_factory=set)


def late_dish(line: str, menu: Menu) -> Dish:
    """The dish that a line tells of. Raises Unreadable with the reader's words."""
    name, *parts = [part.strip() for part in line.split(",")]
    name = " ".join(name.split())
    if not name:
        raise Unreadable("a dish needs a name", f"write {EXAMPLE}")
    _judge_name(name, menu)
    said = _Said()
    for part in filter(None, parts):
        _take(said, part, menu)
    if said.span is None:
        raise Unreadable(f"how long do the {name.lower()} take" if name.endswith("s") else f"how long does {name} take",
                         f"write it after a comma: {EXAMPLE}")  # fmt: skip
    return _dish(name[0].upper() + name[1:], said, said.span)


def adopted(dish: Dish, menu: Menu) -> Dish:
    """A dish of another menu, for this one: its places must be here, and what it took from other dishes is bought."""
    _judge_name(dish.name, menu)
    steps = []
    for step in dish.steps:
        uses = tuple(Use(place=_place(use.place, menu).name, parts=use.parts) for use in step.uses)
        links = tuple(link for link in step.links if link.step.partition("/")[0] == dish.name)
        steps.append(step.model_copy(update={"uses": uses, "links": links, "person": None}))
    course = dish.course if any(course.name == dish.course for course in menu.courses) else None
    return dish.model_copy(update={"steps": tuple(steps), "course": course})


def _judge_name(name: str, menu: Menu) -> None:
    if any(fold_name(dish.name) == fold_name(name) for dish in menu.dishes):
        raise Unreadable(f"there is a dish called {name} already", "give this one another name")
    if "/" in name:
        raise Unreadable("a name with a '/' cannot be told from a step", "write it without")


def _take(said: _Said, part: str, menu: Menu) -> None:
    """Read one part of the line."""
    word, _, rest = part.partition(" ")
    readers: dict[str, Callable[[], None]] = {
        "hold": lambda: _hold(said, rest),
        "rest": lambda: _rest(said, rest),
        "until": lambda: _until(said, rest),
    }
    if word.lower() in readers and rest:
        _once(said, word.lower())
        readers[word.lower()]()
    elif part.lower() in _BY_HAND:
        said.by_hand = True
    elif _is_time(part):
        _once(said, "time")
        said.span = _short_enough(parse_span(part), part)
    else:
        _once(said, "place")
        _on(said, part, menu)


def _once(said: _Said, what: str) -> None:
    if what in said.seen:
        raise Unreadable(f"there are two of the {what}", f"write one dish to a line: {EXAMPLE}")
    said.seen.add(what)


def _hold(said: _Said, rest: str) -> None:
    said.hold_s = _short_enough(Span.of(parse_duration(rest)), rest).high


def _rest(said: _Said, rest: str) -> None:
    said.rest = _short_enough(parse_span(rest), rest)


def _short_enough(span: Span, written: str) -> Span:
    """As in a menu file: a step takes seven days at most."""
    if span.high > MOST_STEP_S:
        raise Unreadable(f"'{written}' is too long", f"write at most {MOST_STEP_S // 86_400} days")
    return span


def _until(said: _Said, rest: str) -> None:
    said.until = rest


def _is_time(part: str) -> bool:
    """True for what should be a time: it begins with a number and does not end in a temperature's unit."""
    return bool(re.match(r"[0-9P]", part)) and re.fullmatch(r"[-−]?[0-9.]+\s*°?\s*[CcFf]", part) is None


def _on(said: _Said, part: str, menu: Menu) -> None:
    """'oven 200 C', 'oven at 200', 'hob x2', 'in the fridge', '200 C'."""
    words = re.sub(r"^(?:in|on)\s+(?:the\s+)?", "", part, flags=re.IGNORECASE)
    whole = next((p for p in menu.places if fold_name(p.name) == fold_name(words)), None)
    found = None if whole else _HEAT.fullmatch(words)
    several = None if whole else _PARTS.fullmatch(words)
    if several is not None:
        said.place, said.parts = _place(several[1], menu), int(several[2])
    elif found is not None:
        unit = (found[3] or menu.units).strip("° ")
        said.heat_c = parse_celsius(f"{found[2]} {unit}")
        said.place = _place(found[1], menu) if found[1] else _heated(menu)
    else:
        said.place = whole or _place(words, menu)
    _judge_place(said, menu)


def _judge_place(said: _Said, menu: Menu) -> None:
    place = said.place
    if place is None:
        return
    if place.room is not None and said.parts > place.room:
        raise Unreadable(f"the {place.name} has room for {place.room}", f"write x{place.room} at most")
    heat = place.heat
    if heat is not None and said.heat_c is not None and not heat.low_c <= said.heat_c <= heat.high_c:
        low, high = (celsius_words(limit, menu.units) for limit in (heat.low_c, heat.high_c))
        raise Unreadable(f"the {place.name} goes from {low} to {high}", "write a heat that it reaches")


def _place(words: str, menu: Menu) -> Place:
    found = next((place for place in menu.places if fold_name(place.name) == fold_name(words)), None)
    if found is None:
        close = nearest(words, [place.name for place in menu.places])
        names = ", ".join(place.name for place in menu.places)
        raise Unreadable(
            f"there is no place '{words}' here", f"did you mean {close}?" if close else f"there is {names}"
        )
    return found


def _heated(menu: Menu) -> Place:
    places = [place for place in menu.places if place.heat is not None]
    if len(places) != 1:
        raise Unreadable("which place is to have that heat", f"write its name before it: {EXAMPLE}")
    return places[0]


def _dish(name: str, said: _Said, span: Span) -> Dish:
    """One step, and a rest after it where one was asked for."""
    do = _verb(said)
    uses = (Use(place=said.place.name, parts=said.parts),) if said.place else ()
    hands = min(_HANDS_S, max(1, span.low // 3))
    by_hand = said.by_hand or said.place is None
    work = Work(throughout=True) if by_hand else Work(start_s=hands, end_s=hands)
    first = Step(
        id=f"{name}/{do}", dish=name, do=do, uses=uses, heat_c=said.heat_c, span=span, work=work, until=said.until
    )
    steps = [first]
    if said.rest is not None:
        after = (Link(step=first.id),)
        steps.append(Step(id=f"{name}/Rest", dish=name, do="Rest", span=said.rest, elastic=True, links=after))
    return Dish(name=name, hold_s=said.hold_s, steps=tuple(steps))


def _verb(said: _Said) -> str:
    if said.place is None or said.by_hand:
        return "Make"
    if any(cold in said.place.name.lower() for cold in _COLD):
        return "Chill"
    return "Bake" if said.place.heat is not None and (said.heat_c or 0.0) >= _BAKES_C else "Heat"
