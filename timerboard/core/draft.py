"""A cook that is being written: the mutable twin of `Cook` that only `fold.py` and its effects touch."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any

from .cook import Cook, Note, Noted, PlaceHeat, QuickTimer, StepLife
from .engine import What, after
from .events import CookOpened
from .menu import Dish, Menu, Step
from .plan import Plan
from .readiness import holds_back
from .values import Moment


@dataclass(slots=True)
class Draft:
    """Every field of `Cook`, open for writing. `record` holds what this draft adds; `before` what was there."""

    menu: Menu
    menu_hash: str
    opened: Moment
    eat_at: Moment
    zone: str
    offset_ms: int
    lives: dict[str, StepLife]
    plan: Plan | None = None
    dropped: frozenset[str] = frozenset()
    heats: dict[str, PlaceHeat] = field(default_factory=dict)
    settings_done: dict[str, Moment] = field(default_factory=dict)
    timers: dict[str, QuickTimer] = field(default_factory=dict)
    heard: dict[str, Moment] = field(default_factory=dict)
    put_off: dict[str, Moment] = field(default_factory=dict)
    hushed_at: Moment | None = None
    hushed_until: Moment | None = None
    notes: dict[str, Note] = field(default_factory=dict)
    closed: Moment | None = None
    chosen: dict[str, str] = field(default_factory=dict)
    written: dict[str, Step] = field(default_factory=dict)
    before: list[Noted] = field(default_factory=list)
    record: list[Noted] = field(default_factory=list)
    followers: dict[str, list[Step]] | None = None

    def move(self, step: str, what: What, **facts: Any) -> bool:  # noqa: ANN401  any field of a life
        """Move a step by the table and note these facts. False (and nothing done) when the table knows no such move."""
        life = self.lives[step]
        then = after(life.state, what)
        if then is None:
            return False
        if facts or then is not life.state:
            self.lives[step] = replace(life, state=then, **facts)
        return True

    def following(self, step: str) -> Iterable[Step]:
        """Every step that follows one directly."""
        if self.followers is None:
            self.followers = {}
            for other in self.menu.steps.values():
                for link in other.links:
                    self.followers.setdefault(link.step, []).append(other)
        return self.followers.get(step, ())

    def free_followers(self, step: str, at: Moment) -> None:
        """What waited for this step alone is ready now."""
        for other in self.following(step):
            self.make_ready(other, at)

    def make_ready(self, step: Step, at: Moment) -> None:
        """A waiting step with nothing before it unended is ready from `at`."""
        if not any(holds_back(link, self.lives) for link in step.links):
            self.move(step.id, What.PREDECESSORS_ENDED, ready_since=at)

    def add(self, dish: Dish, at: Moment) -> None:
        """Give every step of a dish a life."""
        self.lives.update({step.id: StepLife() for step in dish.steps})
        for step in dish.steps:
            self.make_ready(step, at)

    def retell(self, step: str, why: str) -> None:
        """Mark the last start of a step in the record: it is taken back."""
        for told in (self.record, self.before):
            for place in range(len(told) - 1, -1, -1):
                if _started(told[place], step):
                    told[place] = replace(told[place], effect=why)
                    return

    def cook(self) -> Cook:
        """The cook as written so far."""
        return Cook(
            menu=self.menu,
            menu_hash=self.menu_hash,
            opened=self.opened,
            eat_at=self.eat_at,
            zone=self.zone,
            offset_ms=self.offset_ms,
            lives=self.lives,
            plan=self.plan,
            dropped=self.dropped,
            heats=self.heats,
            settings_done=self.settings_done,
            timers=self.timers,
            heard=self.heard,
            put_off=self.put_off,
            hushed_at=self.hushed_at,
            hushed_until=self.hushed_until,
            notes=self.notes,
            closed=self.closed,
            chosen=self.chosen,
            written=self.written,
            record=(*self.before, *self.record),
        )


def _started(noted: Noted, step: str) -> bool:
    event = noted.event
    return event.kind == "StepStarted" and event.step == step and not noted.effect and not noted.undone


def opened(event: CookOpened) -> Draft:
    """A cook that has just begun."""
    draft = Draft(
        menu=event.menu,
        menu_hash=event.menu_hash,
        opened=event.at,
        eat_at=event.eat_at,
        zone=event.zone,
        offset_ms=event.wall_ms - event.at,
        lives={},
    )
    for dish in event.menu.dishes:
        draft.lives.update({step.id: StepLife() for step in dish.steps})
    for step in event.menu.steps.values():
        draft.make_ready(step, event.at)
    return draft


def resumed(cook: Cook) -> Draft:
    """A draft that goes on from a cook; the cook itself stays as it is."""
    return Draft(
        menu=cook.menu,
        menu_hash=cook.menu_hash,
        opened=cook.opened,
        eat_at=cook.eat_at,
        zone=cook.zone,
        offset_ms=cook.offset_ms,
        lives=dict(cook.lives),
        plan=cook.plan,
        dropped=cook.dropped,
        heats=dict(cook.heats),
        settings_done=dict(cook.settings_done),
        timers=dict(cook.timers),
        heard=dict(cook.heard),
        put_off=dict(cook.put_off),
        hushed_at=cook.hushed_at,
        hushed_until=cook.hushed_until,
        notes=dict(cook.notes),
        closed=cook.closed,
        chosen=dict(cook.chosen),
        written=dict(cook.written),
        before=list(cook.record),
    )
