"""Slack: how much later each step may start."""

from tests.tiny_kitchens import EAT, OVEN, cue, goal, plan, problem, task, work
from timerboard.core.plan import After, HandsChange, PlaceRoom, Stretch
from timerboard.planner.slack import with_slack


def slack(asked, **at):
    return {p.id: p.slack_s for p in with_slack(asked, plan(asked, **at)).placed}


def test_what_holds_up_the_meal_has_none_and_what_waits_has_its_wait():
    asked = problem(task("roast", 600), task("rest", 300, after=(After(task="roast"),)), task("salad", 100))
    found = slack(asked, roast=(EAT - 900, EAT - 300), rest=(EAT - 300, EAT), salad=(EAT - 500, EAT - 400))
    assert found == {"roast": 0, "rest": 0, "salad": 400}


def test_elastic_steps_give_way_first():
    # The rest of 300-800 is planned at 500: the roast may be 200 late, and the rest may start 200 later.
    asked = problem(task("roast", 600), task("rest", 300, 800, after=(After(task="roast"),)))
    found = slack(asked, roast=(EAT - 1100, EAT - 500), rest=(EAT - 500, EAT))
    assert found == {"roast": 200, "rest": 200}


def test_a_most_time_limits_how_late_a_step_may_follow():
    asked = problem(task("roux", 100), task("milk", 100, after=(After(task="roux", within_s=60),)))
    found = slack(asked, roux=(1000, 1100), milk=(1100, 1200))
    assert found == {"roux": EAT - 1200, "milk": 60}


def test_what_comes_next_on_a_place_holds_up_too():
    # Room for one: the tart must be out when the bread goes in, 200 s later; with a wait for heat, 60 degrees at 6 s,
    # nothing is left of 360.
    rack = PlaceRoom(name="rack", room=1)
    tart, bread = task("tart", 300, uses=(("rack", 1),)), task("bread", 300, uses=(("rack", 1),))
    asked = problem(tart, bread, places=(rack,), goals=(goal("tart"), goal("bread")))
    assert slack(asked, tart=(EAT - 800, EAT - 500), bread=(EAT - 300, EAT)) == {"tart": 200, "bread": 0}
    hot = [task(n, 300, uses=(("oven", 1),), heat_c=h) for n, h in (("tart", 140), ("bread", 200))]
    asked = problem(*hot, places=(OVEN,))
    assert slack(asked, tart=(EAT - 960, EAT - 660), bread=(EAT - 300, EAT)) == {"tart": 0, "bread": 0}


def test_hands_are_handed_on():
    asked = problem(work("chop", 100), work("whisk", 100))
    assert slack(asked, chop=(EAT - 250, EAT - 150), whisk=(EAT - 100, EAT)) == {"chop": 50, "whisk": 0}


def test_two_pairs_of_hands_do_not_hold_up_each_other():
    asked = problem(work("chop", 100), work("whisk", 100), pairs=2)
    assert slack(asked, chop=(EAT - 250, EAT - 150), whisk=(EAT - 100, EAT)) == {"chop": 150, "whisk": 0}


def test_hands_that_leave_and_closed_hours_end_the_slack():
    # Everybody leaves 1000 s before the meal, in one kitchen for good, in the other to come back.
    leave = (HandsChange(at=-1_000_000, pairs=1), HandsChange(at=EAT - 1000, pairs=0))
    assert slack(problem(work("chop", 100), hands=leave), chop=(EAT - 1300, EAT - 1200)) == {"chop": 200}
    closed = (Stretch(start=EAT - 1000, end=EAT - 500),)
    assert slack(problem(work("chop", 100), closed=closed), chop=(EAT - 1300, EAT - 1200)) == {"chop": 200}
    assert slack(problem(task("boil", 100, live_heat=True), closed=closed), boil=(EAT - 1300, EAT - 1200)) == {
        "boil": 200
    }


def test_a_cue_comes_along_with_its_step():
    # The baste, 500 into the roast, is done 100 s before the chopping begins, and that may begin 50 s later: 150.
    roast = task("roast", 1000, cues=(cue("baste", 500, work_s=50),))
    asked = problem(roast, work("chop", 300), goals=(goal("roast"), goal("chop", by=EAT - 1000)))
    found = slack(asked, roast=(EAT - 2000, EAT - 1000), chop=(EAT - 1350, EAT - 1050))
    assert found == {"roast": 150, "chop": 50}


def test_a_shut_door_holds_up_what_would_open_it():
    # The bread goes in 100 s before the souffle shuts the door for 600; the souffle itself has 50 s.
    souffle = task("souffle", 900, uses=(("oven", 1),), shut_s=600)
    bread = task("bread", 2000, uses=(("oven", 1),))
    asked = problem(souffle, bread, places=(OVEN,), goals=(goal("souffle"), goal("bread")))
    found = slack(asked, souffle=(EAT - 950, EAT - 50), bread=(EAT - 2050, EAT - 50))
    assert found == {"souffle": 50, "bread": 50}


def test_facts_have_none():
    asked = problem(task("boil", 100, started=0))
    assert slack(asked, boil=(0, 100)) == {"boil": 0}
