"""A plan as one JSON object, for scripts. Times are ISO 8601 with the offset of the kitchen's own zone."""

from datetime import datetime
from typing import TypeAlias
from zoneinfo import ZoneInfo

from .plan import NoPlan, Plan, Standing
from .values import Seconds

Json: TypeAlias = dict[str, object]


def iso_time(at: Seconds, zone: str) -> str:
    """A point of the axis as ISO 8601 with offset: `2026-12-21T18:30:00+01:00`."""
    return datetime.fromtimestamp(at, ZoneInfo(zone)).isoformat()


def answer_json(answer: Plan | NoPlan, eat_at: Seconds, zone: str) -> Json:
    """The answer to a question about a meal at `eat_at`. Without a plan, times and lengths are null and lists empty."""
    if isinstance(answer, NoPlan):
        return _no_plan_json(answer, eat_at, zone)
    return {
        "status": answer.status.value,
        "eat_at": iso_time(answer.eat_at, zone),
        "starts_at": iso_time(answer.starts_at, zone),
        "span_s": answer.span_s,
        "bound_s": answer.bound_s,
        "standing": _standing_json(answer.standing),
        "steps": _steps_json(answer, zone),
        "cues": [
            {"step": cue.step, "do": cue.cue, "at": iso_time(cue.at, zone)}
            for cue in sorted(answer.cues, key=lambda c: c.at)
        ],
        "settings": [
            {"place": s.place, "heat_c": s.heat_c, "at": iso_time(s.at, zone), "ready": iso_time(s.ready, zone)}
            for s in sorted(answer.settings, key=lambda s: s.at)
        ],
        "reasons": list(answer.warnings),
    }


def _standing_json(standing: Standing | None) -> Json | None:
    """The first aim that is not proven: what the plan costs by it, what none can be under, and the gap between."""
    if standing is None:
        return None
    known = {"aim": standing.aim, "cost": standing.cost, "bound": standing.bound, "gap": standing.gap}
    return {**known, "unit": standing.unit, "proven": list(standing.proven)}


def _steps_json(plan: Plan, zone: str) -> list[Json]:
    return [
        {
            "id": placed.id,
            "start": iso_time(placed.start, zone),
            "end": iso_time(placed.end, zone),
            "place": " + ".join(placed.places) or None,
            "person": placed.person,
            "slack_s": placed.slack_s,
        }
        for placed in sorted(plan.placed, key=lambda p: (p.start, p.end, p.id))
    ]


def _no_plan_json(answer: NoPlan, eat_at: Seconds, zone: str) -> Json:
    return {
        "status": answer.status.value,
        "eat_at": iso_time(eat_at, zone),
        "starts_at": None,
        "span_s": None,
        "bound_s": None,
        "standing": None,
        "steps": [],
        "cues": [],
        "settings": [],
        "reasons": list(answer.reasons),
        "ways_out": [way.said for way in answer.ways_out],
    }
