"""The greedy plan: keeps every rule, or there is none."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.bench.menus import menu_value
from tests.small_menus import menus
from tests.tiny_kitchens import EAT, OVEN, cue, finish, goal, problem, start, task, work
from timerboard.core.check_plan import broken_rules
from timerboard.core.plan import After, PlaceRoom, Stretch
from timerboard.core.question import question
from timerboard.planner.greedy import first_plan

SUPPER = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC


def starts(asked):
    made = first_plan(asked)
    assert made is not None
    return {p.id: p.start for p in made.placed}


@settings(max_examples=60, deadline=None)
@given(menus())
def test_whatever_is_planned_keeps_every_rule(menu):
    asked = question(menu, SUPPER, "UTC")
    made = first_plan(asked)
    assert made is None or broken_rules(asked, made) == ()


@settings(max_examples=25, deadline=None)
@given(menus(), st.integers(0, 9))
def test_with_facts_there_is_a_plan_that_keeps_every_rule_and_tells_how_late_it_is(menu, begun):
    asked = question(menu, SUPPER, "UTC")
    now = SUPPER - 3600
    heads = [t for t in asked.tasks if not t.after][:begun]
    facts = {t.id: t.model_copy(update={"started": now - 60, "cues": ()}) for t in heads}
    tasks = tuple(facts.get(t.id, t) for t in asked.tasks)
    late = asked.model_copy(update={"tasks": tasks, "not_before": now, "late_ok": True})
    made = first_plan(late)
    assert made is None or broken_rules(late, made) == ()


@settings(max_examples=25, deadline=None)
@given(menus())
def test_soonest_keeps_every_rule_from_its_start_on(menu):
    asked = question(menu, SUPPER, "UTC", not_before=SUPPER, soonest=True)
    made = first_plan(asked)
    assert made is None or (broken_rules(asked, made) == () and made.starts_at >= SUPPER)


@pytest.mark.parametrize("hands", [1, 2])
@pytest.mark.parametrize("seed", range(10))
def test_a_supper_of_twelve_dishes_gets_a_plan(seed, hands):
    asked = question(menu_value(seed, 12, hands), SUPPER, "UTC")
    made = first_plan(asked)
    assert made is not None
    assert broken_rules(asked, made) == ()


@pytest.mark.parametrize(("dishes", "hands"), [(24, 1), (32, 2), (40, 2)])
@pytest.mark.parametrize("seed", [0, 1, 100])
def test_a_feast_gets_a_plan_though_hands_are_wanted_all_day(seed, dishes, hands):
    asked = question(menu_value(seed, dishes, hands), SUPPER, "UTC")
    made = first_plan(asked)
    assert made is not None
    assert broken_rules(asked, made) == ()


def test_a_chain_is_put_as_late_as_the_meal_allows():
    # 600 + 300 s back from the meal.
    asked = problem(task("roast", 600), task("rest", 300, after=(After(task="roast"),)))
    assert starts(asked) == {"rest": EAT - 300, "roast": EAT - 900}


def test_two_temperatures_take_turns_with_time_to_change():
    # The pie must be served hot, the bread may wait: bread ends a change of 60 degrees, 360 s, before the pie begins.
    bread = task("bread", 500, uses=(("oven", 1),), heat_c=200)
    pie = task("pie", 400, uses=(("oven", 1),), heat_c=140)
    asked = problem(bread, pie, places=(OVEN,), goals=(goal("bread", hold=3000), goal("pie", hold=0)))
    assert starts(asked) == {"pie": EAT - 400, "bread": EAT - 400 - 360 - 500}


def test_a_tied_step_is_pushed_earlier_until_what_it_follows_fits():
    # The roux asks for hands for 100 and must end at most 50 before the milk; the cook is busy from 300 to 200 before
    # the meal with the fish, which must go to the table at once. Roux ends at 300 before, milk starts by 250 before.
    asked = problem(
        work("roux", 100),
        task("milk", 220, after=(After(task="roux", within_s=50),)),
        work("fish", 300),
        goals=(goal("fish", hold=0), goal("milk", hold=600)),
    )
    found = starts(asked)
    assert found["fish"] == EAT - 300
    assert found["milk"] - (found["roux"] + 100) <= 50
    assert found["roux"] + 100 <= EAT - 300


def test_an_elastic_step_stretches_when_two_limits_pull_at_it():
    # Pie out at 900 before the meal at the latest (the rack is taken then); its rest of 300-800 s must begin within 60
    # and the dish may stand for 100 at most: the rest ends at 100 before the meal at the earliest, so it is stretched.
    rack = PlaceRoom(name="rack", room=1)
    asked = problem(
        task("pie", 500, uses=(("rack", 1),)),
        task("rest", 300, 800, after=(After(task="pie", within_s=60),)),
        task("buns", 900, uses=(("rack", 1),)),
        places=(rack,),
        goals=(goal("buns", hold=0), goal("rest", hold=100)),
    )
    found = first_plan(asked)
    rest = found.by_id["rest"]
    assert found.by_id["pie"].end <= EAT - 900
    assert rest.end >= EAT - 100
    assert rest.end - rest.start >= 740


def test_cues_move_out_of_the_way_of_work():
    # Baste due 500 into a roast that ends with the meal, that is at 500 before it; the whisking, to be served at once,
    # holds the only hands from 550 to 400 before. 100 s of play: basting moves to 50 s of work ending at 550 before.
    roast = task("roast", 1000, cues=(cue("baste", 500, play=100, work_s=50),))
    whisk = work("whisk", 150, after=())
    plate = task("plate", 400, after=(After(task="whisk", within_s=0),))
    asked = problem(roast, whisk, plate, goals=(goal("plate", hold=0), goal("roast", hold=0)))
    found = first_plan(asked)
    assert found is not None
    assert found.cues[0].at in {EAT - 600, EAT - 400}


def test_hands_at_both_ends_of_a_step_leave_the_middle_free():
    roast = task("roast", 1000, hands=(start(100), finish(50)))
    asked = problem(roast, work("chop", 850), goals=(goal("roast", hold=0), goal("chop")))
    assert starts(asked) == {"roast": EAT - 1000, "chop": EAT - 900}


def test_closed_hours_hold_no_work():
    asked = problem(work("chop", 100), closed=(Stretch(start=EAT - 500, end=EAT),))
    assert starts(asked) == {"chop": EAT - 600}


def test_what_cannot_be_has_no_plan():
    # Two dishes that must each be finished by hand in the very last moment, and one pair of hands.
    asked = problem(work("fry", 100), work("toss", 100), goals=(goal("fry", hold=0), goal("toss", hold=0)))
    assert first_plan(asked) is None
    circle = problem(task("a", 10, after=(After(task="b"),)), task("b", 10, after=(After(task="a"),)), goals=())
    assert first_plan(circle) is None


def test_late_is_found_to_the_minute():
    # 900 s of work from now on, and 600 s left: 300 s late, whatever is done.
    asked = problem(
        work("chop", 400), work("fry", 500, after=(After(task="chop"),)), late_ok=True, not_before=EAT - 600
    )
    found = first_plan(asked)
    assert found.late_s == 300
    # Without an order between them only trying tells: within a minute of the truth.
    found = first_plan(problem(work("chop", 400), work("fry", 500), late_ok=True, not_before=EAT - 600))
    assert 300 <= found.late_s <= 360


def test_soonest_slides_the_shortest_plan_to_its_start():
    # Two jobs of 300 and 500 by one pair of hands: done 800 after the start.
    asked = problem(
        work("chop", 300), work("fry", 500), soonest=True, not_before=2_000, goals=(goal("chop"), goal("fry"))
    )
    found = first_plan(asked)
    assert (found.starts_at, found.span_s, found.eat_at) == (2_000, 800, 2_800)


@pytest.mark.parametrize("more", [{}, {"late_ok": True}, {"soonest": True}])
def test_nothing_to_cook_is_a_plan_of_nothing(more):
    found = first_plan(problem(not_before=EAT, **more))
    assert found is not None
    assert found.placed == ()


def test_the_same_question_gets_the_same_plan():
    asked = question(menu_value(3, 12, 1), SUPPER, "UTC")
    assert first_plan(asked) == first_plan(asked)


def test_work_by_name_leaves_nobody_half_a_job():
    # Person 1 fries from 400 before the meal on, person 2 kneads from 600 to 400 before it. Stirring for 350 up to 300
    # before the meal would never have more than two at work, but neither of them could do all of it: it ends at 400.
    asked = problem(
        work("fry", 400, person=1),
        work("knead", 200, person=2),
        task("prove", 400, after=(After(task="knead"),)),
        work("stir", 350),
        task("season", 300, after=(After(task="stir"),)),
        pairs=2,
        goals=(goal("fry", hold=0), goal("prove", hold=0), goal("season", hold=0)),
    )
    found = first_plan(asked)
    assert found is not None
    assert {p.id: p.person for p in found.placed if p.person} == {"fry": 1, "knead": 2, "stir": 1}
    assert found.by_id["stir"].end == EAT - 400


def test_a_window_between_closed_hours_is_found_a_day_later():
    # Chopping takes an hour and goes straight to the table; the kitchen is open for one hour only, from 20 h after the
    # meal on: it is 21 h late.
    closed = (Stretch(start=EAT - 900_000, end=EAT + 72_000), Stretch(start=EAT + 75_600, end=EAT + 900_000))
    asked = problem(
        work("chop", 3600), closed=closed, late_ok=True, not_before=EAT - 600, goals=(goal("chop", hold=0),)
    )
    found = first_plan(asked)
    assert found is not None
    assert found.late_s == 75_600


def test_a_goal_without_steps_asks_for_nothing():
    asked = problem(
        work("chop", 300), goals=(goal("chop"), goal("chop").model_copy(update={"dish": "air", "last": ()}))
    )
    found = first_plan(asked)
    assert found is not None
    assert found.starts_at == EAT - 300
