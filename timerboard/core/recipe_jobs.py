"""One clause of a method as one job: what to do, where, how hot, how long, until what."""

import re

from .recipe_cues import cue_after, cues_in
from .recipe_heats import Heat, HeatOf, find_heats, oven_heat
from .recipe_job import LENGTHS, Job
from .recipe_lengths import OUT_OF, set_length, set_tempering
from .recipe_sentences import Said, verbs_in
from .recipe_times import Found, Role, find_times
from .recipe_values import Range
from .recipe_verbs import LEADING, VERBS, Kind, place_said

MOST_DO = 70


_UNTIL = re.compile(
    r"(?:,?\s*\b(?:or|and|just)\s+)?\b(?:until|till)\b\s+(?P<sign>[^.;]*?)(?=\s*(?:[.;!]|$|,?\s+then\b|\s[–—]\s|\s*\((?![^)]*°)"
    r"|,\s+(?:turning|basting|stirring|shaking|tossing|covering|checking|brushing|skimming|adding|about|for)\b"
    r"|,?\s*(?:about|approximately|around|roughly|for|another|a further)?\s+[0-9½¼¾][0-9½¼¾\s–-]*(?:min|hour|hr|sec)))",
    re.IGNORECASE,
)
_LEAD_IN = re.compile(
    r"(?:^|\s*,?\s*)\b(?:for|about|around|approximately|approx\.?|roughly|another|a further|further|at least|up to|"
    r"between|in|over|the|more|or|and|just|only|final|last|a|a minimum of|no more than)\s*$",
    re.IGNORECASE,
)
_IN_OVEN = re.compile(
    r"\s*\b(?:in|into)\s+(?:the|a|your)\s+(?:(?:preheated|pre-heated|hot|moderate|moderately|slow|low|very|warm|medium|"
    r"cool|centre|middle|of|the)\s+)*oven\b",
    re.IGNORECASE,
)
_OPENING = re.compile(
    r"^(?:(?:and|then|next|now|first|firstly|finally|lastly|meanwhile|afterwards|secondly|also)\b[,\s]*"
    r"|(?:in the meantime|at the same time|after that|to finish|to start|to serve)\b[,\s]*)+",
    re.IGNORECASE,
)
_BATCHES = re.compile(r"\bin (?:(?P<n>two|three|four|five|six|[2-9]|10|12) )?(?:small )?batches\b", re.IGNORECASE)
_SHUT = re.compile(r"\b(?:do not|don[’']t|never|without|resist)\b.{0,30}\bopen", re.IGNORECASE)
_CONSTANT = re.compile(
    r"\b(?:stirr?ing|whisking|beating|shaking|tossing)\s+(?:\w+\s+)?(?:all the time|constantly|continuously|the whole)"
    r"|\b(?:constantly|continuously|keep stirring)\b",
    re.IGNORECASE,
)
_COUNTS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_TURNED = re.compile(
    r"^\W*(?:then\s+)?(?:reduce|lower|turn (?:up|down)|turn|increase|raise|drop)\s+(?:the |down the |up the )?"
    r"(?:oven|heat)[^,.;]*?(?:,\s*|\s+and\s+)(?=\w)",
    re.IGNORECASE,
)
_OWN_VERB = {"oven": "bake", "fridge": "chill", "freezer": "freeze", "grill": "grill", "hob": "cook"}
"""What is meant where a place and a time are named and no verb: 'Into the oven for 20 minutes'."""
_FALLBACK: Range = (180, 300)


def job_of(clause: str) -> Job | None:
    """The job of a clause; None when nobody is told to do anything. Never raises."""
    core, until = _without_until(_TURNED.sub("", clause))
    said = verbs_in(core)
    times = find_times(clause)
    lengths = [t for t in times if t.role in LENGTHS]
    if not said and (lengths and (place := place_said(core)) in _OWN_VERB):
        said = (Said(_OWN_VERB[place], 0, VERBS[_OWN_VERB[place]]),)
    if not said:
        return None
    main = _main(said, [t for t in find_times(core) if t.role in LENGTHS])
    heats = find_heats(clause)
    job = Job(_do(core, said), main.verb.kind, _place(core, main), _FALLBACK, until=until)
    set_length(job, main, lengths, clause)
    _set_heat(job, heats)
    if _brought(main, core):
        job.kind, job.place, job.span = Kind.HANDS, "counter", _FALLBACK
    job.cues = list(cues_in(clause, times))
    late = cue_after(clause, times, participles=True) if lengths else None
    if late is not None and not any(late.do.split()[0] == cue.do.split()[0] for cue in job.cues):
        job.cues.append(late)
    job.throughout = bool(_CONSTANT.search(clause))
    _set_batches(job, clause)
    set_tempering(job, main, times, clause)
    if _SHUT.search(clause) and lengths:
        job.shut_s = lengths[0].low
    return job


def forbids_opening(clause: str) -> int:
    """Seconds that a sentence wants a door kept shut ('Do not open the oven for 20 minutes'); 0: it says nothing."""
    times = [t for t in find_times(clause) if t.role not in (Role.EVERY, Role.KEEPS)]
    return times[0].low if _SHUT.search(clause) and times else 0


def _without_until(clause: str) -> tuple[str, str]:
    found = _UNTIL.search(clause)
    if found is None:
        return clause, ""
    sign = " ".join(found["sign"].strip(" ,:–—").split())
    return clause[: found.start()] + clause[found.end("sign") :], sign[:160]


def _main(said: tuple[Said, ...], lengths: list[Found]) -> Said:
    """The verb whose time it is: the last before the first length, else the last that goes on by itself, else the
    first."""
    if lengths:
        before = [s for s in said if s.start < lengths[0].start]
        slow = [s for s in before if s.verb.kind is not Kind.HANDS]
        return (slow or before or list(said))[-1]
    slow = [s for s in said if s.verb.kind is not Kind.HANDS]
    return slow[-1] if slow else said[0]


def _brought(main: Said, core: str) -> bool:
    """'Bring together to a dough' heats nothing; 'bring to the boil' does."""
    return main.word == "bring" and not re.search(r"\b(?:boil|simmer|heat|temperature|bubble)\b", core, re.IGNORECASE)


def _place(core: str, main: Said) -> str:
    place = place_said(core)
    timed = any(t.role in LENGTHS for t in find_times(core))
    if place and not OUT_OF.search(core) and (main.verb.kind is not Kind.HANDS or timed):
        return place
    return main.verb.place


def _do(core: str, said: tuple[Said, ...]) -> str:
    """The job in few words: verb, food, place; without its time, its sign and the words before the verb."""
    start = _verb_start(core, said)
    words = core[start:]
    for found in reversed(find_times(words)):
        head = words[: found.start]
        while (lead := _LEAD_IN.search(head)) is not None and lead.start() > 0:
            head = head[: lead.start()]
        words = head if found.start > 12 else head + words[found.end :]
    words = _IN_OVEN.sub("", words) if len(words.split()) > 4 or _IN_OVEN.search(words) else words
    words = re.split(r"\s*[;(]|\.\s|,\s*(?=(?!bring\b)\w+ing\b|so that\b|which\b|as\b|making sure\b|about\b)", words)[0]
    words = words.replace(" ,", ",")
    words = re.sub(
        r"\s+at\s+[0-9].*$|\s+(?:(?:on )?(?:each|both|either) sides?|per|for every|for each) .*$|\s+(?:a|per) side$",
        "",
        words,
    )
    words = _shortened(" ".join(words.replace("/", " or ").split()).strip(" ,.;:!–—-"))
    words = words or " ".join(core.replace("/", " or ").split())[:MOST_DO].strip(" ,.;:!") or "Cook"
    return words[:1].upper() + words[1:]


def _verb_start(core: str, said: tuple[Said, ...]) -> int:
    first = said[0].start
    lead = re.search(rf"\b(?:{'|'.join(LEADING)})\b[^.;]*$", core[:first], re.IGNORECASE)
    if lead is not None:
        return lead.start()
    adverb = re.search(r"\b\w+ly\s+$", core[:first])
    opening = _OPENING.match(core)
    if adverb is not None and adverb.start() >= (opening.end() if opening else 0):
        return adverb.start()
    return first


def _shortened(words: str) -> str:
    if len(words) <= MOST_DO:
        return words
    cut = words[:MOST_DO]
    comma = max(cut.rfind(", "), cut.rfind(" and "))
    cut = cut[:comma] if comma > 25 else cut[: cut.rfind(" ")] if " " in cut else cut
    return re.sub(r"\s+(?:the|a|an|and|with|in|into|of|to|for|on|until|or)$", "", cut.rstrip(" ,"))


def _set_heat(job: Job, heats: tuple[Heat, ...]) -> None:
    food = next((h for h in heats if h.of is HeatOf.FOOD), None)
    oil = next((h for h in heats if h.of is HeatOf.OIL), None)
    oven = oven_heat(heats)
    if food is not None:
        job.pull_at = food.written
    if oil is not None or "deep-fry" in job.do.lower() or "deep fry" in job.do.lower():
        job.hazard, job.place = "hot oil", "hob"
        job.heat = oil.written if oil else ""
    elif oven is not None:
        job.heat = oven.written
        if oven.guess:
            job.said["heat"] = oven.guess


def _set_batches(job: Job, clause: str) -> None:
    found = _BATCHES.search(clause)
    if found is None or job.kind not in (Kind.PAN, Kind.HEAT):
        return
    if found["n"]:
        job.batches = _COUNTS.get(found["n"].lower()) or int(found["n"])
    else:
        job.batches = 3
        job.said["batches"] = "the recipe does not say how many batches"
