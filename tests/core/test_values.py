"""What every value promises."""

from timerboard.core.plan import Placed, Plan, Status


def test_a_changed_copy_forgets_what_the_old_value_had_worked_out():
    plan = Plan(status=Status.OPTIMAL, eat_at=100, placed=(Placed(id="a", start=0, end=10),))
    assert plan.by_id["a"].start == 0
    moved = plan.model_copy(update={"placed": (Placed(id="a", start=5, end=15),)})
    assert moved.by_id["a"].start == 5
    assert plan.by_id["a"].start == 0
