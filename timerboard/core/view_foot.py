"""The bottom line, and the notices above it."""

from collections.abc import Iterator

from . import events as ev
from .alarm_values import Alarm, Kind, Rank
from .commands import HearAlarm
from .fold import NEVER_UNDONE
from .hot_oil import is_hot_oil
from .readiness import running
from .scene import Scene
from .values import Moment
from .view_record import last_act
from .view_values import Foot, Notice
from .words import MINUTE, dots, in_words, length_words, plural

WORTH_TELLING = 5 * MINUTE
"""A shorter absence is told only while something waits from it, or after a restart of the machine."""

KEYS = "1–9 done · Shift+1–9 not yet · R reading · T timer · Z undo"


def foot(scene: Scene) -> Foot:
    """Keys, the last act, whether it is kept, whether it is heard."""
    extras, last = scene.extras, last_act(scene)
    return Foot(
        keys=KEYS,
        last=dots(f"{extras.who} answers" if extras.who else "", f"last: {last}" if last else ""),
        saved=extras.saved,
        saved_ok=extras.saved_ok,
        sound=extras.sound or extras.sound_state,
        sound_ok=not extras.sound,
        hot_oil=any(is_hot_oil(step) for step in running(scene.cook)),
    )


def notices(scene: Scene) -> tuple[Notice, ...]:
    """What others tell, what the alarms note, and what the record says of clocks and absences, the newest last."""
    noted = [told for alarm in scene.alarms if alarm.rank is Rank.NOTE and (told := _noted(scene, alarm))]
    known = {notice.key for notice in scene.extras.notices}
    own = (notice for notice in [*noted, *_without_effect(scene)] if notice.key not in known)
    return (*_ended(scene), *scene.extras.notices, *own)


def _ended(scene: Scene) -> tuple[Notice, ...]:
    """That the meal was ended, as long as it is so, and the way back while undo would take just that back."""
    if scene.cook.closed is None:
        return ()
    back = "; Z goes on with it" if _closed_last(scene) else ""
    said = f"This meal was ended at {scene.clock(scene.cook.closed)}. Its record is kept{back}"
    return (Notice("ended", said, Rank.NOTE),)


def _closed_last(scene: Scene) -> bool:
    """Whether the last act that stands ended the meal: what was put away or read since is taken back before that."""
    acts = (
        noted.event
        for noted in reversed(scene.cook.record)
        if not (noted.undone or noted.effect or noted.event.kind in NEVER_UNDONE)
        and not getattr(noted.event, "by_itself", False)
    )
    return isinstance(next(acts, None), ev.CookClosed)


def _noted(scene: Scene, alarm: Alarm) -> Notice | None:
    """A note that stays until somebody has heard it, in the board's fuller words where it has them.

    None for a short absence of which nothing waits any more: it takes room from the strips and asks for nothing.
    """
    events = {f"{Kind.NOTE}||{name} {e.seq}|0": e for name, e in _clocks_and_absences(scene)}
    event = events.get(alarm.id)
    text = dots(alarm.sentence, alarm.where, alarm.detail)
    if isinstance(event, ev.ClockStepped):
        text = clock_words_of(scene, event.by_ms)
    elif isinstance(event, ev.BoardReturned):
        due = _due_since(scene, event)
        if not due and event.away_ms < WORTH_TELLING and not event.rebooted:
            return None
        text = _away_words(event, due)
    return Notice(alarm.id, text, Rank.NOTE, leave=HearAlarm(alarm.id), leave_word="ok")


def _clocks_and_absences(scene: Scene) -> Iterator[tuple[str, ev.ClockStepped | ev.BoardReturned]]:
    for noted in scene.cook.record:
        if isinstance(noted.event, ev.ClockStepped):
            yield "clock", noted.event
        elif isinstance(noted.event, ev.BoardReturned):
            yield "away", noted.event


def _without_effect(scene: Scene) -> list[Notice]:
    """Acts of the last minute that had no effect, and why."""
    found: list[Notice] = []
    for noted in reversed(scene.cook.record):
        if noted.event.at < scene.now - MINUTE:
            break
        if noted.effect and not noted.undone:
            found.append(Notice(f"effect|{noted.event.seq}", f"That had no effect: {noted.effect}", Rank.NOTE))
    return found[::-1]


def clock_words_of(scene: Scene, by_ms: int) -> str:
    """'The wall clock moved 1 h back: no countdown changed; eat in 48 min'."""
    way = "back" if by_ms < 0 else "forward"
    left = in_words(scene.cook.eat_at - scene.now)
    eat = f"eat {left}" if scene.cook.eat_at > scene.now else f"eating {left}"
    return f"The wall clock moved {length_words(abs(by_ms))} {way}: no countdown changed; {eat}"


def _due_since(scene: Scene, event: ev.BoardReturned) -> list[Alarm]:
    """What fell due while nobody looked, and waits still."""
    gone: Moment = event.at - event.away_ms
    return [alarm for alarm in scene.alarms if alarm.rank >= Rank.DUE and gone <= alarm.since <= event.at]


def _away_words(event: ev.BoardReturned, due: list[Alarm]) -> str:
    """'The board was away 3 min: 1 call came due (baste the pork)'; what was answered since is not called undue."""
    came = _came_due(len(due), [alarm.sentence for alarm in due[:3]]) if due else "no call waits from then"
    boot = "; the machine was restarted, so the time away is the wall clock's" if event.rebooted else ""
    return f"The board was away {length_words(event.away_ms)}: {came}{boot}"


def _came_due(count: int, sentences: list[str]) -> str:
    listed = ", ".join(sentence[:1].lower() + sentence[1:] for sentence in sentences)
    more = f" and {count - len(sentences)} more" if count > len(sentences) else ""
    return f"{plural(count, 'call')} came due ({listed}{more})"
