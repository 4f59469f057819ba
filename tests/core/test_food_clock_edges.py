"""Which clock of several counts, what begins one and what does not, and that no limit of a dish goes unheard."""

import pytest

from tests.kitchen import MIN, PLACES, Kitchen, minutes, small_menu, step
from timerboard.core.alarm_values import Rank
from timerboard.core.alarms import calls
from timerboard.core.commands import DoCue, DropDish, EndStep, StartStep, TakeReading
from timerboard.core.events import ClockStepped
from timerboard.core.food_clocks import PUT_AWAY, ClockKind, food_clocks
from timerboard.core.menu import Dish, Place, Use, Work
from timerboard.core.safety_alarms import clock_line
from timerboard.core.safety_rules import celsius

HOB = (Use(place="hob"),)
COUNTER = (Use(place="counter"),)
FRIDGE = (Use(place="fridge"),)
STEW = "Bean stew"


def kitchen_of(*dishes: Dish, eat_in: float = 600, **more) -> Kitchen:
    return Kitchen(
        small_menu(*dishes, places=(*PLACES, Place(name="fridge")), **more), eat_in=eat_in, plan=False, check=False
    )


def cooked(kitchen: Kitchen, *steps: str, for_min: float = 10) -> None:
    """These steps one after the other, each for so long."""
    for name in steps:
        if kitchen.cook.lives[name].started is None:
            kitchen.must(StartStep(name))
        kitchen.wait(for_min)
        if kitchen.cook.lives[name].ended is None:
            kitchen.must(EndStep(name, confirmed=True))


def clocks(kitchen: Kitchen):
    return food_clocks(kitchen.cook, kitchen.now)


def dangers(kitchen: Kitchen):
    return [alarm for alarm in kitchen.alarms() if alarm.rank is Rank.DANGER]


def two_pots() -> Dish:
    return Dish(
        name=STEW, steps=(step(STEW, "Simmer", minutes(10), uses=HOB), step(STEW, "Boil", minutes(10), uses=HOB))
    )


def test_of_two_parts_that_left_the_heat_the_one_that_has_been_out_longest_counts():
    kitchen = kitchen_of(two_pots())
    first = kitchen.now + 10 * MIN
    cooked(kitchen, f"{STEW}/Simmer", f"{STEW}/Boil")
    assert [(clock.since, clock.step) for clock in clocks(kitchen)] == [(first, f"{STEW}/Simmer")]


def test_what_is_read_while_it_is_heated_again_is_no_cooling():
    again = step(STEW, "Warm through", minutes(10), after=["Simmer"], uses=HOB)
    kitchen = kitchen_of(Dish(name=STEW, steps=(step(STEW, "Simmer", minutes(10), uses=HOB), again)))
    cooked(kitchen, f"{STEW}/Simmer")
    if kitchen.cook.lives[again.id].started is None:
        kitchen.must(StartStep(again.id))
    kitchen.wait(1)
    kitchen.must(TakeReading(again.id, 50.0))
    assert clocks(kitchen) == ()


def test_a_reading_from_before_the_last_of_it_was_heated_is_no_cooling():
    again = step(STEW, "Boil", minutes(10), after=["Simmer"], uses=HOB)
    kitchen = kitchen_of(Dish(name=STEW, steps=(step(STEW, "Simmer", minutes(10), uses=HOB), again)))
    cooked(kitchen, f"{STEW}/Simmer")
    kitchen.wait(10)
    kitchen.must(TakeReading(f"{STEW}/Simmer", 50.0))
    cooked(kitchen, f"{STEW}/Boil")
    assert {clock.kind for clock in clocks(kitchen)} == {ClockKind.LEFT_HEAT}


@pytest.mark.parametrize(
    ("dish", "do", "more", "counts"),
    [
        ("Pork", "Take off the chill", {"uses": COUNTER}, True),
        ("Pork", "Take off the chill", {"uses": COUNTER, "work": Work(throughout=True)}, False),  # it is in hand
        ("Pork", "Salt", {}, False),  # nowhere said: done on the way
        ("Pork", "Tie", {"uses": COUNTER}, False),
        (STEW, "Steep the beans", {"uses": COUNTER}, False),
        ("Baked eggs", "Stand the eggs out", {"uses": COUNTER}, False),
    ],
)
def test_raw_meat_that_stands_out_by_itself_has_a_clock_and_beans_and_eggs_have_none(dish, do, more, counts):
    cook_it = step(dish, "Cook", minutes(10), after=[do], uses=HOB)
    kitchen = kitchen_of(Dish(name=dish, steps=(step(dish, do, minutes(60), **more), cook_it)))
    kitchen.must(StartStep(f"{dish}/{do}"))
    assert [clock.kind for clock in clocks(kitchen)] == ([ClockKind.LEFT_COLD] if counts else [])


def test_meat_that_stands_in_a_brine_which_another_dish_boiled_has_its_clock():
    brine = Dish(name="Brine", steps=(step("Brine", "Boil", minutes(10), uses=HOB),))
    soak = step("Pork", "Stand in the brine", minutes(60), after=["Brine/Boil"], uses=COUNTER)
    kitchen = kitchen_of(brine, Dish(name="Pork", steps=(soak,)), table=("Pork",))
    cooked(kitchen, "Brine/Boil")
    if kitchen.cook.lives[soak.id].started is None:
        kitchen.must(StartStep(soak.id))
    assert [(clock.dish, clock.since) for clock in clocks(kitchen) if clock.dish == "Pork"] == [("Pork", kitchen.now)]


def test_a_rest_in_a_warmed_box_that_has_not_begun_keeps_nothing_hot():
    """Two hours out of the heat (USDA FSIS), four only once it is in the box (Food Code 3-501.19(B))."""
    smoke = step("Shoulder", "Smoke", minutes(60), uses=HOB)
    wrap = step("Shoulder", "Wrap", minutes(5), after=["Smoke"], work=Work(throughout=True))
    rest = step("Shoulder", "Rest", minutes(70), after=["Smoke", "Wrap"], work=Work(start_s=60), keep="in a warmed box")
    kitchen = kitchen_of(Dish(name="Shoulder", steps=(smoke, wrap, rest)))
    cooked(kitchen, smoke.id)
    assert [(c.limit - c.since) / MIN for c in clocks(kitchen)] == [120]
    kitchen.must(EndStep(wrap.id), StartStep(rest.id))
    assert [(c.limit - c.since) / MIN for c in clocks(kitchen)] == [240]


def test_a_part_that_waits_in_the_fridge_hides_no_other_that_stands_out():
    custard = step("Trifle", "Cook the custard", minutes(10), uses=HOB, keep="covered, in the fridge")
    fruit = step("Trifle", "Stew the fruit", minutes(10), uses=HOB)
    fill = step("Trifle", "Fill", minutes(10), after=["Cook the custard", "Stew the fruit"], work=Work(throughout=True))
    kitchen = kitchen_of(Dish(name="Trifle", steps=(custard, fruit, fill)))
    cooked(kitchen, custard.id, fruit.id)
    assert [clock.step for clock in clocks(kitchen)] == [fruit.id]


@pytest.mark.parametrize("first", ["Braise", "Stew the fruit"])
def test_a_part_that_is_kept_hot_hides_no_nearer_limit_of_another(first):
    """Kept hot by its words one part has four hours; the other has two, whichever of them left the heat first."""
    braise = step("Duck", "Braise", minutes(10), uses=HOB, keep="lidded, in a warmed box")
    fruit = step("Duck", "Stew the fruit", minutes(10), uses=HOB)
    carve = step("Duck", "Carve", minutes(5), after=["Braise", "Stew the fruit"], work=Work(throughout=True))
    kitchen = kitchen_of(Dish(name="Duck", steps=(braise, fruit, carve)))
    cooked(kitchen, *sorted((braise.id, fruit.id), key=lambda one: not one.endswith(first)))
    out = kitchen.cook.lives[fruit.id].ended
    assert [(clock.step, clock.limit) for clock in clocks(kitchen)] == [(fruit.id, out + 120 * MIN)]
    kitchen.must(EndStep(carve.id))  # ready: how another part was kept says nothing of this one
    assert [(clock.step, clock.limit) for clock in clocks(kitchen)] == [(fruit.id, out + 120 * MIN)]


@pytest.mark.parametrize("carved", [False, True])
def test_a_joint_whose_juices_boil_in_a_gravy_is_still_out_itself(carved):
    roast = step("Ham", "Roast", minutes(10), uses=HOB)
    carve = step("Ham", "Carve", minutes(10), after=["Roast"], work=Work(throughout=True))
    gravy = step("Gravy", "Simmer", minutes(10), after=["Ham/Roast"], uses=HOB, work=Work(start_s=60))
    ham = Dish(name="Ham", steps=(roast, carve) if carved else (roast,))
    kitchen = kitchen_of(ham, Dish(name="Gravy", steps=(gravy,)))
    cooked(kitchen, roast.id)
    kitchen.must(StartStep(gravy.id))
    assert [clock.dish for clock in clocks(kitchen)] == ["Ham"]


def test_how_a_dish_is_kept_when_it_is_ready_says_nothing_of_it_before():
    fill = step(STEW, "Fill the jars", minutes(5), after=["Simmer"], work=Work(throughout=True))
    steps = (step(STEW, "Simmer", minutes(10), uses=HOB), fill)
    kitchen = kitchen_of(Dish(name=STEW, keep="lidded, in the fridge", steps=steps))
    cooked(kitchen, f"{STEW}/Simmer")
    assert [clock.kind for clock in clocks(kitchen)] == [ClockKind.LEFT_HEAT]


def test_a_cold_reading_from_before_the_heat_is_no_first_stage_of_cooling():
    """57 °C to 21 °C within 2 h (Food Code 3-501.14(A)(1)): the raw 10 °C is none of it."""
    kitchen = kitchen_of(two_pots())
    kitchen.must(StartStep(f"{STEW}/Simmer"), TakeReading(f"{STEW}/Simmer", 10.0))
    cooked(kitchen, f"{STEW}/Simmer")
    kitchen.wait(5)
    kitchen.must(TakeReading(f"{STEW}/Simmer", 55.0))
    assert (ClockKind.COOL_FIRST, kitchen.now + 120 * MIN) in [(clock.kind, clock.limit) for clock in clocks(kitchen)]


def test_meat_that_was_in_hand_before_it_stands_out_has_its_clock_from_then():
    tie = step("Pork", "Tie", minutes(5), uses=COUNTER, work=Work(throughout=True))
    stand = step("Pork", "Take off the chill", minutes(60), after=["Tie"], uses=COUNTER, work=Work(start_s=60))
    kitchen = kitchen_of(Dish(name="Pork", steps=(tie, stand)))
    cooked(kitchen, tie.id)
    kitchen.must(StartStep(stand.id))
    assert [(clock.kind, clock.since) for clock in clocks(kitchen)] == [(ClockKind.LEFT_COLD, kitchen.now)]


def test_what_left_the_fridge_counts_from_the_first_step_that_took_it_out():
    chill = step(STEW, "Chill", minutes(60), uses=FRIDGE)
    dress = step(STEW, "Dress", minutes(5), after=["Chill"], work=Work(start_s=60))
    plate = step(STEW, "Plate", minutes(5), after=["Chill"], work=Work(start_s=60))
    kitchen = kitchen_of(Dish(name=STEW, steps=(chill, dress, plate)))
    cooked(kitchen, chill.id)
    kitchen.must(StartStep(dress.id))
    out = kitchen.now
    kitchen.wait(30)
    kitchen.must(StartStep(plate.id))
    assert [(clock.kind, clock.since) for clock in clocks(kitchen)] == [(ClockKind.LEFT_COLD, out)]


@pytest.mark.parametrize("state", ["not begun", "ended"])
def test_thawing_that_has_not_begun_or_has_ended_has_no_clock_of_thawing(state):
    thaw = step("Duck", "Thaw in cold water", minutes(60), uses=COUNTER)
    herbs = step("Duck", "Chop the herbs", minutes(5), work=Work(throughout=True))
    kitchen = kitchen_of(Dish(name="Duck", steps=(herbs, thaw)))
    kitchen.must(StartStep(herbs.id))
    if state == "ended":
        cooked(kitchen, thaw.id)
    assert [clock for clock in clocks(kitchen) if clock.kind is ClockKind.THAWING] == []


def test_a_dish_that_was_dropped_has_no_clock_and_bread_has_none():
    bread = Dish(name="Rye bread", steps=(step("Rye bread", "Bake", minutes(10), uses=(Use(place="oven"),)),))
    kitchen = kitchen_of(two_pots(), bread)
    cooked(kitchen, f"{STEW}/Simmer", "Rye bread/Bake")
    assert [clock.dish for clock in clocks(kitchen)] == [STEW]
    kitchen.must(DropDish(STEW))
    assert clocks(kitchen) == ()


@pytest.mark.parametrize(("reading", "renews"), [(celsius(135), True), (57.1, False)])
def test_135_f_to_the_letter_is_hot(reading, renews):
    """Food Code 3-501.16(A)(1): 135 °F, 57.2 °C, or above."""
    kitchen = kitchen_of(two_pots())
    cooked(kitchen, f"{STEW}/Simmer")
    out = kitchen.now
    kitchen.wait(30)
    kitchen.must(TakeReading(f"{STEW}/Simmer", reading))
    found = {clock.kind: clock.since for clock in clocks(kitchen)}
    cooling = {} if renews else {ClockKind.COOL_FIRST: kitchen.now}
    assert found == {ClockKind.LEFT_HEAT: kitchen.now if renews else out} | cooling


def test_a_joint_that_was_read_from_the_fridge_has_its_clock_when_it_leaves_the_heat():
    """It was cold before it was cooked; nobody has read it since."""
    kitchen = kitchen_of(Dish(name="Beef", steps=(step("Beef", "Roast", minutes(60), uses=HOB),)))
    kitchen.must(StartStep("Beef/Roast"), TakeReading("Beef/Roast", 4.0))
    cooked(kitchen, "Beef/Roast")
    assert [(clock.kind, clock.since) for clock in clocks(kitchen)] == [(ClockKind.LEFT_HEAT, kitchen.now)]


@pytest.mark.parametrize("reading", [4.0, 70.0])
def test_a_reading_of_another_part_neither_ends_nor_renews_a_clock(reading):
    legs = step("Duck", "Braise the legs", minutes(10), uses=HOB)
    breast = step("Duck", "Roast the breast", minutes(60), uses=HOB)
    carve = step("Duck", "Carve", minutes(5), after=["Braise the legs", "Roast the breast"])
    kitchen = kitchen_of(Dish(name="Duck", steps=(legs, breast, carve)))
    cooked(kitchen, legs.id)
    out = kitchen.now
    kitchen.must(StartStep(breast.id))
    kitchen.wait(5)
    kitchen.must(TakeReading(breast.id, reading))
    assert [(clock.step, clock.since) for clock in clocks(kitchen)] == [(legs.id, out)]


@pytest.mark.parametrize("read_on", ["Tie", "Simmer", "Bake", "Carve", "Plate"])
def test_a_reading_of_the_same_piece_counts_by_whichever_of_its_steps(read_on):
    tie, simmer = step("Ham", "Tie", minutes(5)), step("Ham", "Simmer", minutes(10), after=["Tie"], uses=HOB)
    bake = step("Ham", "Bake", minutes(10), after=["Simmer"], uses=HOB)
    carve = step("Ham", "Carve", minutes(5), after=["Bake"], work=Work(throughout=True))
    plate = step("Ham", "Plate", minutes(5), after=["Carve"], work=Work(throughout=True))
    kitchen = kitchen_of(Dish(name="Ham", steps=(tie, simmer, bake, carve, plate)))
    cooked(kitchen, tie.id, simmer.id, bake.id, carve.id)
    kitchen.must(StartStep(plate.id))
    kitchen.wait(20)
    kitchen.must(TakeReading(f"Ham/{read_on}", 65.0, confirmed=True))
    assert [clock.since for clock in clocks(kitchen)] == [kitchen.now]
    kitchen.must(TakeReading(f"Ham/{read_on}", 4.0, confirmed=True))
    assert clocks(kitchen) == ()


def test_a_cold_dish_that_was_read_in_the_fridge_counts_from_the_moment_it_is_eaten():
    salad = Dish(name="Potato salad", steps=(step("Potato salad", "Dress", minutes(5)),))
    kitchen = kitchen_of(salad, eat_in=30)
    cooked(kitchen, "Potato salad/Dress", for_min=5)
    kitchen.must(TakeReading("Potato salad/Dress", 4.0))
    kitchen.wait(40)
    assert [(clock.kind, clock.since) for clock in clocks(kitchen)] == [(ClockKind.ON_TABLE, kitchen.cook.eat_at)]


def test_a_cold_reading_of_any_part_of_what_is_on_the_table_ends_its_clock():
    dish = Dish(name="Potato salad", steps=tuple(step("Potato salad", do, minutes(5)) for do in ("Dress", "Chop")))
    kitchen = kitchen_of(dish, eat_in=30)
    cooked(kitchen, *(one.id for one in dish.steps), for_min=5)
    kitchen.wait(40)
    assert len(clocks(kitchen)) == 1
    kitchen.must(TakeReading("Potato salad/Dress", 4.0))
    assert clocks(kitchen) == ()


def test_hot_oil_of_one_part_renews_no_clock_of_another():
    fry = step("Duck", "Fry the skin", minutes(10), uses=HOB, hazard="hot oil")
    kitchen = kitchen_of(Dish(name="Duck", steps=(step("Duck", "Braise", minutes(10), uses=HOB), fry)))
    cooked(kitchen, "Duck/Braise")
    out = kitchen.now
    kitchen.must(StartStep(fry.id))
    kitchen.wait(5)
    kitchen.must(TakeReading(fry.id, 175.0, "oil"))
    assert [clock.since for clock in clocks(kitchen)] == [out]


@pytest.mark.parametrize(("reading", "kind"), [(21.0, ClockKind.COOL_ALL), (21.5, ClockKind.COOL_FIRST)])
def test_the_first_stage_of_cooling_ends_at_21_degrees(reading, kind):
    """Food Code 3-501.14(A)(1): 70 °F, 21 °C."""
    kitchen = stew_that_cools()
    kitchen.wait(60)
    kitchen.must(TakeReading(f"{STEW}/Simmer", reading))
    assert kind in {clock.kind for clock in clocks(kitchen)}


def test_5_degrees_to_the_letter_is_cold():
    """Food Code 3-501.16(A)(2): 41 °F, 5 °C, or less."""
    kitchen = kitchen_of(two_pots())
    cooked(kitchen, f"{STEW}/Simmer")
    kitchen.must(TakeReading(f"{STEW}/Simmer", 5.0))
    assert clocks(kitchen) == ()


def test_put_away_twice_the_last_time_counts():
    again = step(STEW, "Warm through", minutes(10), after=["Simmer"], uses=HOB, work=Work(start_s=60))
    kitchen = kitchen_of(Dish(name=STEW, steps=(step(STEW, "Simmer", minutes(10), uses=HOB), again)))
    cooked(kitchen, f"{STEW}/Simmer")
    kitchen.must(DoCue(f"{STEW}/Simmer", PUT_AWAY))
    kitchen.wait(60)
    cooked(kitchen, again.id)
    kitchen.wait(10)
    assert len(clocks(kitchen)) == 1
    kitchen.must(DoCue(again.id, PUT_AWAY))
    assert clocks(kitchen) == ()


def test_a_part_of_a_dish_is_never_on_the_table_by_itself():
    dressing = Dish(name="Cream dressing", steps=(step("Cream dressing", "Whisk", minutes(5)),))
    salad = Dish(
        name="Potato salad", steps=(step("Potato salad", "Dress", minutes(5), after=["Cream dressing/Whisk"]),)
    )
    kitchen = kitchen_of(dressing, salad, eat_in=30, table=("Potato salad",))
    cooked(kitchen, "Cream dressing/Whisk", "Potato salad/Dress", for_min=5)
    kitchen.wait(30)
    assert [(clock.kind, clock.dish) for clock in clocks(kitchen)] == [(ClockKind.ON_TABLE, "Potato salad")]


def test_what_left_the_heat_when_it_was_eaten_already_is_on_the_table():
    kitchen = kitchen_of(Dish(name="Ham", steps=(step("Ham", "Roast", minutes(10), uses=HOB),)), eat_in=5)
    cooked(kitchen, "Ham/Roast")
    (clock,) = clocks(kitchen)
    assert (clock.kind, clock.said, clock.left) == (ClockKind.ON_TABLE, "on the table", None)


def stew_that_cools(*others: Dish) -> Kitchen:
    """A stew with two clocks: out of the heat, and since it was read at 55 °C ten minutes later cooling as well."""
    kitchen = kitchen_of(two_pots(), *others)
    cooked(kitchen, f"{STEW}/Simmer")
    kitchen.wait(10)
    kitchen.must(TakeReading(f"{STEW}/Simmer", 55.0))
    assert [clock.kind for clock in clocks(kitchen)] == [ClockKind.LEFT_HEAT, ClockKind.COOL_FIRST]
    return kitchen


def test_two_clocks_of_a_dish_are_one_call():
    kitchen = stew_that_cools()
    kitchen.wait(119)
    assert [alarm.verb for alarm in dangers(kitchen)] == ["Do not serve"]


def test_a_dish_with_two_clocks_silences_no_other_dish():
    kitchen = stew_that_cools(Dish(name="Ham", steps=(step("Ham", "Roast", minutes(10), uses=HOB),)))
    cooked(kitchen, "Ham/Roast")
    kitchen.wait(120)
    assert {alarm.dish for alarm in dangers(kitchen)} == {STEW, "Ham"}


def test_the_words_of_a_limit_are_the_wall_clocks():
    """The kitchen is opened at 00:00 of a day in UTC; the wall clock steps an hour ahead and no countdown moves."""
    kitchen = kitchen_of(two_pots())
    cooked(kitchen, f"{STEW}/Simmer")
    (clock,) = clocks(kitchen)
    before = clock_line(kitchen.cook, clock, kitchen.now)[-5:]
    kitchen.take(ClockStepped(**kitchen.stamp(), by_ms=3_600_000, offset_ms=3_600_000))
    after = clock_line(kitchen.cook, clock, kitchen.now)[-5:]
    assert (int(after[:2]) - int(before[:2])) % 24 == 1
    assert after[2:] == before[2:]
    kitchen.wait(110)
    (call,) = dangers(kitchen)
    assert f"since {(int(after[:2]) - 2) % 24:02d}{after[2:]}, limit {after}" in call.detail


def test_only_what_nobody_works_at_can_be_put_away():
    duck = Dish(name="Duck", steps=(step("Duck", "Thaw in cold water", minutes(600), uses=COUNTER),))
    kitchen = kitchen_of(two_pots(), duck)
    kitchen.must(StartStep("Duck/Thaw in cold water"))
    cooked(kitchen, f"{STEW}/Simmer")
    kitchen.wait(235)
    assert {alarm.dish: alarm.cue for alarm in dangers(kitchen)} == {STEW: PUT_AWAY, "Duck": None}


def test_the_limit_of_a_cold_dish_is_waited_for_before_it_is_on_the_table():
    salad = Dish(name="Potato salad", steps=(step("Potato salad", "Dress", minutes(5)),))
    kitchen = kitchen_of(salad, eat_in=30)
    cooked(kitchen, "Potato salad/Dress", for_min=5)
    coming = [call.since - kitchen.cook.eat_at for call in calls(kitchen.cook, kitchen.now) if call.rank is Rank.DANGER]
    assert coming == [105 * MIN, 120 * MIN]


def test_raw_meat_that_stands_out_keeps_its_clock_when_it_is_read_cold_at_first():
    stand = step("Pork", "Take off the chill", minutes(60), uses=COUNTER)
    kitchen = kitchen_of(
        Dish(name="Pork", steps=(stand, step("Pork", "Roast", minutes(60), after=[stand.do], uses=HOB)))
    )
    kitchen.must(StartStep(stand.id))
    since = kitchen.now
    kitchen.wait(1)
    kitchen.must(TakeReading(stand.id, 4.0))
    assert [(clock.kind, clock.since) for clock in clocks(kitchen)] == [(ClockKind.LEFT_COLD, since)]
