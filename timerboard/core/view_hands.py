"""The hands line: what calls, most pressing first, then what hands are wanted for next; five at most."""

from collections.abc import Sequence
from dataclasses import dataclass

from .alarm_values import Rank
from .scene import Scene
from .view_calls import call_of, jobs_to_come
from .view_jobs import Job
from .view_values import HandsItem
from .words import MINUTE, ago_words, dots

MOST = 5
SAME_DOOR = 2 * MINUTE


@dataclass(frozen=True, slots=True)
class _Row:
    job: Job
    calls: bool
    same_door: bool = False


def hands(scene: Scene) -> tuple[tuple[HandsItem, ...], str]:
    """The items with their digits, and how many calls wait behind them ('and 4 more')."""
    calling = [alarm for alarm in scene.alarms if alarm.rank is not Rank.NOTE]
    room = max(0, MOST - len(calling)) if scene.cook.closed is None else 0
    calls = [_Row(call_of(scene, alarm), True) for alarm in calling[:MOST]]
    rows = calls + ([_Row(job, False) for job in jobs_to_come(scene)] if room else [])
    shown = _fitting(one_opening(rows), room)
    more = len(calling) - len(calls)
    waiting = dots(f"and {more} more" if more else "", scene.extras.flood)
    return tuple(_item(scene, row, digit) for digit, row in enumerate(shown, 1)), waiting


def _fitting(rows: Sequence[_Row], room: int) -> list[_Row]:
    """Every call, and of the jobs to come the first that still have room: a job never hides a call."""
    jobs = [row for row in rows if not row.calls][:room]
    return [row for row in rows if row.calls or row in jobs]


def one_opening(rows: Sequence[_Row]) -> list[_Row]:
    """Puts what opens the same door within two minutes one after the other; nothing passes a danger."""
    left, out = list(rows), []
    while left:
        row = left.pop(0)
        out.append(row)
        fence = next((at for at, other in enumerate(left) if other.job.rank is Rank.DANGER), len(left))
        near = [o for o in left[:fence] if o.job.doors & row.job.doors and abs(o.job.at - row.job.at) <= SAME_DOOR]
        for other in near:
            left.remove(other)
        out += [_Row(other.job, other.calls, same_door=True) for other in near]
    return out


def _item(scene: Scene, row: _Row, digit: int) -> HandsItem:
    job = row.job
    when = job.muted or ago_words(job.at, scene.now)
    detail = dots(job.detail, when, "same door" if row.same_door else "")
    return HandsItem(
        key=job.key,
        digit=digit,
        rank=job.rank,
        line=job.line,
        detail=detail,
        answer=job.answer,
        answer_word=job.word,
        not_yet=job.not_yet,
        put_off=job.put_off,
        pass_over=job.pass_over,
        heard=job.heard,
        wants_reading=job.wants_reading,
        muted=bool(job.muted),
        strip=job.strip,
        said=_said(job, detail, digit),
    )


def _said(job: Job, detail: str, digit: int) -> str:
    rank = {Rank.DANGER: "Danger. ", Rank.DUE: "Now. ", Rank.SOON: "Soon. "}.get(job.rank, "Next. ")
    return f"{rank}{job.line}, {detail.replace(' · ', ', ')}. Key {digit}: {job.word}."
