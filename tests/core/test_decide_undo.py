"""Taking back: the last act of a person with what was adopted for it, as often as there are acts."""

from dataclasses import replace

from tests.kitchen import Kitchen, gravy, minutes, plain_plan, pork, small_menu, step
from timerboard.core.commands import (
    AdoptPlan,
    CloseCook,
    DoCue,
    DropDish,
    EndStep,
    HearAlarm,
    Look,
    SetQuickTimer,
    StartStep,
    TakeReading,
    Undo,
)
from timerboard.core.cook import Cook, StepState
from timerboard.core.menu import Dish, Link, Use


def facts(cook: Cook) -> Cook:
    return replace(cook, record=())


def roasting() -> Kitchen:
    kitchen = Kitchen(small_menu(pork(), gravy()))
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    kitchen.wait(60)
    return kitchen


def test_a_fresh_cook_has_nothing_to_take_back_not_even_its_first_plan():
    assert Kitchen().refused(Undo()).said == "There is nothing to take back."


def test_a_later_plan_can_be_taken_back():
    kitchen = Kitchen()
    first = kitchen.cook.plan
    kitchen.must(AdoptPlan(plain_plan(kitchen.cook.menu, kitchen.cook.eat_at + 600_000)), Undo())
    assert kitchen.cook.plan == first


def test_taking_back_an_end_takes_back_the_rest_that_began_with_it():
    kitchen = roasting()
    before, calling = facts(kitchen.cook), kitchen.alarms()
    kitchen.must(EndStep("Pork/Roast"))
    assert len(kitchen.send(Undo())) == 2
    assert facts(kitchen.cook) == before
    assert kitchen.alarms() == calling
    assert [n.undone for n in kitchen.cook.record[-4:]] == [True, True, False, False]


def test_a_tap_that_noted_a_start_and_an_end_is_one_act():
    kitchen = Kitchen()
    before = facts(kitchen.cook)
    kitchen.must(EndStep("Pork/Salt"), Undo())
    assert facts(kitchen.cook) == before


def test_a_start_and_an_end_at_different_times_are_two_acts():
    kitchen = Kitchen()
    kitchen.must(StartStep("Pork/Salt"))
    kitchen.wait(1)
    kitchen.must(EndStep("Pork/Salt"), Undo())
    assert kitchen.phase("Pork/Salt") is not StepState.ENDED
    kitchen.must(Undo())
    assert kitchen.phase("Pork/Salt") is StepState.READY


def test_a_reading_that_ended_a_step_is_one_act():
    lamb = Dish(name="Lamb", steps=(step("Lamb", "Roast", minutes(40, 60), pull_at_c=54.0),))
    kitchen = Kitchen(small_menu(lamb))
    kitchen.must(StartStep("Lamb/Roast"), TakeReading("Lamb/Roast", 20.0))
    before = facts(kitchen.cook)
    kitchen.wait(40)
    kitchen.must(TakeReading("Lamb/Roast", 55.0, confirmed=True), Undo())
    assert facts(kitchen.cook) == before


def test_acts_are_taken_back_one_after_the_other():
    kitchen = roasting()
    kitchen.must(DoCue("Pork/Roast", "Baste"), SetQuickTimer("eggs", 60), DropDish("Gravy"))
    for gone in (lambda c: c.dropped == frozenset(), lambda c: not c.timers, lambda c: not c.lives["Pork/Roast"].cues):
        kitchen.must(Undo())
        assert gone(kitchen.cook)


def test_what_began_by_itself_later_because_of_an_act_falls_with_it():
    cool = step("Stew", "Cool", minutes(10), after=[Link(step="Stew/Boil", wait_s=300)])
    kitchen = Kitchen(small_menu(Dish(name="Stew", steps=(step("Stew", "Boil", minutes(5)), cool))), plan=False)
    kitchen.must(StartStep("Stew/Boil"))
    kitchen.wait(5)
    before = facts(kitchen.cook)
    kitchen.must(EndStep("Stew/Boil"))
    kitchen.wait(6)
    assert kitchen.phase("Stew/Cool") is StepState.RUNNING
    kitchen.must(Undo())
    assert facts(kitchen.cook) == before
    assert kitchen.phase("Stew/Boil") is not StepState.ENDED


def test_what_began_by_itself_for_another_reason_stays():
    cool = step("Stew", "Cool", minutes(10), after=[Link(step="Stew/Boil", wait_s=300)])
    kitchen = Kitchen(small_menu(Dish(name="Stew", steps=(step("Stew", "Boil", minutes(5)), cool))), plan=False)
    kitchen.must(StartStep("Stew/Boil"), EndStep("Stew/Boil"))
    kitchen.wait(4)
    kitchen.must(SetQuickTimer("eggs", 600))
    kitchen.wait(2)
    kitchen.must(Undo())
    assert kitchen.cook.timers == {}
    assert kitchen.phase("Stew/Cool") is StepState.RUNNING


def test_what_began_by_itself_before_the_act_stays():
    kitchen = roasting()
    kitchen.must(EndStep("Pork/Roast"))
    assert kitchen.phase("Pork/Rest") is StepState.RUNNING
    kitchen.wait(1)
    before = facts(kitchen.cook)
    kitchen.must(SetQuickTimer("eggs", 600))
    assert len(kitchen.send(Undo())) == 1
    assert facts(kitchen.cook) == before


def test_what_began_because_a_place_was_freed_falls_with_the_freeing():
    use = (Use(place="hob", parts=2),)
    menu = small_menu(
        Dish(name="A", steps=(step("A", "Boil", minutes(5), uses=use),)),
        Dish(name="B", steps=(step("B", "Soak", minutes(5)), step("B", "Boil", minutes(5), after=["Soak"], uses=use))),
    )
    kitchen = Kitchen(menu, plan=False)
    kitchen.must(StartStep("A/Boil"), EndStep("B/Soak"))
    before = facts(kitchen.cook)
    kitchen.must(EndStep("A/Boil"), Undo())
    assert facts(kitchen.cook) == before
    assert kitchen.send(Look()) == ()


def test_an_alarm_that_was_heard_can_be_unheard():
    kitchen = roasting()
    name = kitchen.alarms()[0].id
    kitchen.must(HearAlarm(name), Undo())
    assert kitchen.cook.heard == {}


def test_a_closed_cook_opens_again():
    kitchen = Kitchen()
    kitchen.must(CloseCook(), Undo())
    assert kitchen.cook.closed is None
