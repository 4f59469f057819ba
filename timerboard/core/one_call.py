"""What opens one door within two minutes is one call: one burst and one sentence, with an answer for each job."""

from collections.abc import Callable, Sequence

from .alarm_values import Alarm, Rank
from .alarms import calls
from .cook import Cook
from .values import MS, Moment

SAME_DOOR_MS = 120 * MS


def doors(cook: Cook, alarm: Alarm) -> frozenset[str]:
    """The heated places that are opened to answer an alarm; none to turn a dial or look at one, which is no step."""
    step = cook.step(alarm.step or "")
    if step is None:
        return frozenset()
    places = (cook.menu.place(use.place) for use in step.uses)
    return frozenset(place.name for place in places if place is not None and place.heat is not None)


def one_calls(alarms: Sequence[Alarm], cook: Cook, since: Callable[[Alarm], Moment]) -> list[tuple[Alarm, ...]]:
    """Alarms of one rank as calls, each led by what calls longest. Danger is never put together with anything."""
    left = sorted(alarms, key=since)
    found: list[tuple[Alarm, ...]] = []
    while left:
        lead = left.pop(0)
        mine = doors(cook, lead) if lead.rank is not Rank.DANGER else frozenset()
        near = [a for a in left if mine & doors(cook, a) and since(a) - since(lead) <= SAME_DOOR_MS]
        left = [a for a in left if a not in near]
        found.append((lead, *near))
    return found


def coming(cook: Cook, lead: Alarm, now: Moment) -> tuple[Alarm, ...]:
    """What will open the same door within two minutes of `lead`, and does not call yet."""
    if lead.rank is Rank.DANGER:
        return ()
    mine = doors(cook, lead)
    until = max(now, lead.since) + SAME_DOOR_MS
    later = (a for a in calls(cook, now) if now < a.since <= until and a.rank is lead.rank)
    return tuple(a for a in later if mine & doors(cook, a))
