"""After the meal: one call for all that is left, one answer, one step of undo; and clocks that should not begin."""

from tests.kitchen import MIN, PLACES, Kitchen, minutes, small_menu, step
from timerboard.core.alarm_values import Kind, Rank
from timerboard.core.commands import CloseCook, DoCue, EndStep, PutAway, StartStep, TakeReading, Undo
from timerboard.core.cook_record import cook_record
from timerboard.core.cooling_log import cooling_log
from timerboard.core.food_clocks import PUT_AWAY, ClockKind, food_clocks
from timerboard.core.leftovers import leftovers
from timerboard.core.menu import Dish, Place, Use, Work
from timerboard.core.view import view

HOB, FRIDGE, COUNTER = (Use(place="hob"),), (Use(place="fridge"),), (Use(place="counter"),)
WITH_FRIDGE = (*PLACES, Place(name="fridge"))


def boiled(name: str, **more: object) -> Dish:
    return Dish(name=name, steps=(step(name, "Boil", minutes(10), uses=HOB),), **more)


def eaten(*names: str, eat_in: float = 20) -> Kitchen:
    """Everything boiled, ready five minutes before it is eaten; it is the moment of the meal."""
    kitchen = Kitchen(small_menu(*(boiled(name) for name in names)), eat_in=eat_in, plan=False)
    kitchen.must(*(StartStep(f"{name}/Boil") for name in names))
    kitchen.wait(eat_in - 5)
    kitchen.must(*(EndStep(f"{name}/Boil") for name in names))
    kitchen.wait(5)
    return kitchen


def away(kitchen: Kitchen):
    return [a for a in kitchen.alarms() if a.kind is Kind.AWAY]


def dangers(kitchen: Kitchen):
    return [a for a in kitchen.alarms() if a.rank is Rank.DANGER]


def test_half_an_hour_before_the_nearest_limit_one_call_names_all_that_is_left():
    kitchen = eaten("Beans", "Mash")
    assert [c.dish for c in leftovers(kitchen.cook, kitchen.now)] == ["Beans", "Mash"]
    kitchen.wait(84.9)
    assert away(kitchen) == []
    kitchen.wait(0.1)
    (call,) = away(kitchen)
    assert (call.sentence, call.rank) == ("Put away what is left", Rank.DUE)
    assert call.detail.endswith(": beans and mash")
    assert dangers(kitchen) == []


def test_its_key_answers_for_all_and_undo_brings_all_back():
    kitchen = eaten("Beans", "Mash")
    kitchen.wait(10)
    (job,) = [item for item in view(kitchen.cook, kitchen.now).hands if item.line == "Put away what is left"]
    assert job.answer == PutAway(("Beans", "Mash"))  # before it calls: whoever clears the table early says so
    kitchen.must(job.answer)
    assert food_clocks(kitchen.cook, kitchen.now) == ()
    kitchen.wait(200)
    assert dangers(kitchen) == away(kitchen) == []
    told = cook_record(kitchen.cook, kitchen.now)
    assert [line.split("  ")[-1] for line in told if line.endswith("put away")] == ["beans put away", "mash put away"]
    kitchen.must(Undo())
    assert {c.dish for c in food_clocks(kitchen.cook, kitchen.now)} == {"Beans", "Mash"}
    assert [a.verb for a in dangers(kitchen)] == ["Do not serve", "Do not serve"]


def test_each_can_be_put_away_singly_from_its_own_strip_and_undone_singly():
    kitchen = eaten("Beans", "Mash")
    kitchen.wait(30)  # long after a strip without a clock has gone
    strips = {strip.name: strip for strip in view(kitchen.cook, kitchen.now).strips}
    assert set(strips) == {"Beans", "Mash"}
    assert "35 min, limit" in strips["Mash"].matter
    (act,) = [act.command for act in strips["Mash"].acts if act.word == "Put away the mash"]
    kitchen.must(act)
    assert [strip.name for strip in view(kitchen.cook, kitchen.now).strips] == ["Beans"]
    kitchen.wait(60)
    (call,) = away(kitchen)
    assert call.sentence == "Put away the beans"
    kitchen.must(PutAway(("Beans",)))
    kitchen.must(Undo())
    assert [c.dish for c in food_clocks(kitchen.cook, kitchen.now)] == ["Beans"]


def test_two_things_put_away_one_after_the_other_are_two_acts():
    kitchen = eaten("Beans", "Mash")
    kitchen.must(PutAway(("Beans",)))
    kitchen.wait(1)
    kitchen.must(PutAway(("Mash",)), Undo())
    assert [c.dish for c in food_clocks(kitchen.cook, kitchen.now)] == ["Mash"]


def test_what_stands_out_no_more_is_refused_and_what_is_still_cooked_is_not_left():
    kitchen = eaten("Beans")
    kitchen.must(PutAway(("Beans", "Soup")))
    assert kitchen.refused(PutAway(("Beans",))).said == "Nothing of that stands out any more."
    fry = step("Mash", "Fry", minutes(10), after=["Boil"], uses=HOB, work=Work(throughout=True))
    dish = boiled("Mash")
    kitchen = Kitchen(small_menu(dish.model_copy(update={"steps": (*dish.steps, fry)})), eat_in=15, plan=False)
    kitchen.must(StartStep("Mash/Boil"), EndStep("Mash/Boil"))
    kitchen.wait(60)
    assert [c.kind for c in food_clocks(kitchen.cook, kitchen.now)] == [ClockKind.LEFT_HEAT]  # not served: not ready
    assert leftovers(kitchen.cook, kitchen.now) == ()


def test_it_calls_in_a_closed_cook_and_can_be_answered_there():
    kitchen = eaten("Beans")
    kitchen.must(CloseCook())
    kitchen.wait(90)
    (call,) = away(kitchen)
    kitchen.must(PutAway(("Beans",)))
    assert away(kitchen) == []
    assert call.rank is Rank.DUE


def test_a_hot_reading_and_the_cooling_log_keep_their_limits_when_it_is_put_away():
    kitchen = eaten("Beans")
    kitchen.must(TakeReading("Beans/Boil", 80.0))
    kitchen.wait(20)
    kitchen.must(TakeReading("Beans/Boil", 50.0), PutAway(("Beans",)))
    assert food_clocks(kitchen.cook, kitchen.now) == ()
    kitchen.wait(121)
    (entry,) = cooling_log(kitchen.cook, kitchen.now)
    assert (entry.first.met, entry.whole.met) == (False, None)
    kitchen.must(TakeReading("Beans/Boil", 18.0))
    (entry,) = cooling_log(kitchen.cook, kitchen.now)
    assert entry.first.met is False  # 121 min; the rule is two hours


def test_what_was_put_away_before_the_meal_counts_anew_from_the_table():
    kitchen = Kitchen(small_menu(boiled("Beans")), eat_in=120, plan=False)
    kitchen.must(StartStep("Beans/Boil"))
    kitchen.wait(10)
    kitchen.must(EndStep("Beans/Boil"))
    kitchen.wait(10)
    kitchen.must(DoCue("Beans/Boil", PUT_AWAY))
    kitchen.wait(50)
    assert food_clocks(kitchen.cook, kitchen.now) == ()
    kitchen.wait(60)
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert (clock.kind, clock.since) == (ClockKind.ON_TABLE, kitchen.cook.eat_at)


def test_an_overnight_soak_stays_in_the_fridge_until_it_is_taken_out():
    soak = step("Pudding", "Soak", minutes(360, 840), uses=FRIDGE, elastic=True)
    top = step("Pudding", "Crumble on top", minutes(5), after=["Soak"], uses=COUNTER, work=Work(throughout=True))
    bake = step("Pudding", "Bake", minutes(50), after=["Crumble on top"], uses=HOB, work=Work(start_s=60))
    dish = Dish(name="Pudding", ingredients=("8 eggs",), steps=(soak, top, bake))
    kitchen = Kitchen(small_menu(dish, places=WITH_FRIDGE), eat_in=900, plan=False)
    kitchen.must(StartStep(soak.id))
    kitchen.wait(400)
    kitchen.must(EndStep(soak.id))
    kitchen.wait(130)
    assert food_clocks(kitchen.cook, kitchen.now) == ()
    kitchen.must(StartStep(top.id))
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert (clock.kind, clock.since) == (ClockKind.LEFT_COLD, kitchen.now)
    kitchen.wait(5)
    kitchen.must(EndStep(top.id), StartStep(bake.id))
    assert food_clocks(kitchen.cook, kitchen.now) == ()


def test_raw_meat_that_loses_its_chill_on_the_counter_has_two_hours_and_beans_that_soak_have_none():
    out = step("Lamb", "Take off the chill", minutes(40, 75), uses=COUNTER, elastic=True)
    roast = step("Lamb", "Roast", minutes(60), after=["Take off the chill"], uses=HOB, work=Work(start_s=60))
    soak = step("Pork and beans", "Soak the beans", minutes(480), uses=COUNTER)
    lamb = Dish(name="Lamb", steps=(out, roast))
    kitchen = Kitchen(small_menu(lamb, Dish(name="Pork and beans", steps=(soak,))), eat_in=900, plan=False)
    kitchen.must(StartStep(out.id), StartStep(soak.id))
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert (clock.dish, clock.limit - clock.since) == ("Lamb", 120 * MIN)
    kitchen.wait(106)
    (call,) = dangers(kitchen)
    assert (call.sentence, call.cue) == ("Cook or chill the lamb", None)
    kitchen.must(EndStep(out.id), StartStep(roast.id))
    assert food_clocks(kitchen.cook, kitchen.now) == ()


def test_a_reading_under_57_in_the_fridge_starts_the_two_stages_of_cooling_there():
    boil = step("Stock", "Boil", minutes(10), uses=HOB)
    chill = step("Stock", "Chill", minutes(300), after=["Boil"], uses=FRIDGE)
    kitchen = Kitchen(small_menu(Dish(name="Stock", steps=(boil, chill)), places=WITH_FRIDGE), eat_in=600, plan=False)
    kitchen.must(StartStep(boil.id), EndStep(boil.id))
    kitchen.wait(30)
    kitchen.must(TakeReading(boil.id, 45.0))
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert (clock.kind, clock.limit) == (ClockKind.COOL_FIRST, kitchen.now + 120 * MIN)


def test_a_food_with_two_clocks_calls_once_by_the_nearer_limit():
    kitchen = eaten("Beans")
    kitchen.must(TakeReading("Beans/Boil", 80.0))
    kitchen.wait(30)
    kitchen.must(TakeReading("Beans/Boil", 50.0))
    assert len(food_clocks(kitchen.cook, kitchen.now)) == 2
    kitchen.wait(80)
    assert len(dangers(kitchen)) == 1


def test_hot_oil_of_an_exact_length_is_due_first_and_danger_a_minute_after():
    heat = step("Oil", "Heat", minutes(8), uses=HOB, hazard="hot oil", heat_c=175.0, work=Work(throughout=True))
    kitchen = Kitchen(small_menu(Dish(name="Oil", steps=(heat,))), plan=False)
    kitchen.must(StartStep(heat.id))
    kitchen.wait(8)
    assert [a.rank for a in kitchen.alarms() if a.step == heat.id] == [Rank.DUE]
    kitchen.wait(1)
    assert [a.rank for a in dangers(kitchen)] == [Rank.DANGER]


def test_a_cold_dish_that_is_late_counts_from_when_it_is_ready_and_not_from_the_meal_it_missed():
    mix = step("Custard", "Mix", minutes(5), work=Work(throughout=True))
    chill = step("Custard", "Chill", minutes(60), after=["Mix"], uses=FRIDGE)
    kitchen = Kitchen(small_menu(Dish(name="Custard", steps=(mix, chill)), places=WITH_FRIDGE), eat_in=30, plan=False)
    kitchen.must(StartStep(mix.id), EndStep(mix.id))
    kitchen.wait(180)
    kitchen.must(EndStep(chill.id))
    (clock,) = food_clocks(kitchen.cook, kitchen.now)
    assert (clock.kind, clock.since) == (ClockKind.ON_TABLE, kitchen.now)
    assert dangers(kitchen) == away(kitchen) == []


def test_leftovers_whose_name_has_an_article_get_no_second_one():
    kitchen = eaten("The beans")
    kitchen.wait(90)
    assert [call.sentence for call in away(kitchen)] == ["Put away the beans"]
