"""Clocks that nobody sets: from the heat to the table, into the fridge, or past the limit."""

import pytest

from tests.kitchen import MIN, PLACES, Kitchen, minutes, small_menu, step
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import CloseCook, DoCue, EndStep, HearAlarm, StartStep, TakeReading
from timerboard.core.cooling_log import cooling_log, record_lines
from timerboard.core.food_clocks import PUT_AWAY, ClockKind, food_clocks
from timerboard.core.menu import Course, Dish, Place, Use, Work
from timerboard.core.safety_alarms import WARN_MS, clock_line

STEW = "Bean stew"
HOB = (Use(place="hob"),)


def stew() -> Dish:
    return Dish(
        name=STEW,
        hold_s=3600,
        steps=(
            step(STEW, "Simmer", minutes(30), uses=(Use(place="hob"),)),
            step(STEW, "Stand", minutes(5, 20), after=["Simmer"], uses=(Use(place="counter"),), elastic=True),
        ),
    )


def cooked(*, eat_in: float = 60) -> Kitchen:
    """The stew has just left the hob."""
    kitchen = Kitchen(small_menu(stew()), eat_in=eat_in, plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    kitchen.wait(30)
    kitchen.must(EndStep(f"{STEW}/Simmer"))
    return kitchen


def clocks(kitchen: Kitchen):
    return food_clocks(kitchen.cook, kitchen.now)


def dangers(kitchen: Kitchen):
    return [a for a in kitchen.alarms() if a.rank is Rank.DANGER]


def test_nothing_counts_while_it_is_in_the_heat():
    kitchen = Kitchen(small_menu(stew()), plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    assert clocks(kitchen) == ()


def test_leaving_the_heat_starts_two_hours():
    kitchen = cooked()
    (clock,) = clocks(kitchen)
    assert (clock.kind, clock.since, clock.limit) == (ClockKind.LEFT_HEAT, kitchen.now, kitchen.now + 120 * MIN)
    assert clock.rule.section == "Leftovers and Food Safety"
    kitchen.wait(10)
    assert "out of the heat 10 min, limit" in clock_line(kitchen.cook, clock, kitchen.now)


def test_danger_a_quarter_of_an_hour_before_and_at_the_limit():
    kitchen = cooked()
    kitchen.wait(120 - WARN_MS / MIN - 0.02)
    assert dangers(kitchen) == []
    kitchen.wait(0.02)
    (before,) = dangers(kitchen)
    assert "limit" in before.detail
    kitchen.must(HearAlarm(before.id))
    kitchen.wait(15)
    (past,) = dangers(kitchen)
    assert past.verb == "Do not serve"
    assert past.id != before.id


def test_on_the_table_is_said_once_it_is_eaten():
    kitchen = cooked(eat_in=40)
    kitchen.wait(15)
    assert [c.kind for c in clocks(kitchen)] == [ClockKind.ON_TABLE]


@pytest.mark.parametrize(
    ("keep", "limits"),
    [("covered, in the fridge", []), ("lidded, on the lowest heat", [240]), ("under a cloth", [120]), (None, [120])],
)
def test_how_it_waits_by_the_menus_words(keep, limits):
    dish = Dish(name=STEW, keep=keep, steps=stew().steps[:1])
    kitchen = Kitchen(small_menu(dish), plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    kitchen.wait(30)
    kitchen.must(EndStep(f"{STEW}/Simmer"))
    assert [(c.limit - c.since) / MIN for c in clocks(kitchen)] == limits


def test_a_hot_reading_begins_it_anew():
    kitchen = cooked()
    kitchen.wait(60)
    kitchen.must(TakeReading(f"{STEW}/Stand", 70.0))
    (clock,) = clocks(kitchen)
    assert clock.since == kitchen.now


def test_going_back_to_the_heat_ends_it():
    warm = step(STEW, "Warm through", minutes(10), after=["Stand"], uses=(Use(place="hob"),))
    dish = stew()
    kitchen = Kitchen(small_menu(dish.model_copy(update={"steps": (*dish.steps, warm)})), plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    kitchen.wait(30)
    kitchen.must(EndStep(f"{STEW}/Simmer"))
    assert len(clocks(kitchen)) == 1
    kitchen.wait(10)
    kitchen.must(EndStep(f"{STEW}/Stand"))
    if kitchen.cook.lives[warm.id].started is None:
        kitchen.must(StartStep(warm.id))
    assert clocks(kitchen) == ()


def test_the_fridge_ends_it_and_leaving_the_fridge_starts_another():
    chill = step(STEW, "Chill", minutes(60), after=["Simmer"], uses=(Use(place="fridge"),))
    turn = step(STEW, "Turn out", minutes(5), after=["Chill"], uses=(Use(place="counter"),))
    dish = Dish(name=STEW, hold_s=3600, steps=(stew().steps[0], chill, turn))
    kitchen = Kitchen(small_menu(dish, places=(*PLACES, Place(name="fridge"))), plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    kitchen.wait(30)
    kitchen.must(EndStep(f"{STEW}/Simmer"))
    assert kitchen.cook.lives[chill.id].started is not None
    assert clocks(kitchen) == ()
    kitchen.wait(60)
    kitchen.must(EndStep(chill.id))
    assert [c.kind for c in clocks(kitchen)] == [ClockKind.LEFT_COLD]


def test_putting_it_away_ends_it():
    kitchen = cooked()
    kitchen.wait(110)
    (call,) = dangers(kitchen)
    kitchen.must(DoCue(call.step or "", PUT_AWAY))
    assert clocks(kitchen) == ()
    assert dangers(kitchen) == []


def test_leftovers_call_after_the_meal_is_closed():
    kitchen = cooked()
    kitchen.must(CloseCook())
    assert dangers(kitchen) == []
    kitchen.wait(106)
    assert [a.dish for a in dangers(kitchen)] == [STEW]
    kitchen.must(DoCue(f"{STEW}/Simmer", PUT_AWAY))
    assert dangers(kitchen) == []


def read(kitchen: Kitchen, *readings: tuple[float, float]) -> None:
    for after, celsius in readings:
        kitchen.wait(after)
        kitchen.must(TakeReading(f"{STEW}/Simmer", celsius))


def test_two_stages_of_cooling():
    kitchen = cooked()
    kitchen.must(TakeReading(f"{STEW}/Simmer", 90.0))
    read(kitchen, (20, 55.0))
    since = kitchen.now
    assert {c.kind: c.limit for c in clocks(kitchen)}[ClockKind.COOL_FIRST] == since + 120 * MIN
    read(kitchen, (100, 20.0))
    assert {c.kind: c.limit for c in clocks(kitchen)}[ClockKind.COOL_ALL] == since + 360 * MIN
    read(kitchen, (200, 4.5))
    assert clocks(kitchen) == ()
    (entry,) = cooling_log(kitchen.cook, kitchen.now)
    assert (entry.first.met, entry.first.took_s, entry.whole.met) == (True, 6000, True)
    assert any("met" in line for line in record_lines(kitchen.cook, kitchen.now))


def test_cooling_too_slowly_is_said_in_the_log():
    kitchen = cooked()
    kitchen.must(TakeReading(f"{STEW}/Simmer", 90.0))
    read(kitchen, (20, 55.0), (150, 30.0))
    (entry,) = cooling_log(kitchen.cook, kitchen.now)
    assert (entry.first.met, entry.first.took_s) == (False, None)
    assert entry.whole.met is None


def test_readings_on_the_way_up_are_no_cooling():
    kitchen = Kitchen(small_menu(stew()), plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    read(kitchen, (5, 30.0), (5, 50.0))
    kitchen.wait(20)
    kitchen.must(EndStep(f"{STEW}/Simmer"))
    assert {c.kind for c in clocks(kitchen)} == {ClockKind.LEFT_HEAT}
    assert cooling_log(kitchen.cook, kitchen.now) == ()


def test_thawing_in_water_has_four_hours_and_in_the_fridge_none():
    in_water = step("Duck", "Thaw in cold water", minutes(300), uses=(Use(place="counter"),))
    in_fridge = step("Hen", "Thaw", minutes(900), uses=(Use(place="fridge"),))
    dishes = (Dish(name="Duck", steps=(in_water,)), Dish(name="Hen", steps=(in_fridge,)))
    kitchen = Kitchen(small_menu(*dishes, places=(*PLACES, Place(name="fridge"))), eat_in=900, plan=False)
    kitchen.must(StartStep(in_water.id), StartStep(in_fridge.id))
    (clock,) = clocks(kitchen)
    assert (clock.kind, clock.dish, clock.limit - clock.since) == (ClockKind.THAWING, "Duck", 240 * MIN)
    kitchen.wait(226)
    assert [a.verb for a in dangers(kitchen)] == ["Cook or chill"]


def test_a_cold_dish_counts_from_the_moment_it_is_eaten():
    salad = Dish(name="Potato salad", steps=(step("Potato salad", "Dress", minutes(5)),))
    kitchen = Kitchen(small_menu(salad), eat_in=30, plan=False)
    kitchen.must(StartStep("Potato salad/Dress"))
    kitchen.wait(5)
    kitchen.must(EndStep("Potato salad/Dress"))
    assert clocks(kitchen) == ()
    kitchen.wait(30)
    (clock,) = clocks(kitchen)
    assert (clock.kind, clock.since) == (ClockKind.ON_TABLE, kitchen.cook.eat_at)
    kitchen.wait(120)
    assert len(dangers(kitchen)) == 1


def test_a_cold_dish_that_is_not_finished_is_not_on_the_table():
    salad = Dish(name="Potato salad", steps=(step("Potato salad", "Dress", minutes(5)),))
    kitchen = Kitchen(small_menu(salad), eat_in=30, plan=False)
    kitchen.must(StartStep("Potato salad/Dress"))
    kitchen.wait(60)
    assert clocks(kitchen) == ()


def test_what_waits_in_the_fridge_counts_from_the_moment_it_is_eaten():
    dish = Dish(name=STEW, keep="covered, in the fridge", steps=stew().steps[:1])
    kitchen = Kitchen(small_menu(dish), eat_in=60, plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    kitchen.wait(30)
    kitchen.must(EndStep(f"{STEW}/Simmer"))
    assert clocks(kitchen) == ()
    kitchen.wait(30)
    (clock,) = clocks(kitchen)
    assert (clock.kind, clock.since, clock.limit) == (ClockKind.ON_TABLE, kitchen.now, kitchen.now + 120 * MIN)
    kitchen.must(DoCue(clock.step, PUT_AWAY))
    assert clocks(kitchen) == ()


def test_putting_it_away_ends_its_cooling_until_it_is_read_again():
    kitchen = cooked()
    kitchen.must(TakeReading(f"{STEW}/Simmer", 90.0))
    read(kitchen, (20, 55.0))
    kitchen.must(DoCue(f"{STEW}/Simmer", PUT_AWAY))
    assert clocks(kitchen) == ()
    read(kitchen, (20, 40.0))
    assert [clock.kind for clock in clocks(kitchen)] == [ClockKind.COOL_FIRST]


def test_a_cold_starter_counts_from_its_own_course():
    salad = Dish(name="Potato salad", course="starter", steps=(step("Potato salad", "Dress", minutes(5)),))
    kitchen = Kitchen(small_menu(salad, courses=(Course(name="starter", eat_s=-1200),)), eat_in=60, plan=False)
    kitchen.must(StartStep("Potato salad/Dress"), EndStep("Potato salad/Dress"))
    kitchen.wait(41)
    assert [clock.since for clock in clocks(kitchen)] == [kitchen.cook.eat_at - 20 * MIN]


def test_words_about_how_a_dish_is_kept_hold_once_all_of_it_is_ready():
    cool = step(STEW, "Cool", minutes(10), after=["Simmer"], uses=(Use(place="counter"),))
    fill = step(STEW, "Fill the jars", minutes(5), after=["Cool"], keep="lidded, in the fridge")
    bread = step(STEW, "Toast the bread", minutes(5))
    kitchen = Kitchen(small_menu(Dish(name=STEW, steps=(stew().steps[0], cool, fill, bread))), plan=False)
    kitchen.must(StartStep(f"{STEW}/Simmer"))
    kitchen.wait(30)
    kitchen.must(*(EndStep(one) for one in (f"{STEW}/Simmer", cool.id, fill.id)))
    assert [clock.step for clock in clocks(kitchen)] == [f"{STEW}/Simmer"]
    kitchen.must(EndStep(bread.id))
    assert clocks(kitchen) == ()


def test_a_part_that_went_into_a_dish_on_the_hob_is_in_the_heat_again():
    sauce = Dish(name="Cream sauce", steps=(step("Cream sauce", "Cook", minutes(10), uses=HOB),))
    bake = step("Gratin", "Simmer", minutes(30), after=["Cream sauce/Cook"], uses=HOB, work=Work(start_s=60))
    menu = small_menu(sauce, Dish(name="Gratin", steps=(bake,)), table=("Gratin",))
    kitchen = Kitchen(menu, plan=False)
    kitchen.must(StartStep("Cream sauce/Cook"))
    kitchen.wait(10)
    kitchen.must(EndStep("Cream sauce/Cook"))
    assert [clock.dish for clock in clocks(kitchen)] == ["Cream sauce"]
    kitchen.must(StartStep(bake.id))
    assert clocks(kitchen) == ()


def test_a_rest_in_a_warmed_box_is_kept_hot_and_has_the_four_hours_of_time_control():
    smoke = step("Shoulder", "Smoke", minutes(60), uses=(Use(place="hob"),))
    keep = "wrapped, in a warmed box; above 60 C"
    rest = step("Shoulder", "Rest in the box", minutes(70, 180), after=["Smoke"], elastic=True, keep=keep)
    kitchen = Kitchen(small_menu(Dish(name="Shoulder", steps=(smoke, rest))), eat_in=400)
    kitchen.must(StartStep(smoke.id), EndStep(smoke.id, confirmed=True))
    kitchen.wait(1)
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert clock.rule.section == "3-501.19(B)"


def test_on_the_table_a_clock_still_says_what_the_food_left_before_the_meal():
    roast = step("Ham", "Roast", minutes(60), uses=(Use(place="hob"),))
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(roast,))), eat_in=90)
    kitchen.must(StartStep(roast.id))
    kitchen.wait(60)
    kitchen.must(EndStep(roast.id, confirmed=True))
    kitchen.wait(45)
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert (clock.kind, clock.said) == (ClockKind.ON_TABLE, "out of the heat")
