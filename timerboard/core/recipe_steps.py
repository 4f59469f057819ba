"""A method as steps, in their order: what runs beside what, which oven heat holds, what belongs to the step before.

Every sentence ends as the note of a step; those that tell nobody to do anything go with their neighbour.
"""

import re
from dataclasses import dataclass, field

from .recipe_cues import CueFound, cue_after, cues_in
from .recipe_heats import HeatOf, find_heats, oven_heat
from .recipe_job import Job
from .recipe_jobs import forbids_opening, job_of
from .recipe_sentences import clauses, sentences, serves_only, small_job, verbs_in
from .recipe_times import Role, find_times
from .recipe_values import Paragraph, Recipe
from .recipe_verbs import VERBS, Kind

MOST_STEPS = 300
_MEANWHILE = re.compile(
    r"^\W*(?:meanwhile|in the meantime|at the same time|while (?:the|it|they|this|that|you|your|everything|waiting)\b"
    r"|as the \w+ (?:cooks?|bakes?|roasts?|simmers?|rests?|chills?|cools?)\b)",
    re.IGNORECASE,
)
_PREHEAT = re.compile(
    r"\b(?:pre-?heat|heat(?: up)?|turn on|turn|set|light|get)\b[^.;]{0,25}\b(?:oven|grill|broiler|barbecue|smoker)\b"
    r"|\boven\b[^.;]{0,12}\bto [0-9]",
    re.IGNORECASE,
)
_TURN_DOWN = re.compile(
    r"\b(?:reduce|lower|turn (?:down|up)|increase|raise|drop|turn)\b[^.;]{0,40}\b(?:oven|heat|temperature)\b", re.I
)
_AT_ONCE = re.compile(r"\b(?:serve|eat)\b[^.]{0,30}\b(?:immediately|at once|straight ?away|right away|hot)\b", re.I)
_ON_LOW = re.compile(r"\bon (?:low|high|medium)\b", re.IGNORECASE)
_TOGETHER = re.compile(r"\b(?:together|combine|assemble)\b", re.IGNORECASE)


@dataclass(slots=True)
class Flow:
    """What is known while a method is walked through."""

    jobs: list[Job] = field(default_factory=list)
    pending: list[str] = field(default_factory=list)  # sentences that wait for the next step
    oven: str = ""
    oven_said: str = ""
    oil: str = ""
    beside: int | None = None  # the running step beside which a 'meanwhile' goes on
    joins: bool = False  # the paragraph of that 'meanwhile' is over: the next step needs both
    at_once: bool = False

    def note(self, sentence: str) -> None:
        """Keep a sentence with the step before, or with the next when there is none yet."""
        if not self.jobs:
            self.pending.append(sentence)
        elif sentence not in self.jobs[-1].notes:
            self.jobs[-1].notes.append(sentence)


def flow_of(recipe: Recipe) -> Flow:
    """The steps of a recipe's method. At least one, whatever is written."""
    flow = Flow()
    flow.pending += recipe.before
    for section in recipe.method:
        if section.heading:
            flow.pending.append(section.heading)
        for paragraph in section.paragraphs:
            _paragraph(flow, paragraph)
    if flow.pending or not flow.jobs:
        _fallback(flow)
    for line in recipe.after:
        flow.note(line)
    return flow


def _fallback(flow: Flow) -> None:
    """Sentences that nothing followed: with the last step, or one step for them all."""
    waiting, flow.pending = flow.pending, []
    if not flow.jobs:
        job = Job("Cook as the recipe says", Kind.HANDS, "counter", (1800, 1800), timed=False)
        job.guessed_span = "no step could be made out"
        flow.jobs.append(job)
        job.said["do"] = "no step could be made out"
    for sentence in waiting:
        flow.note(sentence)


def _paragraph(flow: Flow, paragraph: Paragraph) -> None:
    before = len(flow.jobs)
    flow.joins = flow.joins or flow.beside is not None
    for sentence in sentences(paragraph.text):
        meanwhile = bool(_MEANWHILE.search(sentence))
        if meanwhile:
            _step_aside(flow)
        _sentence(flow, sentence, meanwhile)
    if paragraph.lasts is not None and (untimed := [j for j in flow.jobs[before:] if not j.timed]):
        slow = [j for j in untimed if j.kind is not Kind.HANDS] or untimed
        slow[-1].span, slow[-1].timed, slow[-1].guessed_span = paragraph.lasts, True, ""


def _step_aside(flow: Flow) -> None:
    """'Meanwhile' goes on beside the last step that runs by itself, when there is one nearby."""
    slow = [n for n, job in enumerate(flow.jobs) if job.kind is not Kind.HANDS]
    flow.beside = slow[-1] if slow and len(flow.jobs) - slow[-1] <= 3 else None
    flow.joins = False


def _sentence(flow: Flow, sentence: str, meanwhile: bool) -> None:
    if len(flow.jobs) >= MOST_STEPS:
        return flow.note(sentence)
    if _AT_ONCE.search(sentence):
        flow.at_once = True
    if _told_of_the_last(flow, sentence):
        return flow.note(sentence)
    made = False
    for clause in clauses(sentence):
        oven = oven_heat(find_heats(clause))
        if oven is not None and (_PREHEAT.search(clause) or _TURN_DOWN.search(clause)):
            flow.oven, flow.oven_said = oven.written, oven.guess
        if (_PREHEAT.search(clause) or _TURN_DOWN.search(clause)) and _only_heat(clause):
            continue
        if serves_only(clause):
            continue
        job = job_of(clause)
        if job is None:
            _add_cues(flow, clause) if made else None
            continue
        _add(flow, job, sentence, meanwhile and not made)
        made = True
    if not made:
        heat_first = bool(_PREHEAT.search(sentence)) and not serves_only(sentence)
        flow.pending.append(sentence) if heat_first or not flow.jobs else flow.note(sentence)
    return None


def _only_heat(clause: str) -> bool:
    """True when a clause is about the oven and nothing else: 'Preheat the oven to 180C'."""
    said = [s for s in verbs_in(_heat_removed(clause)) if s.word not in ("heat", "set", "turn", "drop", "lower")]
    return not said


def _heat_removed(clause: str) -> str:
    return re.sub(r"\b(?:pre-?heat|heat|reduce)\b", " ", clause, flags=re.IGNORECASE)


def _told_of_the_last(flow: Flow, sentence: str) -> bool:
    """Sentences about the step before: a cue, a door kept shut, how long it keeps."""
    slow = next((job for job in reversed(flow.jobs[-3:]) if job.kind is not Kind.HANDS), None)
    times = find_times(sentence)
    lengths = [t for t in times if t.role is Role.LENGTH]
    if slow is None:
        return False
    food = next((heat.written for heat in find_heats(sentence) if heat.of is HeatOf.FOOD), "")
    if food and not slow.pull_at and not verbs_in(sentence):
        slow.pull_at = food
        return True
    if seconds := forbids_opening(sentence):
        slow.shut_s = min(seconds, slow.span[1])
        return True
    if times and not lengths and (late := cue_after(sentence, times)) is not None and _fits(slow, late):
        slow.cues.append(late)
        return True
    found = cues_in(sentence, times)
    if found and small_job(sentence) and not lengths:
        slow.cues += found
        return True
    if any(t.role is Role.KEEPS for t in times) and not lengths:
        return True
    return _ahead(flow, sentence)


def _ahead(flow: Flow, sentence: str) -> bool:
    times = [t for t in find_times(sentence) if t.role is Role.AHEAD and t.high >= 3600]
    if times and flow.jobs and re.search(r"\b(?:made|prepared|make|prepare|assembled|done|cooked)\b", sentence, re.I):
        flow.jobs[-1].ahead_s = max(t.high for t in times)
        return True
    return False


def _fits(job: Job, cue: CueFound) -> bool:
    return max(cue.at_s, cue.before_end_s) < job.span[0]


def _add_cues(flow: Flow, clause: str) -> None:
    flow.jobs[-1].cues += cues_in(clause, find_times(clause))


def _add(flow: Flow, job: Job, sentence: str, meanwhile: bool) -> None:
    _place_and_heat(flow, job, sentence)
    job.notes = [*flow.pending, sentence]
    flow.pending = []
    number = len(flow.jobs)
    if meanwhile and flow.beside is not None:
        running = flow.jobs[flow.beside]
        job.after = list(running.after) if running.after is not None else [flow.beside - 1] if flow.beside else []
        job.said["after"] = "it goes on beside the step before"
    elif flow.beside is not None and (flow.joins or _needs_both(flow.jobs[flow.beside], sentence)):
        job.after = sorted({flow.beside, number - 1})
        job.said["after"] = "taken to need both"
        flow.beside, flow.joins = None, False
    flow.jobs.append(job)


def _needs_both(running: Job, sentence: str) -> bool:
    """True when a sentence speaks of the food that runs beside it, or brings things together."""
    foods = {word for word in re.findall(r"[a-z]{4,}", running.do.lower()) if word not in VERBS}
    return bool(foods & set(re.findall(r"[a-z]{4,}", sentence.lower())) or _TOGETHER.search(sentence))


def _place_and_heat(flow: Flow, job: Job, sentence: str) -> None:
    last = next(
        (j for j in reversed(flow.jobs) if j.place in ("oven", "hob", "grill") and j.kind is not Kind.HANDS), None
    )
    again = re.search(r"\b(?:return|further|another|more|continue|back|keep|remaining)\b", sentence, re.IGNORECASE)
    plain = re.match(r"(?:\w+ly )?(?:cook|continue|return|reheat|put|leave)\b", job.do, re.IGNORECASE)
    in_oven = "oven" in sentence.lower() or (last is not None and last.place == "oven" and again is not None)
    movable = job.place in ("hob", "counter") and plain and (job.kind is Kind.HEAT or (again and job.timed))
    if in_oven and movable:
        job.place, job.kind = "oven", Kind.HEAT
    if job.place == "oven" and job.kind in (Kind.HANDS, Kind.PAN) and job.timed:
        job.kind = Kind.HEAT
    if job.kind is Kind.HANDS and job.place in ("fridge", "freezer") and job.timed:
        job.kind = Kind.WAIT
    if _ON_LOW.search(job.do) and any("slow cooker" in note.lower() for j in flow.jobs for note in j.notes):
        job.place = "slow cooker"
    if flow.oil and job.kind is Kind.PAN and "fry" in job.do.lower():
        job.hazard, job.place = "hot oil", "hob"
    if job.hazard:
        flow.oil = job.heat = job.heat or flow.oil
    if job.place != "oven" or job.kind is Kind.HANDS:
        if job.heat and not job.hazard:
            flow.oven, job.heat = job.heat, ""
            flow.oven_said = job.said.pop("heat", "")
        return
    _oven_heat(flow, job)


def _oven_heat(flow: Flow, job: Job) -> None:
    if not job.heat and flow.oven and job.kind is not Kind.WAIT:
        job.heat = flow.oven
        if flow.oven_said:
            job.said["heat"] = flow.oven_said
    elif job.heat:
        flow.oven, flow.oven_said = job.heat, job.said.get("heat", "")
