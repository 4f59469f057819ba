"""Hot oil on its strip while it is lit, its warning before, what to do when it goes wrong, and no plan without eyes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.kitchen import Kitchen, fritters, minutes, pork, small_menu, step
from timerboard.core.alarm_values import Rank
from timerboard.core.check_plan import broken_rules
from timerboard.core.commands import EndStep, StartStep, TakeReading
from timerboard.core.cook import StepState
from timerboard.core.menu import Dish, HandsFrom, Use, Work
from timerboard.core.plan import Plan, Problem
from timerboard.core.question import question
from timerboard.core.view import view
from timerboard.planner.answer import answer
from timerboard.planner.greedy import first_plan

FRY = "Fritters/Fry"
EAT_AT = 1_797_879_600


def strip(kitchen: Kitchen, name: str = "Fritters"):
    return next(s for s in view(kitchen.cook, kitchen.now).strips if s.name == name)


def test_the_strip_says_the_oil_last_read_and_the_rule_for_as_long_as_it_fries():
    kitchen = Kitchen(small_menu(fritters()))
    assert "never leave it" not in strip(kitchen).matter
    kitchen.must(StartStep(FRY))
    assert strip(kitchen).line == "Fry · batch 1 of 4 · hob"
    assert strip(kitchen).matter.startswith("oil to 175 °C: never leave it, no water")
    kitchen.must(TakeReading(FRY, 172.0, "oil"))
    kitchen.wait(4.5)  # in its range: the rule stays
    assert strip(kitchen).matter.startswith("oil 172 °C: never leave it, no water · ")


def test_a_pot_without_hot_fat_has_no_such_words():
    kitchen = Kitchen(small_menu(pork()))
    kitchen.must(StartStep("Pork/Salt"))
    assert "never leave it" not in strip(kitchen, "Pork").matter
    assert "oil" not in strip(kitchen, "Pork").line


def test_water_and_ice_are_warned_of_before_it_is_lit():
    kitchen = Kitchen(small_menu(fritters()), eat_in=40)
    kitchen.wait(60)
    told = " ".join(a.sentence for a in kitchen.alarms() if a.rank is Rank.NOTE)
    assert "water and ice flash to steam" in told
    assert "lid that fits" in told


def test_what_to_do_when_it_smokes_or_burns_is_in_every_view():
    told = view(Kitchen(small_menu(pork())).cook, Kitchen(small_menu(pork())).now).fire
    assert [line.split(":")[0] for line in told] == ["If it smokes", "If it burns"]
    assert "Never water" in told[1]


def test_fat_that_is_fried_in_again_is_not_to_be_turned_off_between():
    hob, oil = (Use(place="hob"),), "hot oil"
    heat = step("Fritters", "Heat", minutes(15), uses=hob, hazard=oil)
    fry = step("Fritters", "Fry", minutes(10), after=["Heat"], uses=hob, hazard=oil)
    kitchen = Kitchen(small_menu(Dish(name="Fritters", hold_s=900, steps=(heat, fry))))
    kitchen.must(StartStep("Fritters/Heat"))
    kitchen.wait(15)
    kitchen.must(EndStep("Fritters/Heat"))
    assert "Let the oil stand" not in " ".join(strip(kitchen).told)
    assert kitchen.phase("Fritters/Fry") is StepState.RUNNING
    assert "Let the oil stand" not in " ".join(strip(kitchen).told)
    kitchen.wait(10)
    kitchen.must(EndStep("Fritters/Fry"))
    assert "Let the oil stand" in " ".join(strip(kitchen).told)


fried = st.tuples(st.integers(2, 40), st.sampled_from(["none", "start", "all"]), st.sampled_from(["oil", "hot fat"]))


kitchens = (st.lists(fried, min_size=1, max_size=3), st.lists(st.integers(1, 30), max_size=4), st.integers(1, 2))


def frying_question(fries, chores, pairs) -> Problem:
    works = {"none": Work(), "start": Work(start_s=60), "all": Work(throughout=True)}
    dishes = [
        Dish(
            name=f"Fry {n}",
            hold_s=7200,
            steps=(step(f"Fry {n}", "Fry", minutes(long), uses=(Use(place="hob"),), hazard=what, work=works[how]),),
        )
        for n, (long, how, what) in enumerate(fries)
    ]
    dishes += [
        Dish(name=f"Chop {n}", hold_s=7200, steps=(step(f"Chop {n}", "Chop", minutes(m), work=works["all"]),))
        for n, m in enumerate(chores)
    ]
    menu = small_menu(*dishes, hands=(HandsFrom(from_s=None, pairs=pairs),))
    return question(menu, EAT_AT, "UTC")


def assert_watched(problem: Problem, plan: Plan, pairs: int) -> None:
    """Whatever the menu says of hands: at no moment do lit pans and hands-on jobs want more people than there are."""
    assert broken_rules(problem, plan) == ()
    spans = [(p.start, p.end) for p in plan.placed]  # every step here wants somebody from its start to its end
    for moment in {start for start, _ in spans}:
        assert sum(1 for start, end in spans if start <= moment < end) <= pairs


@settings(max_examples=40, deadline=None)
@given(*kitchens)
def test_the_first_plan_keeps_a_pair_of_eyes_on_hot_fat_in_every_second(fries, chores, pairs):
    problem = frying_question(fries, chores, pairs)
    plan = first_plan(problem)
    if plan is not None:
        assert_watched(problem, plan, pairs)


@settings(max_examples=20, deadline=None)
@given(*kitchens)
def test_so_does_the_solvers_plan(fries, chores, pairs):
    """No hint: it has to find the plan by itself, as it may leave the first one anywhere."""
    problem = frying_question(fries, chores, pairs)
    plan = answer(problem, limit_s=2.0, workers=1)
    if isinstance(plan, Plan):
        assert_watched(problem, plan, pairs)


@pytest.mark.parametrize("pairs", [1, 2])
def test_the_solver_has_one_person_fry_before_the_other_or_two_side_by_side(pairs):
    """Two pans whose menu asks for no hands: where there is one pair of eyes, the rule alone keeps them apart."""
    problem = frying_question([(20, "none", "oil"), (20, "none", "hot fat")], [], pairs)
    plan = answer(problem, limit_s=2.0, workers=1)
    assert isinstance(plan, Plan)
    assert_watched(problem, plan, pairs)
    first, then = sorted(plan.placed, key=lambda p: p.start)
    assert (then.start >= first.end) is (pairs == 1)
