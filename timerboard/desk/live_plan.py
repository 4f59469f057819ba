"""The editor's live plan: asked for a moment after the last key, never while the menu cannot be read."""

from collections.abc import Callable
from dataclasses import dataclass

from timerboard.core.civil import CivilDoubt, resolve_eat_at
from timerboard.core.menu import Menu
from timerboard.core.plan import Forecast, NoPlan, Plan, Problem
from timerboard.core.question import question
from timerboard.core.values import Seconds

from .ports import Clock, Planner, Wake

AFTER_LAST_KEY_MS = 350
DEFAULT_EAT_AT = "19:00"


@dataclass(frozen=True, slots=True)
class Planned:
    """What is known of the plan: the menu it is for, the plan or why there is none, and what goes on ('' nothing)."""

    menu: Menu | None = None
    plan: Plan | NoPlan | None = None
    doing: str = ""
    zone: str = "UTC"


class LivePlan:
    """Keeps a plan for the menu as it stands."""

    def __init__(self, planner: Planner, wake: Wake, clock: Clock) -> None:
        self._planner, self._wake, self._clock = planner, wake, clock
        self._told: Callable[[], None] = _nobody
        self.now = Planned(zone=clock.zone())
        self._wanted: Menu | None = None
        self._asked: Problem | None = None

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
            self._tell(doing="planning")

    def stop(self) -> None:
        """Ask nothing any more."""
        self._wake.stop()
        self._planner.cancel()

    def _ask(self) -> None:
        menu = self._wanted
        if menu is None:
            return
        problem = question(menu, self._eat_at(menu), self.now.zone)
        if problem == self._asked and isinstance(self.now.plan, Plan):
            self._tell(menu=menu)  # words changed, not times: the plan holds
            return
        self._asked = problem
        hint = self.now.plan if isinstance(self.now.plan, Plan) else None
        self._planner.ask(
            problem,
            hint,
            on_progress=lambda plan: self._take(menu, plan, "planning"),
            on_answer=lambda answer: self._take(menu, answer, ""),
            on_forecast=_unused,
            on_trouble=lambda said: self._tell(doing=said),
        )

    def _eat_at(self, menu: Menu) -> Seconds:
        try:
            found = resolve_eat_at(menu.eat_at or DEFAULT_EAT_AT, self.now.zone, self._clock.wall_ms())
        except ValueError:
            found = resolve_eat_at(DEFAULT_EAT_AT, self.now.zone, self._clock.wall_ms())
        return found.choices[0][1] if isinstance(found, CivilDoubt) else found

    def _take(self, menu: Menu, answer: Plan | NoPlan, doing: str) -> None:
        if menu == self._wanted:
            self._tell(menu=menu, plan=answer, doing=doing)

    def _tell(self, menu: Menu | None = None, plan: Plan | NoPlan | None = None, doing: str = "") -> None:
        old = self.now
        self.now = Planned(menu or old.menu, plan or old.plan, doing, old.zone)
        self._told()


def _nobody() -> None:
    """Nobody listens yet."""


def _unused(forecast: Forecast) -> None:
    """A draft is not foretold."""
