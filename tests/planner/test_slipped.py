"""The plan being cooked with the facts put in, and what is answered from it."""

from tests.bench.menus import menu_value
from tests.planner.half_cooked import half_cooked
from tests.planner.minute_kitchens import EAT, kitchen, step
from timerboard.core.check_plan import broken_rules
from timerboard.core.plan import Plan
from timerboard.core.question import question
from timerboard.planner import answer as planner
from timerboard.planner.answer import answer
from timerboard.planner.greedy import first_plan
from timerboard.planner.slipped import slipped


def test_facts_stand_where_they_are_and_the_rest_where_it_was_or_from_now_on():
    supper = question(menu_value(3, 12, 2), EAT, "UTC")
    old = first_plan(supper)
    asked = half_cooked(supper, old)
    near = slipped(asked, old)
    for task in asked.tasks:
        placed, was = near.by_id[task.id], old.by_id[task.id]
        if task.started is None:
            assert placed.start == max(was.start, asked.not_before)
        else:
            assert (placed.start, placed.end) == (task.started, task.ended or task.started + task.least_s)
    left = {(task.id, slot.id) for task in asked.tasks for slot in task.cues}
    assert {(cue.step, cue.id) for cue in near.cues} == left


def test_a_step_that_should_have_begun_moves_to_now_with_its_cues_and_its_length():
    task = step("a", 30)
    old = answer(kitchen(task))
    now = old.by_id[task.id].start + 5 * 60
    asked = kitchen(task).model_copy(update={"not_before": now, "late_ok": True})
    placed = slipped(asked, old).by_id[task.id]
    assert (placed.start, placed.end) == (now, now + 30 * 60)


def test_an_old_plan_that_knows_nothing_of_a_step_is_no_help():
    old = answer(kitchen(step("a", 30)))
    assert slipped(kitchen(step("a", 30), step("b", 10)), old) is None


def test_a_meal_half_cooked_is_mended_from_the_old_plan_without_a_new_first_plan(monkeypatch):
    supper = question(menu_value(7, 12, 2), EAT, "UTC")
    old = first_plan(supper)
    asked = half_cooked(supper, old)
    assert broken_rules(asked, old)
    monkeypatch.setattr(planner, "first_plan", lambda _: None)
    told = []
    found = answer(asked, hint=old, progress=told.append)
    assert isinstance(found, Plan)
    assert not broken_rules(asked, found)
    assert told
    assert not broken_rules(asked, told[0])


def test_where_the_old_plan_cannot_be_mended_soon_a_new_first_plan_is_made(monkeypatch):
    supper = question(menu_value(7, 12, 2), EAT, "UTC")
    old = first_plan(supper)
    asked = half_cooked(supper, old)
    monkeypatch.setattr(planner, "slipped", lambda *_: None)
    found = answer(asked, hint=old)
    assert isinstance(found, Plan)
    assert not broken_rules(asked, found)
