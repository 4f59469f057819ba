"""A joint that is early, guests that are late: common practice, no source."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, pork, small_menu
from timerboard.core.advice import early_joints, guests_late, joint_early
from timerboard.core.commands import EndStep, MoveEating, StartStep
from timerboard.core.outlook import outlook


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (29, "let it rest longer, loosely covered"),
        (30, "rest it 20-30 min uncovered so that it stops cooking, then cover it, or hold it at 65 °C to 95 °C"),
        (90, "wrap it in towels in a warmed box and read it: it must stay above 63 °C"),
        (300, "wrap it in towels in a warmed box and read it: it must stay above 63 °C"),
        (301, "carve it, chill it at once, and reheat it in stock"),
    ],
)
def test_what_to_do_depends_on_how_early_the_joint_is(minutes, said):
    assert joint_early(minutes * 60, "C") == said


def test_only_a_joint_that_would_stand_too_long_is_spoken_of():
    pulled = tuple(s.model_copy(update={"pull_at_c": 80.0 if s.do == "Roast" else None}) for s in pork().steps)
    kitchen = Kitchen(small_menu(pork().model_copy(update={"steps": pulled})), eat_in=240)
    assert early_joints(kitchen.cook, outlook(kitchen.cook, kitchen.now)) == ()
    kitchen.must(StartStep("Pork/Salt"))
    kitchen.wait(10)
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    kitchen.wait(60)
    kitchen.must(kitchen.refused(EndStep("Pork/Roast")).ask)  # 170 min before the meal
    (said,) = early_joints(kitchen.cook, outlook(kitchen.cook, kitchen.now))
    assert said.startswith("the pork is early: wrap it in towels")


def waited_for(kitchen: Kitchen) -> str:
    return guests_late(kitchen.cook, outlook(kitchen.cook, kitchen.now))


def test_a_meal_that_is_moved_because_the_kitchen_is_late_waits_for_nobody():
    """Nobody began the pork; eaten as soon as it can be, every dish is to be begun and none held back."""
    kitchen = Kitchen(small_menu(pork(), fritters()), eat_in=130)
    kitchen.wait(50)
    late = -outlook(kitchen.cook, kitchen.now).margin_ms
    assert late >= 10 * MIN
    kitchen.must(MoveEating(kitchen.cook.eat_at + late + 2 * MIN))
    assert waited_for(kitchen) == ""


def test_what_takes_an_hour_is_not_held_back_until_people_sit_and_wait_for_it():
    (salt, roast, _) = pork().steps
    straight = pork().model_copy(update={"steps": (salt, roast), "hold_s": 600})
    kitchen = Kitchen(small_menu(straight), eat_in=240)
    kitchen.must(MoveEating(kitchen.cook.eat_at + 30 * MIN))
    assert waited_for(kitchen) == "leave what is in the heat as it is"


def test_late_guests_are_waited_for_with_what_waits_for_nobody():
    kitchen = Kitchen(small_menu(pork(), fritters()), eat_in=240)
    assert waited_for(kitchen) == ""
    kitchen.must(MoveEating(kitchen.cook.eat_at + 30 * MIN))
    assert waited_for(kitchen) == "do not begin the fritters until people are there; leave the rest in the heat"
