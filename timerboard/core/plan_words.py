"""A plan and its run sheet as plain lines, for the terminal."""

from .civil import clock_words, day_clock_words
from .menu import Menu
from .plan import NoPlan, Plan, Status
from .plan_quality import quality_words
from .quantity_words import duration_words
from .run_sheet import SheetLine, run_sheet
from .values import MS, Seconds


def plan_lines(menu: Menu, plan: Plan, zone: str, note: str = "") -> tuple[str, ...]:
    """The whole plan: when it starts, what to know of it, the run sheet by time, and what is worth a look."""
    head = (
        f"{menu.title}, for {menu.serves}",
        f"Eat at {_when(plan.eat_at, zone, plan.eat_at)}. First job {_when(plan.starts_at, zone, plan.eat_at)}; "
        f"{duration_words(plan.span_s)} from first to last. The plan is {quality_words(plan)}.",
        *((note,) if note else ()),
        "",
    )
    warnings = tuple(f"Look at this: {warning}" for warning in plan.warnings)
    return head + sheet_lines(menu, plan, zone) + (("", *warnings) if warnings else ())


def sheet_lines(menu: Menu, plan: Plan, zone: str) -> tuple[str, ...]:
    """The run sheet in columns: when, what, where, who, until, then."""
    lines = run_sheet(menu, plan, zone)
    day = ""
    out: list[str] = []
    for line in lines:
        when = _when(line.at, zone, plan.eat_at)
        if when.rpartition(" ")[0] != day:
            day = when.rpartition(" ")[0]
            out.append(f"-- {day or 'the day of the meal'}")
        out.append(_columns(clock_words(line.at * MS, zone), line))
    return tuple(out)


def _columns(clock: str, line: SheetLine) -> str:
    what = f"{line.what} ({line.food})" if line.food else line.what
    mark = " " if line.hands else "·"
    rest = "; ".join(
        part
        for part in (
            line.where and f"on {line.where}" if line.where not in ("", "table") else "",
            line.length,
            line.meanwhile,
            line.who,
            line.until and f"until {line.until}",
            line.then and f"then {line.then}" if line.length else line.then,
        )
        if part
    )
    return f"{clock} {mark} {what}" + (f"  [{rest}]" if rest else "")


def no_plan_lines(menu: Menu, answer: NoPlan) -> tuple[str, ...]:
    """Why there is no plan, and what was found to make one possible; or that none was found, which is another thing."""
    unknown = answer.status is Status.UNKNOWN
    out = [f"{menu.title}: {'no plan yet' if unknown else 'this cannot be cooked as it stands'}."]
    out += [f"  - {reason}" for reason in answer.reasons]
    if answer.ways_out:
        out.append("What would do:")
        out += [f"  - {way.said}" for way in answer.ways_out]
    return tuple(out)


def _when(at: Seconds, zone: str, meal: Seconds) -> str:
    return day_clock_words(at * MS, zone, meal * MS)
