"""The editor's live plan: asked for a moment after the last key, never while the menu cannot be read."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property

from timerboard.core.choices import height_note, menu_at
from timerboard.core.civil import CivilDoubt, resolve_eat_at
from timerboard.core.menu import Menu
from timerboard.core.plan import Forecast, NoPlan, Plan, Problem
from timerboard.core.question import question
from timerboard.core.values import Seconds

from .choosing import remembered_height
from .ports import Clock, Memory, Planner, Wake

AFTER_LAST_KEY_MS = 350
DEFAULT_EAT_AT = "19:00"

PLANNING = "planning"
CALLED_OFF = "planning was called off"


@dataclass(frozen=True)
class Planned:
    """What is known of the plan: the menu it is for, the plan or why there is none, and what goes on ('' nothing).

    `height`: above the sea, as it was chosen on a board; the plan is for the menu as it is cooked there.
    """

    menu: Menu | None = None
    plan: Plan | NoPlan | None = None
    doing: str = ""
    zone: str = "UTC"
    height: str = "0"

    @cached_property
    def cooked(self) -> Menu | None:
        """The menu as it is cooked in this kitchen: what is drawn and printed of the plan."""
        return None if self.menu is None else menu_at(self.menu, self.height)

    @property
    def note(self) -> str:
        """What height does to it, in words; '' at sea level."""
        return "" if self.menu is None else height_note(self.height, self.menu.units)


class LivePlan:
    """Keeps a plan for the menu as it stands."""

    def __init__(self, planner: Planner, wake: Wake, clock: Clock, memory: Memory | None = None) -> None:
        self._planner, self._wake, self._clock = planner, wake, clock
        self._told: Callable[[], None] = _nobody
        self.now = Planned(zone=clock.zone(), height=remembered_height(memory))
        self._wanted: Menu | None = None
        self._answered: Problem | None = None

    def listen(self, told: Callable[[], None]) -> None:
        """Call on every change of `now`."""
        self._told = told

    def want(self, menu: Menu | None) -> None:
        """The menu is this now (None: it cannot be read). The old plan stays in view until there is another."""
        if menu is None:
            self._wanted = None
            self._wake.at(None, self._ask)
            self._tell(doing="the plan waits")
        elif menu != self._wanted:
            self._wanted = menu
            self._wake.at(AFTER_LAST_KEY_MS, self._ask)
            self._tell(doing=PLANNING)

    def call_off(self) -> None:
        """Plan no further: the plan so far stays in view, and the next change is planned as ever."""
        if self.now.doing != PLANNING:
            return
        self._wake.at(None, self._ask)
        self._planner.cancel()
        self._answered = None
        self._tell(doing=CALLED_OFF)

    def again(self) -> None:
        """Go on after `call_off`."""
        if self.now.doing == CALLED_OFF:
            self._tell(doing=PLANNING)
            self._ask()

    def stop(self) -> None:
        """Ask nothing any more."""
        self._wake.stop()
        self._planner.cancel()

    def _ask(self) -> None:
        menu = self._wanted
        if menu is None:
            return
        problem = question(menu_at(menu, self.now.height), self._eat_at(menu), self.now.zone)
        if problem == self._answered and isinstance(self.now.plan, Plan):
            self._tell(menu=menu)  # words changed, not times: the plan holds
            return
        hint = self.now.plan if isinstance(self.now.plan, Plan) else None
        self._answered = None  # a plan on the way to this answer takes the place of the one before
        self._planner.ask(
            problem,
            hint,
            on_progress=lambda plan: self._take(menu, plan, PLANNING),
            on_answer=lambda answer: self._settle(menu, problem, answer),
            on_forecast=_unused,
            on_trouble=lambda said: self._tell(doing=said),
        )

    def _eat_at(self, menu: Menu) -> Seconds:
        try:
            found = resolve_eat_at(menu.eat_at or DEFAULT_EAT_AT, self.now.zone, self._clock.wall_ms())
        except ValueError:
            found = resolve_eat_at(DEFAULT_EAT_AT, self.now.zone, self._clock.wall_ms())
        return found.choices[0][1] if isinstance(found, CivilDoubt) else found

    def _settle(self, menu: Menu, problem: Problem, answer: Plan | NoPlan) -> None:
        if menu == self._wanted:
            self._answered = problem
        self._take(menu, answer, "")

    def _take(self, menu: Menu, answer: Plan | NoPlan, doing: str) -> None:
        if menu == self._wanted:
            self._tell(menu=menu, plan=answer, doing=doing)

    def _tell(self, menu: Menu | None = None, plan: Plan | NoPlan | None = None, doing: str = "") -> None:
        old = self.now
        self.now = replace(old, menu=menu or old.menu, plan=plan or old.plan, doing=doing)
        self._told()


def _nobody() -> None:
    """Nobody listens yet."""


def _unused(forecast: Forecast) -> None:
    """A draft is not foretold."""
