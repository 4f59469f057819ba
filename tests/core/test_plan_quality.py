"""How good a plan is, in words."""

import pytest

from timerboard.core.plan import Plan, Standing, Status
from timerboard.core.plan_quality import better_words, quality_words


def standing(aim, cost, bound, unit="s", proven=()):
    return Standing(aim=aim, cost=cost, bound=bound, unit=unit, proven=proven)


@pytest.mark.parametrize(
    ("open_aim", "said"),
    [
        (standing("on time", 1500, 1200), "the meal might be up to 5 min less late"),
        (standing("limits", 90, 30), "what has begun might wait up to 1 min less"),
        (
            standing("holds", 35, 12, "hundredths"),
            "dishes might stand less before the meal (they lose 0.35 of a hold, and 0.12 of a hold at best)",
        ),
        (
            standing("holds", 587, 0, "hundredths"),
            "dishes might stand less before the meal (they lose 5.9 holds, and nothing at best)",
        ),
        (standing("oven changes", 3, 2, "changes"), "the oven might do with 1 fewer change"),
        (standing("oven changes", 5, 2, "changes"), "the oven might do with 3 fewer changes"),
        (standing("oven changes", 3, None, "changes"), "the oven might do with fewer changes"),
        (standing("hands", 12, 0, "hundredths"), "the work might be spread more evenly"),
        (standing("least change", 12, 3, "minutes"), "less might have to move"),
        (standing("latest first start", 16200, 15600), "the first job might begin up to 10 min later"),
        (standing("latest first start", 16200, None), "the first job might begin later"),
        (standing("holds", 35, None, "hundredths"), "dishes might stand less before the meal"),
    ],
)
def test_what_might_be_better_is_told_with_by_how_much_at_most(open_aim, said):
    assert better_words(open_aim) == said


def test_a_soonest_meal_might_be_sooner():
    assert better_words(standing("on time", 900, 0), soonest=True) == "the meal might be up to 15 min sooner"


def test_a_proven_plan_is_the_best_and_one_of_which_nothing_is_known_is_good():
    plan = Plan(status=Status.OPTIMAL, eat_at=0, placed=())
    assert quality_words(plan) == "the best there is"
    good = plan.model_copy(update={"status": Status.FEASIBLE})
    assert quality_words(good) == "good, not proven the best"
    left = good.model_copy(update={"standing": standing("latest first start", 600, 300)})
    assert quality_words(left) == "good, not proven the best: the first job might begin up to 5 min later"


def test_the_gap_is_what_the_plan_costs_above_what_none_can_be_under():
    assert standing("holds", 35, 12, "hundredths").gap == 23
    assert standing("holds", 35, None, "hundredths").gap is None
