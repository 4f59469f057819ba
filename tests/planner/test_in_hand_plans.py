"""Plans that keep time in hand, and that do without where it cannot be had."""

from tests.kitchen import fritters, minutes, pork, small_menu, step
from timerboard.core.check_plan import broken_rules
from timerboard.core.menu import Dish, Work
from timerboard.core.plan import NoPlan, Plan
from timerboard.core.question import question
from timerboard.planner.in_hand import answer_in_hand, first_plan_in_hand

EAT = 1_797_877_800


def by_hand(name: str, hold_min: int) -> Dish:
    """Ten minutes of hands, right up to the end."""
    return Dish(name=name, hold_s=hold_min * 60, steps=(step(name, "Stir", minutes(10), work=Work(throughout=True)),))


def asked(*dishes: Dish, **more: object):
    return question(small_menu(*dishes), EAT, "UTC", **more)


def ready(plan: Plan) -> int:
    """Seconds before the meal that the last step ends."""
    return EAT - max(placed.end for placed in plan.placed)


def test_a_dish_that_may_stand_is_ready_five_minutes_early():
    """Hold 45 min: all 5 min. The first plan and the best one alike."""
    problem = asked(pork())
    for plan in (first_plan_in_hand(problem), answer_in_hand(problem)):
        assert ready(plan) == 300
        assert plan.late_s == 0
        assert broken_rules(problem, plan) == ()


def test_slack_is_counted_to_the_meal_and_not_to_the_aim():
    """The rest may give way by 10 min, and there are 5 min in hand."""
    plan = answer_in_hand(asked(by_hand("Mash", 45)))
    assert plan.of("Mash/Stir").slack_s == 300


def test_where_two_cannot_both_be_early_the_meal_is_planned_without():
    """One pair of hands, 10 min each, A stands at most 12 min: A ends at -10 and B at 0, or A would stand 13."""
    problem = asked(by_hand("A", 12), by_hand("B", 1).model_copy(update={"hold_s": 0}))
    plan = answer_in_hand(problem)
    assert {p.id: EAT - p.end for p in plan.placed} == {"A/Stir": 600, "B/Stir": 0}
    tight = asked(by_hand("A", 10), by_hand("B", 8))
    plan = answer_in_hand(tight)  # B 2 min early would have A stand 12 min
    assert isinstance(plan, Plan)
    assert broken_rules(tight, plan) == ()
    assert ready(plan) == 0


def test_reasons_are_those_of_the_menu_itself():
    problem = asked(by_hand("A", 0), by_hand("B", 0))
    assert first_plan_in_hand(problem) is None
    found = answer_in_hand(problem)
    assert isinstance(found, NoPlan)
    assert found == answer_in_hand(problem.model_copy(update={"in_hand_s": 0}))


def test_a_meal_that_is_late_anyway_is_not_made_later_for_it():
    late = asked(pork(), not_before=EAT - 60 * 60).model_copy(update={"late_ok": True})
    plan = answer_in_hand(late)
    without = answer_in_hand(late.model_copy(update={"in_hand_s": 0}))
    assert plan.late_s == without.late_s > 0
    assert first_plan_in_hand(late).late_s == plan.late_s


def test_progress_and_an_end_to_it_reach_the_search():
    told = []
    problem = asked(pork(), fritters())
    answer_in_hand(problem, progress=told.append)
    assert told
    stopped = answer_in_hand(problem, stop=lambda: True)
    assert isinstance(stopped, Plan)
