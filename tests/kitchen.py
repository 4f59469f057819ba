"""A small kitchen for tests: menus by hand, a plain plan, and a cook whose clock is cranked."""

from collections.abc import Iterable

from tests.fakes import OPENING
from timerboard.core.alarm_values import Alarm
from timerboard.core.alarms import alarms, next_change
from timerboard.core.commands import AdoptPlan, Command, Look
from timerboard.core.cook import Cook, StepState
from timerboard.core.decide import At, Refusal, decide
from timerboard.core.engine import phase
from timerboard.core.events import CookOpened, Event
from timerboard.core.fold import apply, fold
from timerboard.core.menu import Batches, Cue, Dish, Heat, Link, Menu, Place, Step, Use, Work
from timerboard.core.plan import HeatSetting, Placed, Plan, Status
from timerboard.core.values import MS, Moment, Span

MIN = 60 * MS


def minutes(low: float, high: float | None = None, likely: float | None = None) -> Span:
    """A span in minutes; a range alone is likely two thirds of the way up, as in a menu file."""
    least, most = round(low * 60), round((low if high is None else high) * 60)
    return Span(low=least, likely=round(likely * 60) if likely else least + (most - least) * 2 // 3, high=most)


def step(dish: str, do: str, span: Span, *, after: Iterable[str | Link] = (), **more: object) -> Step:
    """A step named as a menu names it; `after` takes names of the same dish, whole ids, or links."""
    links = tuple(a if isinstance(a, Link) else Link(step=a if "/" in a else f"{dish}/{a}") for a in after)
    return Step(id=f"{dish}/{do}", dish=dish, do=do, span=span, links=links, **more)


PLACES = (
    Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1200)),
    Place(name="hob", room=2),
    Place(name="counter"),
)


def pork() -> Dish:
    """Salted by hand, roasted to a pull temperature with a baste every half hour, rested by itself."""
    return Dish(
        name="Pork",
        hold_s=2700,
        steps=(
            step("Pork", "Salt", minutes(10), work=Work(throughout=True)),
            step(
                "Pork",
                "Roast",
                minutes(60, 90),
                after=["Salt"],
                uses=(Use(place="oven"),),
                heat_c=160.0,
                work=Work(start_s=120, end_s=180),
                until="Skin blistered",
                makes=("drippings",),
                cues=(Cue(do="Baste", every_s=1800, work_s=60),),
            ),
            step("Pork", "Rest", minutes(20, 30), after=["Roast"], uses=(Use(place="counter"),), elastic=True),
        ),
    )


def gravy() -> Dish:
    """Needs the drippings; simmers by itself on the hob once the roux is cooked."""
    return Dish(
        name="Gravy",
        steps=(
            step(
                "Gravy",
                "Cook the roux",
                minutes(1, 3),
                after=["Pork/Roast"],
                needs=("drippings",),
                uses=(Use(place="hob"),),
                work=Work(throughout=True),
            ),
            step("Gravy", "Simmer", minutes(10), after=["Cook the roux"], uses=(Use(place="hob"),)),
        ),
    )


def fritters() -> Dish:
    """Four loads in hot oil."""
    span = Span(low=4 * 240 + 3 * 60, likely=4 * 280 + 3 * 100, high=4 * 300 + 3 * 120)
    return Dish(
        name="Fritters",
        hold_s=900,
        steps=(
            step(
                "Fritters",
                "Fry",
                span,
                uses=(Use(place="hob"),),
                heat_c=175.0,
                hazard="hot oil",
                work=Work(throughout=True),
                batches=Batches(
                    count=4, each=Span(low=240, likely=280, high=300), recover=Span(low=60, likely=100, high=120)
                ),
            ),
        ),
    )


def small_menu(*dishes: Dish, places: tuple[Place, ...] = PLACES, **more: object) -> Menu:
    """A menu of these dishes; pork, gravy and fritters when none are given."""
    return Menu(title="Supper", serves=4, places=places, dishes=dishes or (pork(), gravy(), fritters()), **more)


def plain_plan(menu: Menu, eat_at: Moment) -> Plan:
    """Every step as late as the steps after it allow, at its likely length; places and hands are not looked at."""
    starts: dict[str, int] = {}
    for one in reversed(list(menu.steps.values())):
        after = [starts[s.id] - link.wait_s for s in menu.steps.values() for link in s.links if link.step == one.id]
        starts[one.id] = min(after, default=eat_at // MS) - one.span.likely
    placed = tuple(
        Placed(id=s.id, start=starts[s.id], end=starts[s.id] + s.span.likely, places=tuple(u.place for u in s.uses))
        for s in menu.steps.values()
    )
    heated = {p.name: p.heat for p in menu.places if p.heat}
    settings = tuple(
        HeatSetting(
            id=f"{u.place} at {s.heat_c:.0f} C for {s.id}",
            place=u.place,
            heat_c=s.heat_c,
            at=starts[s.id] - heated[u.place].preheat_s,
            ready=starts[s.id],
            for_step=s.id,
        )
        for s in menu.steps.values()
        for u in s.uses
        if s.heat_c is not None and u.place in heated
    )
    return Plan(status=Status.FEASIBLE, eat_at=eat_at // MS, placed=placed, settings=settings)


def at(now: Moment, seq: int, who: str | None = None) -> At:
    """A stamp of the test kitchen."""
    return At(at=now, wall_ms=now, boot="boot 1", board="test", who=who, seq=seq)


def opened(menu: Menu, now: Moment = OPENING, eat_in: float = 240) -> CookOpened:
    """A cook's opening, `eat_in` minutes before the meal."""
    fields = at(now, 1).fields()
    return CookOpened(**fields, menu_text="", menu_hash="", menu=menu, eat_at=now + round(eat_in * MIN), zone="UTC")


class Kitchen:
    """A cook and its clock. Every event is applied and checked against a refold of all of them."""

    def __init__(self, menu: Menu | None = None, *, eat_in: float = 240, plan: bool = True, check: bool = True) -> None:
        self.now: Moment = OPENING
        self.check = check
        self.events: list[Event] = [opened(menu or small_menu(), self.now, eat_in)]
        self.cook: Cook = fold(self.events)
        if plan:
            self.send(AdoptPlan(plain_plan(self.cook.menu, self.cook.eat_at)))

    def send(self, command: Command, who: str | None = None) -> tuple[Event, ...] | Refusal:
        """Give a command now; its events have had their effect when this returns."""
        answer = decide(self.cook, command, at(self.now, len(self.events) + 1, who))
        if not isinstance(answer, Refusal):
            self.take(*answer)
        return answer

    def must(self, *commands: Command) -> None:
        """Give commands that are not refused."""
        for command in commands:
            answer = self.send(command)
            assert not isinstance(answer, Refusal), answer.said

    def refused(self, command: Command) -> Refusal:
        """Give a command that is refused; nothing changes."""
        before = self.cook
        answer = self.send(command)
        assert isinstance(answer, Refusal), answer
        assert self.cook is before
        return answer

    def take(self, *events: Event) -> None:
        """Let events have their effect."""
        for event in events:
            self.events.append(event)
            self.cook = apply(self.cook, event)
            assert not self.check or self.cook == fold(self.events)

    def wait(self, length: float) -> None:
        """Let minutes pass; the board looks whenever something may have changed."""
        end = self.now + round(length * MIN)
        while (change := next_change(self.cook, self.now)) is not None and change <= end:
            self.now = change
            self.send(Look())
        self.now = end

    def alarms(self) -> tuple[Alarm, ...]:
        """What calls now."""
        return alarms(self.cook, self.now)

    def calls(self) -> list[str]:
        """What calls now, in words."""
        return [alarm.sentence for alarm in self.alarms()]

    def phase(self, step_id: str) -> StepState:
        """Where a step is in its life now."""
        return phase(self.cook, step_id, self.now)

    def stamp(self, who: str | None = None) -> dict[str, object]:
        """The fields of a stamp for an event written by hand now."""
        return at(self.now, len(self.events) + 1, who).fields()
