"""One written step into one step of the menu: its length, hands, batches, cues and places."""

from .faults import Path, Unreadable
from .menu import Batches, Cue, Place, Step, Use, Work
from .menu_gathering import Gathering
from .menu_misreadings import nearest
from .menu_names import Named, fold_name, unique
from .menu_readings import MOST_STEP_S
from .menu_schema import WrittenCue, WrittenEnds, WrittenStep
from .quantities import celsius_words, duration_words, span_words
from .values import Span

_LEAST_BETWEEN_CUES_S = 30
_MOST_CUES = 500


def build_step(named: Named, places: dict[str, Place], most_hands: int, gathering: Gathering) -> Step:
    """The step, without its links. Faults go to `gathering`; what is wrong is then left out."""
    written, path = named.written, named.path
    whole = gathering.untouched(path)
    span = _span(written, path, gathering) if whole else _any_span(written)
    uses = _uses(written, path, places, gathering)
    if whole:
        _judge(named, uses, span, most_hands, gathering)
    return Step(
        id=named.id,
        dish=named.dish,
        do=written.do,
        uses=uses,
        heat_c=written.heat,
        heat_within_c=5.0 if written.heat_within is None else written.heat_within,
        elastic=written.lasts is not None,
        span=span,
        work=_work(written, path, span, gathering) if whole else Work(),
        ahead_s=written.ahead,
        until=written.until,
        pull_at_c=written.pull_at,
        makes=tuple(dict.fromkeys(map(gathering.item, written.makes))),
        needs=tuple(dict.fromkeys(map(gathering.item, written.needs))),
        keep=written.keep,
        note=written.note,
        person=written.person,
        hazard=written.hazard,
        batches=_batches(written),
        shut_s=written.shut or 0,
        cues=_cues(written, path, span, gathering),
    )


def _batches(written: WrittenStep) -> Batches | None:
    loop = written.batches
    return None if loop is None else Batches(count=loop.count, each=loop.each, recover=loop.recover or Span.of(0))


def batch_span(loop: Batches) -> Span:
    """Seconds of the whole loop: every batch, and recovery between them but not after the last."""
    gaps = loop.count - 1
    return Span(
        low=loop.count * loop.each.low + gaps * loop.recover.low,
        likely=loop.count * loop.each.likely + gaps * loop.recover.likely,
        high=loop.count * loop.each.high + gaps * loop.recover.high,
    )


def _any_span(written: WrittenStep) -> Span:
    loop = _batches(written)
    alone = written.work if isinstance(written.work, Span) else None
    return written.takes or written.lasts or (loop and batch_span(loop)) or alone or Span.of(60)


def _span(written: WrittenStep, path: Path, gathering: Gathering) -> Span:
    """How long the step is; one of `takes`, `lasts`, `batches` or `work` alone must say it."""
    said = [key for key in ("takes", "lasts", "batches") if getattr(written, key) is not None]
    if len(said) > 1:
        gathering.fault((*path, said[1]), f"{said[0]} and {said[1]} both say how long it is", "keep one of them")
    if not said and not isinstance(written.work, Span):
        if written.work is None:
            gathering.fault(path, f"'{written.do}' does not say how long it is", _LENGTHS)
        else:
            gathering.fault((*path, "work"), "work needs the step's time beside it", "write takes: 10 min as well")
    span = _any_span(written)
    if span.high > MOST_STEP_S:
        gathering.fault((*path, "batches"), f"{duration_words(span.high)} is too long for a step", "at most 7 days")
    if span.high == 0:
        gathering.fault((*path, *(said[:1] or ["work"])), f"'{written.do}' takes no time", "write at least 1 s")
    return span


_LENGTHS = "write work: 5 min for hands, takes: 25 min for the food, lasts: 10-20 min for a wait, or batches:"


def _work(written: WrittenStep, path: Path, span: Span, gathering: Gathering) -> Work:
    timed = written.takes or written.lasts or written.batches
    match written.work:
        case "all":
            return Work(throughout=True)
        case Span() as hands if timed:
            if not hands.certain:
                gathering.fault((*path, "work"), "hands at the start take one time, not a range", "write work: 2 min")
            return _ends(hands.high, 0, path, span, gathering)
        case Span():
            return Work(throughout=True)
        case WrittenEnds(start=start, end=end):
            if start is None and end is None:
                gathering.fault((*path, "work"), "work says neither start nor end", "write {start: 2 min, end: 3 min}")
            return _ends(start or 0, end or 0, path, span, gathering)
    return Work()


def _ends(start: int, end: int, path: Path, span: Span, gathering: Gathering) -> Work:
    if start + end > span.low:
        hands, room = duration_words(start + end), duration_words(span.low)
        gathering.fault(
            (*path, "work"), f"{hands} of work does not fit into a step that may be {room} long", "write work: all"
        )
    return Work(start_s=start, end_s=end)


def _uses(written: WrittenStep, path: Path, places: dict[str, Place], gathering: Gathering) -> tuple[Use, ...]:
    uses: dict[str, int] = {}
    for called, parts in ({} if gathering.full else written.on or {}).items():
        place = places.get(fold_name(called))
        at = (*path, "on", called)
        if place is None and gathering.lost(("kitchen", "places", called)):
            continue
        if place is None:
            gathering.fault(at, *_unknown_place(called, places))
        elif place.room is not None and parts > place.room:
            wrong = f"this takes {parts} of {place.name}, which has room for {place.room}"
            gathering.fault(at, wrong, f"write {place.room} or less, or give {place.name} more room")
        else:
            uses[place.name] = max(parts, uses.get(place.name, 0))
    return tuple(Use(place=place, parts=parts) for place, parts in uses.items())


def _unknown_place(called: str, places: dict[str, Place]) -> tuple[str, str]:
    names = [place.name for place in places.values()]
    close = nearest(called, names)
    if close:
        return f"there is no place '{called}' in the kitchen", f"did you mean '{close}'?"
    known = f"the kitchen has {', '.join(names[:8])}" if names else f"write kitchen: {{places: {{{called}: {{}}}}}}"
    return f"there is no place '{called}' in the kitchen", known


def _judge(named: Named, uses: tuple[Use, ...], span: Span, most_hands: int, gathering: Gathering) -> None:
    """Keys that do not go together."""
    written, path = named.written, named.path
    if written.person is not None and written.person > most_hands and not gathering.lost(("kitchen", "hands")):
        cooks = "1 cook" if most_hands == 1 else f"{most_hands} cooks"
        gathering.fault((*path, "person"), f"person {written.person} is not there", f"the kitchen has {cooks}")
    if written.heat_within is not None and written.heat is None:
        gathering.fault((*path, "heat_within"), "heat_within has no heat to be near", "write heat: 180 C as well")
    if written.wait is not None and written.within is not None and written.within < written.wait:
        gathering.fault((*path, "within"), *less_than_wait(written.within, written.wait))
    if written.shut is not None and not written.on:
        gathering.fault((*path, "shut"), "shut has no place to keep shut", "write on: oven as well")
    elif written.shut is not None and written.shut > span.high:
        wrong = f"shut is {duration_words(written.shut)}, but the step is over after {duration_words(span.high)}"
        gathering.fault((*path, "shut"), wrong, f"write {duration_words(span.low)} or less")
    if written.heat is not None:
        for use in uses:
            _judge_heat(written.heat, (*path, "heat"), gathering.menu_places[use.place], gathering)


def less_than_wait(within: int, wait: int) -> tuple[str, str]:
    """Words for a longest gap that is shorter than the least."""
    return f"within {duration_words(within)} is less than wait {duration_words(wait)}", "make within the longer of them"


def _judge_heat(heat: float, path: Path, place: Place, gathering: Gathering) -> None:
    if place.heat is None or place.heat.low_c <= heat <= place.heat.high_c:
        return
    low, high = celsius_words(place.heat.low_c, gathering.units), celsius_words(place.heat.high_c, gathering.units)
    gathering.fault(
        path, f"{celsius_words(heat, gathering.units)} is not possible in {place.name}", f"it goes from {low} to {high}"
    )


def _cues(written: WrittenStep, path: Path, span: Span, gathering: Gathering) -> tuple[Cue, ...]:
    taken: set[str] = set()
    cues = []
    for n, cue in enumerate(written.cues):
        at = (*path, "cues", n)
        try:
            cues.append(_cue(cue, span, taken))
        except Unreadable as trouble:
            gathering.fault(at, f"'{cue.do}': {trouble.wrong}", trouble.right)
    return tuple(cues)


def _cue(cue: WrittenCue, span: Span, taken: set[str]) -> Cue:
    if (cue.every is None) == (cue.at is None):
        said = "says neither every nor at" if cue.every is None else "says both every and at"
        raise Unreadable(said, "write every: 30 min, or at: halfway")
    if cue.every is not None:
        _judge_every(cue.every, cue.times, span)
    elif cue.times is not None:
        raise Unreadable("times goes with every", "leave times out, or write every: 30 min")
    if isinstance(cue.at, int) and cue.at >= span.high:
        raise Unreadable(
            f"at {duration_words(cue.at)} comes after a step of {span_words(span.low, span.high)}",
            "write an earlier time, or at: halfway",
        )
    return Cue(
        do=unique(cue.do, taken),
        every_s=cue.every,
        at_s=cue.at if isinstance(cue.at, int) else None,
        at_fraction=0.5 if cue.at == "halfway" else None,
        times=cue.times,
        work_s=cue.work or 0,
    )


def _judge_every(every: int, times: int | None, span: Span) -> None:
    if every < _LEAST_BETWEEN_CUES_S:
        raise Unreadable(f"every {duration_words(every)} is too often to call", "write every: 30 s or more")
    if min(times or _MOST_CUES + 1, span.high // every) > _MOST_CUES:
        raise Unreadable(f"it would call more than {_MOST_CUES} times", "write a longer every, or times: 20")
