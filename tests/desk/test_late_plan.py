"""A dish that comes late is planned at once, and nothing else moves for it."""

from itertools import pairwise
from pathlib import Path

from tests.fakes import FakeWake, HandClock, MemoryJournal
from timerboard.core.check_plan import broken_rules
from timerboard.core.commands import AddDish, StartStep, Undo
from timerboard.core.late_dish import adopted, late_dish
from timerboard.core.question import question, question_of_cook
from timerboard.desk import late_plan
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import load_menu

SUPPER = Path(__file__).parents[2] / "sample_menus" / "solstice-supper.yaml"
HOURS = 3_600


class NotedPlanner:
    """Keeps what it is asked."""

    def __init__(self) -> None:
        self.asked = []

    def ask(self, problem, hint, **_heard) -> None:
        self.asked.append(problem)

    def foresee(self, problem, plan, on_forecast) -> None:
        pass

    def cancel(self) -> None:
        pass


def desk_of(hours: int, planner: NotedPlanner | None = None) -> tuple[Desk, HandClock, MemoryJournal]:
    """The supper, so many hours before it is eaten."""
    clock, journal = HandClock(), MemoryJournal()
    loaded = load_menu(SUPPER)
    eat_at = clock.wall_ms() // 1000 + hours * HOURS
    plan = first_plan(question(loaded.menu, eat_at, "UTC", not_before=clock.wall_ms() // 1000))
    desk = Desk(clock, journal, "board", wake=FakeWake(), planner=planner)
    desk.open_cook(Order(loaded.text, loaded.hash, loaded.menu, eat_at * 1000, "UTC"), plan)
    return desk, clock, journal


def test_rolls_added_seven_hours_ahead_begin_near_the_meal_and_nothing_else_moves():
    desk, _, journal = desk_of(7)
    before = desk.cook.plan
    desk.send(AddDish(late_dish("rolls, 12 min, oven 200 C, hold 20 min", desk.cook.menu)))
    plan, eat = desk.cook.plan, desk.cook.eat_at // 1000
    rolls = plan.of("Rolls/Bake")
    assert eat - 40 * 60 <= rolls.start <= eat + 20 * 60  # the oven is taken until the meal: no plan moves that unasked
    assert [p for p in plan.placed if p.id != "Rolls/Bake"] == list(before.placed)
    said = [item.line for item in desk.view().hands]
    assert not any("rolls" in sentence.lower() for sentence in said), said
    assert journal.read()[-1].by_itself


def test_a_dish_for_which_there_is_room_is_ready_when_the_meal_is():
    desk, _, _ = desk_of(7)
    desk.send(AddDish(late_dish("sauce, 12 min, hob, hold 20 min", desk.cook.menu)))
    placed, eat = desk.cook.plan.of("Sauce/Heat"), desk.cook.eat_at // 1000
    assert eat - 20 * 60 <= placed.end <= eat
    assert desk.cook.plan.late_s == 0
    assert broken_rules(question_of_cook(desk.cook, desk.now()), desk.cook.plan) == ()


def test_one_undo_takes_the_late_dish_and_its_times_back():
    desk, _, _ = desk_of(7)
    desk.send(AddDish(late_dish("salad, 10 min, by hand", desk.cook.menu)))
    desk.send(Undo())
    assert desk.cook.menu.dish("Salad") is None
    desk.look()
    assert "Salad" not in [strip.name for strip in desk.view().strips]


def test_what_has_begun_stays_as_it_is():
    desk, clock, _ = desk_of(5)
    first = min(desk.cook.plan.placed, key=lambda p: p.start)
    clock.advance(first.start - desk.now() // 1000)
    desk.look()
    desk.send(StartStep(first.id))
    life = desk.cook.lives[first.id]
    desk.send(AddDish(late_dish("rolls, 12 min, oven 200 C", desk.cook.menu)))
    assert desk.cook.lives[first.id] == life
    assert desk.cook.plan.of("Rolls/Bake").start * 1000 > desk.now()


def test_a_dish_of_many_steps_keeps_their_order_and_every_rule_and_moves_nothing():
    desk, _, _ = desk_of(7)
    before = desk.cook.plan
    brunch = load_menu(SUPPER.parent / "one-burner-weeknight.yaml").menu
    lentils = adopted(brunch.dish("Red lentils"), desk.cook.menu)
    desk.send(AddDish(lentils))
    plan, own = desk.cook.plan, [step.id for step in lentils.steps]
    placed = [plan.of(step) for step in own]
    assert all(one.end <= two.start for one, two in pairwise(placed))
    assert [p for p in plan.placed if p.id not in own] == list(before.placed)
    problem = question_of_cook(desk.cook, desk.now())
    late = [g.model_copy(update={"ready_by": g.ready_by + plan.late_s}) for g in problem.goals]
    broken = broken_rules(problem.model_copy(update={"goals": tuple(late)}), plan)
    assert [rule for rule in broken if "lentils" in rule.lower()] == []


def test_a_late_dish_costs_a_few_passes_over_its_own_steps_and_no_search(monkeypatch):
    desk, _, _ = desk_of(7)
    passes = []
    one_pass = late_plan.Pass
    monkeypatch.setattr(late_plan, "Pass", lambda *asked: passes.append(asked) or one_pass(*asked))
    desk.send(AddDish(late_dish("rolls, 12 min, oven 200 C, hold 20 min", desk.cook.menu)))
    assert desk.cook.plan.of("Rolls/Bake") is not None
    assert 1 <= len(passes) <= len(late_plan.LATER_MIN) + 8


def test_a_dish_without_a_place_near_the_meal_is_asked_of_the_planner(monkeypatch):
    planner = NotedPlanner()
    desk, clock, _ = desk_of(7, planner)
    monkeypatch.setattr(late_plan, "LATER_MIN", ())
    desk.send(AddDish(late_dish("rolls, 12 min, oven 200 C", desk.cook.menu)))
    assert desk.cook.plan.of("Rolls/Bake") is None
    clock.advance(1)
    desk.look()
    assert "Rolls/Bake" in [task.id for task in planner.asked[-1].tasks]
