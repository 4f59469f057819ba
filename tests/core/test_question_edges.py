"""The question of a running cook to the second: lengths past their plan, ovens on their way, closed hours, readings."""

from datetime import UTC, datetime

import pytest

from tests.kitchen import minutes, step
from timerboard.core.cook import Cook, PlaceHeat, Reading, StepLife, StepState
from timerboard.core.menu import Closed, Dish, Heat, Menu, Place, Use, Work
from timerboard.core.question import question, question_of_cook
from timerboard.core.values import MS

EAT = int(datetime(2026, 12, 21, 18, 30, tzinfo=UTC).timestamp())
NOW = EAT - 3600
DAY = 86_400
PLACES = (
    Place(name="oven", room=2, heat=Heat(low_c=60, high_c=220, preheat_s=1200)),
    Place(name="hob", room=4),
    Place(name="counter"),
)
OVEN, HOB = Use(place="oven"), Use(place="hob")
ROAST = step("D", "Roast", minutes(30, 45))
NIGHT = (Closed(start_min=23 * 60, end_min=7 * 60),)


def one(*steps, **more) -> Menu:
    return Menu(title="t", serves=4, places=PLACES, dishes=(Dish(name="D", steps=steps, hold_s=1800),), **more)


def cook(menu: Menu, lives=None, **more) -> Cook:
    known = {name: (lives or {}).get(name, StepLife()) for name in menu.steps}
    fields = {"menu_hash": "", "opened": 0, "eat_at": EAT * MS, "zone": "UTC", "offset_ms": 0, **more}
    return Cook(menu=menu, lives=known, **fields)


def running(since_s: int, **more) -> StepLife:
    return StepLife(state=StepState.RUNNING, started=(NOW - since_s) * MS, **more)


def now_of(made: Cook, now: int = NOW):
    return {task.id: task for task in question_of_cook(made, now * MS).tasks}


@pytest.mark.parametrize(
    ("gone_min", "least_s"),
    [
        (39, 40 * 60),  # 30 to 45 min is planned at 40
        (40, 40 * 60 + 200),  # due and not ended: two thirds of the 5 min to its high end more
        (42, 44 * 60),
        (50, 50 * 60),  # over it: it may end now
    ],
)
def test_a_step_that_nobody_must_end_by_hand_is_given_two_thirds_of_what_is_left(gone_min, least_s):
    task = now_of(cook(one(ROAST), {"D/Roast": running(gone_min * 60)}))["D/Roast"]
    assert (task.least_s, task.most_s) == (least_s, least_s)


def test_hands_that_are_there_throughout_need_no_time_of_their_own_to_end_it():
    stir = step("D", "Stir", minutes(10), work=Work(throughout=True))
    assert now_of(cook(one(stir), {"D/Stir": running(900)}))["D/Stir"].least_s == 900


def test_a_dish_of_which_one_step_has_ended_is_a_goal_still():
    rest = step("D", "Rest", minutes(10), after=["Roast"])
    ended = StepLife(state=StepState.ENDED, started=0, ended=(NOW - 60) * MS)
    made = question_of_cook(cook(one(ROAST, rest), {"D/Roast": ended}), NOW * MS)
    assert [goal.dish for goal in made.goals] == ["D"]


def test_a_step_that_was_ended_without_a_start_took_no_time():
    ended = StepLife(state=StepState.ENDED, ended=(NOW - 60) * MS)
    task = now_of(cook(one(ROAST), {"D/Roast": ended}))["D/Roast"]
    assert (task.started, task.ended, task.least_s) == (NOW - 60, NOW - 60, 0)


def test_ahead_is_counted_from_the_meal_of_the_cook():
    salt = step("D", "Salt", minutes(5), ahead_s=DAY)
    assert now_of(cook(one(salt)))["D/Salt"].earliest == EAT - DAY


def test_a_hob_has_no_temperature_whatever_fries_on_it():
    fry = step("D", "Fry", minutes(30), uses=(HOB,), heat_c=175.0)
    rooms = question_of_cook(cook(one(fry), {"D/Fry": running(60)}), NOW * MS).places
    assert [room.now_c for room in rooms] == [None, None, None]  # and the oven is not what the hob is


def test_an_oven_is_as_hot_as_what_cooks_in_it_also_where_that_needs_another_place_as_well():
    bake = step("D", "Bake", minutes(30), uses=(OVEN, Use(place="counter")), heat_c=200.0)
    assert question_of_cook(cook(one(bake), {"D/Bake": running(60)}), NOW * MS).places[0].now_c == 200.0


def test_an_oven_that_has_had_its_time_is_hot_and_no_hotter():
    heats = {"oven": PlaceHeat(heat_c=180.0, set_at=(NOW - 7200) * MS)}
    assert question_of_cook(cook(one(ROAST), heats=heats), NOW * MS).places[0].now_c == 180.0


def test_an_oven_that_was_set_a_moment_ago_is_no_colder_than_a_room():
    heats = {"oven": PlaceHeat(heat_c=100.0, set_at=NOW * MS)}
    assert question_of_cook(cook(one(ROAST), heats=heats), NOW * MS).places[0].now_c == 20.0


def nights(stretches, after: int) -> int:
    return sum(stretch.start >= after for stretch in stretches)


def test_closed_hours_are_known_for_two_weeks_before_a_meal_and_two_days_after_it():
    closed = question(one(ROAST, closed=NIGHT), EAT, "UTC").closed
    assert (nights(closed, EAT), len(closed) - nights(closed, EAT)) == (2, 14)


def test_a_meal_as_soon_as_may_be_knows_the_closed_hours_of_two_weeks_after_its_start():
    closed = question(one(ROAST, closed=NIGHT), EAT, "UTC", soonest=True, not_before=EAT + DAY).closed
    assert nights(closed, EAT + DAY) == 14


def test_a_start_before_the_two_weeks_is_covered_by_closed_hours_too():
    closed = question(one(ROAST, closed=NIGHT), EAT, "UTC", not_before=EAT - 20 * DAY).closed
    assert len(closed) - nights(closed, EAT) == 20


def test_a_running_cook_knows_the_closed_hours_from_now_on_and_after_a_meal_that_is_long_past():
    nap = (Closed(start_min=17 * 60 + 45, end_min=18 * 60),)
    made = question_of_cook(cook(one(ROAST, closed=nap)), NOW * MS)
    assert made.closed[0].start == EAT - 45 * 60
    late = question_of_cook(cook(one(ROAST, closed=NIGHT)), (EAT + 5 * DAY) * MS)
    assert nights(late.closed, EAT + 5 * DAY) == 2


def test_time_in_hand_is_kept_for_a_meal_with_an_hour_and_not_for_one_as_soon_as_may_be():
    asked = one(ROAST, in_hand_s=900)
    assert question(asked, EAT, "UTC").in_hand_s == 900
    assert question(asked, EAT, "UTC", soonest=True).in_hand_s == 0


def test_time_in_hand_is_there_to_be_used_up_once_something_has_begun():
    asked = one(ROAST, in_hand_s=900)
    assert question_of_cook(cook(asked), NOW * MS).in_hand_s == 900
    assert question_of_cook(cook(asked, {"D/Roast": running(60)}), NOW * MS).in_hand_s == 0


def test_only_a_place_with_a_heat_of_its_own_is_heated():
    assert [room.heated for room in question(one(ROAST), EAT, "UTC").places] == [True, False, False]


JOINT = step("D", "Roast", minutes(60, 120), uses=(OVEN,), pull_at_c=80.0, work=Work(end_s=120))


def read(gone_min: float, *readings: tuple[float, float]) -> Cook:
    """A joint that has roasted so long, read at these minutes."""
    start = NOW - round(gone_min * 60)
    taken = tuple(Reading((start + round(at * 60)) * MS, celsius) for at, celsius in readings)
    return cook(one(JOINT), {"D/Roast": running(round(gone_min * 60), readings=taken)})


def test_one_reading_says_nothing_of_a_length_and_two_do():
    # 60 to 120 min is planned at 100; a degree a minute from 20 °C reaches 80 °C after 80 min.
    assert now_of(read(20, (20, 20.0)))["D/Roast"].least_s == 100 * 60
    assert now_of(read(40, (20, 20.0), (40, 40.0)))["D/Roast"].least_s == 80 * 60


def test_a_joint_that_is_there_now_still_needs_the_hands_that_take_it_out():
    assert now_of(read(80, (20, 20.0), (40, 40.0)))["D/Roast"].least_s == 82 * 60
