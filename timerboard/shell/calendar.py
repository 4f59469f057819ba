"""A plan as an iCalendar file (RFC 5545): each job for hands an event with an alarm, so that phones ring too.

Times are written in UTC, which is right across any change of clocks in any reader (3.3.5, form 2). A UID is made from
the menu's title and what the job is called in the menu, never from its time, so that an export of the moved meal
updates the first one (3.8.4.7); SEQUENCE grows with the time of export (3.8.7.4). A reader may drop or delay alarms
when it imports them: the board itself is what rings.
"""

from datetime import UTC, datetime, timedelta
from uuid import NAMESPACE_URL, uuid5

from icalendar import Alarm, Calendar, Event

from timerboard.core.menu import Menu
from timerboard.core.plan import Plan
from timerboard.core.run_sheet import SheetLine, run_sheet
from timerboard.core.values import MS, Moment, Seconds

PRODID = "-//timerboard//kitchen board//EN"
AHEAD = timedelta(minutes=5)  # a heads-up before hands are needed
FAR_AHEAD_S = 6 * 3600  # a job this long before the meal is one to be reminded of earlier
FAR_AHEAD = timedelta(minutes=30)
MOST_SEQUENCE = 2**31 - 1  # 3.3.8: an INTEGER is at most 2147483647
SEQUENCE_FROM = 1_735_689_600  # 2025-01-01, so that seconds since then fit until 2093
SHORTEST_S = 60


def calendar_bytes(menu: Menu, plan: Plan, now: Moment, zone: str = "") -> bytes:
    """The plan as a VCALENDAR with one VEVENT a job and one for each course; CRLF, folded at 75 octets.

    `now` is the time of export in milliseconds; with a zone, ends are told as clock times in the descriptions.
    """
    calendar = Calendar()
    calendar.add("prodid", PRODID)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", _plain(menu.title))
    seen: dict[str, int] = {}
    for line in run_sheet(menu, plan, zone):
        if line.hands:
            calendar.add_component(_event(menu, plan, line, now, seen))
    return bytes(calendar.to_ical())


def _event(menu: Menu, plan: Plan, line: SheetLine, now: Moment, seen: dict[str, int]) -> Event:
    event = Event()
    event.add("uid", _uid(menu, line, seen))
    event.add("dtstamp", _utc(now // MS))
    event.add("sequence", min(MOST_SEQUENCE, max(0, now // MS - SEQUENCE_FROM)))
    event.add("dtstart", _utc(line.at))
    event.add("dtend", _utc(max(line.ends, line.at + SHORTEST_S)))
    event.add("summary", _plain(f"{line.what} ({line.food})" if line.food else line.what))
    if line.where and line.where != "table":
        event.add("location", _plain(line.where))
    if words := _description(line):
        event.add("description", words)
    event.add("categories", [_plain(menu.title)])
    event.add("transp", "OPAQUE" if line.hands else "TRANSPARENT")
    far = plan.eat_at - line.at > FAR_AHEAD_S
    event.add_component(_alarm(line, FAR_AHEAD if far else AHEAD))
    return event


def _uid(menu: Menu, line: SheetLine, seen: dict[str, int]) -> str:
    """A name for the job: the same in every export, whatever its time and whatever it is worded like."""
    name = f"{menu.title}/{line.name or line.what}".casefold()
    seen[name] = seen.get(name, 0) + 1
    return f"{uuid5(NAMESPACE_URL, f'timerboard:{name}/{seen[name]}')}@timerboard"


def _description(line: SheetLine) -> str:
    told = (
        line.length and f"{line.length[:1].upper()}{line.length[1:]}.",
        line.meanwhile and f"Meanwhile: {line.meanwhile}.",
        line.until and f"Until: {line.until}.",
        line.then and f"Then: {line.then}.",
        line.who,
    )
    return _plain("\n".join(word for word in told if word), lines=True)


def _plain(words: str, *, lines: bool = False) -> str:
    """Words without control characters, which TEXT may not hold (3.3.11: all but HTAB)."""
    kept = "\n" if lines else ""
    return "".join(c if (c >= " " and c != "\x7f") or c in kept else " " for c in words)


def _alarm(line: SheetLine, ahead: timedelta) -> Alarm:
    """A DISPLAY alarm must have a DESCRIPTION (3.6.6)."""
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("trigger", -ahead)
    alarm.add("description", _plain(f"{line.what} ({line.food})" if line.food else line.what))
    return alarm


def _utc(at: Seconds) -> datetime:
    return datetime.fromtimestamp(at, UTC)
