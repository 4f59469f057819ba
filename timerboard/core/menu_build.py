"""From what stands in a menu file to a menu whose every name and length is resolved.

The document is plain values (str, int, float, bool, None, list, dict) with the positions of its parts; the file is
read in the shell.
"""

from .faults import MOST_FAULTS, Fault, MenuFaults, Path, Positions
from .menu import Course, Dish, HandsFrom, Heat, Menu, Place
from .menu_gathering import Gathering
from .menu_links import links_of
from .menu_misreadings import nearest, read_written
from .menu_names import Named, StepNames, fold_name, name_steps
from .menu_schema import WrittenDish, WrittenKitchen, WrittenMenu
from .menu_steps import build_step
from .quantities import duration_words

MOST_DISHES = 500
MOST_STEPS = 5000


def build_menu(document: object, where: Positions, before: tuple[Fault, ...] = ()) -> Menu:
    """The menu of a document. Raises MenuFaults with everything that is wrong in it, in the order written.

    `before` are faults that the reading of the text has found; they join the others.
    """
    _judge_size(document, where)
    written, faults, cut = read_written(document, where)
    gathering = Gathering(where, frozenset(cut), faults=[*before, *faults])
    menu = _menu(written, gathering) if written else None
    if gathering.faults or menu is None:
        raise MenuFaults(in_order(gathering.faults))
    return menu


def in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    """Faults as they stand in the file, each once, at most MOST_FAULTS."""
    once = {(f.line, f.column, f.wrong): f for f in faults}
    return tuple(once[key] for key in sorted(once))[:MOST_FAULTS]


def _judge_size(document: object, where: Positions) -> None:
    dishes = document.get("dishes") if isinstance(document, dict) else None
    if not isinstance(dishes, list):
        return
    steps = sum(len(d["steps"]) for d in dishes if isinstance(d, dict) and isinstance(d.get("steps"), list))
    for count, most, what in ((len(dishes), MOST_DISHES, "dishes"), (steps, MOST_STEPS, "steps")):
        if count > most:
            wrong = f"the menu has {count} {what}"
            raise MenuFaults((where.fault(("dishes",), wrong, f"a menu has at most {most}: make two of it"),))


def _menu(written: WrittenMenu, gathering: Gathering) -> Menu:
    gathering.units = written.units
    kitchen = written.kitchen
    gathering.menu_places = {p.name: p for p in _places(kitchen, gathering)}
    hands = _hands(kitchen, gathering)
    courses = _courses(written, gathering)
    dishes = _dishes(written, courses, max(h.pairs for h in hands), gathering)
    return Menu(
        title=written.menu,
        serves=written.serves,
        eat_at=written.eat_at,
        units=written.units,
        **({} if written.in_hand is None else {"in_hand_s": written.in_hand}),
        hands=hands,
        closed=tuple(kitchen.closed),
        places=tuple(gathering.menu_places.values()),
        courses=tuple(courses.values()),
        table=_table(written, gathering),
        dishes=dishes,
    )


def _hands(kitchen: WrittenKitchen, gathering: Gathering) -> tuple[HandsFrom, ...]:
    path: Path = ("kitchen", "hands")
    written = kitchen.hands or []
    hands = [HandsFrom(from_s=h.from_, pairs=h.pairs) for h in written]
    if kitchen.hands == []:
        gathering.fault(path, "hands is an empty list", "write hands: 1")
    if hands and not any(h.from_s is None for h in hands):
        gathering.fault(path, "hands does not say how many cook at first", "add {from: start, pairs: 1}")
    for n, change in enumerate(hands):
        if change.from_s in [other.from_s for other in hands[:n]]:
            gathering.fault((*path, n), "two entries of hands begin at the same time", "keep one of them")
    if hands and all(h.pairs == 0 for h in hands):
        gathering.fault(path, "nobody cooks", "write pairs: 1 somewhere")
    ordered = sorted(hands, key=lambda h: (h.from_s is not None, h.from_s or 0))
    return tuple(ordered) or (HandsFrom(from_s=None, pairs=1),)


def _places(kitchen: WrittenKitchen, gathering: Gathering) -> list[Place]:
    places: dict[str, Place] = {}
    for name, place in kitchen.places.items():
        path: Path = ("kitchen", "places", name)
        if not _fresh(name, places, path, "place", gathering):
            continue
        if place.preheat is not None and place.heat is None and gathering.untouched(path):
            gathering.fault((*path, "preheat"), f"{name} has preheat but no heat", "write heat: 60-250 C as well")
        heat = None
        if place.heat is not None:
            preheat = 1200 if place.preheat is None else place.preheat
            heat = Heat(low_c=place.heat[0], high_c=place.heat[1], preheat_s=preheat)
        places[fold_name(name)] = Place(name=_tidy(name), room=place.room, heat=heat)
    return list(places.values())


def _courses(written: WrittenMenu, gathering: Gathering) -> dict[str, Course]:
    courses: dict[str, Course] = {}
    for name, course in written.courses.items():
        path: Path = ("courses", name)
        if not _fresh(name, courses, path, "course", gathering):
            continue
        if course.until is not None and course.until <= course.eat:
            until, eat = duration_words(course.until), duration_words(course.eat)
            wrong = f"{name} is eaten from {eat} until {until}"
            gathering.fault((*path, "until"), wrong, "until is later than eat; both count from eat_at")
        courses[fold_name(name)] = Course(name=_tidy(name), eat_s=course.eat, until_s=course.until)
    return courses


def _tidy(name: str) -> str:
    return " ".join(name.split())


def _fresh(
    name: str,
    known: dict[str, object] | dict[str, Place] | dict[str, Course],
    path: Path,
    what: str,
    gathering: Gathering,
) -> bool:
    if not fold_name(name):
        gathering.fault(path, f"a {what} has no name", "write one before the colon", at_key=True)
        return False
    if fold_name(name) in known:
        gathering.fault(path, f"there are two of the {what} '{_tidy(name)}'", "keep one of them", at_key=True)
        return False
    return True


def _table(written: WrittenMenu, gathering: Gathering) -> tuple[str, ...] | None:
    if written.table is None:
        return None
    dishes = {fold_name(d.dish): d.dish for d in written.dishes}
    for n, name in enumerate(() if gathering.full else written.table):
        if fold_name(name) not in dishes and not gathering.names_lost:
            close = nearest(name, dishes.values())
            right = f"did you mean '{close}'?" if close else "write a dish of this name, or take it off the table"
            gathering.fault(("table", n), f"there is no dish '{name}'", right)
    return tuple(dict.fromkeys(dishes[fold_name(n)] for n in written.table if fold_name(n) in dishes))


def _dishes(
    written: WrittenMenu, courses: dict[str, Course], most_hands: int, gathering: Gathering
) -> tuple[Dish, ...]:
    named = _named(written, gathering)
    every = [step for steps in named for step in steps]
    _judge_full_names(every, gathering)
    names = StepNames()
    for step in every:
        names.add(step)
    links = links_of(every, names, gathering)
    places = {fold_name(p.name): p for p in gathering.menu_places.values()}
    dishes = []
    for n, (dish, steps) in enumerate(zip(written.dishes, named, strict=True)):
        built = [
            build_step(step, places, most_hands, gathering).model_copy(update={"links": links[step.id]})
            for step in steps
        ]
        course = _course(dish, ("dishes", n, "course"), courses, gathering)
        hold = 1800 if dish.hold is None else dish.hold
        dishes.append(
            Dish(
                name=dish.dish,
                course=course,
                hold_s=hold,
                keep=dish.keep,
                ingredients=tuple(dish.ingredients),
                steps=tuple(built),
            )
        )
    return tuple(dishes)


def _course(dish: WrittenDish, path: Path, courses: dict[str, Course], gathering: Gathering) -> str | None:
    if dish.course is None:
        return None
    found = courses.get(fold_name(dish.course))
    if found is None and not gathering.lost(("courses", dish.course)):
        close = nearest(dish.course, [c.name for c in courses.values()])
        right = f"did you mean '{close}'?" if close else f"write courses: {{{dish.course}: {{eat: 0 min}}}}"
        gathering.fault(path, f"there is no course '{dish.course}'", right)
    return found.name if found else None


def _named(written: WrittenMenu, gathering: Gathering) -> list[list[Named]]:
    """Every dish's steps with names of their own; a dish or an id that comes twice is a fault."""
    if not written.dishes and gathering.untouched(("dishes",)):
        gathering.fault(("dishes",), "the menu has no dishes", "write at least one: - dish: Gravy")
    seen: set[str] = set()
    own_ids: set[str] = set()
    named = []
    for n, dish in enumerate(written.dishes):
        path: Path = ("dishes", n)
        if fold_name(dish.dish) in seen and gathering.untouched((*path, "dish")):
            gathering.fault((*path, "dish"), f"there are two dishes '{dish.dish}'", "give each a name of its own")
        seen.add(fold_name(dish.dish))
        if not dish.steps and gathering.untouched(path):
            gathering.fault((*path, "steps"), f"'{dish.dish}' has no steps", "write at least one: - do: Simmer")
        named.append(list(name_steps(dish, path)))
        _judge_ids(named[-1], own_ids, gathering)
    return named


def _judge_ids(steps: list[Named], own_ids: set[str], gathering: Gathering) -> None:
    for step in steps:
        if step.written.id is None:
            continue
        name = fold_name(step.written.id)
        if name in own_ids:
            gathering.fault((*step.path, "id"), f"there are two steps with the id '{step.written.id}'", "change one")
        if "/" in name:
            gathering.fault((*step.path, "id"), f"the id '{step.written.id}' has a '/'", "write it without")
        own_ids.add(name)


def _judge_full_names(steps: list[Named], gathering: Gathering) -> None:
    """A '/' in names can make two steps read alike: 'a/b' of dish 'c' and 'b' of dish 'c/a'."""
    seen: dict[str, Named] = {}
    for step in steps:
        other = seen.setdefault(step.id, step)
        if fold_name(other.dish) != fold_name(step.dish):
            gathering.fault((*step.path, "do"), f"two steps are both called '{step.id}'", "write a name without '/'")
