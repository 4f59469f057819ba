"""More work than time, by counting alone; and never where there is a plan."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.planner.every_plan import kitchen_of
from tests.planner.minute_kitchens import LONG_AGO, at, kitchen, step
from timerboard.core.plan import HandsChange, PlaceRoom, Stretch
from timerboard.planner.greedy import first_plan
from timerboard.planner.overload import hands_between, overload


def test_the_window_is_as_wide_as_holds_let_it_be():
    # Frying 20 may end up to 5 before the meal, whisking 20 too: both lie in the last 25, which hold 25 of work.
    found = overload(kitchen(step("Fry/Fry", 20, work="all"), step("Whip/Whisk", 20, work="all"), hold=5))
    assert (found.place, found.start, found.end) == ("", at(-25), at(0))
    assert (found.work_s, found.room_s) == (40 * 60, 25 * 60)


def test_just_enough_time_is_enough():
    assert overload(kitchen(step("Fry/Fry", 20, work="all"), step("Whip/Whisk", 20, work="all"), hold=20)) is None


def test_hands_at_the_ends_of_steps_count_where_they_fall():
    # Three roasts straight to the table with 5 of hands each at the end: 15 in the last 5.
    roasts = [step(f"Roast {n}/Roast", 60, work=(0, 5)) for n in range(3)]
    found = overload(kitchen(*roasts, hold=0, pairs=2))
    assert (found.work_s, found.room_s) == (15 * 60, 10 * 60)
    assert overload(kitchen(*roasts, hold=0, pairs=3)) is None


def test_only_as_many_dishes_are_named_as_it_takes():
    tasks = [step(f"Dish {n}/Stir", takes, work="all") for n, takes in enumerate((9, 8, 2, 1))]
    found = overload(kitchen(*tasks, hold=4))
    assert found.dishes == ("Dish 0", "Dish 1")


def test_a_place_is_counted_by_its_parts():
    # Two pans of 3 and 2 rings for 10, straight to the table: 50 ring-minutes in 40.
    tasks = (step("Soup/Simmer", 10, uses=(("hob", 3),)), step("Rice/Boil", 10, uses=(("hob", 2),)))
    found = overload(kitchen(*tasks, hold=0, places=(PlaceRoom(name="hob", room=4),)))
    assert (found.place, found.work_s, found.room_s) == ("hob", 50 * 60, 40 * 60)


def test_hands_by_time_and_closed_hours_are_what_there_is():
    # From 30 before the meal on two pairs; the kitchen closed from 20 to 10 before it.
    hands = (HandsChange(at=LONG_AGO, pairs=1), HandsChange(at=at(-30), pairs=2))
    closed = (Stretch(start=at(-20), end=at(-15)), Stretch(start=at(-15), end=at(-10)))
    between = hands_between(kitchen(step("Soup/Stir", 1, work="all"), hands=hands, closed=closed))
    assert between(at(-40), at(-30)) == 10 * 60
    assert between(at(-40), at(0)) == (10 + 20 + 20) * 60
    assert between(at(-18), at(-12)) == 0


def test_a_meal_that_may_move_has_no_window():
    tasks = (step("Fry/Fry", 20, work="all"), step("Whip/Whisk", 20, work="all"))
    assert overload(kitchen(*tasks, hold=5, not_before=at(-10), late_ok=True)) is None
    assert overload(kitchen(*tasks, hold=5, not_before=at(-10), soonest=True)) is None


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 1_000_000))
def test_what_has_a_plan_is_never_too_much(seed):
    problem = kitchen_of(seed)
    assert first_plan(problem) is None or overload(problem) is None
