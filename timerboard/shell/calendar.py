"""A plan as an iCalendar file (RFC 5545): each job for hands an event with an alarm, so that phones ring too.

Times are written in UTC, which is right across any change of clocks in any reader. A UID is made from the menu's title
and the job's name, so that a second export of the same meal updates the first; SEQUENCE grows with the time of export.
A reader may drop or delay alarms when it imports them: the board itself is what rings.
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


def calendar_bytes(menu: Menu, plan: Plan, now: Moment) -> bytes:
    """The plan as a VCALENDAR with one VEVENT a job and one for each course; CRLF, folded at 75 octets."""
    calendar = Calendar()
    calendar.add("prodid", PRODID)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", menu.title)
    seen: dict[str, int] = {}
    for line in run_sheet(menu, plan):
        if line.hands:
            calendar.add_component(_event(menu, plan, line, now, seen))
    return bytes(calendar.to_ical())


def _event(menu: Menu, plan: Plan, line: SheetLine, now: Moment, seen: dict[str, int]) -> Event:
    event = Event()
    event.add("uid", _uid(menu, line, seen))
    event.add("dtstamp", _utc(now // MS))
    event.add("sequence", max(0, now // MS))
    event.add("dtstart", _utc(line.at))
    event.add("dtend", _utc(max(line.ends, line.at + 60)))
    event.add("summary", f"{line.what} ({line.dish})" if line.dish else line.what)
    if line.where:
        event.add("location", line.where)
    if words := _description(line):
        event.add("description", words)
    event.add("transp", "OPAQUE" if line.hands else "TRANSPARENT")
    far = plan.eat_at - line.at > FAR_AHEAD_S
    event.add_component(_alarm(line, FAR_AHEAD if far else AHEAD))
    return event


def _uid(menu: Menu, line: SheetLine, seen: dict[str, int]) -> str:
    """A name for the job: the same in every export, whatever its time. A repeated cue counts on."""
    name = f"{menu.title}/{line.dish}/{line.what}".casefold()
    seen[name] = seen.get(name, 0) + 1
    return f"{uuid5(NAMESPACE_URL, f'timerboard:{name}/{seen[name]}')}@timerboard"


def _description(line: SheetLine) -> str:
    told = (line.until and f"Until: {line.until}.", line.then and f"Then: {line.then}.", line.who)
    return "\n".join(word for word in told if word)


def _alarm(line: SheetLine, ahead: timedelta) -> Alarm:
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("trigger", -ahead)
    alarm.add("description", line.what)
    return alarm


def _utc(at: Seconds) -> datetime:
    return datetime.fromtimestamp(at, UTC)
