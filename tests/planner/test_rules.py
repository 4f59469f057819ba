"""One tiny kitchen for each rule; the answer is worked out beside it. Minutes count from the meal at 0."""

import pytest

from tests.planner.minute_kitchens import EAT, LONG_AGO, OVEN, M, at, kitchen, minutes, oven, planned, step
from timerboard.core.check_plan import broken_rules
from timerboard.core.plan import HandsChange, NoPlan, PlaceRoom, Stretch
from timerboard.planner.answer import answer
from timerboard.planner.greedy import first_plan


def test_a_step_starts_when_what_it_follows_has_ended_and_the_wait_is_over():
    # 30 of baking, 10 of cooling at least, 5 of icing, straight to the table: icing -5..0, baking -45..-15.
    plan = planned(kitchen(step("Cake/Bake", 30), step("Cake/Ice", 5, after=[("Cake/Bake", 10, None)]), hold=0))
    assert minutes(plan, "Cake/Bake") == (-45, -15)
    assert minutes(plan, "Cake/Ice") == (-5, 0)


def test_a_step_starts_at_most_so_long_after_what_it_follows():
    # Frying B takes the one pair of hands -20..0 (no hold). A's drain (2) needs hands within 3 of its boil's end, and
    # A may stand 60: drain must end by -20, so it lies at -22..-20 and the boil ends between -25 and -22.
    tasks = (
        step("B/Fry", 20, work="all"),
        step("A/Boil", 10),
        step("A/Drain", 2, after=[("A/Boil", 0, 3)], work="all"),
    )
    plan = planned(kitchen(*tasks, holds={"B": 0}))
    assert minutes(plan, "A/Drain") == (-22, -20)
    assert -25 <= minutes(plan, "A/Boil")[1] <= -22


def test_several_links_with_one_limit_count_from_the_latest_of_them():
    # The sauce starts within 2 of the later of stock and roux. Roux must end 30 before the meal (its hands are needed
    # by the fry from -30 on); the stock ends when it likes; so only the stock can be near the sauce at -5..0.
    tasks = (
        step("Sauce/Stock", 20),
        step("Sauce/Roux", 5, work="all"),
        step("Sauce/Join", 5, after=["Sauce/Stock", "Sauce/Roux"], within_s=2 * M),
        step("Fry/Fry", 30, work="all"),
    )
    plan = planned(kitchen(*tasks, hold=0))
    assert minutes(plan, "Sauce/Roux")[1] <= -30
    assert -7 <= minutes(plan, "Sauce/Stock")[1] <= -5


def test_room_for_one_is_taken_in_turn():
    # Two pans of 10 on one ring: one ends at 0, the other at -10.
    ring = PlaceRoom(name="hob", room=1)
    tasks = (step("A/Fry", 10, uses=(("hob", 1),)), step("B/Fry", 10, uses=(("hob", 1),)))
    plan = planned(kitchen(*tasks, places=(ring,)))
    assert sorted(minutes(plan, name)[1] for name in ("A/Fry", "B/Fry")) == [-10, 0]


def test_room_for_three_is_shared_up_to_three():
    # Parts 2, 1 and 1 of 10 min each: 2 + 1 fit together, the third comes before: first start -20, not -10 or -30.
    hob = PlaceRoom(name="hob", room=3)
    tasks = (
        step("A/Fry", 10, uses=(("hob", 2),)),
        step("B/Fry", 10, uses=(("hob", 1),)),
        step("C/Fry", 10, uses=(("hob", 1),)),
    )
    plan = planned(kitchen(*tasks, places=(hob,)))
    assert min(minutes(plan, t.id)[0] for t in tasks) == -20


def test_an_oven_takes_time_between_two_temperatures():
    # 160 and 220 do not agree and are 6 min apart (20 min * 60/200). The tart goes straight to the table: -30..0; the
    # roast ends by -36.
    tasks = (step("Roast/Roast", 60, **oven(160)), step("Tart/Bake", 30, **oven(220)))
    plan = planned(kitchen(*tasks, holds={"Tart": 0}))
    assert minutes(plan, "Tart/Bake") == (-30, 0)
    assert minutes(plan, "Roast/Roast") == (-96, -36)


def test_temperatures_whose_tolerances_meet_share_an_oven():
    # 170 and 180 within 5 meet at 175: both end at the meal, side by side on two racks.
    tasks = (step("A/Bake", 30, **oven(170)), step("B/Bake", 20, **oven(180)))
    plan = planned(kitchen(*tasks, hold=0))
    assert minutes(plan, "A/Bake")[1] == minutes(plan, "B/Bake")[1] == 0


def test_what_shares_an_oven_shares_one_temperature():
    # 170, 180 and 190 within 5: neighbours meet, the outer two do not (20 apart, 10 of tolerance): they take turns
    # with 20 min * 20/200 = 2 min between, whatever the third does.
    places = (OVEN.model_copy(update={"room": 3}),)
    tasks = tuple(step(f"{n}/Bake", 20, **oven(heat)) for n, heat in (("A", 170), ("B", 180), ("C", 190)))
    plan = planned(kitchen(*tasks, places=places))
    first, second = sorted((minutes(plan, "A/Bake"), minutes(plan, "C/Bake")))
    assert second[0] - first[1] >= 2


@pytest.mark.parametrize(("now_c", "ready_at"), [(None, 20), (160.0, 6), (216.0, 0)])
def test_a_place_needs_its_time_from_what_it_is_now(now_c, ready_at):
    # Asked for soonest from -100 with 30 of baking at 220: from cold the oven takes 20, from 160 it takes 6, and 216
    # is near enough. The meal is then at -100 + that + 30.
    places = (OVEN.model_copy(update={"now_c": now_c}),)
    problem = kitchen(step("Tart/Bake", 30, **oven(220)), places=places, not_before=at(-100), soonest=True)
    assert planned(problem).eat_at == at(-100 + ready_at + 30)


def test_one_pair_of_hands_does_one_thing_at_a_time():
    # Two jobs of 10: one ends at 0, the other at -10.
    plan = planned(kitchen(step("A/Chop", 10, work="all"), step("B/Chop", 10, work="all")))
    assert sorted(minutes(plan, name)[1] for name in ("A/Chop", "B/Chop")) == [-10, 0]


def test_two_pairs_of_hands_do_two_things_each_by_one_person():
    plan = planned(kitchen(step("A/Chop", 10, work="all"), step("B/Chop", 10, work="all"), hold=0, pairs=2))
    assert {plan.of("A/Chop").person, plan.of("B/Chop").person} == {1, 2}


def test_hands_at_the_start_and_end_of_a_step_leave_its_middle_free():
    # The roast needs hands for its first 2 and last 3 minutes, straight to the table: -60..-58 and -3..0. A job of 50
    # fits between; it may stand 60.
    tasks = (step("Roast/Roast", 60, work=(2, 3)), step("Dough/Knead", 50, work="all"))
    plan = planned(kitchen(*tasks, holds={"Roast": 0}))
    assert minutes(plan, "Roast/Roast") == (-60, 0)
    start, end = minutes(plan, "Dough/Knead")
    assert start >= -58
    assert end <= -3


def test_hot_oil_keeps_its_person_for_all_of_it():
    # The fry (10) is never left alone and goes straight to the table, so the dressing (5) is done before it.
    plan = planned(kitchen(step("Fry/Fry", 10, attend=True), step("Salad/Dress", 5, work="all"), holds={"Fry": 0}))
    assert minutes(plan, "Salad/Dress")[1] <= -10


def test_hands_by_time_bind():
    # One pair until -20, none from then on: the chop (10) must end by -20; it may stand 60.
    hands = (HandsChange(at=LONG_AGO, pairs=1), HandsChange(at=at(-20), pairs=0))
    plan = planned(kitchen(step("A/Chop", 10, work="all"), hands=hands))
    assert minutes(plan, "A/Chop") == (-30, -20)


def test_a_job_is_not_handed_over_when_one_person_leaves():
    # Pairs 1, then 2 in -20..-10, then 1 (person 1 is there throughout). Each job takes 15 and would cross one of the
    # changes; only person 1 may cross either, so the two cannot overlap.
    hands = (HandsChange(at=LONG_AGO, pairs=1), HandsChange(at=at(-20), pairs=2), HandsChange(at=at(-10), pairs=1))
    tasks = (step("A/Knead", 15, work="all"), step("B/Knead", 15, work="all"))
    plan = planned(kitchen(*tasks, hands=hands))
    first, second = sorted((minutes(plan, "A/Knead"), minutes(plan, "B/Knead")))
    assert first[1] <= second[0]


def test_a_named_person_does_it_alone():
    # Both steps are for person 2 of two: they take turns though a pair is free.
    tasks = (step("A/Carve", 10, work="all", person=2), step("B/Carve", 10, work="all", person=2))
    plan = planned(kitchen(*tasks, pairs=2))
    assert sorted(minutes(plan, t.id)[1] for t in tasks) == [-10, 0]
    assert {plan.of(t.id).person for t in tasks} == {2}


def test_a_cue_moves_within_its_play_to_find_hands():
    # The roast -60..0 is turned at -30, give or take 5, for 1 min. Folding takes hands in -32..-22 (its dish is eaten
    # at -22, no hold), so the turn falls at -33 or before, or at -22 or later; 5 of play leaves -35..-33 only.
    roast = step("Roast/Roast", 60, cues=[("turn", 30, 5, 1)])
    fold = step("Ice/Fold", 10, work="all")
    plan = planned(kitchen(roast, fold, hold=0, courses={"Ice": -22}))
    assert at(-35) <= plan.cues[0].at <= at(-33)


def test_a_shut_door_is_not_opened_by_another_dish():
    # The pudding -30..0 keeps the door shut for its first 20. The tart (15, same heat) would like -15..0 and does:
    # but a tart of 25 cannot start in -30..-10 except at -30, so it starts at -30 and stands from -5.
    pudding = step("Pudding/Bake", 30, shut_s=20 * M, **oven(180))
    plan = planned(kitchen(pudding, step("Tart/Bake", 25, **oven(180)), holds={"Pudding": 0}))
    assert minutes(plan, "Pudding/Bake") == (-30, 0)
    assert minutes(plan, "Tart/Bake") == (-30, -5)


def test_closed_hours_hold_no_work_but_let_an_oven_run():
    # Closed in -60..-20. The roast (60) with hands in its first 5 min ends at 0 in any case: it would start at -60,
    # inside; its hands must be done by -60, so it starts at -65 and stands 5.
    problem = kitchen(step("Roast/Roast", 60, work=(5, 0)), closed=(Stretch(start=at(-60), end=at(-20)),))
    assert minutes(planned(problem), "Roast/Roast") == (-65, -5)


def test_live_heat_does_not_run_in_closed_hours():
    # Closed in -20..-10: the simmer (15, no hands) fits after it no more, so it ends when the hours begin.
    problem = kitchen(step("Soup/Simmer", 15, live_heat=True), closed=(Stretch(start=at(-20), end=at(-10)),))
    assert minutes(planned(problem), "Soup/Simmer") == (-35, -20)


def test_an_elastic_step_gives_way():
    # Carving (5) needs the hands that are frying at -10..0 (no hold), so it ends at -10; the roast's hands at its end
    # (1) are free only until -40, when kneading takes -40..-15 (eaten at -15, no hold). The rest of 10 to 40 stretches
    # from -40 to -15.
    tasks = (
        step("Roast/Roast", 30, work=(0, 1)),
        step("Roast/Rest", 10, most=40, after=[("Roast/Roast", 0, 0)]),
        step("Roast/Carve", 5, after=[("Roast/Rest", 0, 0)], work="all"),
        step("Fry/Fry", 10, work="all"),
        step("Bread/Knead", 25, work="all"),
    )
    plan = planned(kitchen(*tasks, hold=0, holds={"Roast": 10}, courses={"Bread": -15}))
    assert minutes(plan, "Roast/Rest") == (-40, -15)


def test_a_hold_is_the_longest_a_dish_stands():
    # Two jobs of 10 by one pair: one stands 10. With holds of 9 there is no plan, with 10 there is.
    tasks = (step("A/Whisk", 10, work="all"), step("B/Whisk", 10, work="all"))
    assert isinstance(answer(kitchen(*tasks, hold=9)), NoPlan)
    planned(kitchen(*tasks, hold=10))


def test_a_course_is_eaten_when_it_is_eaten():
    plan = planned(kitchen(step("Soup/Heat", 10), step("Roast/Roast", 60), hold=0, courses={"Soup": -30}))
    assert minutes(plan, "Soup/Heat") == (-40, -30)
    assert minutes(plan, "Roast/Roast") == (-60, 0)


def test_a_make_ahead_limit_keeps_a_step_near_the_meal():
    # Picking (5) may be 30 ahead at most; the pie takes the hands in -30..0 (no hold). No room; one minute more and
    # picking fits before the pie... at -35: so 35 ahead is enough and 34 is not.
    def problem(ahead):
        pick = step("Salad/Pick", 5, work="all", earliest=at(-ahead))
        return kitchen(pick, step("Pie/Fill", 30, work="all"), holds={"Pie": 0})

    assert isinstance(answer(problem(34)), NoPlan)
    assert minutes(planned(problem(35)), "Salad/Pick") == (-35, -30)


def test_nothing_starts_before_the_plan_may():
    problem = kitchen(step("A/Chop", 10, work="all"), step("B/Chop", 10, work="all"), not_before=at(-15))
    assert isinstance(answer(problem), NoPlan)
    assert planned(problem.model_copy(update={"late_ok": True})).late_s == 5 * M


def test_what_has_begun_stays_and_the_rest_goes_around_it():
    # Now is -30. A is being stirred -35..-15 by the one pair; B (20 of stirring) can only follow: -15..5, so 5 late,
    # and A, which has begun, stands 20 though its hold is 5.
    begun = step("A/Stir", 20, work="all", started=at(-35))
    problem = kitchen(begun, step("B/Stir", 20, work="all"), hold=5, not_before=at(-30), late_ok=True)
    plan = planned(problem)
    assert minutes(plan, "A/Stir") == (-35, -15)
    assert minutes(plan, "B/Stir") == (-15, 5)
    assert (plan.eat_at, plan.late_s) == (EAT, 5 * M)


def test_facts_that_break_a_rule_among_themselves_are_no_obstacle():
    # Two pans on a ring for one, both begun, both stirred by one pair of hands until -10: what comes next waits.
    ring = PlaceRoom(name="hob", room=1)
    both = [step(f"{n}/Fry", 20, work="all", uses=(("hob", 1),), started=at(-30)) for n in "AB"]
    last = step("C/Fry", 10, work="all", uses=(("hob", 1),))
    problem = kitchen(*both, last, places=(ring,), not_before=at(-25), late_ok=True)
    assert minutes(planned(problem), "C/Fry") == (-10, 0)


def test_every_answer_above_would_fail_the_checker_if_it_cheated():
    # The checker that every answer passes is no formality: the same plan with one step moved breaks a rule.
    problem = kitchen(step("A/Chop", 10, work="all"), step("B/Chop", 10, work="all"))
    plan = planned(problem)
    both = tuple(p.model_copy(update={"start": at(-10), "end": at(0)}) for p in plan.placed)
    assert broken_rules(problem, plan.model_copy(update={"placed": both}))


def test_one_most_time_counts_from_the_latest_of_three_and_an_entry_s_own_from_that_one():
    # Dressing within 30 of the latest that it follows, and within 5 of the pasta. By one pair of hands the sauce ends
    # before 60 of shaving begin, 60 or more before the dressing: within 30 of each there would be no plan.
    tasks = (
        step("Sauce/Stir", 20, work="all"),
        step("Cheese/Shave", 60, work="all", after=["Sauce/Stir"]),
        step("Pasta/Boil", 12),
        step("Pasta/Dress", 5, work="all", after=["Sauce/Stir", "Cheese/Shave", ("Pasta/Boil", 0, 5)], within_s=30 * M),
    )
    problem = kitchen(*tasks, holds={"Pasta": 0, "Sauce": 600, "Cheese": 600})
    plan = planned(problem)
    assert minutes(plan, "Pasta/Dress") == (-5, 0)
    assert -10 <= minutes(plan, "Pasta/Boil")[1] <= -5
    assert minutes(plan, "Sauce/Stir")[1] <= -65
    greedy = first_plan(problem)
    assert greedy is not None
    assert -10 <= minutes(greedy, "Pasta/Boil")[1] <= -5


def test_a_wait_longer_than_the_most_time_after_the_latest_of_two_can_be_kept():
    # Icing waits 20 after the cake and begins within 10 of the latest: the cream, 10 or more after the cake, is that.
    tasks = (
        step("Cake/Bake", 10),
        step("Cake/Whip", 5, work="all"),
        step("Cake/Ice", 5, after=[("Cake/Bake", 20, None), "Cake/Whip"], within_s=10 * M),
    )
    plan = planned(kitchen(*tasks, hold=0))
    assert minutes(plan, "Cake/Ice") == (-5, 0)
    assert minutes(plan, "Cake/Bake")[1] <= -25
    assert -15 <= minutes(plan, "Cake/Whip")[1] <= -5
