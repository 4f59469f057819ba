"""All aims at once: what a leap finds is at every bound and keeps every rule; without a bound nobody leaps."""

from time import perf_counter

from tests.bench.menus import menu_value
from timerboard.core.check_plan import broken_rules
from timerboard.core.question import question
from timerboard.planner.leap import leap
from timerboard.planner.objective import stages
from timerboard.planner.result import plan_of
from timerboard.planner.rules import post_rules
from timerboard.planner.solve import Effort
from timerboard.planner.variables import model_of

EAT_AT = 1_797_877_800


def leapt(dishes: int, hands: int):
    problem = question(menu_value(6, dishes, hands), EAT_AT, "UTC")
    model = model_of(problem)
    post_rules(model)
    aims = [aim for aim in stages(model) if aim.aim and aim.name != "holds"]
    return problem, model, leap(model, aims, Effort(perf_counter() + 60.0))


def test_one_pair_of_hands_is_planned_at_every_bound_at_once():
    problem, model, found = leapt(12, 1)
    assert found is not None
    aims, sketch = found
    assert [aim.of(model, sketch) - aim.floor for aim in aims] == [0] * len(aims)
    assert broken_rules(problem, plan_of(model, sketch)) == ()


def test_two_pairs_have_no_bound_to_leap_to():
    assert leapt(12, 2)[2] is None


def test_a_leap_leaves_the_model_as_it_was():
    problem, model, _ = leapt(12, 1)
    fresh = model_of(problem)
    post_rules(fresh)
    stages(fresh)
    assert len(model.cp.proto.constraints) == len(fresh.cp.proto.constraints)
