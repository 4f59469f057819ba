"""A recipe as a dish of a menu: every key in the menu file's own words, and a mark on all that was guessed."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from .menu_written import Plain, Value
from .quantities import parse_celsius
from .quantity_words import duration_words, span_words
from .recipe_cues import CueFound
from .recipe_heats import HeatOf, find_heats
from .recipe_job import Job
from .recipe_steps import Flow, flow_of
from .recipe_values import Guess, Range, Recipe, TakenDish, readable
from .recipe_verbs import Kind
from .recipe_weights import heaviest_kilos
from .values import Seconds

PLACES: dict[str, dict[str, Value]] = {
    "oven": {"room": 2, "heat": Plain("50-300 C"), "preheat": Plain("20 min")},
    "hob": {"room": 4},
    "grill": {"room": 1},
    "microwave": {"room": 1},
    "slow cooker": {"room": 1},
    "pressure cooker": {"room": 1},
    "smoker": {"room": 2},
    "fridge": {"room": 6},
    "freezer": {"room": 4},
    "counter": {},
}
SERVES_GUESS = 4
OVEN_GUESS = "180 C"
OIL_GUESS = "175 C"
MOST_NAME = 120
MOST_SHARE = 3  # a job gets at most so many times its usual length of the whole preparation
_LONGEST_S = 7 * 86_400
_NO_HEAT = "the recipe gives no oven temperature"


def dish_of(recipe: Recipe) -> TakenDish:
    """The dish of a recipe. Never raises; what stands in it can be read as a menu."""
    recipe = readable(recipe)
    flow = flow_of(recipe)
    guesses: list[Guess] = []
    _share_known_times(recipe, flow.jobs)
    name = _dish_name(recipe, flow)
    dish: dict[str, Value] = {"dish": name}
    if recipe.title.strip() == "":
        guesses.append(Guess(("dish",), "the recipe has no title"))
    if flow.at_once:
        dish["hold"] = Plain("5 min")
        guesses.append(Guess(("hold",), "the recipe says to serve it at once"))
    if lines := [" ".join(line.split()) for line in recipe.ingredients if line.strip()]:
        dish["ingredients"] = list[Value](lines)
    names = _names(flow.jobs)
    whole = _Whole(recipe, flow.jobs, names)
    dish["steps"] = [_step(n, job, whole, guesses) for n, job in enumerate(flow.jobs)]
    units = "F" if _first_scale(recipe) == "F" else "C"
    said = "" if recipe.serves else f"the recipe says {recipe.yields}" if recipe.yields else "the recipe does not say"
    used = _places_used(flow.jobs)
    return TakenDish(dish, used, recipe.serves or SERVES_GUESS, units, tuple(guesses), said)


def _dish_name(recipe: Recipe, flow: Flow) -> str:
    """The title without slashes, which part a dish from its step where steps are named."""
    title = " ".join(recipe.title.split())
    name = re.sub(r"\s*/\s*", " or ", title)[:MOST_NAME].strip()
    if name != title:
        flow.jobs[0].notes.insert(0, title)
    return name or "A dish"


def _names(jobs: Iterable[Job]) -> list[str]:
    """What each step does, no two alike: links call steps by it."""
    taken: dict[str, int] = {}
    names = []
    for job in jobs:
        name = " ".join(job.do.replace("/", " or ").split()) or "Cook"
        folded = name.casefold()
        taken[folded] = taken.get(folded, 0) + 1
        again = taken[folded]
        if again > 1:
            name = f"{name} again" if again == 2 and f"{folded} again" not in taken else f"{name}, part {again}"
            taken.setdefault(name.casefold(), 1)
        names.append(name)
    return names


@dataclass(frozen=True, slots=True)
class _Whole:
    """What a step needs to know of the others."""

    recipe: Recipe
    jobs: list[Job]
    names: list[str]


def _step(n: int, job: Job, whole: _Whole, guesses: list[Guess]) -> Value:
    step: dict[str, Value] = {"do": whole.names[n], "on": job.place}
    said = dict(job.said)
    low, high = _span(job, whole.recipe)
    _write_heat(step, job, said)
    key = _write_length(step, job, low, high, said)
    if job.guessed_span:
        said.setdefault(key, job.guessed_span)
    if job.until:
        step["until"] = job.until
    if job.pull_at:
        step["pull_at"] = Plain(job.pull_at)
    if job.hazard:
        step["hazard"] = job.hazard
    if job.shut_s and job.place != "counter":
        step["shut"] = Plain(duration_words(min(job.shut_s, low)))
    if job.after is not None:
        step["after"] = [whole.names[i] for i in job.after]
    _write_cues(step, job, low, high, said)
    _write_ahead(step, job, whole.jobs[n:], said)
    if note := " ".join(_ended(" ".join(line.split())) for line in job.notes if line.strip()):
        step["note"] = note
    guesses += [Guess(("steps", n, key), words) for key, words in said.items() if key in step]
    return step


def _ended(line: str) -> str:
    """A line of a note with its full stop, so that two of them can be told apart."""
    return f"{line}." if line[-1:].isalnum() or line.endswith(")") else line


def _span(job: Job, recipe: Recipe) -> Range:
    if job.per_kilo is None:
        return job.span
    kilos = heaviest_kilos(recipe.ingredients)
    if kilos is None:
        job.guessed_span = "counted for 1.5 kg: the recipe gives no weight"
    else:
        job.guessed_span = f"counted for {kilos:g} kg"
    total = round(((kilos or 1.5) * job.per_kilo[0] + job.per_kilo[1]) / 60) * 60
    total = min(max(60, total), _LONGEST_S)
    return total, min(total + total // 10 // 60 * 60, _LONGEST_S)


def _write_heat(step: dict[str, Value], job: Job, said: dict[str, str]) -> None:
    heat = job.heat
    if job.place == "oven" and job.kind is not Kind.WAIT and not heat:
        heat, said["heat"] = OVEN_GUESS, _NO_HEAT
    if job.hazard and not heat and job.kind is not Kind.HANDS:
        heat, said["heat"] = OIL_GUESS, "the recipe does not say how hot the oil is"
    if job.place == "oven" and heat and not 50 <= parse_celsius(heat) <= 300:
        heat = OVEN_GUESS
        said["heat"] = "the recipe's temperature is none that an oven has"
    if heat:
        step["heat"] = Plain(heat)


def _write_length(step: dict[str, Value], job: Job, low: Seconds, high: Seconds, said: dict[str, str]) -> str:
    """`takes`, `lasts`, `batches` or `work`; gives the key that says how long it is."""
    words = Plain(span_words(low, high))
    if job.batches and high * job.batches + 60 * (job.batches - 1) <= _LONGEST_S:
        step["batches"] = {"count": job.batches, "each": words, "recover": Plain("1 min")}
        step["work"] = "all"
        return "batches"
    if job.kind is Kind.WAIT:
        if low == high and not job.timed:
            high = low * 2
        step["lasts"] = Plain(span_words(low, high))
        return "lasts"
    if job.kind is Kind.HANDS:
        step["work"] = words
        return "work"
    step["takes"] = words
    if job.hazard or job.throughout or (job.kind is Kind.PAN and high <= 600):
        step["work"] = "all"
    elif hands := _ends(job, low):
        step["work"] = hands
        said["work"] = "hands to begin and to end it"
    return "takes"


def _ends(job: Job, low: Seconds) -> Value:
    if low < 120:
        return "all"
    if low < 300:
        return Plain("1 min")
    return {"start": Plain("2 min"), "end": Plain("1 min")} if job.place in ("oven", "hob") else Plain("1 min")


def _write_cues(step: dict[str, Value], job: Job, low: Seconds, high: Seconds, said: dict[str, str]) -> None:
    """Cues that fall into the step's time; in a wait or a run of batches too. The rest stays in the note."""
    if step.get("work") == "all" or job.kind is Kind.HANDS:
        return
    cues: list[Value] = []
    for cue in {cue.do.casefold(): cue for cue in reversed(job.cues)}.values():
        entry = _cue(cue, low, high)
        if entry is not None:
            cues.append(entry)
            said["cues"] = cue.guess or said.get("cues") or "how long hands are needed"
    if cues:
        step["cues"] = cues


def _cue(cue: CueFound, low: Seconds, high: Seconds) -> dict[str, Value] | None:
    entry: dict[str, Value] = {"do": cue.do}
    at = cue.at_s or (low - cue.before_end_s if cue.before_end_s else 0)
    if cue.every_s:
        if not 30 <= cue.every_s <= 0.9 * high or high // cue.every_s > 500:
            return None
        entry["every"] = Plain(duration_words(cue.every_s))
    elif cue.halfway:
        entry["at"] = Plain("halfway")
    elif 0 < at <= 0.9 * low:
        entry["at"] = Plain(duration_words(at))
    else:
        return None
    entry["work"] = Plain("1 min" if (cue.every_s or low) >= 300 else "20 s")
    return entry


def _write_ahead(step: dict[str, Value], job: Job, rest: list[Job], said: dict[str, str]) -> None:
    """How long ahead, when what follows leaves room for it."""
    after = sum(j.span[1] for j in rest)
    if job.ahead_s and job.ahead_s >= after * 5 // 4:
        step["ahead"] = Plain(duration_words(min(job.ahead_s, 14 * 86_400)))
        said["ahead"] = "counted to the meal"


def _share_known_times(recipe: Recipe, jobs: list[Job]) -> None:
    """The recipe's own totals before guesses: the cooking time to one untimed step in the heat, the preparation time
    over the untimed jobs for hands, in proportion."""
    heat = [job for job in jobs if job.kind is Kind.HEAT]
    untimed = [job for job in heat if not job.timed]
    timed = sum(job.span[1] for job in jobs if job.timed and job.kind in (Kind.HEAT, Kind.PAN))
    if recipe.cooking_s and untimed:
        slow = max(untimed, key=lambda job: job.span[1])
        rest = recipe.cooking_s - timed - sum(job.span[0] for job in untimed if job is not slow)
        if rest >= 60:
            slow.span, slow.timed = (rest, rest), True
            slow.guessed_span = "what is left of the recipe's cooking time"
    hands = [job for job in jobs if job.kind is Kind.HANDS and not job.timed]
    if recipe.hands_s and hands:
        whole = sum(job.span[1] for job in hands)
        for job in hands:
            share = max(60, round(recipe.hands_s * job.span[1] / whole / 60) * 60)
            share = min(share, MOST_SHARE * job.span[1])
            job.span, job.guessed_span = (share, share), "its share of the recipe's preparation time"


def _first_scale(recipe: Recipe) -> str:
    texts = [*recipe.before, *(p.text for section in recipe.method for p in section.paragraphs)]
    heats = (heat for text in texts for heat in find_heats(text) if heat.of is not HeatOf.OTHER)
    return next((heat.written[-1] for heat in heats), "C")


def _places_used(jobs: Iterable[Job]) -> dict[str, Value]:
    used = {job.place for job in jobs}
    return {name: dict(place) for name, place in PLACES.items() if name in used}
