"""Answers against all plans counted out: there is a plan exactly when one is, and no plan loses less in holds."""

import pytest

from tests.planner.every_plan import kitchen_of, least_loss, lost_in
from timerboard.core.plan import NoPlan, Plan, Status
from timerboard.planner.answer import answer


@pytest.mark.parametrize("seed", range(30))
def test_a_plan_is_found_when_there_is_one_and_none_loses_less(seed):
    problem = kitchen_of(seed)
    found, least = answer(problem), least_loss(problem)
    if least is None:
        assert isinstance(found, NoPlan)
    else:
        assert isinstance(found, Plan)
        assert found.status is Status.OPTIMAL
        assert lost_in(problem, found) == least


def test_these_kitchens_are_of_both_kinds():
    found = [least_loss(kitchen_of(seed)) for seed in range(10)]
    assert None in found
    assert any(lost is not None for lost in found)
