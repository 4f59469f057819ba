"""A plan that no longer fits is said, and a new one is offered, taken or left; nothing moves by itself."""

from tests.desk.desk_kitchen import DeskKitchen
from tests.fakes import OPENING
from tests.kitchen import MIN, Kitchen, fritters, minutes, plain_plan, pork, small_menu, step
from timerboard.core.answers import Refusal
from timerboard.core.commands import AdoptPlan, DoCue, DropDish, EndStep, MoveEating, StartStep, Undo
from timerboard.core.menu import Dish, Work
from timerboard.core.outlook import outlook
from timerboard.core.plan import Forecast, HeatSetting, NoPlan, Plan, Problem
from timerboard.core.question import question_of_cook
from timerboard.core.values import MS
from timerboard.desk.misfits import as_foreseen, misfits
from timerboard.planner.forecast import forecast
from timerboard.planner.greedy import first_plan


class HandPlanner:
    """Keeps `Planner`. Answers when told."""

    def __init__(self) -> None:
        self.problem: Problem | None = None
        self.asked = self.cancelled = self.foretold = 0
        self._answer = self._trouble = self._forecast = None

    def ask(self, problem, hint, *, on_progress, on_answer, on_forecast, on_trouble):
        self.problem, self.hint = problem, hint
        self.asked += 1
        self._answer, self._trouble = on_answer, on_trouble

    def foresee(self, problem, plan, on_forecast):
        assert {task.id for task in problem.tasks} <= set(plan.by_id)
        self.foretold += 1
        self._forecast = on_forecast

    def cancel(self):
        self.cancelled += 1
        self._answer = self._trouble = None

    def answer(self, answer: Plan | NoPlan | None = None) -> None:
        self._answer(answer or first_plan(self.problem))

    def fail(self, said: str) -> None:
        self._trouble(said)

    def tell(self, on_time: float) -> None:
        self._forecast(Forecast(cooks=10, on_time=on_time, late_likely_s=0, late_bad_s=0))


def beans() -> Dish:
    boil = step("Beans", "Boil", minutes(10), work=Work(throughout=True))
    return Dish(name="Beans", hold_s=1800, steps=(boil,))


def cooking(*dishes: Dish, eat_in: float = 120, planner: HandPlanner | None = None) -> DeskKitchen:
    """These dishes beside a stock that simmers already and will until the meal: the cook has begun."""
    stock = Dish(name="Stock", steps=(step("Stock", "Simmer", minutes(eat_in)),))
    kitchen = DeskKitchen(small_menu(*dishes, stock), eat_in=eat_in, planner=planner)
    kitchen.must(StartStep("Stock/Simmer"))
    return kitchen


def pans() -> DeskKitchen:
    """Fritters and beans, both of which need hands in the last minutes; a question about that is open."""
    return cooking(fritters(), beans(), planner=HandPlanner())


def late_roast() -> DeskKitchen:
    """One dish, planned; then nobody starts it until 25 min after its time."""
    kitchen = cooking(pork(), eat_in=130, planner=HandPlanner())
    kitchen.run(30)
    return kitchen


def offer(kitchen: DeskKitchen):
    return next((n for n in kitchen.desk.view().notices if n.key.startswith("offer")), None)


class TestWhetherThePlanFits:
    def test_a_plan_that_is_kept_fits(self):
        kitchen = Kitchen(small_menu(pork()), eat_in=200)
        seen = outlook(kitchen.cook, kitchen.now)
        assert misfits(kitchen.cook, seen, question_of_cook(kitchen.cook, kitchen.now)) == ()

    def test_food_that_may_be_done_early_breaks_no_plan(self):
        """Planned to the high end of its ranges, likely done sooner: the take-outs would then meet other jobs."""
        kitchen = Kitchen(small_menu(), eat_in=240)
        problem = question_of_cook(kitchen.cook, kitchen.now)
        kitchen.must(AdoptPlan(first_plan(problem)))
        assert misfits(kitchen.cook, outlook(kitchen.cook, kitchen.now), problem) == ()

    def test_a_roast_that_runs_over_into_the_time_of_another_job_is_a_reason(self):
        kitchen = DeskKitchen(small_menu(fritters(), beans()), eat_in=120, planner=HandPlanner())
        kitchen.must(AdoptPlan(first_plan(kitchen.planner.problem)))
        asked = kitchen.planner.asked
        first = min(kitchen.desk.cook.plan.placed, key=lambda placed: placed.start)
        kitchen.run((first.start * MS - OPENING) / MIN)
        kitchen.must(StartStep(first.id))
        kitchen.run((first.end - first.start) / 60 - 1)
        assert kitchen.planner.asked == asked
        kitchen.run(15)
        assert kitchen.planner.asked > asked

    def test_no_plan_is_a_reason(self):
        kitchen = Kitchen(small_menu(pork()), plan=False)
        seen = outlook(kitchen.cook, kitchen.now)
        assert misfits(kitchen.cook, seen, question_of_cook(kitchen.cook, kitchen.now)) == ("there is no plan yet",)

    def test_a_late_meal_is_a_reason_unless_the_plan_said_so(self):
        kitchen = Kitchen(small_menu(pork()), eat_in=60)  # 10 + 60 + 20 min at the least
        problem = question_of_cook(kitchen.cook, kitchen.now)
        assert "the meal would be late" in misfits(kitchen.cook, outlook(kitchen.cook, kitchen.now), problem)
        kitchen.send(AdoptPlan(first_plan(problem)))
        assert misfits(kitchen.cook, outlook(kitchen.cook, kitchen.now), problem) == ()

    def test_two_jobs_for_one_pair_of_hands_are_a_reason(self):
        """Fritters need hands to the minute of the meal, and so do the beans: one cook cannot do both."""
        kitchen = Kitchen(small_menu(fritters(), beans()), eat_in=120)
        seen = outlook(kitchen.cook, kitchen.now)
        said = misfits(kitchen.cook, seen, question_of_cook(kitchen.cook, kitchen.now))
        assert said == ("the beans and the fritters would need hands at the same time",)

    def test_a_meal_moved_away_from_the_plan_would_stand_too_long(self):
        kitchen = Kitchen(small_menu(beans()), eat_in=120)
        kitchen.must(MoveEating(kitchen.cook.eat_at + 90 * MIN))  # the beans keep for 30 min
        seen = outlook(kitchen.cook, kitchen.now)
        said = misfits(kitchen.cook, seen, question_of_cook(kitchen.cook, kitchen.now))
        assert said == ("the beans would stand too long",)


class TestThePlanAsForeseen:
    """Salt 10 min, roast 60 to 90 and planned to 90, rest; food that may be done sooner moves nothing."""

    def planned_to_the_high_end(self) -> tuple[Kitchen, Plan]:
        kitchen = Kitchen(small_menu(pork()), eat_in=240)
        placed = [
            p.model_copy(update={"start": p.end - 5400}) if p.id == "Pork/Roast" else p
            for p in kitchen.cook.plan.placed
        ]
        salt = next(p for p in placed if p.id == "Pork/Salt")
        early = salt.model_copy(update={"start": salt.start - 600, "end": salt.end - 600})
        plan = kitchen.cook.plan.model_copy(update={"placed": (early, *(p for p in placed if p is not salt))})
        kitchen.must(AdoptPlan(plan))
        return kitchen, plan

    def ends(self, kitchen: Kitchen, plan: Plan) -> dict[str, int]:
        seen = as_foreseen(kitchen.cook, plan, outlook(kitchen.cook, kitchen.now))
        return {p.id: p.end - plan.by_id[p.id].end for p in seen.placed}

    def test_before_anything_it_is_the_plan(self):
        kitchen, plan = self.planned_to_the_high_end()
        assert self.ends(kitchen, plan) == {"Pork/Salt": 0, "Pork/Roast": 0, "Pork/Rest": 0}

    def test_what_runs_ends_as_planned_or_later(self):
        kitchen, plan = self.planned_to_the_high_end()
        kitchen.wait((plan.by_id["Pork/Salt"].start * MS - kitchen.now) / MIN)
        kitchen.must(StartStep("Pork/Salt"))
        assert self.ends(kitchen, plan)["Pork/Salt"] == 0
        kitchen.wait(22)  # planned for 10
        assert self.ends(kitchen, plan)["Pork/Salt"] >= 12 * 60

    def test_what_has_ended_ended_then(self):
        kitchen, plan = self.planned_to_the_high_end()
        kitchen.must(StartStep("Pork/Salt"))
        kitchen.wait(4)
        kitchen.must(EndStep("Pork/Salt"))
        seen = as_foreseen(kitchen.cook, plan, outlook(kitchen.cook, kitchen.now))
        assert seen.by_id["Pork/Salt"].end == kitchen.now // MS

    def test_it_is_eaten_when_the_cook_says_now_and_not_when_it_was_planned_for(self):
        kitchen, plan = self.planned_to_the_high_end()
        kitchen.must(MoveEating(kitchen.cook.eat_at + 20 * MIN))
        seen, problem = outlook(kitchen.cook, kitchen.now), question_of_cook(kitchen.cook, kitchen.now)
        foreseen = as_foreseen(kitchen.cook, plan, seen)
        assert foreseen.eat_at == problem.eat_at == plan.eat_at + 20 * 60
        assert forecast(problem, foreseen, cooks=200).on_time == 1.0


class TestOffers:
    def test_a_plan_that_fits_is_not_asked_about(self):
        kitchen = DeskKitchen(small_menu(pork()), planner=HandPlanner())
        assert kitchen.planner.asked == 0
        kitchen.run(5)
        assert kitchen.planner.asked == 0
        assert offer(kitchen) is None

    def test_time_alone_can_make_a_plan_late_and_then_it_is_asked(self):
        kitchen = late_roast()
        assert kitchen.planner.asked >= 1
        assert kitchen.planner.problem.late_ok
        assert kitchen.planner.hint == kitchen.desk.cook.plan

    def test_taken_it_is_the_plan(self):
        kitchen = pans()
        kitchen.planner.answer()
        offered = offer(kitchen)
        assert "need hands at the same time. New plan: " in offered.text
        kitchen.must(offered.take)
        assert kitchen.desk.cook.plan == offered.take.plan
        assert offer(kitchen) is None

    def test_nothing_moves_before_it_is_taken(self):
        kitchen = pans()
        before = kitchen.desk.cook
        kitchen.planner.answer()
        assert kitchen.desk.cook is before

    def test_left_it_is_not_offered_again_for_the_same_reason(self):
        kitchen = pans()
        kitchen.planner.answer()
        kitchen.must(offer(kitchen).leave)
        assert offer(kitchen) is None
        asked = kitchen.planner.asked
        kitchen.run(20)
        assert kitchen.planner.asked == asked
        assert "AlarmHeard" not in kitchen.kinds()

    def test_left_and_then_much_later_it_is_offered_again(self):
        kitchen = late_roast()
        later = first_plan(kitchen.planner.problem)
        kitchen.planner.answer(later.model_copy(update={"late_s": 0}))
        kitchen.must(offer(kitchen).leave)
        asked = kitchen.planner.asked
        kitchen.run(5)
        assert kitchen.planner.asked == asked
        kitchen.run(10)
        assert kitchen.planner.asked > asked

    def test_an_act_withdraws_the_offer_and_the_open_question(self):
        kitchen = pans()
        kitchen.planner.answer()
        assert offer(kitchen) is not None
        cancelled = kitchen.planner.cancelled
        kitchen.must(DropDish("Beans"))
        assert offer(kitchen) is None
        assert kitchen.planner.cancelled > cancelled

    def test_no_plan_is_no_offer_and_trouble_is_said_and_passes(self):
        kitchen = pans()
        kitchen.planner.fail("the planner stopped; it is started again")
        assert "planner stopped" in kitchen.notice("planner")
        kitchen.planner.answer(NoPlan(reasons=("one oven",)))
        assert kitchen.notice("planner") == ""
        assert offer(kitchen) is None

    def test_as_late_as_doing_nothing_is_not_worth_an_offer(self):
        kitchen = late_roast()
        kitchen.planner.answer()
        assert offer(kitchen) is None

    def test_the_forecast_is_of_the_plan_in_force_and_shown_in_the_head(self):
        kitchen = DeskKitchen(small_menu(pork()), planner=HandPlanner())
        assert kitchen.desk.view().head.chance == ""
        kitchen.planner.tell(0.8)
        assert "8 in 10" in kitchen.desk.view().head.chance
        told = kitchen.planner.foretold
        kitchen.must(StartStep("Pork/Salt"), EndStep("Pork/Salt"))
        assert kitchen.planner.foretold > told

    def test_a_better_plan_can_be_asked_for_and_is_only_offered(self):
        kitchen = cooking(pork(), eat_in=240, planner=HandPlanner())
        before = kitchen.desk.cook.plan
        kitchen.desk.plan_better()
        kitchen.desk.look()
        assert kitchen.planner.asked == 1
        later = [p.model_copy(update={"start": p.start + 120, "end": p.end + 120}) for p in before.placed]
        kitchen.planner.answer(before.model_copy(update={"placed": tuple(later)}))
        assert offer(kitchen).text.startswith("A better plan: ")
        assert kitchen.desk.cook.plan == before
        kitchen.run(10)
        assert kitchen.planner.asked == 1

    def test_an_act_in_between_does_not_lose_the_wish_for_a_better_plan(self):
        kitchen = DeskKitchen(small_menu(pork()), planner=HandPlanner())
        kitchen.desk.plan_better()
        kitchen.must(StartStep("Pork/Salt"))
        assert kitchen.planner.asked == 1

    def test_after_an_act_the_plan_is_looked_at_once_the_board_was_painted(self):
        kitchen = DeskKitchen(small_menu(pork()), planner=HandPlanner())
        told = kitchen.planner.foretold
        kitchen.desk.send(StartStep("Pork/Salt"))
        assert kitchen.planner.foretold == told
        assert kitchen.wake.delay_ms == 100
        kitchen.wake.ring()
        assert kitchen.planner.foretold == told + 1

    def test_without_a_planner_the_greedy_one_answers_at_once(self):
        kitchen = cooking(beans())
        kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 90 * MIN))  # the beans keep for 30 min
        offered = offer(kitchen)
        assert offered is not None
        kitchen.must(offered.take)
        assert offer(kitchen) is None

    def test_a_cook_that_is_closed_is_left_alone(self):
        kitchen = pans()
        kitchen.must(DropDish("Beans"), DropDish("Fritters"), DropDish("Stock"))
        kitchen.run(3)
        assert offer(kitchen) is None


def shifted(plan: Plan, by_s: int) -> Plan:
    placed = [p.model_copy(update={"start": p.start + by_s, "end": p.end + by_s}) for p in plan.placed]
    return plan.model_copy(update={"placed": tuple(placed)})


class TestBeforeAnythingHasBegun:
    def opened(self) -> DeskKitchen:
        kitchen = DeskKitchen(small_menu(pork()), planner=HandPlanner())
        kitchen.desk.plan_better()
        kitchen.desk.look()
        return kitchen

    def test_a_better_plan_is_taken_without_a_question(self):
        kitchen = self.opened()
        better = shifted(kitchen.desk.cook.plan, 120)
        kitchen.planner.answer(better)
        assert offer(kitchen) is None
        assert kitchen.desk.cook.plan == better
        assert kitchen.desk.view().foot.last.endswith("plan taken")
        assert kitchen.kinds() == ["CookOpened", "PlanAdopted", "PlanAdopted"]

    def test_undo_does_not_take_it_back_and_neither_does_a_restart(self):
        kitchen = self.opened()
        better = shifted(kitchen.desk.cook.plan, 120)
        kitchen.planner.answer(better)
        kitchen.must(StartStep("Pork/Salt"))
        kitchen.must(Undo())
        assert isinstance(kitchen.desk.send(Undo()), Refusal)
        kitchen.restart()
        assert kitchen.desk.cook.plan == better

    def test_a_plan_that_is_later_is_not_taken(self):
        kitchen = self.opened()
        before = kitchen.desk.cook.plan
        kitchen.planner.answer(shifted(before, 600).model_copy(update={"late_s": 600}))
        assert kitchen.desk.cook.plan == before
        assert offer(kitchen) is None

    def test_once_the_oven_was_set_it_is_only_offered(self):
        kitchen = self.opened()
        before = kitchen.desk.cook.plan
        setting = HeatSetting(id="oven", place="oven", heat_c=160, at=0, ready=1200, for_step="Pork/Roast")
        kitchen.must(AdoptPlan(before.model_copy(update={"settings": (setting,)})), DoCue("@oven", "oven"))
        kitchen.planner.answer(shifted(before, 120))
        assert offer(kitchen) is not None

    def test_eating_moved_brings_a_plan_for_then(self):
        kitchen = DeskKitchen(small_menu(pork()), planner=HandPlanner())
        kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 20 * MIN))
        kitchen.planner.answer()
        assert kitchen.desk.cook.plan.eat_at * MS == kitchen.desk.cook.eat_at
        assert offer(kitchen) is None


class TestAMealThatCannotBeOnTime:
    """Salt 10 min, roast 80 likely, rest 20 at the least: 110 min of work, opened 60 min before the meal."""

    def opened_late(self) -> DeskKitchen:
        kitchen = DeskKitchen(small_menu(pork()), eat_in=60, planner=HandPlanner())
        kitchen.planner.answer()
        kitchen.desk.look()
        return kitchen

    def later(self, kitchen: DeskKitchen):
        return next((n for n in kitchen.desk.view().notices if n.key.startswith("later")), None)

    def test_the_board_says_when_it_could_be_and_offers_to_move_it(self):
        kitchen = self.opened_late()
        late = -outlook(kitchen.desk.cook, kitchen.desk.now()).margin_ms
        said = self.later(kitchen)
        assert kitchen.desk.view().head.late
        assert said.text == "It cannot all be ready at 15:00 any more; the soonest is 15:50"
        assert (said.take_word, said.leave_word) == ("eat at 15:55", "keep 15:00")
        assert late == 50 * MIN

    def test_taken_the_meal_is_in_time_by_a_plan_of_its_own(self):
        kitchen = self.opened_late()
        kitchen.must(self.later(kitchen).take)
        kitchen.planner.answer()
        kitchen.desk.look()
        head = kitchen.desk.view().head
        assert "Eat at 15:55" in head.eat
        assert not head.late
        assert self.later(kitchen) is None

    def test_taken_it_is_not_asked_again_though_the_cook_begins_a_little_late(self):
        kitchen = self.opened_late()
        kitchen.must(self.later(kitchen).take)
        kitchen.planner.answer()
        kitchen.run(2)
        assert not kitchen.desk.view().head.late
        assert self.later(kitchen) is None

    def test_a_plan_that_said_when_to_eat_is_taken_with_that_and_taken_back_with_it(self):
        kitchen = pans()
        kitchen.planner.answer(shifted(first_plan(kitchen.planner.problem), 4).model_copy(update={"late_s": 270}))
        said, before = offer(kitchen), kitchen.desk.cook.eat_at
        assert "eat at 16:04" in said.text
        kitchen.must(said.take)
        assert kitchen.desk.cook.eat_at == before + 4 * MIN
        assert not kitchen.desk.view().head.late
        assert self.later(kitchen) is None
        kitchen.must(Undo())
        assert kitchen.desk.cook.eat_at == before

    def test_left_it_is_not_said_again_until_the_meal_is_much_later(self):
        kitchen = self.opened_late()
        kitchen.must(self.later(kitchen).leave)
        assert self.later(kitchen) is None
        kitchen.run(5)
        assert self.later(kitchen) is None
        kitchen.run(10)
        kitchen.planner.answer()
        kitchen.desk.look()
        assert self.later(kitchen) is not None

    def test_it_waits_for_the_planner_that_may_know_better(self):
        kitchen = DeskKitchen(small_menu(pork()), eat_in=60, planner=HandPlanner())
        assert kitchen.planner.asked == 1
        assert self.later(kitchen) is None

    def test_a_minute_or_two_is_nothing_to_move_a_meal_for(self):
        kitchen = cooking(pork(), eat_in=130, planner=HandPlanner())
        plan = kitchen.desk.cook.plan
        kitchen.run((plan.starts_at * MS - kitchen.desk.now()) / MIN + 2)
        assert self.later(kitchen) is None


def test_the_plain_plan_of_the_test_kitchen_is_what_these_tests_think_it_is():
    """Fritters and beans both end at the meal."""
    menu = small_menu(fritters(), beans())
    assert {placed.end for placed in plain_plan(menu, OPENING).placed} == {OPENING // MS}


class TestAPlanOnItsWay:
    def waiting(self) -> tuple[DeskKitchen, HandPlanner]:
        planner = HandPlanner()
        kitchen = cooking(fritters(), beans(), eat_in=120, planner=planner)
        kitchen.desk.plan_better()
        kitchen.must(DropDish("Beans"))
        return kitchen, planner

    def said(self, kitchen: DeskKitchen) -> str:
        kitchen.clock.advance(0.5)
        kitchen.desk.look()
        return kitchen.notice("planning")

    def test_is_said_once_it_takes_half_a_second(self):
        kitchen, planner = self.waiting()
        assert planner.asked
        kitchen.desk.look()
        assert kitchen.notice("planning") == ""
        assert self.said(kitchen) == "Planning: the plan in force stands until you take another"
        planner.answer(kitchen.desk.cook.plan)
        assert kitchen.notice("planning") == ""

    def test_can_be_called_off(self):
        kitchen, planner = self.waiting()
        assert self.said(kitchen)
        before = planner.cancelled
        notice = next(n for n in kitchen.desk.view().notices if n.key == "planning")
        kitchen.desk.send(notice.leave)
        assert planner.cancelled == before + 1
        assert self.said(kitchen) == ""

    def test_is_no_longer_said_when_the_planner_fails(self):
        kitchen, planner = self.waiting()
        assert self.said(kitchen)
        planner.fail("the planner stopped twice over this question")
        assert kitchen.notice("planning") == ""

    def test_the_board_wakes_up_to_say_it_after_half_a_second_and_not_at_the_next_heartbeat(self):
        kitchen, planner = self.waiting()
        assert planner.asked
        assert kitchen.wake.delay_ms is not None
        assert kitchen.wake.delay_ms <= 500
        kitchen.clock.advance(kitchen.wake.delay_ms / 1000)
        kitchen.wake.ring()
        assert kitchen.notice("planning") != ""
