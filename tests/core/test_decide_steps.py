"""Commands about steps: what they make, what follows by itself, and what is refused with which words."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, gravy, minutes, pork, small_menu, step
from timerboard.core.alarms import calls, next_change
from timerboard.core.commands import (
    DoCue,
    DropDish,
    EndStep,
    Look,
    NotYet,
    ReopenStep,
    ReviseDuration,
    SetQuickTimer,
    StartStep,
)
from timerboard.core.cook import StepState
from timerboard.core.events import BoardReturned, GivenMoreTime, StepEnded, StepStarted
from timerboard.core.menu import Dish, Heat, Link, Place, Use, Work


def told(events: tuple) -> list[tuple[str, str, bool]]:
    return [(e.kind, e.step, getattr(e, "by_itself", False)) for e in events]


def chain(*steps, places=None) -> Kitchen:
    """A kitchen with one dish of these steps, no plan."""
    menu = small_menu(Dish(name="Stew", steps=steps), **({"places": places} if places else {}))
    return Kitchen(menu, plan=False)


def test_ending_a_step_starts_the_rest_that_follows_it():
    kitchen = Kitchen(small_menu(pork(), gravy()))
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    answer = kitchen.send(EndStep("Pork/Roast"))
    assert told(answer) == [("StepEnded", "Pork/Roast", False), ("StepStarted", "Pork/Rest", True)]
    assert answer[1].who is None
    assert kitchen.phase("Gravy/Cook the roux") is StepState.READY  # that one needs hands


def test_a_tap_on_a_step_nobody_started_notes_both():
    kitchen = Kitchen()
    answer = kitchen.send(EndStep("Pork/Salt"), "Ana")
    assert told(answer) == [("StepStarted", "Pork/Salt", False), ("StepEnded", "Pork/Salt", False)]
    assert [e.who for e in answer] == ["Ana", "Ana"]


def test_the_first_step_of_a_dish_never_begins_by_itself():
    kitchen = chain(step("Stew", "Soak", minutes(60)))
    kitchen.wait(600)
    assert kitchen.phase("Stew/Soak") is StepState.READY


def test_a_wait_passes_before_the_follow_on_begins_by_itself():
    cool = step("Stew", "Cool", minutes(10), after=[Link(step="Stew/Boil", wait_s=300)])
    kitchen = chain(step("Stew", "Boil", minutes(5)), cool)
    kitchen.must(StartStep("Stew/Boil"), EndStep("Stew/Boil"))
    ended = kitchen.now
    assert next_change(kitchen.cook, ended) == ended + 5 * MIN
    kitchen.wait(4.9)
    assert kitchen.phase("Stew/Cool") is StepState.READY
    kitchen.wait(1)
    assert kitchen.cook.lives["Stew/Cool"].started == ended + 5 * MIN


def test_a_machine_that_slept_finds_the_step_running_since_its_wait_was_over():
    cool = step("Stew", "Cool", minutes(60), after=[Link(step="Stew/Boil", wait_s=300)])
    kitchen = chain(step("Stew", "Boil", minutes(5)), cool)
    kitchen.must(StartStep("Stew/Boil"), EndStep("Stew/Boil"))
    ended = kitchen.now
    kitchen.now += 40 * MIN
    kitchen.take(BoardReturned(**kitchen.stamp(), away_ms=40 * MIN))
    kitchen.must(SetQuickTimer("eggs", 60))
    assert kitchen.cook.lives["Stew/Cool"].started == ended + 5 * MIN
    assert [e.kind for e in kitchen.events[-2:]] == ["StepStarted", "QuickTimerSet"]
    assert kitchen.events[-2].wall_ms == ended + 5 * MIN


def test_an_oven_that_has_had_its_time_lets_a_step_begin_by_itself():
    oven = Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1200))
    kitchen = Kitchen(
        small_menu(
            Dish(
                name="Stew",
                steps=(
                    step("Stew", "Cut", minutes(5), work=Work(throughout=True)),
                    step("Stew", "Bake", minutes(30), after=["Cut"], uses=(Use(place="oven"),), heat_c=160.0),
                ),
            ),
            places=(oven,),
        )
    )
    kitchen.must(EndStep("Stew/Cut"), DoCue("@oven", "oven at 160 C for Stew/Bake"))
    set_at = kitchen.now
    assert [a.since - set_at for a in calls(kitchen.cook, set_at) if a.kind == "start"] == [20 * MIN + 5000]
    assert next_change(kitchen.cook, set_at + 19 * MIN) == set_at + 20 * MIN
    kitchen.now += 50 * MIN
    kitchen.must(Look())
    assert kitchen.cook.lives["Stew/Bake"].started == set_at + 20 * MIN


def test_a_full_place_delays_a_start_until_another_step_ends():
    hob = Place(name="hob", room=1)
    menu = small_menu(
        Dish(name="A", steps=(step("A", "Boil", minutes(5), uses=(Use(place="hob"),)),)),
        Dish(
            name="B",
            steps=(
                step("B", "Cut", minutes(5), work=Work(throughout=True)),
                step("B", "Simmer", minutes(5), after=["Cut"], uses=(Use(place="hob"),)),
            ),
        ),
        places=(hob,),
    )
    kitchen = Kitchen(menu, plan=False)
    kitchen.wait(235)
    kitchen.must(StartStep("A/Boil"), EndStep("B/Cut"))
    assert kitchen.phase("B/Simmer") is StepState.READY
    assert "hob is full" in [a.detail for a in kitchen.alarms() if a.step == "B/Simmer"]
    kitchen.wait(5)
    assert told(kitchen.send(EndStep("A/Boil"))) == [("StepEnded", "A/Boil", False), ("StepStarted", "B/Simmer", True)]


def test_a_step_does_not_join_one_that_minds_its_heat_more():
    oven = Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1200))
    use = (Use(place="oven"),)
    souffle = step("Souffle", "Bake", minutes(30), uses=use, heat_c=160.0, heat_within_c=1.0, work=Work(start_s=60))
    menu = small_menu(
        Dish(name="Souffle", steps=(souffle,)),
        Dish(
            name="Stew",
            steps=(
                step("Stew", "Cut", minutes(5), work=Work(throughout=True)),
                step("Stew", "Bake", minutes(30), after=["Cut"], uses=use, heat_c=164.0),
            ),
        ),
        places=(oven,),
    )
    kitchen = Kitchen(menu, plan=False)
    kitchen.must(StartStep("Souffle/Bake"), EndStep("Stew/Cut"))
    assert kitchen.phase("Stew/Bake") is StepState.READY


@pytest.mark.parametrize(("heat", "begins"), [(160.0, True), (164.0, True), (180.0, False)])
def test_an_unattended_step_begins_only_in_a_heat_that_suits(heat, begins):
    oven = Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1200))
    use = (Use(place="oven"),)
    kitchen = chain(
        step("Stew", "Brown", minutes(5), uses=use, heat_c=160.0, work=Work(start_s=60)),
        step("Stew", "Bake", minutes(30), after=["Brown"], uses=use, heat_c=heat),
        places=(oven,),
    )
    kitchen.must(StartStep("Stew/Brown"), EndStep("Stew/Brown"))
    assert (kitchen.phase("Stew/Bake") is StepState.RUNNING) is begins


def test_an_oven_that_nobody_set_starts_nothing():
    oven = Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1200))
    kitchen = chain(
        step("Stew", "Cut", minutes(5), work=Work(throughout=True)),
        step("Stew", "Bake", minutes(30), after=["Cut"], uses=(Use(place="oven"),), heat_c=160.0),
        places=(oven,),
    )
    kitchen.must(EndStep("Stew/Cut"))
    kitchen.wait(210)  # half an hour before the meal
    assert kitchen.phase("Stew/Bake") is StepState.READY
    assert kitchen.calls() == ["Start: bake the stew"]


def test_starting_too_soon_offers_to_end_what_runs_before_it():
    kitchen = Kitchen()
    kitchen.must(StartStep("Pork/Salt"))
    refusal = kitchen.refused(StartStep("Pork/Roast"))
    assert refusal.said == "'Salt the pork' has not ended. End it now?"
    assert refusal.ask == EndStep("Pork/Salt")


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (StartStep("Pork/Rest"), "'Roast the pork' comes first."),
        (EndStep("Pork/Rest"), "'Roast the pork' comes first."),
        (StartStep("Pork/Fly"), "There is no step Pork/Fly."),
        (ReopenStep("Pork/Salt"), "'Salt the pork' has not ended."),
        (NotYet("Pork/Salt"), "'Salt the pork' is not running."),
    ],
)
def test_what_cannot_be_done_is_refused_in_words(command, said):
    assert Kitchen().refused(command).said == said


def test_twice_is_refused():
    kitchen = Kitchen()
    kitchen.must(StartStep("Pork/Salt"))
    assert kitchen.refused(StartStep("Pork/Salt")).said == "'Salt the pork' is running already."
    kitchen.must(EndStep("Pork/Salt"))
    assert kitchen.refused(EndStep("Pork/Salt")).said == "'Salt the pork' has ended already."


def test_nothing_is_done_to_a_dropped_dish():
    kitchen = Kitchen()
    kitchen.must(DropDish("Pork"))
    assert "Pork was dropped" in kitchen.refused(StartStep("Pork/Salt")).said


def test_not_yet_asks_again_after_a_third_of_what_is_left():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    kitchen.wait(50)
    assert kitchen.refused(NotYet("Pork/Roast")).said == "Roast the pork: 10 min to the first look anyway."
    kitchen.wait(10)
    answer = kitchen.send(NotYet("Pork/Roast"))
    assert isinstance(answer[0], GivenMoreTime)
    assert answer[0].until == kitchen.now + 10 * MIN
    kitchen.wait(9)
    assert "Check the pork" not in [a.sentence for a in kitchen.alarms() if a.rank > 1]
    kitchen.wait(1)
    assert "Check the pork" in kitchen.calls()


def test_not_yet_past_the_high_end_comes_back_soon_and_as_often_as_asked():
    kitchen = chain(step("Stew", "Bake", minutes(20, 30)))
    kitchen.must(StartStep("Stew/Bake"))
    kitchen.wait(31)
    for _ in range(5):
        assert kitchen.calls() == ["Finish: bake the stew"]
        kitchen.must(NotYet("Stew/Bake"))
        assert kitchen.calls() == []
        kitchen.wait(3)


def test_a_reading_asked_for_before_the_low_end_can_wait_four_minutes():
    lamb = step("Stew", "Roast", minutes(60, 90), pull_at_c=54.0)
    kitchen = chain(lamb)
    kitchen.must(StartStep("Stew/Roast"))
    kitchen.wait(39)
    kitchen.refused(NotYet("Stew/Roast"))
    kitchen.wait(1)
    assert kitchen.calls() == ["Probe the stew"]
    kitchen.must(NotYet("Stew/Roast"))
    assert kitchen.calls() == []
    kitchen.wait(4)
    assert kitchen.calls() == ["Probe the stew"]


def test_reopening_waits_for_a_second_end():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    kitchen.wait(70)
    kitchen.must(EndStep("Pork/Roast"), ReopenStep("Pork/Roast"))
    assert kitchen.phase("Pork/Rest") is StepState.WAITING
    answer = kitchen.send(EndStep("Pork/Roast"))
    assert isinstance(answer[0], StepEnded)
    assert isinstance(answer[1], StepStarted)


def test_what_a_person_began_since_forbids_reopening():
    kitchen = Kitchen()
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    assert "'Roast the pork' has begun since" in kitchen.refused(ReopenStep("Pork/Salt")).said


def test_an_ended_step_has_no_other_length():
    kitchen = Kitchen()
    kitchen.must(ReviseDuration("Pork/Salt", minutes(5)), EndStep("Pork/Salt"))
    assert "has ended already" in kitchen.refused(ReviseDuration("Pork/Salt", minutes(6))).said


def test_a_look_at_a_kitchen_where_nothing_began_writes_nothing():
    kitchen = Kitchen(small_menu(fritters()))
    assert kitchen.send(Look()) == ()


def test_a_refusal_quotes_the_job_and_says_of_which_dish_where_the_job_does_not():
    chill = step("Stew", "Take off the chill", minutes(40, 75))
    kitchen = chain(chill, step("Stew", "Roast", minutes(70), after=["Take off the chill"]))
    kitchen.must(StartStep("Stew/Take off the chill"))
    assert kitchen.refused(StartStep("Stew/Roast")).said == "'Take off the chill' (stew) has not ended. End it now?"
