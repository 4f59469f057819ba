"""A whole evening from a sample menu: the real reader, planner and desk, a clock by hand, and a cook who answers."""

from pathlib import Path

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import MIN
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import AdoptPlan, Command, EndStep, TakeReading
from timerboard.core.decide import Refusal
from timerboard.core.question import question_of_cook
from timerboard.core.values import MS
from timerboard.core.view_values import BoardView, HandsItem, Strip
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu

SAMPLES = Path(__file__).resolve().parents[2] / "sample_menus"
GLANCE_S = 5
IDLE_S = 20


class Evening(DeskKitchen):
    """Opened `eat_in` minutes before the meal. `shown` keeps every view the cook could have seen, with its moment."""

    def __init__(self, sample: str, *, eat_in: float, answers_after: float = 0.0) -> None:
        super().__init__(load_menu(SAMPLES / f"{sample}.yaml").menu, eat_in=eat_in)
        self.answers_after = answers_after
        self.first_seen: dict[str, int] = {}
        self.shown: list[tuple[int, BoardView]] = []
        self.answered: list[tuple[int, HandsItem]] = []
        plan = first_plan(question_of_cook(self.desk.cook, self.desk.now()))
        assert plan is not None
        self.must(AdoptPlan(plan))

    def view(self) -> BoardView:
        """What the cook sees now; noted."""
        view, now = self.desk.view(), self.desk.now()
        self.shown.append((now, view))
        for item in view.hands:
            if item.rank >= Rank.DUE:
                self.first_seen.setdefault(item.key, now)
        return view

    def strips(self) -> dict[str, Strip]:
        return {strip.name: strip for strip in self.desk.view().strips}

    def cook_for(self, minutes: float) -> None:
        """Answer what was seen long enough ago, one thing at a glance."""
        end = self.desk.now() + round(minutes * MIN)
        while self.desk.now() < end:
            self.glance(self.view())

    def cook_to_the_end(self) -> None:
        """Until nothing is left to be done."""
        for _ in range(20_000):
            view = self.view()
            if not view.hands and "ready" in view.head.margin:
                return
            self.glance(view)
        raise AssertionError("the evening never ends")

    def glance(self, view: BoardView) -> None:
        """One answer, if one is due; then on to the next glance, or to when the board asked to be woken."""
        late, now = round(self.answers_after * MIN), self.desk.now()
        calling = [item for item in view.hands if item.rank >= Rank.DUE]
        ripe = [self.first_seen[item.key] + late for item in calling]
        item = next((i for i, at in zip(calling, ripe, strict=True) if at <= now), None)
        if item is not None:
            self.answer(item)
            self.clock.advance(GLANCE_S)
        else:
            wake = now + (self.wake.delay_ms or IDLE_S * MS)
            self.clock.advance((min([now + IDLE_S * MS, wake, *ripe]) - now) / MS)
        self.desk.look()

    def answer(self, item: HandsItem) -> None:
        """What the item asks for; food that is looked at too early gets 'not yet', a reading is the pull itself."""
        said = self.desk.send(self._reply(item))
        if isinstance(said, Refusal) and said.ask is not None:
            said = self.desk.send(said.ask)
        assert not isinstance(said, Refusal), said.said
        self.answered.append((self.desk.now(), item))
        self.first_seen.pop(item.key, None)
        self.desk.look()

    def _reply(self, item: HandsItem) -> Command:
        cook, now = self.desk.cook, self.desk.now()
        if item.wants_reading is not None:
            step = cook.menu.steps[item.wants_reading]
            assert step.pull_at_c is not None
            share = (now - (cook.lives[step.id].started or now)) / (cook.span(step).likely * MS)
            celsius = step.pull_at_c if share >= 1 else 5 + (step.pull_at_c - 5) * share
            return TakeReading(step.id, round(celsius, 1), confirmed=True)
        if isinstance(item.answer, EndStep) and item.not_yet is not None:
            step, life = cook.menu.steps[item.answer.step], cook.lives[item.answer.step]
            if not step.elastic and now - (life.started or now) < cook.span(step).likely * MS:
                return item.not_yet
        return item.answer
