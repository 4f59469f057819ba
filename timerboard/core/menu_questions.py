"""A menu looked over before the cook, as somebody beside the cook would ask about it. Questions never stop anything."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from .faults import Path
from .food_kind import FoodKind, kind_of_words
from .list_values import ListGroup, ListLine, ListPage
from .menu import Dish, Menu, Step
from .quantity_words import duration_words, span_words
from .survey import Survey
from .words import lower_first, sentence_list, the, upper_first

LONG_ROAST_S = 45 * 60
LONG_HOLD_S = 30 * 60
MOST_NAMED = 4
_RAW = (FoodKind.POULTRY, FoodKind.STUFFED, FoodKind.GROUND)
_MEAT = (FoodKind.POULTRY, FoodKind.WHOLE_MEAT, FoodKind.GAME)


@dataclass(frozen=True, slots=True)
class Question:
    """One question, and the part of the menu it is about."""

    said: str
    path: Path = ()


def questions(menu: Menu) -> tuple[Question, ...]:
    """Every question, in the order of the menu; each asked once."""
    survey = Survey(menu)
    found = [*_items(menu), *_table(menu)]
    for d, dish in enumerate(menu.dishes):
        for s, step in enumerate(dish.steps):
            path: Path = ("dishes", d, "steps", s)
            found += [Question(said, path) for said in _of_step(survey, dish, step)]
        found += [Question(said, ("dishes", d)) for said in _of_dish(menu, dish)]
    found += _signs(menu)
    return tuple({question.said: question for question in found}.values())


def question_page(menu: Menu) -> ListPage:
    """The questions as a list."""
    lines = tuple(ListLine(question.said) for question in questions(menu))
    return ListPage("Questions", (ListGroup("", lines),) if lines else (), "Each has an answer before the cook begins.")


def _items(menu: Menu) -> Iterator[Question]:
    """Made and not used, used and not made."""
    made = {item for step in menu.steps.values() for item in step.makes}
    needed = {item for step in menu.steps.values() for item in step.needs}
    for d, dish in enumerate(menu.dishes):
        for s, step in enumerate(dish.steps):
            path: Path = ("dishes", d, "steps", s)
            for item in step.makes:
                if item not in needed:
                    yield Question(f"{_subject(item)} made, but nothing uses {_it(item)}: what for?", path)
            for item in step.needs:
                if item not in made:
                    yield Question(f"{_subject(item)} needed, but no step makes {_it(item)}: bought?", path)


def _table(menu: Menu) -> Iterator[Question]:
    for d, dish in enumerate(menu.dishes):
        named = menu.table is None or dish.name in menu.table
        if not named and dish.name not in menu.needed_dishes:
            said = f"{_subject(dish.name)} cooked, but for no table and no other dish: for whom?"
            yield Question(said, ("dishes", d))


def _of_step(survey: Survey, dish: Dish, step: Step) -> Iterator[str]:
    place = _hot_place(survey, step)
    if place and not step.work.throughout:
        if not step.work.attended_start and not _already_there(survey.menu, step):
            yield f"No one puts {the(dish.name)} {_into(place)} ('{step.do}'): who does?"
        stays = not _heated(survey.menu, place) and step.id in dish.last_steps and (dish.keep or step.keep)
        if not step.work.end_s and not stays and not _taken_up(survey, step):
            yield f"No one takes {the(dish.name)} {_out_of(place)} ('{step.do}'): who does?"
    if place and step.heat_c is None and _heated(survey.menu, place):
        yield f"How hot is the {place} for '{step.do}' ({lower_first(dish.name)})?"
    meat = kind_of_words("\n".join((dish.name, *dish.ingredients)))
    if place and meat in _RAW and step.pull_at_c is None and step.span.high >= 600 and not _read_later(dish, step):
        yield f"How is it known that {the(dish.name)} {_is(dish.name)} done? '{step.do}' has no temperature to pull at."


def _of_dish(menu: Menu, dish: Dish) -> Iterator[str]:
    roasts = [step for step in dish.steps if step.span.high >= LONG_ROAST_S and step.pull_at_c is not None
              and any(_heated(menu, use.place) for use in step.uses)]  # fmt: skip
    meat = kind_of_words("\n".join((dish.name, *dish.ingredients))) in _MEAT
    if meat and roasts and not any(step.elastic and roasts[-1].id in {link.step for link in step.links}
                                   for step in menu.steps.values()):  # fmt: skip
        yield f"Does {the(dish.name)} rest before it is cut? No step says so."
    kept = dish.keep or any(step.keep for step in dish.steps if step.id in dish.last_steps)
    if menu.on_table(dish) and dish.hold_s > LONG_HOLD_S and not kept:
        yield f"How does {the(dish.name)} wait, for up to {duration_words(dish.hold_s)}? Nothing says how it is kept."
    if not dish.ingredients and menu.on_table(dish) and any(d.ingredients for d in menu.dishes):
        yield f"What goes into {the(dish.name)}? No ingredients are written, so none are on the shopping list."
    yield from _forgotten(dish)


def _forgotten(dish: Dish) -> Iterator[str]:
    """An ingredient that no step speaks of, where the steps speak of most."""
    said = " ".join(" ".join((step.do, step.note or "", step.until or "")) for step in dish.steps).casefold()
    told = [line for line in dish.ingredients if _spoken_of(line, said)]
    missing = [line for line in dish.ingredients if line not in told]
    if len(dish.ingredients) >= 3 and missing and len(missing) <= len(dish.ingredients) // 4:
        yield f"Where does '{missing[0]}' go in {the(dish.name)}? No step speaks of it."


def _spoken_of(line: str, said: str) -> bool:
    words = re.findall(r"[^\W\d_]{4,}", line.split(",", maxsplit=1)[0].casefold())
    return any(word.rstrip("s") in said for word in words) or not words


def _signs(menu: Menu) -> Iterator[Question]:
    """Ranges without a sign: what does the cook look for?"""
    blind = [
        (("dishes", d, "steps", s), step)
        for d, dish in enumerate(menu.dishes)
        for s, step in enumerate(dish.steps)
        if not step.elastic and not step.span.certain and not step.until and step.pull_at_c is None
        and not step.work.throughout and step.span.high >= 300
    ]  # fmt: skip
    if blind:
        told = [
            f"{lower_first(step.dish)}, '{step.do}' ({span_words(step.span.low, step.span.high)})" for _, step in blind
        ]
        more = [f"{len(told) - MOST_NAMED} more"] if len(told) > MOST_NAMED else []
        yield Question(f"What shows that it is done? No sign is written for {sentence_list(told[:MOST_NAMED] + more)}.",
                       blind[0][0])  # fmt: skip


def _hot_place(survey: Survey, step: Step) -> str:
    """The oven or hob where a step is; '' when it is in neither, or when it only keeps something warm."""
    return next((use.place for use in step.uses
                 if _heated(survey.menu, use.place) or use.place in survey.hearths), "")  # fmt: skip


def _heated(menu: Menu, place: str) -> bool:
    found = menu.place(place)
    return found is not None and found.heat is not None


def _taken_up(survey: Survey, step: Step) -> bool:
    """True when a step that follows begins with hands, or goes on in the same place: then somebody is there."""
    places = {use.place for use in step.uses}
    return any(
        after.work.attended_start or places & {use.place for use in after.uses}
        for after, _ in survey.followers[step.id]
    )


def _already_there(menu: Menu, step: Step) -> bool:
    """True when the step before ends with hands, or went on in the same place."""
    places = {use.place for use in step.uses}
    before = [menu.steps[link.step] for link in step.links if link.step in menu.steps]
    return any(b.work.throughout or b.work.end_s or places & {use.place for use in b.uses} for b in before)


def _read_later(dish: Dish, step: Step) -> bool:
    """True when another step of the dish is ended by a reading: what is browned first is read when it roasts."""
    return any(other.pull_at_c is not None for other in dish.steps if other.id != step.id)


def _into(place: str) -> str:
    return f"on the {place}" if place in ("hob", "grill", "stove") else f"into the {place}"


def _out_of(place: str) -> str:
    return f"off the {place}" if place in ("hob", "grill", "stove") else f"out of the {place}"


def _plural(name: str) -> bool:
    last = name.casefold().split()[-1:]
    return bool(last) and last[0].endswith("s") and not last[0].endswith(("ss", "us", "is"))


def _is(name: str) -> str:
    return "are" if _plural(name) else "is"


def _subject(name: str) -> str:
    return f"{upper_first(the(name))} {_is(name)}"


def _it(name: str) -> str:
    return "them" if _plural(name) else "it"
