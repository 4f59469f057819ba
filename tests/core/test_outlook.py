"""The forecast from the facts. Every number can be worked out from the menu and plan in tests/board_scenes.py."""

from tests.board_scenes import EAT_S, MENU, MIN, PLAN, Told, at, minutes, step, supper, told
from timerboard.core import events as ev
from timerboard.core.menu import Course, Dish, Link, Menu, Place, Work
from timerboard.core.outlook import outlook
from timerboard.core.plan import Placed, Plan, Status
from timerboard.core.values import MS, Span

NOON = EAT_S - 390 * MIN  # 12:00


def line_of(*steps, room=1, hold_s=3600, more=()):
    """One dish per given step list is overkill: one dish, these steps, a hob of that room."""
    dish = Dish(name="D", steps=steps, hold_s=hold_s)
    return Menu(title="T", serves=1, places=(Place(name="hob", room=room),), dishes=(dish, *more))


def plan_of(*rows):
    placed = tuple(Placed(id=i, start=at(s) // MS, end=at(e) // MS, places=("hob",), person=p) for i, s, e, p in rows)
    return Plan(status=Status.FEASIBLE, eat_at=EAT_S, placed=placed)


def test_ended_steps_keep_their_end():
    story = supper().tell("17:44", ev.StepEnded, step="Pear frangipane/Bake")
    seen = outlook(story.cook, at("17:50")).steps["Pear frangipane/Bake"]
    assert (seen.start, seen.end_low, seen.end_likely, seen.end_high) == (at("17:17"), *[at("17:44")] * 3)


def test_a_running_step_has_what_is_left_of_its_range():
    seen = outlook(supper().cook, at("17:30")).steps["Pear frangipane/Bake"]
    assert (seen.end_low, seen.end_likely, seen.end_high) == (at("17:42"), at("17:45:20"), at("17:47"))


def test_past_its_likely_end_a_third_of_what_is_left_is_likely():
    seen = outlook(supper().cook, at("17:45:30")).steps["Pear frangipane/Bake"]
    assert (seen.end_low, seen.end_likely, seen.end_high) == (at("17:45:30"), at("17:46"), at("17:47"))


def test_a_step_that_is_over_ends_now():
    seen = outlook(supper().cook, at("17:55")).steps["Pear frangipane/Bake"]
    assert {seen.end_low, seen.end_likely, seen.end_high} == {at("17:55")}


def test_not_yet_moves_the_earliest_end():
    story = supper().tell("17:43", ev.GivenMoreTime, step="Pear frangipane/Bake", until=at("17:44:20"))
    assert outlook(story.cook, at("17:43")).steps["Pear frangipane/Bake"].end_low == at("17:44:20")


def test_what_has_not_begun_starts_at_its_planned_time():
    seen = outlook(supper().cook, at("17:42")).steps["Green beans/Blanch"]
    assert seen.start == at("18:20")
    assert seen.behind is None


def test_starts_only_slip_behind_who_had_the_hands():
    # Boil (planned 17:52) not begun at 18:02: it boils till 18:20, drains till 18:22, is mashed till 18:29; then beans.
    steps = outlook(supper().cook, at("18:02")).steps
    assert steps["Mashed potatoes/Mash"].end_likely == at("18:29")
    assert steps["Green beans/Blanch"].start == at("18:29")
    assert steps["Green beans/Blanch"].behind.before == "Mashed potatoes/Mash"


def test_a_place_is_handed_on_in_the_plans_order():
    first = step("D", "A", minutes(10), "hob")
    second = step("D", "B", minutes(10), "hob")
    plan = plan_of(("D/A", "18:00", "18:10", None), ("D/B", "18:10", "18:20", None))
    story = Told(line_of(first, second), plan=plan)
    assert outlook(story.cook, at("18:05")).steps["D/B"].start == at("18:15")  # A only starts now
    two = Told(line_of(first, second, room=2), plan=plan)
    assert outlook(two.cook, at("18:05")).steps["D/B"].start == at("18:10")  # room for both: nobody waits


def test_a_colder_oven_is_waited_for_with_the_time_of_its_change():
    # 200 to 220 C in an oven of 60-250 C that preheats in 20 min: 20/230 of 20 min = 104 s, so 2 min.
    story = supper()
    seen = outlook(story.cook, at("18:04:30")).steps
    assert seen["Pork shoulder/Roast"].end_likely == at("18:05:20")  # a third of 2:30 to its high end
    assert seen["Roast roots/Roast"].start == at("18:07:20")


def test_elastic_steps_give_way_before_anything_slips():
    # Rest lasts 25-40 min and is planned to end at 18:28. The roast ending 4 min late takes it from the rest...
    story = supper().tell("18:03", ev.StepEnded, step="Pork shoulder/Roast")
    assert outlook(story.cook, at("18:03")).steps["Pork shoulder/Rest"].end_likely == at("18:28")
    early = supper().tell("17:55", ev.StepEnded, step="Pork shoulder/Roast")
    rest = outlook(early.cook, at("17:55")).steps["Pork shoulder/Rest"]
    assert (rest.start, rest.end_likely) == (at("17:55"), at("18:28"))  # ...and it begins by itself when it can
    very_early = supper().tell("17:43", ev.StepEnded, step="Pork shoulder/Roast")
    assert outlook(very_early.cook, at("17:43")).steps["Pork shoulder/Rest"].end_likely == at("18:23")  # 40 min at most


def test_without_a_plan_only_the_recipe_orders():
    steps = outlook(supper(plan=None).cook, at("17:42")).steps
    assert steps["Mashed potatoes/Boil"].start == at("17:42")
    assert steps["Mashed potatoes/Mash"].start == at("18:02")
    assert steps["Gravy/Cook the roux"].start == steps["Pork shoulder/Roast"].end_likely


def test_waits_between_steps_are_kept():
    wait = Link(step="D/A", wait_s=300)
    menu = line_of(step("D", "A", minutes(10), "hob"), step("D", "B", minutes(5), links=(wait,)))
    assert outlook(Told(menu, plan=None).cook, at("18:00")).steps["D/B"].start == at("18:15")


def test_the_margin_is_the_least_float_and_names_where_it_lies():
    ahead = outlook(supper().cook, at("17:42"))
    # The pork: likely out at 18:03, shortest rest till 18:28: 2 min before 18:30; the roots after it end at 18:28 too.
    assert ahead.margin_ms == 2 * 60_000
    assert ahead.tightest == "Pork shoulder"
    assert ahead.dishes["Mashed potatoes"].slip_ms == 4 * 60_000  # mashed by 18:19, beans from 18:23
    assert ahead.dishes["Braised red cabbage"].slip_ms == at("18:30") - at("18:08:10")


def test_a_late_meal_has_a_negative_margin():
    # At 18:10 the potatoes, not begun, push the beans: 27 min of potatoes, 7 min of beans: 18:44, 14 min late.
    story = supper().tell("17:43", ev.StepEnded, step="Pear frangipane/Bake")
    story.tell("18:03", ev.StepEnded, step="Pork shoulder/Roast")
    story.tell("18:05", ev.StepStarted, step="Roast roots/Roast")
    story.tell("18:05", ev.StepStarted, step="Gravy/Cook the roux")
    ahead = outlook(story.cook, at("18:10"))
    assert ahead.margin_ms == -14 * 60_000
    assert ahead.tightest == "Mashed potatoes"
    assert ahead.dishes["Green beans"].slip_ms == -14 * 60_000


def test_a_ready_dish_uses_up_its_hold():
    story = supper().tell("18:08:10", ev.StepEnded, step="Braised red cabbage/Simmer")
    ahead = outlook(story.cook, at("18:10")).dishes["Braised red cabbage"]
    assert ahead.is_ready
    assert ahead.ready == at("18:08:10")
    assert ahead.hold_left_ms == 60 * 60_000 - (at("18:30") - at("18:08:10"))


def test_dropped_dishes_hold_nobody_up():
    story = supper().tell("17:43", ev.DishDropped, dish="Pork shoulder")
    ahead = outlook(story.cook, at("17:43"))
    assert "Pork shoulder" not in ahead.dishes
    assert "Pork shoulder/Rest" not in ahead.steps


def test_when_all_is_ready_the_margin_is_the_time_left():
    menu = line_of(step("D", "A", minutes(10), "hob", work=Work(throughout=True)))
    story = Told(menu, plan=None).tell("18:00", ev.StepStarted, step="D/A").tell("18:10", ev.StepEnded, step="D/A")
    ahead = outlook(story.cook, at("18:12"))
    assert (ahead.all_ready, ahead.margin_ms, ahead.tightest) == (True, 18 * 60_000, "")


def test_a_within_limits_how_far_its_step_may_slip():
    close = Link(step="D/A", within_s=120)
    menu = line_of(step("D", "A", minutes(10), "hob"), step("D", "B", minutes(5), links=(close,), work=Work(start_s=9)))
    story = Told(menu, plan=None).tell("17:00", ev.StepStarted, step="D/A").tell("17:10", ev.StepEnded, step="D/A")
    assert outlook(story.cook, at("17:11")).steps["D/B"].slip_ms == 60_000


def test_a_plan_that_contradicts_the_recipe_is_no_circle():
    menu = line_of(step("D", "A", minutes(10), "hob"), step("D", "B", minutes(10), "hob", after="A"))
    backwards = plan_of(("D/A", "18:10", "18:20", 1), ("D/B", "18:00", "18:10", 1))
    ahead = outlook(Told(menu, plan=backwards).cook, at("17:00"))
    assert set(ahead.steps) == {"D/A", "D/B"}


def test_the_readings_say_when_the_pull_will_be():
    # 71 C at 17:38 alone says nothing; with 69 C at 17:30 it rises 0.25 C a minute: 80 C at 18:14.
    acts = [
        ("15:03", ev.StepStarted, {"step": "Pork shoulder/Roast"}),
        ("17:30", ev.ReadingTaken, {"step": "Pork shoulder/Roast", "celsius": 69.0}),
        ("17:38", ev.ReadingTaken, {"step": "Pork shoulder/Roast", "celsius": 71.0}),
    ]
    seen = outlook(told(acts).cook, at("17:40")).steps["Pork shoulder/Roast"]
    assert seen.end_likely == at("18:14")
    assert seen.end_low < at("18:14") < seen.end_high


def test_everything_of_a_plan_kept_is_predicted_as_planned():
    steps = outlook(Told().cook, at("14:40")).steps
    off = {p.id for p in PLAN.placed if steps[p.id].start != p.start * MS}
    # Only what begins by itself behind an uncertain step leaves the plan: cooling 20 s after the plan's whole minute.
    assert off == {"Pear frangipane/Cool on a rack"}
    assert len(steps) == len(MENU.steps)


def test_spans_revised_are_heeded():
    span = Span(low=70 * MIN, likely=70 * MIN, high=70 * MIN)
    story = supper().tell("17:42", ev.DurationRevised, step="Braised red cabbage/Simmer", span=span)
    assert outlook(story.cook, at("17:42")).steps["Braised red cabbage/Simmer"].end_likely == at("18:18:10")


def test_the_work_at_the_end_of_a_slow_roast_keeps_no_hands_from_other_starts():
    # The bake, over since 17:47, is still in the oven at 17:50: boiling starts at 17:52 all the same.
    assert outlook(supper().cook, at("17:50")).steps["Mashed potatoes/Boil"].start == at("17:52")
    story = supper().tell("17:51", ev.DurationRevised, step="Pear frangipane/Bake", span=minutes(50))
    assert outlook(story.cook, at("17:51")).steps["Mashed potatoes/Boil"].start == at("17:52")


def test_waits_count_in_what_may_slip():
    # 18:00 + 10 min of A + 5 min wait + 5 min of B = 18:20: both may slip 10 min.
    wait = Link(step="D/A", wait_s=300)
    menu = line_of(step("D", "A", minutes(10), "hob"), step("D", "B", minutes(5), links=(wait,)))
    steps = outlook(Told(menu, plan=None).cook, at("18:00")).steps
    assert [steps[s].slip_ms for s in ("D/A", "D/B")] == [10 * 60_000] * 2


def test_two_starts_that_the_plan_has_at_once_do_not_wait_for_each_other():
    both = [step("D", name, minutes(10), work=Work(throughout=True)) for name in ("A", "B")]
    plan = plan_of(("D/A", "18:00", "18:10", 1), ("D/B", "18:05", "18:15", 1))
    assert outlook(Told(line_of(*both), plan=plan).cook, at("18:03")).steps["D/B"].start == at("18:05")


def served(until_s):
    """A soup on the hob for ten minutes from 18:00; its course is eaten half an hour before the meal, at 18:00."""
    soup = Dish(name="Soup", course="starter", hold_s=600, steps=(step("Soup", "Heat", minutes(10), "hob"),))
    course = Course(name="starter", eat_s=-1800, until_s=until_s)
    menu = Menu(title="T", serves=1, places=(Place(name="hob", room=1),), dishes=(soup,), courses=(course,))
    return Told(menu, plan=plan_of(("Soup/Heat", "18:00", "18:10", None)))


def test_a_dish_is_late_when_its_course_is_eaten_and_not_before_the_end_of_a_window():
    at_once = outlook(served(None).cook, at("17:55")).dishes["Soup"]
    assert (at_once.served, at_once.eaten) == (at("18:00"), at("18:00"))
    window = outlook(served(-900).cook, at("17:55")).dishes["Soup"]
    assert (window.served, window.eaten) == (at("18:00"), at("18:15"))
    assert window.slip_ms == at_once.slip_ms + 15 * MIN * MS


def test_a_dish_that_is_ready_has_in_hand_what_is_left_until_it_is_eaten():
    story = served(None)
    story.tell("17:40", ev.StepStarted, step="Soup/Heat")
    story.tell("17:50", ev.StepEnded, step="Soup/Heat")
    soup = outlook(story.cook, at("17:52")).dishes["Soup"]
    assert (soup.is_ready, soup.ready, soup.slip_ms) == (True, at("17:50"), 10 * MIN * MS)
