"""The checker of every rule: for each a tiny kitchen, a plan that keeps it and one that breaks it."""

import pytest

from tests.tiny_kitchens import EAT, OVEN, cue, finish, goal, plan, problem, start, task, work
from timerboard.core.check_plan import broken_rules
from timerboard.core.plan import After, HandsChange, PlaceRoom, Stretch


def keeps(asked, **made):
    return broken_rules(asked, plan(asked, **made)) == ()


def breaks(asked, words, **made):
    said = broken_rules(asked, plan(asked, **made))
    assert len(said) == 1, said
    assert words in said[0]
    return True


def test_an_empty_plan_of_nothing_keeps_every_rule():
    assert keeps(problem())


def test_every_step_is_in_the_plan_once_and_nothing_else():
    asked = problem(task("bake", 100), task("rice", 100), goals=())
    assert keeps(asked, bake=(0, 100), rice=(0, 100))
    assert breaks(asked, "rice is not in the plan", bake=(0, 100))
    assert breaks(asked, "soup is in the plan but not in the menu", bake=(0, 100), rice=(0, 100), soup=(0, 1))


def test_a_step_starts_after_what_it_follows_and_its_wait():
    # Boil ends at 400; with a wait of 60 the earliest drain is 460.
    asked = problem(task("boil", 400), task("drain", 100, after=(After(task="boil", wait_s=60),)))
    assert keeps(asked, boil=(0, 400), drain=(460, 560))
    assert breaks(asked, "drain starts 59 s after boil has ended (least 1 min)", boil=(0, 400), drain=(459, 559))


def test_a_step_starts_within_its_most_time():
    # Roux ends at 400; within 120: the latest start is 520.
    asked = problem(task("roux", 400), task("milk", 100, after=(After(task="roux", within_s=120),)))
    assert keeps(asked, roux=(0, 400), milk=(520, 620))
    assert breaks(asked, "milk starts 2 min 1 s after roux has ended, most 2 min", roux=(0, 400), milk=(521, 621))


def test_a_shared_most_time_counts_from_the_latest_step_before():
    # Water at 100, greens cut at 400: within 60 of the latest, so up to 460, however long the water has boiled.
    asked = problem(
        task("water", 100),
        task("cut", 400),
        task("cook", 50, after=(After(task="water"), After(task="cut")), within_s=60),
    )
    assert keeps(asked, water=(0, 100), cut=(0, 400), cook=(460, 510))
    assert breaks(asked, "cook starts 1 min 1 s after cut", water=(0, 100), cut=(0, 400), cook=(461, 511))


def test_a_place_holds_no_more_than_its_room():
    # Two parts of room; a tray of two and a dish of one cannot be inside together, back to back they can.
    hob = PlaceRoom(name="hob", room=2)
    asked = problem(task("pan", 300, uses=(("hob", 2),)), task("pot", 300, uses=(("hob", 1),)), places=(hob,))
    assert keeps(asked, pan=(0, 300), pot=(300, 600))
    assert breaks(asked, "pan and pot need 3 parts of the hob", pan=(0, 300), pot=(299, 599))


def test_a_place_without_a_room_has_no_limit():
    asked = problem(*(task(n, 300, uses=(("counter", 1),)) for n in "abc"), places=(PlaceRoom(name="counter"),))
    assert keeps(asked, a=(0, 300), b=(0, 300), c=(0, 300))


def test_steps_share_an_oven_while_one_temperature_suits_both():
    # 160 ± 10 and 180 ± 10 meet at 170; 160 ± 10 and 181 ± 10 do not.
    def asked(heat):
        bread = task("bread", 300, uses=(("oven", 1),), heat_c=160, within_c=10)
        tart = task("tart", 300, uses=(("oven", 1),), heat_c=heat, within_c=10)
        return problem(bread, tart, places=(OVEN,))

    assert keeps(asked(180), bread=(0, 300), tart=(100, 400))
    assert breaks(asked(181), "wants 160 °C and tart 181 °C in the oven at once", bread=(0, 300), tart=(100, 400))


def test_going_to_another_temperature_takes_its_time():
    # From 120 to 200 is 80 degrees at 6 s each: 480 s.
    bread = task("bread", 300, uses=(("oven", 1),), heat_c=120)
    tart = task("tart", 300, uses=(("oven", 1),), heat_c=200)
    asked = problem(bread, tart, places=(OVEN,))
    assert keeps(asked, bread=(0, 300), tart=(780, 1080))
    assert breaks(asked, "the oven needs 8 min between them", bread=(0, 300), tart=(779, 1079))


def test_a_cold_oven_heats_up_before_its_first_step():
    # Nothing may start before 100 and the oven is cold: 1200 s of preheat, so 1300 at the earliest.
    asked = problem(task("bread", 300, uses=(("oven", 1),), heat_c=120), places=(OVEN,), not_before=100)
    assert keeps(asked, bread=(1300, 1600))
    assert breaks(asked, "the oven cannot be at 120 °C for bread", bread=(1299, 1599))


@pytest.mark.parametrize(("now_c", "earliest"), [(100.0, 220), (116.0, 100), (140.0, 220)])
def test_a_warm_oven_only_goes_the_rest_of_the_way(now_c, earliest):
    # 20 degrees at 6 s each are 120 s, from 100 on; 116 is within the 5 degrees that bread tolerates.
    oven = OVEN.model_copy(update={"now_c": now_c})
    asked = problem(task("bread", 300, uses=(("oven", 1),), heat_c=120), places=(oven,), not_before=100)
    assert keeps(asked, bread=(earliest, earliest + 300))
    if earliest > 100:
        assert breaks(asked, "cannot be at 120 °C", bread=(earliest - 1, earliest + 299))


def test_one_pair_of_hands_does_one_thing_at_a_time():
    asked = problem(work("chop", 300), work("whisk", 200))
    assert keeps(asked, chop=(0, 300), whisk=(300, 500))
    said = broken_rules(asked, plan(asked, chop=(0, 300), whisk=(299, 499)))
    assert any("chop and whisk: 2 pairs of hands" in s and "there is 1" in s for s in said)


def test_hands_at_the_start_and_the_end_of_an_unattended_step():
    # Roast 0-1000 with hands 0-100 and 950-1000: 850 s are free between, and chopping for 850 fits exactly.
    roast = task("roast", 1000, hands=(start(100), finish(50)))
    asked = problem(roast, work("chop", 850))
    assert keeps(asked, roast=(0, 1000), chop=(100, 950))
    said = broken_rules(asked, plan(asked, roast=(0, 1000), chop=(101, 951)))
    assert any("the end of roast" in s for s in said)


def test_a_cue_takes_hands_and_moves_within_its_play():
    # Baste due at 500 ± 100 for 50. Chopping 450-560 is in the way: 400 is the latest before, 560 the earliest after.
    roast = task("roast", 1000, cues=(cue("baste", 500, play=100, work_s=50),))
    asked = problem(roast, work("chop", 110))
    assert keeps(asked, roast=(0, 1000), chop=(450, 560), cues={("roast", "baste"): 400})
    assert keeps(asked, roast=(0, 1000), chop=(450, 560), cues={("roast", "baste"): 560})
    assert not keeps(asked, roast=(0, 1000), chop=(450, 560), cues={("roast", "baste"): 401})
    assert not keeps(asked, roast=(0, 1000), chop=(450, 560), cues={("roast", "baste"): 559})
    assert breaks(asked, "1 min 41 s off", roast=(0, 1000), chop=(700, 810), cues={("roast", "baste"): 399})


def test_every_cue_is_in_the_plan_and_inside_its_step():
    asked = problem(task("roast", 1000, cues=(cue("baste", 860, play=200, work_s=110),)))
    assert keeps(asked, roast=(0, 1000), cues={("roast", "baste"): 890})
    assert breaks(asked, "falls outside its step", roast=(0, 1000), cues={("roast", "baste"): 891})
    without = plan(asked, roast=(0, 1000)).model_copy(update={"cues": ()})
    assert broken_rules(asked, without) == ("baste (roast) is not in the plan",)


def test_no_cue_is_moved_into_the_last_tenth_of_its_step():
    # Due at 850 of 1000 with 200 of play: up to 900, not to 1050.
    asked = problem(task("roast", 1000, cues=(cue("baste", 850, play=200, work_s=10),)))
    assert keeps(asked, roast=(0, 1000), cues={("roast", "baste"): 900})
    assert breaks(asked, "last tenth", roast=(0, 1000), cues={("roast", "baste"): 901})


def test_hot_oil_keeps_its_person():
    asked = problem(task("fry", 300, attend=True), work("chop", 100))
    assert keeps(asked, fry=(0, 300), chop=(300, 400))
    assert not keeps(asked, fry=(0, 300), chop=(100, 200))


def test_hands_by_time():
    # One pair until 500, two from then on: two jobs at once only after 500.
    two_later = (HandsChange(at=-1_000_000, pairs=1), HandsChange(at=500, pairs=2))
    asked = problem(work("chop", 300), work("whisk", 300), hands=two_later)
    assert keeps(asked, chop=(300, 600), whisk=(500, 800, 2))
    assert not keeps(asked, chop=(300, 600), whisk=(499, 799, 2))


def test_fewer_hands_later_end_what_one_person_has():
    # The second pair leaves at 500: what person 2 does must have ended by then.
    one_later = (HandsChange(at=-1_000_000, pairs=2), HandsChange(at=500, pairs=1))
    asked = problem(work("chop", 300), work("whisk", 300), hands=one_later)
    assert keeps(asked, chop=(100, 400), whisk=(200, 500, 2))
    assert breaks(asked, "person 2 is not there for all of whisk", chop=(100, 400), whisk=(201, 501, 2))


def test_a_step_belongs_to_the_person_it_names_and_a_person_has_one_job_at_a_time():
    # Two pairs of hands, but both jobs are for person 2: one after the other.
    asked = problem(work("pipe", 300, person=2), work("glaze", 300, person=2), pairs=2)
    assert keeps(asked, pipe=(0, 300, 2), glaze=(300, 600, 2))
    assert breaks(asked, "person 2 has pipe and glaze at once", pipe=(0, 300, 2), glaze=(200, 500, 2))
    assert breaks(asked, "glaze is for person 2, the plan gives it to person 1", pipe=(0, 300, 2), glaze=(300, 600, 1))


def test_work_needs_somebody_who_exists():
    asked = problem(work("chop", 300))
    assert breaks(asked, "is given to person 2: 1 cook", chop=(0, 300, 2))


def test_no_hands_in_closed_hours_but_unattended_steps_run_through():
    closed = (Stretch(start=1000, end=2000),)
    asked = problem(work("chop", 100), task("soak", 2000), closed=closed)
    assert keeps(asked, chop=(900, 1000), soak=(500, 2500))
    assert breaks(asked, "chop needs hands in closed hours", chop=(901, 1001), soak=(500, 2500))


def test_no_live_heat_in_closed_hours():
    asked = problem(task("simmer", 500, live_heat=True), closed=(Stretch(start=1000, end=2000),))
    assert keeps(asked, simmer=(2000, 2500))
    assert breaks(asked, "simmer burns in closed hours", simmer=(501, 1001))


def test_a_shut_door_stays_shut_for_other_dishes():
    # Souffle in at 1000 with the door shut for 600: until 1600 nothing goes in or out. At both edges it may.
    souffle = task("souffle", 900, uses=(("oven", 1),), shut_s=600)
    asked = problem(souffle, task("bread", 300, uses=(("oven", 1),)), places=(OVEN,))
    assert keeps(asked, souffle=(1000, 1900), bread=(1600, 1900))
    assert keeps(asked, souffle=(1000, 1900), bread=(700, 1000))
    assert breaks(asked, "the start of bread opens a door", souffle=(1000, 1900), bread=(1599, 1899))
    assert breaks(asked, "the end of bread opens a door", souffle=(1000, 1900), bread=(701, 1001))


def test_a_cue_opens_its_door_too_but_not_against_its_own_dish():
    souffle = task("souffle", 900, uses=(("oven", 1),), shut_s=600)
    roast = task("roast", 2000, uses=(("oven", 1),), cues=(cue("baste", 1000, play=500, opens=("oven",)),))
    asked = problem(souffle, roast, places=(OVEN,))
    assert keeps(asked, souffle=(1000, 1900), roast=(200, 2200), cues={("roast", "baste"): 1600})
    assert breaks(asked, "baste (roast) opens a door", souffle=(1000, 1900), roast=(200, 2200))
    own = problem(souffle, roast.model_copy(update={"dish": souffle.dish}), places=(OVEN,))
    assert keeps(own, souffle=(1000, 1900), roast=(200, 2200))


def test_an_elastic_step_stays_in_its_range():
    asked = problem(task("rest", 300, most=500))
    assert keeps(asked, rest=(0, 300))
    assert keeps(asked, rest=(0, 500))
    assert breaks(asked, "rest is given 4 min 59 s", rest=(0, 299))
    assert breaks(asked, "rest is given 8 min 21 s", rest=(0, 501))


def test_a_dish_is_ready_in_time_and_not_before_its_hold():
    # Ready between 10 min before the meal and the meal.
    asked = problem(task("fry", 300), goals=(goal("fry", hold=600),))
    assert keeps(asked, fry=(EAT - 300, EAT))
    assert keeps(asked, fry=(EAT - 900, EAT - 600))
    assert breaks(asked, "1 s too late", fry=(EAT - 299, EAT + 1))
    assert breaks(asked, "it would stand 1 s longer than its hold", fry=(EAT - 901, EAT - 601))


def test_a_dish_is_ready_when_the_last_of_its_last_steps_has_ended():
    asked = problem(task("fry", 300), task("dip", 100), goals=(goal("fry", "dip", hold=600),))
    assert keeps(asked, fry=(EAT - 900, EAT - 600), dip=(0, 100))
    assert not keeps(asked, fry=(EAT - 901, EAT - 601), dip=(0, 100))


def test_nothing_is_made_too_far_ahead():
    asked = problem(task("dough", 300, earliest=5000))
    assert keeps(asked, dough=(5000, 5300))
    assert breaks(asked, "too long ahead", dough=(4999, 5299))


def test_nothing_starts_in_the_past():
    asked = problem(task("dough", 300), not_before=5000)
    assert keeps(asked, dough=(5000, 5300))
    assert breaks(asked, "that moment has passed", dough=(4999, 5299))


def test_facts_stay_where_they_are():
    asked = problem(task("boil", 400, started=100), task("peel", 50, started=0, ended=70), goals=(), not_before=200)
    assert keeps(asked, boil=(100, 500), peel=(0, 70))
    assert breaks(asked, "boil has begun", boil=(101, 501), peel=(0, 70))
    assert breaks(asked, "peel has begun or ended", boil=(100, 500), peel=(0, 71))


def test_facts_among_themselves_are_never_blamed_but_what_joins_them_is():
    # The cook put two trays on one rack and stands at two pans at once: so it is. A third tray still needs room.
    rack = PlaceRoom(name="rack", room=1)
    facts = [work(n, 500, uses=(("rack", 1),), started=100) for n in ("tart", "pie")]
    asked = problem(*facts, task("bun", 100, uses=(("rack", 1),)), places=(rack,), not_before=200, goals=())
    assert keeps(asked, tart=(100, 600), pie=(100, 600), bun=(600, 700))
    assert breaks(asked, "need 3 parts of the rack", tart=(100, 600), pie=(100, 600), bun=(599, 699))


def test_late_is_told_truthfully_and_only_where_allowed():
    asked = problem(task("fry", 300), late_ok=True, goals=(goal("fry", hold=600),))
    assert keeps(asked, late=60, fry=(EAT - 240, EAT + 60))
    assert not keeps(asked, late=30, fry=(EAT - 240, EAT + 60))
    assert not keeps(asked, late=90, fry=(EAT - 240, EAT + 60))
    strict = asked.model_copy(update={"late_ok": False})
    assert not keeps(strict, late=60, fry=(EAT - 240, EAT + 60))


def test_when_the_meal_is_late_what_has_not_begun_moves_with_it():
    # 1000 s late: the greens, held for at most 600 s, may not be ready before 10,400.
    asked = problem(task("fry", 300), task("greens", 100), late_ok=True, goals=(goal("fry"), goal("greens", hold=600)))
    assert keeps(asked, late=1000, fry=(EAT + 700, EAT + 1000), greens=(10_300, 10_400))
    assert breaks(asked, "longer than its hold", late=1000, fry=(EAT + 700, EAT + 1000), greens=(10_299, 10_399))


def test_what_has_begun_may_stand_longer_or_wait_longer_than_it_should():
    asked = problem(
        task("fry", 300, started=0),
        task("toss", 100, dish="dish of fry", after=(After(task="fry", within_s=60),)),
        late_ok=True,
        not_before=100,
        goals=(goal("toss", hold=600).model_copy(update={"dish": "dish of fry"}),),
    )
    assert keeps(asked, fry=(0, 300), toss=(1000, 1100))
    assert not keeps(asked.model_copy(update={"late_ok": False}), fry=(0, 300), toss=(1000, 1100))


@pytest.mark.parametrize(("begun", "forgiven"), [((), False), (("water",), True), (("water", "cut"), True)])
def test_a_shared_most_time_is_an_aim_once_one_of_the_steps_before_has_begun(begun, forgiven):
    # Within 60 of the latest, which ends at 400; it starts at 1000.
    facts = {name: {"started": 0} for name in begun}
    cook = task("cook", 50, after=(After(task="water"), After(task="cut")), within_s=60)
    asked = problem(
        task("water", 100, **facts.get("water", {})),
        task("cut", 400, **facts.get("cut", {})),
        cook,
        late_ok=True,
        goals=(),
    )
    assert keeps(asked, water=(0, 100), cut=(0, 400), cook=(1000, 1050)) is forgiven


def test_a_cue_may_be_done_at_the_very_start_of_its_step_and_not_before():
    asked = problem(task("fry", 300, cues=(cue("turn", 0, play=10),)))
    assert keeps(asked, fry=(100, 400))
    assert breaks(asked, "falls outside its step", cues={("fry", "turn"): 99}, fry=(100, 400))


def test_soonest_moves_goals_and_make_ahead_with_the_meal():
    asked = problem(task("fry", 300, earliest=EAT - 400), soonest=True, not_before=0, goals=(goal("fry", hold=50),))
    early = plan(asked, fry=(0, 300)).model_copy(update={"eat_at": 350})
    assert broken_rules(asked, early) == ()
    too_early = early.model_copy(update={"eat_at": 351})
    assert broken_rules(asked, too_early) != ()
    far = plan(asked, fry=(0, 300)).model_copy(update={"eat_at": 299})
    assert any("too late" in said for said in broken_rules(asked, far))


def test_another_meal_than_the_one_asked_for_is_no_answer():
    asked = problem(task("fry", 300))
    other = plan(asked, fry=(0, 300)).model_copy(update={"eat_at": EAT + 60})
    assert broken_rules(asked, other) == ("the plan eats at another moment than was asked",)


def test_what_is_missing_is_said_and_hides_nothing_else():
    # Cut is in no plan; cook follows it and roux, within 60 of the latest; roux ends at 400 and cook starts at 399.
    asked = problem(
        task("cut", 400),
        task("roux", 400),
        task("cook", 50, after=(After(task="cut"), After(task="roux")), within_s=60),
    )
    said = broken_rules(asked, plan(asked, roux=(0, 400), cook=(399, 449)))
    assert len(said) == 2
    assert said[0] == "cut is not in the plan"
    assert "after roux has ended" in said[1]
    alone = problem(task("cut", 400), task("cook", 50, after=(After(task="cut"),), within_s=60))
    assert broken_rules(alone, plan(alone, cook=(0, 50))) == ("cut is not in the plan",)


def test_a_goal_whose_step_is_not_in_the_plan_is_not_judged():
    asked = problem(task("bake", 100), goals=(goal("bake"),))
    assert broken_rules(asked, plan(asked)) == ("bake is not in the plan",)


def test_a_plan_reaches_no_further_back_than_fourteen_days():
    first = EAT - 14 * 86_400
    asked = problem(task("cure", 100, least_s=100, most_s=20 * 86_400))
    assert broken_rules(asked, plan(asked, cure=(first, EAT))) == ()
    (said,) = broken_rules(asked, plan(asked, cure=(first - 1, EAT)))
    assert "a plan is at most 14 days" in said


def test_of_two_temperatures_that_do_not_agree_facts_are_not_blamed_and_a_plan_is():
    bread = task("bread", 300, uses=(("oven", 1),), heat_c=120, started=0)
    tart = task("tart", 300, uses=(("oven", 1),), heat_c=200)
    asked = problem(bread, tart, places=(OVEN,), not_before=100, goals=())
    assert broken_rules(asked, plan(asked, bread=(0, 300), tart=(200, 500)))
    both = problem(bread, tart.model_copy(update={"started": 100}), places=(OVEN,), not_before=100, goals=())
    assert keeps(both, bread=(0, 300), tart=(100, 400))


def test_a_running_dish_of_the_same_heat_shows_that_the_place_is_hot():
    # Nothing says what the oven holds now; bread runs in it at 120, so a bun at 120 may go in at once, one at 200 not.
    bread = task("bread", 900, uses=(("oven", 1),), heat_c=120, started=0)
    bun = task("bun", 100, uses=(("oven", 1),), heat_c=120)
    asked = problem(bread, bun, places=(OVEN,), not_before=100, goals=())
    assert keeps(asked, bread=(0, 900), bun=(100, 200))
    ended = problem(bread.model_copy(update={"ended": 90}), bun, places=(OVEN,), not_before=100, goals=())
    assert breaks(ended, "cannot be at 120 °C for bun", bread=(0, 90), bun=(100, 200))


def test_what_burns_already_may_go_on_into_closed_hours():
    night = Stretch(start=500, end=900)
    asked = problem(task("stock", 800, live_heat=True), closed=(night,), goals=())
    assert breaks(asked, "burns in closed hours", stock=(0, 800))
    assert keeps(asked, stock=(900, 1700))
    begun = problem(task("stock", 800, live_heat=True, started=0), closed=(night,), goals=())
    assert keeps(begun, stock=(0, 800))


def test_a_door_that_both_opened_is_a_fact_and_one_that_a_plan_opens_is_not():
    shut = task("puddings", 600, uses=(("oven", 1),), shut_s=600, started=0)
    roast = task("roast", 900, uses=(("oven", 1),), started=100)
    assert keeps(problem(shut, roast, goals=()), puddings=(0, 600), roast=(100, 1000))
    asked = problem(shut, task("roast", 900, uses=(("oven", 1),)), goals=())
    assert breaks(asked, "that puddings keeps shut", puddings=(0, 600), roast=(599, 1499))
    assert keeps(asked, puddings=(0, 600), roast=(600, 1500))
