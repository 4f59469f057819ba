"""What is worth a look in a menu that can be cooked. Warnings never stop a cook."""

from collections.abc import Iterator
from dataclasses import dataclass

from .faults import MOST_FAULTS, Fault, Path, Positions
from .menu import Dish, Menu, Step
from .quantities import celsius_words, duration_words, span_words
from .values import Span

# FDA Food Code 2022: 3-501.16(A)(1), hot holding at 135 F or above; (A)(2), cold holding at 41 F or below;
# 3-501.19(B), time in place of temperature, at most 4 h. USDA FSIS: cooked food out of the heat at most 2 h.
_HOT_C, _COLD_C = 57.0, 5.0
_TIME_CONTROL_S, _OUT_S = 4 * 3600, 2 * 3600
_COLD_WORDS = ("fridge", "refrigerat", "chill", "cold", "ice", "freez", "cellar", "larder")
_HOUR = 3600


def warnings_of(menu: Menu, where: Positions) -> tuple[Fault, ...]:
    """Every warning, in the order written, at most MOST_FAULTS."""
    found = [
        *_items(menu),
        *_table(menu),
        *_per_step(menu),
        *_holds(menu),
        *_busy_hours(menu),
    ]
    faults = [where.fault(w.path, w.wrong, w.right, warning=True) for w in found]
    return tuple(sorted(faults, key=lambda f: (f.line, f.column, f.wrong)))[:MOST_FAULTS]


@dataclass(frozen=True, slots=True)
class _Warning:
    path: Path
    wrong: str
    right: str = ""


def _steps(menu: Menu) -> Iterator[tuple[Path, Step]]:
    for d, dish in enumerate(menu.dishes):
        for s, step in enumerate(dish.steps):
            yield ("dishes", d, "steps", s), step


def _items(menu: Menu) -> Iterator[_Warning]:
    """Made and not needed, needed and not made."""
    made = {item for _, step in _steps(menu) for item in step.makes}
    needed = {item for _, step in _steps(menu) for item in step.needs}
    for path, step in _steps(menu):
        for item in step.makes:
            if item not in needed:
                yield _Warning((*path, "makes"), f"nothing needs '{item}'", "leave it out, or name it under needs")
        for item in step.needs:
            if item not in made:
                yield _Warning((*path, "needs"), f"no step makes '{item}'", "it is taken as bought")


def _table(menu: Menu) -> Iterator[_Warning]:
    for d, dish in enumerate(menu.dishes):
        if menu.table is not None and dish.name not in menu.table:
            right = "add it to table, or leave it as a part of another dish"
            yield _Warning(("dishes", d, "dish"), f"'{dish.name}' is not on the table", right)


def _per_step(menu: Menu) -> Iterator[_Warning]:
    for path, step in _steps(menu):
        yield from _wide(path, step)
        yield from _unwatched(path, step, menu)
        yield from _silent_cues(path, step)
        yield from _no_heat(path, step, menu)
        yield from _lukewarm(path, step, menu)


def _wide(path: Path, step: Step) -> Iterator[_Warning]:
    ranges: list[tuple[Path, Span]] = [((*path, _length_key(step)), step.span)]
    if step.batches is not None:
        ranges = [
            ((*path, "batches", "each"), step.batches.each),
            ((*path, "batches", "recover"), step.batches.recover),
        ]
    for at, span in ranges:
        if span.high > 3 * span.low:
            said = span_words(span.low, span.high)
            yield _Warning(at, f"{said} is a wide range", "a narrower one makes a better plan")


def _length_key(step: Step) -> str:
    return "lasts" if step.elastic else "takes"


def _unwatched(path: Path, step: Step, menu: Menu) -> Iterator[_Warning]:
    """Hot oil or a heated pan (a heat on a place that holds none) with no hands from its start to its end."""
    if step.work.throughout or step.work.start_s or step.work.end_s or any(cue.work_s for cue in step.cues):
        return
    if step.hazard is not None:
        wrong = f"{step.hazard}: nobody is at '{step.do}' for all of its time"
        yield _Warning((*path, "hazard"), wrong, "write work: all, or work: {start: 2 min, end: 2 min}")
    elif step.heat_c is not None and step.uses and not any(_heated(menu, use.place) for use in step.uses):
        wrong = f"a heated pan: nobody is at '{step.do}' for all of its time"
        yield _Warning((*path, "heat"), wrong, "write work: all, or a cue to look at it")


def _heated(menu: Menu, place: str) -> bool:
    found = menu.place(place)
    return found is not None and found.heat is not None


def _silent_cues(path: Path, step: Step) -> Iterator[_Warning]:
    """No cue falls in the last tenth of a step's time, so these would never call."""
    for n, cue in enumerate(step.cues):
        first = cue.every_s if cue.every_s is not None else cue.at_s
        if first is not None and first > 0.9 * step.span.high:
            wrong = f"'{cue.do}' never calls: {duration_words(first)} is in the last tenth of the step"
            yield _Warning((*path, "cues", n), wrong, "write a shorter time")


def _no_heat(path: Path, step: Step, menu: Menu) -> Iterator[_Warning]:
    for use in step.uses:
        if step.heat_c is None and _heated(menu, use.place):
            yield _Warning((*path, "on"), f"no heat is written for {use.place}", "it may be hot or cold: write heat:")


def _lukewarm(path: Path, step: Step, menu: Menu) -> Iterator[_Warning]:
    heat = step.heat_c
    if heat is None or not _COLD_C < heat < _HOT_C or step.span.high <= _TIME_CONTROL_S:
        return
    if any(_heated(menu, use.place) for use in step.uses):
        wrong = f"{duration_words(step.span.high)} at {celsius_words(heat, menu.units)} is long in the danger zone"
        yield _Warning((*path, "heat"), wrong, _safe_hold(menu.units))


def _safe_hold(units: str) -> str:
    hot, cold = celsius_words(_HOT_C, units), celsius_words(_COLD_C, units)
    return (
        f"keep it at {hot} or above, or {cold} or below (Food Code 3-501.16), "
        "or eat it within 4 h (Food Code 3-501.19); a stricter local code comes first"
    )


def _holds(menu: Menu) -> Iterator[_Warning]:
    for d, dish in enumerate(menu.dishes):
        keep = " ".join((dish.keep or "", *(s.keep or "" for s in dish.steps if s.id in dish.last_steps))).casefold()
        if not menu.on_table(dish) or any(word in keep for word in _COLD_WORDS):
            continue
        path: Path = ("dishes", d, "hold")
        said = f"'{dish.name}' may stand ready for {duration_words(dish.hold_s)}"
        if dish.hold_s > _TIME_CONTROL_S:
            yield _Warning(path, said, _safe_hold(menu.units))
        elif dish.hold_s > _OUT_S and not keep.strip():
            right = "cooked food may be out of heat or cold for 2 h at most (USDA FSIS): write keep: how it stays hot"
            yield _Warning(path, said, right)


def _busy_hours(menu: Menu) -> Iterator[_Warning]:
    """More hands-on minutes in the hour before eating than hands can give, however the dishes are placed.

    A lower bound: of each dish, only its last run of hands-on steps that must follow one another closely is counted, at
    the place in its hold where the least of it falls into the hour. A plan tells the rest.
    """
    for end in sorted({menu.course_of(dish).eat_s for dish in menu.dishes}):
        window = (end - _HOUR, end)
        busy = {dish.name: _least_in(menu, dish, window) for dish in menu.dishes}
        give = _hands_s(menu, window)
        if (asked := sum(busy.values())) > give:
            most = max(busy, key=lambda name: busy[name])
            wrong = f"{duration_words(asked)} of hands are asked for in the hour before {_meal(end)}"
            right = f"there are {duration_words(give)} to give; most is for '{most}'"
            yield _Warning(("kitchen", "hands"), wrong, right)


def _meal(eat_s: int) -> str:
    if eat_s == 0:
        return "eating"
    return f"{duration_words(abs(eat_s))} {'before' if eat_s < 0 else 'after'} eating"


def _hands_s(menu: Menu, window: tuple[int, int]) -> int:
    """Seconds of hands in a window, relative to the meal."""
    starts = [window[0] if h.from_s is None else h.from_s for h in menu.hands] + [window[1]]
    clipped = [min(max(s, window[0]), window[1]) for s in starts]
    return sum((clipped[n + 1] - clipped[n]) * h.pairs for n, h in enumerate(menu.hands))


def _least_in(menu: Menu, dish: Dish, window: tuple[int, int]) -> int:
    length = _tail_s(dish)
    if not length or not menu.on_table(dish):
        return 0
    course = menu.course_of(dish)
    latest = course.eat_s if course.until_s is None else course.until_s
    ends = (course.eat_s - dish.hold_s, latest)  # overlap is least at one of the two
    return min(max(0, min(end, window[1]) - max(end - length, window[0])) for end in ends)


def _tail_s(dish: Dish) -> int:
    """Seconds of hands-on steps at the end of a dish that follow one another without a gap."""
    last = dish.last_steps
    step = next((s for s in dish.steps if len(last) == 1 and s.id == last[0]), None)
    total = 0
    seen: set[str] = set()
    while step is not None and step.work.throughout and step.id not in seen:
        seen.add(step.id)
        total += step.span.low
        close = [link.step for link in step.links if link.within_s == 0]
        step = next((s for s in dish.steps if s.id in close), None)
    return total
