"""The menu as a form: which fields a menu, a dish and a step have, what each is called, and what may complete it.

The keys are those of the menu file. `at` is the path below the part that the form is about.
"""

from dataclasses import dataclass
from enum import StrEnum

from .faults import Path


class Shape(StrEnum):
    """How a field is written in one box."""

    WORDS = "words"  # always words: a number gets quotes
    QUANTITY = "quantity"  # as typed: '25 min', '180 C', '12'
    NOTE = "note"  # words in a larger box
    NAMES = "names"  # 'drippings, stock'
    LINES = "lines"  # one entry to a line
    USES = "uses"  # 'hob x2, counter'
    WORK = "work"  # 'all', '5 min', '2 min at the start, 3 min at the end'


class Completes(StrEnum):
    """What a field offers while it is typed."""

    NOTHING = ""
    PLACES = "places"
    TIMES = "times"
    HEATS = "heats"
    COURSES = "courses"
    DISHES = "dishes"
    STEPS = "steps"
    ITEMS = "items"  # what steps make
    WORK = "work"
    UNITS = "units"
    HAZARDS = "hazards"
    MOMENTS = "moments"  # of a cue: 'halfway'
    FROM = "from"
    PERSONS = "persons"


@dataclass(frozen=True, slots=True)
class Field:
    """One box of the form."""

    at: Path
    label: str
    example: str = ""
    shape: Shape = Shape.QUANTITY
    completes: Completes = Completes.NOTHING
    hint: str = ""
    short: bool = False  # words that take no more room than a quantity


@dataclass(frozen=True, slots=True)
class Rows:
    """Several small entries of one kind, a line of boxes each. `keyed`: the first box is the entry's own name."""

    at: Path
    label: str
    one: str  # what an entry is called: 'Add a cue'
    columns: tuple[Field, ...]
    keyed: bool = False
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Tick:
    """A box to tick: the part at `at` is an empty list, which says 'none' where nothing written says 'as usual'."""

    at: Path
    label: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """Boxes under one heading."""

    title: str
    parts: tuple[Field | Rows | Tick, ...]


_WORDS, _NOTE, _NAMES, _LINES = Shape.WORDS, Shape.NOTE, Shape.NAMES, Shape.LINES
_TIME = Completes.TIMES


def _time(at: str, label: str, example: str, hint: str = "") -> Field:
    return Field((at,), label, example, completes=_TIME, hint=hint)


MENU: tuple[Section, ...] = (
    Section(
        "Meal",
        (
            Field(("menu",), "Title", "Solstice supper", _WORDS),
            Field(("serves",), "Serves", "8", hint="People; quantities are written for this many."),
            Field(
                ("eat_at",),
                "Eat at",
                "18:30",
                _WORDS,
                hint="18:30 is the next such time; or 2026-12-21 18:30.",
                short=True,
            ),
            _time("in_hand", "Time in hand", "5 min", "Be ready this much early where waiting costs nothing."),
            Field(("units",), "Temperatures in", "C", completes=Completes.UNITS, hint="How they are shown: C or F."),
        ),
    ),
    Section(
        "Kitchen",
        (
            Rows(
                ("kitchen", "places"),
                "Places",
                "place",
                (
                    Field((), "Place", "oven", _WORDS),
                    Field(("room",), "Room", "2", hint="Equal parts that fit side by side; empty: no limit."),
                    Field(("heat",), "Heat", "60-250 C", completes=Completes.HEATS, hint="For a place that holds one."),
                    _time("preheat", "Preheat", "20 min"),
                ),
                keyed=True,
            ),
            Rows(
                ("kitchen", "hands"),
                "Hands",
                "change of hands",
                (
                    Field(("from",), "From", "start", completes=Completes.FROM, hint="start, or -40 min."),
                    Field(("pairs",), "Pairs", "1"),
                ),
            ),
            Field(
                ("kitchen", "closed"),
                "Closed",
                "23:00-07:00",
                _NAMES,
                hint="Hours with no hands; what runs by itself may run through.",
            ),
        ),
    ),
    Section(
        "Table",
        (
            Rows(
                ("courses",),
                "Courses",
                "course",
                (
                    Field((), "Course", "starter", _WORDS),
                    Field(("eat",), "Eaten", "-30 min", completes=_TIME, hint="Counted from the meal."),
                    Field(("until",), "Until", "90 min", completes=_TIME, hint="For a buffet or a brunch."),
                ),
                keyed=True,
            ),
            Field(
                ("table",),
                "On the table",
                "one dish to a line",
                _LINES,
                Completes.DISHES,
                "What must be on the table. Empty: every dish.",
            ),
        ),
    ),
)

DISH: tuple[Section, ...] = (
    Section(
        "Dish",
        (
            Field(("dish",), "Dish", "Roast potatoes", _WORDS),
            Field(
                ("course",), "Course", "main", _WORDS, Completes.COURSES, "Empty: eaten at the meal itself.", short=True
            ),
            _time("hold", "May stand ready", "30 min", "The longest; 0 min means straight to the table."),
            Field(("keep",), "Stands ready", "covered, in the warm oven", _WORDS),
            Field(("ingredients",), "Ingredients", "2.4 kg floury potatoes", _LINES, hint="One to a line."),
        ),
    ),
)

STEP: tuple[Section, ...] = (
    Section(
        "Step",
        (
            Field(("do",), "Do", "Roast until crisp", _WORDS),
            Field(
                ("on",), "On", "oven, or hob x2, counter", Shape.USES, Completes.PLACES, "x2: two parts of its room."
            ),
            Field(("heat",), "Heat", "180 C", completes=Completes.HEATS),
            Field(("heat_within",), "Give or take", "5 C", hint="How far from that heat it still does well."),
        ),
    ),
    Section(
        "How long",
        (
            _time("takes", "Takes", "25-30 min", "The food decides: look at the low end, warn at the high end."),
            _time("lasts", "Or lasts", "20-40 min", "The cook may end it anywhere in here: rest, soak, prove."),
            Field(("batches", "count"), "Or in batches", "4"),
            Field(("batches", "each"), "Each batch", "4-5 min", completes=_TIME),
            Field(("batches", "recover"), "Between batches", "1-2 min", completes=_TIME),
            Field(
                ("work",),
                "Hands",
                "2 min at the start, 3 min at the end",
                Shape.WORK,
                Completes.WORK,
                "A time alone is a job for hands; beside a time above, hands at its start. Or: all.",
            ),
        ),
    ),
    Section(
        "Done when",
        (
            Field(("until",), "Until", "skin blistered", _WORDS),
            Field(("pull_at",), "Pull at", "80 C", completes=Completes.HEATS, hint="Core temperature that ends it."),
        ),
    ),
    Section(
        "While it runs",
        (
            Rows(
                ("cues",),
                "Cues",
                "cue",
                (
                    Field(("do",), "Do", "Baste", _WORDS),
                    _time("every", "Every", "30 min"),
                    Field(("at",), "Or at", "halfway", completes=Completes.MOMENTS),
                    Field(("times",), "Times", "2"),
                    _time("work", "Hands", "1 min"),
                ),
            ),
            _time("shut", "Door shut for", "20 min", "From its start; nothing else may open that place."),
            Field(
                ("hazard",),
                "Hazard",
                "hot oil",
                _WORDS,
                Completes.HAZARDS,
                "Asks for hands or eyes throughout.",
                short=True,
            ),
        ),
    ),
    Section(
        "When",
        (
            _time("ahead", "Ahead by up to", "1 day", "May be done this long before the meal."),
            _time("wait", "Wait at least", "5 min", "After the step before it."),
            _time("within", "Start within", "2 min", "At most this long after the step before it has ended."),
            Rows(
                ("after",),
                "Follows",
                "step it follows",
                (
                    Field(("step",), "Step", "drain", _WORDS, Completes.STEPS),
                    _time("wait", "Wait", "5 min"),
                    _time("within", "Within", "2 min"),
                ),
                hint="Empty: the step above it.",
            ),
            Tick(("after",), "Follows nothing", "It may begin before the steps above it have ended."),
        ),
    ),
    Section(
        "More",
        (
            Field(("makes",), "Makes", "drippings", _NAMES, hint="What later steps may need."),
            Field(("needs",), "Needs", "drippings", _NAMES, Completes.ITEMS),
            Field(("person",), "Who", "any", completes=Completes.PERSONS, hint="any, or a number."),
            Field(("keep",), "Waits", "uncovered, warm", _WORDS, hint="How it waits once this has ended."),
            Field(("id",), "Short name", "bake", _WORDS, hint="For other steps to call it by.", short=True),
            Field(("note",), "Note", "a sentence from the recipe", _NOTE),
        ),
    ),
)
