"""A joint that is early and guests that are late, through the desk: commands in, notices out. Common practice."""

from tests.desk.desk_kitchen import DeskKitchen
from tests.desk.test_replanning import HandPlanner
from tests.kitchen import MIN, fritters, pork, small_menu
from timerboard.core.commands import EndStep, MoveEating, StartStep
from timerboard.core.menu import Dish


def joint() -> Dish:
    steps = tuple(s.model_copy(update={"pull_at_c": 80.0 if s.do == "Roast" else None}) for s in pork().steps)
    return pork().model_copy(update={"steps": steps})


def pulled_early() -> DeskKitchen:
    """Out of the oven 170 min before the meal; it rests, and no plan can change that."""
    kitchen = DeskKitchen(small_menu(joint()), eat_in=240, planner=HandPlanner())
    kitchen.must(StartStep("Pork/Salt"))
    kitchen.run(10)
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    kitchen.run(60)
    kitchen.must(kitchen.desk.send(EndStep("Pork/Roast")).ask)
    return kitchen


def test_a_joint_that_is_early_is_advised_on_though_no_plan_could_help():
    kitchen = pulled_early()
    assert kitchen.notice("advice").startswith("The pork is early: wrap it in towels")


def test_advice_that_was_read_does_not_come_back():
    kitchen = pulled_early()
    notice = next(n for n in kitchen.desk.view().notices if n.key.startswith("advice"))
    kitchen.must(notice.leave)
    kitchen.run(5)
    assert kitchen.notice("advice") == ""
    assert "AlarmHeard" not in kitchen.kinds()


def test_late_guests_are_spoken_of_at_once_and_without_any_new_plan():
    kitchen = DeskKitchen(small_menu(joint(), fritters()), eat_in=240, planner=HandPlanner())
    kitchen.must(StartStep("Pork/Salt"))
    kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 30 * MIN))
    said = "Guests late: do not begin the fritters until people are there; leave the rest in the heat"
    assert kitchen.notice("advice") == said


def test_before_anything_has_begun_there_is_nothing_to_advise():
    kitchen = DeskKitchen(small_menu(joint(), fritters()), eat_in=240, planner=HandPlanner())
    kitchen.must(MoveEating(kitchen.desk.cook.eat_at + 30 * MIN))
    assert kitchen.notice("advice") == ""
