"""Commands about cues, places, readings, alarms, countdowns and the whole meal."""

import math

import pytest

from tests.kitchen import MIN, Kitchen, fritters, gravy, minutes, pork, small_menu, step
from timerboard.core.alarms import next_change
from timerboard.core.commands import (
    AddDish,
    AdoptPlan,
    ClearQuickTimer,
    CloseCook,
    DoCue,
    DropDish,
    EndStep,
    HearAlarm,
    Hush,
    MoveEating,
    PassOverCue,
    PutOff,
    SetQuickTimer,
    StartStep,
    TakeReading,
    Undo,
)
from timerboard.core.cook import Reading, StepState
from timerboard.core.engine import LIFT
from timerboard.core.events import ReadingTaken, StepEnded
from timerboard.core.menu import Batches, Cue, Dish, Use
from timerboard.core.reading_sense import doubt, swapped

SETTING = "oven at 160 C for Pork/Roast"


def lamb() -> Dish:
    return Dish(
        name="Lamb",
        steps=(
            step("Lamb", "Roast", minutes(40, 60), uses=(Use(place="oven"),), pull_at_c=54.0),
            step("Lamb", "Rest", minutes(10, 20), after=["Roast"], elastic=True),
        ),
    )


def roasting(*readings: float) -> Kitchen:
    """Lamb in the oven, read every ten minutes."""
    kitchen = Kitchen(small_menu(lamb()))
    kitchen.must(StartStep("Lamb/Roast"))
    for celsius in readings:
        kitchen.wait(10)
        kitchen.must(TakeReading("Lamb/Roast", celsius))
    return kitchen


def basting(**cue: object) -> Kitchen:
    roast = step("Ham", "Roast", minutes(60), cues=(Cue(do="Baste", work_s=60, **cue),))
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(roast,))))
    kitchen.must(StartStep("Ham/Roast"))
    return kitchen


def test_a_cue_may_be_done_early_and_counts_from_then():
    kitchen = basting(every_s=1200)
    kitchen.wait(15)
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.wait(19)
    assert [a.kind for a in kitchen.alarms()] == ["heads-up"]
    kitchen.wait(1)
    assert kitchen.calls() == ["Baste the ham"]


def test_a_cue_has_only_so_many_times():
    kitchen = basting(every_s=600, times=2)
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.wait(1)
    kitchen.must(PassOverCue("Ham/Roast", "Baste"))
    assert "every one of them" in kitchen.refused(DoCue("Ham/Roast", "Baste")).said


def test_a_double_tap_is_one_answer():
    kitchen = basting(every_s=600, times=2)
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.now += 1500
    assert kitchen.send(DoCue("Ham/Roast", "Baste")) == kitchen.send(PassOverCue("Ham/Roast", "Baste")) == ()
    kitchen.now += 500
    assert len(kitchen.send(DoCue("Ham/Roast", "Baste"))) == 1


def test_a_single_cue_is_done_once():
    kitchen = basting(at_fraction=0.5)
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    kitchen.refused(DoCue("Ham/Roast", "Baste"))


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (DoCue("Pork/Roast", "Baste"), "'Roast the pork' is not running."),
        (DoCue("Pork/Fly", "Baste"), "There is no step Pork/Fly."),
        (DoCue("@oven", "oven at 999 C"), "The plan has no such setting any more."),
        (PassOverCue("@oven", SETTING), "A place that food goes into has to be set. Put it off instead."),
    ],
)
def test_a_cue_that_is_none_is_refused(command, said):
    assert Kitchen().refused(command).said == said


def test_a_place_is_set_once_and_checked_once():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.must(DoCue("@oven", SETTING))
    assert kitchen.refused(DoCue("@oven", SETTING)).said == "That was answered already."
    kitchen.must(DoCue("@oven?", SETTING))
    kitchen.refused(DoCue("@oven?", SETTING))


def test_batches_are_lifted_one_by_one_and_the_last_ends_the_step():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    for _ in range(3):
        kitchen.must(DoCue("Fritters/Fry", LIFT))
        kitchen.wait(5)
    assert "every one of them" in kitchen.refused(DoCue("Fritters/Fry", LIFT)).said


def test_a_reading_below_the_pull_is_kept_and_ends_nothing():
    kitchen = roasting(20.0)
    assert kitchen.cook.lives["Lamb/Roast"].readings[0].celsius == 20.0
    assert kitchen.phase("Lamb/Roast") is StepState.RUNNING


def test_a_reading_at_the_pull_is_asked_about_and_then_ends_the_step():
    kitchen = roasting(20.0, 40.0)
    kitchen.wait(10)
    refusal = kitchen.refused(TakeReading("Lamb/Roast", 54.0))
    assert refusal.said.startswith(
        "54 °C is under the rule for meat in one piece: 62.8 °C and a rest of 3 min (USDA FSIS)."
    )
    assert refusal.said.endswith("End it now?")
    assert refusal.ask == TakeReading("Lamb/Roast", 54.0, confirmed=True)
    answer = kitchen.send(refusal.ask)
    assert isinstance(answer[0], ReadingTaken)
    assert isinstance(answer[1], StepEnded)
    assert answer[1].by_reading
    assert kitchen.phase("Lamb/Rest") is StepState.RUNNING


def chicken() -> Kitchen:
    """Three loads in hot oil, each done when its middle reads 74 C."""
    each, recover = minutes(6, 7), minutes(2)
    fry = step(
        "Chicken",
        "Fry",
        minutes(22, 25),
        pull_at_c=74.0,
        hazard="hot oil",
        batches=Batches(count=3, each=each, recover=recover),
    )
    kitchen = Kitchen(small_menu(Dish(name="Chicken", steps=(fry,))))
    kitchen.must(StartStep("Chicken/Fry"))
    return kitchen


def test_a_reading_at_the_pull_lifts_a_batch_and_ends_the_last():
    kitchen = chicken()
    kitchen.wait(6)
    assert [(a.sentence, a.detail) for a in kitchen.alarms()] == [
        ("Lift batch 1 of 3: the chicken", "74 °C in the middle?")
    ]
    for _ in range(2):
        before = kitchen.cook.lives
        refusal = kitchen.refused(TakeReading("Chicken/Fry", 75.0))
        assert refusal.said == "75 °C, and it is pulled at 74 °C. Fry the chicken: lift this batch?"
        kitchen.must(refusal.ask, Undo())
        assert kitchen.cook.lives == before
        kitchen.must(refusal.ask)
        assert kitchen.phase("Chicken/Fry") is not StepState.ENDED
        kitchen.wait(8)
    kitchen.must(TakeReading("Chicken/Fry", 75.0, confirmed=True))
    assert kitchen.phase("Chicken/Fry") is StepState.ENDED


def test_the_next_load_is_cold_again_and_that_is_no_slip():
    kitchen = chicken()
    kitchen.wait(6)
    kitchen.must(TakeReading("Chicken/Fry", 75.0, confirmed=True))
    kitchen.wait(4)
    kitchen.must(TakeReading("Chicken/Fry", 30.0))


def test_an_oil_reading_never_ends_a_step():
    kitchen = roasting()
    assert len(kitchen.send(TakeReading("Lamb/Roast", 180.0, "oil"))) == 1


def test_a_slip_of_the_finger_is_asked_about_and_kept_when_it_was_meant():
    kitchen = roasting(25.0, 45.0)
    kitchen.wait(5)
    refusal = kitchen.refused(TakeReading("Lamb/Roast", 5.0))
    assert refusal.said == "5 °C, after 45 °C before: is it right?"
    kitchen.must(refusal.ask)
    assert kitchen.cook.lives["Lamb/Roast"].readings[-1].celsius == 5.0


def test_a_reading_that_is_no_number_or_of_nothing_that_runs_is_refused():
    assert roasting().refused(TakeReading("Lamb/Roast", math.nan)).said == "That is not a temperature."
    assert roasting().refused(TakeReading("Lamb/Roast", 5000.0, confirmed=True)).said == "That is not a temperature."
    assert roasting().refused(TakeReading("Lamb/Rest", 50.0)).said == "'Rest the lamb' is not running."


def test_swapped_digits_are_offered_back():
    last = (Reading(0, 45.0), Reading(10 * MIN, 66.0), Reading(11 * MIN, 170.0, "oil"))
    assert doubt(last, 17.0, "core", 15 * MIN, "C") == "17 °C, after 66 °C before: is it right? Or 71 °C?"
    assert doubt(last, 71.0, "core", 15 * MIN, "C") == ""
    assert swapped(44.0) is swapped(7.0) is swapped(17.5) is None


def test_what_no_food_can_be_is_asked_about():
    assert doubt((), 300.0, "core", 0, "C") == "300 °C is beyond what the core can be. Is it right?"
    assert doubt((), 300.0, "oven", 0, "C") == ""
    assert "572 °F" in doubt((), 300.0, "core", 0, "F")


def test_a_core_climbs_fast_only_in_long_gaps():
    last = roasting(20.0).cook.lives["Lamb/Roast"].readings
    assert doubt(last, 60.0, "core", last[-1].at + MIN, "C") != ""
    assert doubt(last, 60.0, "core", last[-1].at + 30 * MIN, "C") == ""


def ringing() -> Kitchen:
    """Eggs ring."""
    kitchen = Kitchen(small_menu(gravy()), plan=False)
    kitchen.must(SetQuickTimer("eggs", 390))
    kitchen.wait(6.5)
    return kitchen


def eggs(kitchen: Kitchen) -> str:
    return next(a.id for a in kitchen.alarms() if a.cue == "eggs")


def test_putting_off_is_at_most_five_minutes_and_comes_back_by_itself():
    kitchen = ringing()
    name = eggs(kitchen)
    kitchen.must(PutOff(name, 3600))
    alarm = next(a for a in kitchen.alarms() if a.id == name)
    assert (alarm.answered, alarm.returns_at) == ("put off", kitchen.now + 5 * MIN)
    assert next_change(kitchen.cook, kitchen.now) == kitchen.now + 5 * MIN
    kitchen.wait(5)
    assert next(a for a in kitchen.alarms() if a.id == name).answered == "unacknowledged"


def test_danger_is_never_put_off():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(30)
    danger = kitchen.alarms()[0]
    assert danger.rank.name == "DANGER"
    assert kitchen.refused(PutOff(danger.id)).said == "See to the fritters: this cannot be put off."


def test_what_does_not_call_cannot_be_answered():
    kitchen = Kitchen()
    for command in (HearAlarm("cue|x"), PutOff("cue|x")):
        assert kitchen.refused(command).said == "That does not call any more."


def test_a_hush_lasts_two_minutes_at_most():
    kitchen = ringing()
    kitchen.must(Hush(600))
    assert kitchen.cook.hushed_until == kitchen.now + 2 * MIN


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (SetQuickTimer(" ", 60), "A countdown needs a name: eggs 6:30."),
        (SetQuickTimer("eggs", 0), "A countdown lasts from 1 s to 7 days."),
        (ClearQuickTimer("eggs"), "There is no countdown called eggs."),
        (DropDish("Trifle"), "There is no dish called Trifle."),
        (AddDish(pork()), "There is a dish called Pork already."),
        (MoveEating(0), "That moment is past already."),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(command, said):
    assert Kitchen().refused(command).said == said


def test_two_countdowns_have_two_names():
    kitchen = ringing()
    assert "another name" in kitchen.refused(SetQuickTimer("eggs", 60)).said
    kitchen.must(ClearQuickTimer("eggs"))
    assert "eggs" not in kitchen.cook.timers


def test_a_dish_is_dropped_once_and_a_step_is_added_once():
    kitchen = Kitchen()
    kitchen.must(DropDish("Gravy"))
    assert kitchen.refused(DropDish("Gravy")).said == "Gravy was dropped already."
    clash = Dish(name="More pork", steps=pork().steps)
    assert kitchen.refused(AddDish(clash)).said == "There is a step called Pork/Salt already."


def test_dropping_a_dish_starts_what_waited_for_its_place():
    use = (Use(place="hob", parts=2),)
    menu = small_menu(
        Dish(name="A", steps=(step("A", "Boil", minutes(5), uses=use),)),
        Dish(name="B", steps=(step("B", "Soak", minutes(5)), step("B", "Boil", minutes(5), after=["Soak"], uses=use))),
    )
    kitchen = Kitchen(menu, plan=False)
    kitchen.must(StartStep("A/Boil"), EndStep("B/Soak"), DropDish("A"))
    assert kitchen.phase("B/Boil") is StepState.RUNNING


def test_moving_the_meal_to_where_it_is_writes_nothing():
    kitchen = Kitchen()
    assert kitchen.send(MoveEating(kitchen.cook.eat_at)) == ()
    kitchen.must(MoveEating(kitchen.cook.eat_at + MIN))


def test_after_closing_little_can_be_done():
    kitchen = Kitchen()
    plan = kitchen.cook.plan
    kitchen.must(CloseCook())
    for command in (StartStep("Pork/Salt"), AdoptPlan(plan), CloseCook(), DropDish("Pork")):
        assert kitchen.refused(command).said.startswith("The cook is closed.")
    assert kitchen.alarms() == ()
