"""From menu and cook to the planner's question."""

from datetime import UTC, datetime

import pytest

from tests.kitchen import minutes, step
from timerboard.core.calendar_stretches import closed_stretches, merged
from timerboard.core.cook import Cook, CueLog, PlaceHeat, StepLife, StepState
from timerboard.core.menu import Closed, Course, Cue, Dish, HandsFrom, Heat, Link, Menu, Place, Use, Work
from timerboard.core.plan import After, HandsPiece, Stretch
from timerboard.core.question import LONGEST_PLAN_S, question, question_of_cook
from timerboard.core.values import MS, Span

EAT = int(datetime(2026, 12, 21, 18, 30, tzinfo=UTC).timestamp())
OVEN = Place(name="oven", room=2, heat=Heat(low_c=60, high_c=220, preheat_s=1200))
HOB = Place(name="hob", room=4)
PLACES = (OVEN, HOB, Place(name="counter"), Place(name="fridge", room=8))


def menu(*dishes, **more):
    return Menu(title="t", serves=4, places=PLACES, dishes=dishes, **more)


def one(*steps, hold_s=1800, **more):
    """A menu of one dish called D."""
    return menu(Dish(name="D", steps=steps, hold_s=hold_s), **more)


def first(asked):
    return question(asked, EAT, "UTC").tasks[0]


def lengths(asked):
    task = first(asked)
    return task.least_s // 60, task.most_s // 60


SOUP = Dish(name="Soup", steps=(step("Soup", "Heat", minutes(5), after=(Link(step="Stock/Simmer"),)),))


class TestPlannedLengths:
    def test_a_range_counts_at_its_likely_length(self):
        # Two thirds of the way from 30 to 45 is 40.
        assert lengths(one(step("D", "Simmer", minutes(30, 45)))) == (40, 40)

    def test_a_long_step_before_an_elastic_one_counts_at_its_high_end(self):
        rest = step("D", "Rest", minutes(20, 40), after=["Roast"], elastic=True)
        assert lengths(one(step("D", "Roast", minutes(180, 220)), rest, hold_s=0)) == (220, 220)

    def test_a_long_step_before_a_hold_that_covers_its_spread_counts_at_its_high_end(self):
        # The spread is 40 min: a hold of 40 covers it, one of 39 does not (likely: 180 + 26:40).
        roast = step("D", "Roast", minutes(180, 220))
        assert lengths(one(roast, hold_s=2400)) == (220, 220)
        assert first(one(roast, hold_s=2340)).least_s == 180 * 60 + 1600

    def test_a_long_component_that_may_wait_counts_at_its_high_end(self):
        stock = Dish(name="Stock", hold_s=0, steps=(step("Stock", "Simmer", minutes(180, 220)),))
        assert first(menu(stock, SOUP, table=("Soup",))).least_s == 220 * 60
        assert first(menu(stock, table=())).least_s < 220 * 60  # nothing needs it: it is eaten, and may not wait

    def test_a_long_step_with_work_after_it_counts_at_its_likely_length(self):
        carve = step("D", "Carve", minutes(5), after=["Roast"], work=Work(throughout=True))
        assert first(one(step("D", "Roast", minutes(180, 210)), carve)).least_s == 200 * 60

    def test_elastic_steps_keep_their_range(self):
        assert lengths(one(step("D", "Rest", minutes(20, 40), elastic=True))) == (20, 40)


class TestHands:
    def test_hands_at_the_ends_become_pieces(self):
        task = first(one(step("D", "Roast", minutes(60), work=Work(start_s=120, end_s=180))))
        begin = HandsPiece(offset_s=0, length_s=120)
        end = HandsPiece(offset_s=180, length_s=180, from_end=True)
        assert task.hands == (begin, end)
        assert not task.throughout

    def test_work_throughout_and_hot_oil_ask_for_one_person_and_no_pieces(self):
        assert first(one(step("D", "Chop", minutes(5), work=Work(throughout=True)))).throughout
        fry = first(one(step("D", "Fry", minutes(5), hazard="hot oil", work=Work(start_s=60))))
        assert (fry.attend, fry.hands) == (True, ())

    def test_hands_by_time_are_counted_from_the_meal(self):
        asked = one(
            step("D", "Stir", minutes(5)), hands=(HandsFrom(from_s=None, pairs=1), HandsFrom(from_s=-2400, pairs=2))
        )
        hands = question(asked, EAT, "UTC").hands
        assert [(h.at - EAT, h.pairs) for h in hands] == [(-LONGEST_PLAN_S, 1), (-2400, 2)]

    def test_nobody_is_there_before_the_first_hands_that_are_told(self):
        asked = one(step("D", "Stir", minutes(5)), hands=(HandsFrom(from_s=-3600, pairs=2),))
        assert [(h.at - EAT, h.pairs) for h in question(asked, EAT, "UTC").hands] == [(-LONGEST_PLAN_S, 0), (-3600, 2)]


def slots(length, cue, **more):
    task = first(one(step("D", "Roast", minutes(length), uses=(Use(place="oven"),), cues=(cue,), **more)))
    return [(s.offset_s / 60, s.play_s / 60, s.work_s) for s in task.cues]


class TestCues:
    def test_every_half_hour_but_never_in_the_last_tenth(self):
        # 100 min: 30, 60, 90; 90 is just outside the last tenth. A quarter of 30 min, in whole minutes, is 7.
        assert slots(100, Cue(do="Baste", every_s=1800, work_s=60)) == [(30, 7, 60), (60, 7, 60), (90, 7, 60)]
        assert [at for at, _, _ in slots(99, Cue(do="Baste", every_s=1800))] == [30, 60]

    def test_times_ends_them_early(self):
        assert [at for at, _, _ in slots(100, Cue(do="Baste", every_s=1800, times=2))] == [30, 60]

    def test_halfway_and_at(self):
        assert slots(40, Cue(do="Turn", at_fraction=0.5, work_s=60)) == [(20, 5, 60)]
        assert slots(40, Cue(do="Turn", at_s=480, work_s=60)) == [(8, 2, 60)]
        assert slots(40, Cue(do="Turn", at_s=37 * 60)) == []

    def test_a_cue_while_hands_are_at_the_step_anyway_asks_for_no_others(self):
        cue = Cue(do="Stir", every_s=300, work_s=60)
        work = [w for _, _, w in slots(20, cue, work=Work(start_s=360, end_s=300))]
        assert work == [0, 60, 0]  # at 5 the hands of the start are there, at 15 those of the end

    def test_a_cue_at_an_oven_opens_its_door_and_one_on_the_hob_opens_none(self):
        cue = Cue(do="Stir", at_fraction=0.5)
        assert first(one(step("D", "Bake", minutes(20), uses=(Use(place="oven"),), cues=(cue,)))).cues[0].opens == (
            "oven",
        )
        assert first(one(step("D", "Boil", minutes(20), uses=(Use(place="hob"),), cues=(cue,)))).cues[0].opens == ()

    def test_slots_of_one_cue_are_numbered(self):
        task = first(one(step("D", "Roast", minutes(100), cues=(Cue(do="Baste", every_s=1800),))))
        assert [s.id for s in task.cues] == ["Baste", "Baste 2", "Baste 3"]


class TestMealAndOrder:
    def test_a_course_moves_its_dishes_and_a_window_leaves_room(self):
        starter = Dish(name="S", course="starter", hold_s=600, steps=(step("S", "Fry", minutes(5)),))
        buffet = Dish(name="B", course="buffet", hold_s=1200, steps=(step("B", "Fry", minutes(5)),))
        courses = (Course(name="starter", eat_s=-1800), Course(name="buffet", eat_s=0, until_s=5400))
        goals = question(menu(starter, buffet, courses=courses), EAT, "UTC").goals
        assert [(g.ready_from - EAT, g.ready_by - EAT) for g in goals] == [(-2400, -1800), (-1200, 5400)]

    def test_a_component_off_the_table_may_be_ready_as_early_as_it_likes(self):
        stock = Dish(name="Stock", steps=(step("Stock", "Simmer", minutes(5)),))
        assert question(menu(stock, SOUP, table=("Soup",)), EAT, "UTC").goals[0].ready_from is None

    def test_a_dish_that_the_table_forgets_but_nothing_needs_keeps_its_hold(self):
        stock = Dish(name="Stock", steps=(step("Stock", "Simmer", minutes(5)),))
        assert question(menu(stock, table=()), EAT, "UTC").goals[0].ready_from == EAT - 1800

    def test_ahead_is_counted_from_the_meal(self):
        task = first(one(step("D", "Salt", minutes(5), ahead_s=86_400)))
        assert task.earliest == EAT - 86_400

    def test_one_most_time_for_several_steps_counts_from_the_latest(self):
        links = (Link(step="D/A", within_s=60), Link(step="D/B", wait_s=5, within_s=60))
        steps = (step("D", "A", minutes(5)), step("D", "B", minutes(5)), step("D", "C", minutes(5), after=links))
        task = question(one(*steps), EAT, "UTC").tasks[2]
        assert (task.within_s, task.after) == (60, (After(task="D/A"), After(task="D/B", wait_s=5)))

    def test_most_times_that_differ_stay_with_their_links(self):
        links = (Link(step="D/A", within_s=60), Link(step="D/B"))
        steps = (step("D", "A", minutes(5)), step("D", "B", minutes(5)), step("D", "C", minutes(5), after=links))
        task = question(one(*steps), EAT, "UTC").tasks[2]
        assert (task.within_s, task.after[0].within_s, task.after[1].within_s) == (None, 60, None)

    def test_an_entry_s_own_most_time_is_kept_beside_that_of_the_step(self):
        # after: [{step: A, within: 1 min}, B, C] with within: 10 min: A's own, and the step's after the latest of all.
        links = (Link(step="D/A", within_s=60, own=True), *(Link(step=f"D/{n}", within_s=600) for n in "BC"))
        steps = [step("D", n, minutes(5)) for n in "ABC"]
        task = question(one(*steps, step("D", "E", minutes(5), after=links)), EAT, "UTC").tasks[3]
        assert (task.within_s, task.after) == (
            600,
            (After(task="D/A", within_s=60), After(task="D/B"), After(task="D/C")),
        )

    def test_soonest_without_a_start_begins_at_the_moment_given(self):
        asked = question(one(step("D", "Stir", minutes(5))), EAT, "UTC", soonest=True)
        assert (asked.soonest, asked.not_before) == (True, EAT)


class TestLiveHeat:
    def live(self, *steps):
        return [t.live_heat for t in question(one(*steps), EAT, "UTC").tasks]

    def test_hot_oil_and_the_hob_burn_the_oven_and_the_fridge_may_run(self):
        on = {name: (Use(place=name),) for name in ("oven", "hob", "fridge", "counter")}
        assert self.live(
            step("D", "Simmer", minutes(5), uses=on["hob"]),
            step("D", "Fry", minutes(5), uses=on["counter"], hazard="hot oil"),
            step("D", "Bake", minutes(5), uses=on["oven"], heat_c=180),
            step("D", "Chill", minutes(5), uses=on["fridge"], heat_c=4),
        ) == [True, True, False, False]

    def test_a_place_where_something_is_heated_is_a_hob_by_whatever_name(self):
        places = (Place(name="clay pit", room=1), Place(name="bench", room=2))
        fry = step("D", "Sear", minutes(5), uses=(Use(place="clay pit"),), heat_c=200)
        stew = step("D", "Stew", minutes(5), uses=(Use(place="clay pit"),))
        rest = step("D", "Rest", minutes(5), uses=(Use(place="bench"),))
        asked = Menu(title="t", serves=1, places=places, dishes=(Dish(name="D", steps=(fry, stew, rest)),))
        assert [t.live_heat for t in question(asked, EAT, "UTC").tasks] == [True, True, False]

    def test_a_smoker_may_run_through_the_night_though_it_is_hot(self):
        smoke = step("D", "Smoke", minutes(480), uses=(Use(place="smoker"),), heat_c=110)
        dish = Dish(name="D", steps=(smoke,))
        asked = Menu(title="t", serves=1, places=(Place(name="smoker", room=1),), dishes=(dish,))
        assert [t.live_heat for t in question(asked, EAT, "UTC").tasks] == [False]


def at(day, hour, minute=0):
    return int(datetime(2026, *day, hour, minute, tzinfo=UTC).timestamp())


class TestClosedHours:
    NIGHT = (Closed(start_min=23 * 60, end_min=7 * 60),)

    def test_hours_over_midnight(self):
        found = closed_stretches(self.NIGHT, "UTC", at((12, 20), 12), at((12, 22), 12))
        nights = [(at((12, 20), 23), at((12, 21), 7)), (at((12, 21), 23), at((12, 22), 7))]
        assert [(s.start, s.end) for s in found] == nights

    @pytest.mark.parametrize(("start", "expected"), [(3, 4 * 3600), (12, None)])
    def test_a_beginning_inside_closed_hours_cuts_them(self, start, expected):
        found = closed_stretches(self.NIGHT, "UTC", at((12, 21), start), at((12, 21), 20))
        assert [s.end - s.start for s in found] == ([expected] if expected else [])

    def test_the_night_the_clocks_go_forward_is_an_hour_shorter(self):
        # Berlin, 29 March 2026, 02:00 -> 03:00: from 23:00 (UTC+1) to 07:00 (UTC+2) are 7 hours.
        found = closed_stretches(self.NIGHT, "Europe/Berlin", at((3, 28), 12), at((3, 29), 12))
        assert [(s.start, s.end) for s in found] == [(at((3, 28), 22), at((3, 29), 5))]

    def test_the_night_the_clocks_go_back_is_an_hour_longer(self):
        # Berlin, 25 October 2026, 03:00 -> 02:00: from 23:00 (UTC+2) to 07:00 (UTC+1) are 9 hours.
        found = closed_stretches(self.NIGHT, "Europe/Berlin", at((10, 24), 12), at((10, 25), 12))
        assert [(s.start, s.end) for s in found] == [(at((10, 24), 21), at((10, 25), 6))]

    def test_an_hour_that_comes_twice_stays_closed_for_both(self):
        # Open again at 02:30, which comes at 00:30 UTC and at 01:30 UTC: the later one counts.
        found = closed_stretches(
            (Closed(start_min=60, end_min=150),), "Europe/Berlin", at((10, 25), 0) - 7200, at((10, 25), 9)
        )
        assert [(s.start, s.end) for s in found] == [(at((10, 24), 23), at((10, 25), 1, 30))]

    def test_stretches_that_touch_become_one(self):
        parts = (Stretch(start=5, end=9), Stretch(start=0, end=5), Stretch(start=20, end=20), Stretch(start=12, end=13))
        assert merged(parts) == (Stretch(start=0, end=9), Stretch(start=12, end=13))


NOW = EAT - 3600  # an hour before the meal


def cook(asked, lives=None, **more):
    lives = {s: (lives or {}).get(s, StepLife()) for s in asked.steps}
    return Cook(
        **{
            "menu": asked,
            "menu_hash": "",
            "opened": 0,
            "eat_at": EAT * MS,
            "zone": "UTC",
            "offset_ms": 0,
            "lives": lives,
            **more,
        }
    )


def running(since_s, **more):
    return StepLife(state=StepState.RUNNING, started=(NOW - since_s) * MS, **more)


def asked_now(made):
    return {t.id: t for t in question_of_cook(made, NOW * MS).tasks}


class TestWhileCooking:
    ROAST = step("D", "Roast", minutes(30, 45), work=Work(end_s=120))
    REST = step("D", "Rest", minutes(10, 20), after=["Roast"], elastic=True)

    def test_ended_steps_are_facts(self):
        ended = StepLife(state=StepState.ENDED, started=(NOW - 3000) * MS, ended=(NOW - 600) * MS)
        task = asked_now(cook(one(self.ROAST, self.REST), {"D/Roast": ended}))["D/Roast"]
        assert (task.started, task.ended, task.least_s, task.most_s) == (NOW - 3000, NOW - 600, 2400, 2400)

    def test_a_running_step_keeps_its_planned_length_until_that_has_passed(self):
        # 30-45 min: planned at 40.
        task = asked_now(cook(one(self.ROAST, self.REST), {"D/Roast": running(600)}))["D/Roast"]
        assert (task.started, task.least_s, task.most_s, task.ended) == (NOW - 600, 2400, 2400, None)

    def test_past_its_planned_length_two_thirds_of_what_is_left_are_added(self):
        # After 42 of at most 45 min: 2 min more; the 2 min of hands at its end fit just inside.
        task = asked_now(cook(one(self.ROAST, self.REST), {"D/Roast": running(42 * 60)}))["D/Roast"]
        assert task.least_s == 44 * 60

    def test_over_its_high_end_it_ends_as_soon_as_hands_can_end_it(self):
        task = asked_now(cook(one(self.ROAST, self.REST), {"D/Roast": running(50 * 60)}))["D/Roast"]
        assert task.least_s == task.most_s == 52 * 60

    def test_given_more_time_it_does_not_end_before_the_next_look(self):
        life = running(39 * 60, look_again=(NOW + 600) * MS)
        assert asked_now(cook(one(self.ROAST, self.REST), {"D/Roast": life}))["D/Roast"].least_s == 49 * 60

    def test_a_running_elastic_step_keeps_what_is_left_of_its_range(self):
        life = {"D/Roast": StepLife(state=StepState.ENDED, started=0, ended=(NOW - 900) * MS), "D/Rest": running(900)}
        task = asked_now(cook(one(self.ROAST, self.REST), life))["D/Rest"]
        assert (task.least_s, task.most_s, task.after) == (900, 1200, ())

    def test_revised_lengths_replace_those_of_the_menu(self):
        life = StepLife(span=Span.of(600))
        assert asked_now(cook(one(self.ROAST, self.REST), {"D/Roast": life}))["D/Roast"].least_s == 600

    def test_dropped_dishes_are_out_and_nothing_waits_for_them(self):
        sauce = Dish(name="Sauce", steps=(step("Sauce", "Whisk", minutes(5), after=["D/Roast"]),))
        asked = menu(Dish(name="D", steps=(self.ROAST, self.REST)), sauce)
        made = question_of_cook(cook(asked, dropped=frozenset({"D"})), NOW * MS)
        assert [(t.id, t.after) for t in made.tasks] == [("Sauce/Whisk", ())]
        assert [g.dish for g in made.goals] == ["Sauce"]

    def test_a_dish_whose_steps_have_all_ended_is_no_goal_any_more(self):
        ended = StepLife(state=StepState.ENDED, started=0, ended=(NOW - 60) * MS)
        made = question_of_cook(cook(one(self.ROAST, self.REST), {"D/Roast": ended, "D/Rest": ended}), NOW * MS)
        assert made.goals == ()

    def test_it_asks_from_now_on_and_late_is_better_than_never(self):
        made = question_of_cook(cook(one(self.ROAST)), NOW * MS - 1)
        assert (made.not_before, made.late_ok, made.eat_at) == (NOW, True, EAT)

    def test_cues_count_from_when_they_were_last_done(self):
        # A 100 min braise begun 50 min ago, stirred late at 35 min: next at 65, and 95 is in the last tenth.
        braise = step("D", "Braise", minutes(100), cues=(Cue(do="Stir", every_s=1800, work_s=60),))
        log = {"Stir": CueLog(done=1, last=(NOW - 15 * 60) * MS)}
        task = asked_now(cook(one(braise), {"D/Braise": running(50 * 60, cues=log)}))["D/Braise"]
        assert [s.offset_s // 60 for s in task.cues] == [65]

    def test_an_overdue_cue_falls_due_now_and_once(self):
        braise = step("D", "Braise", minutes(100), cues=(Cue(do="Stir", every_s=1200, work_s=60),))
        task = asked_now(cook(one(braise), {"D/Braise": running(50 * 60)}))["D/Braise"]
        assert [s.offset_s // 60 for s in task.cues] == [50, 70, 90]

    def test_the_oven_holds_what_it_was_set_to(self):
        heats = {"oven": PlaceHeat(heat_c=180.0, set_at=(NOW - 60) * MS, hot_at=NOW * MS)}
        assert question_of_cook(cook(one(self.ROAST), heats=heats), NOW * MS).places[0].now_c == 180.0

    def test_an_oven_on_its_way_has_the_rest_of_the_way_to_go(self):
        # 1200 s for 200 degrees: 300 s after it was set from cold there are 900 s left, 150 degrees short of 180.
        heats = {"oven": PlaceHeat(heat_c=180.0, set_at=(NOW - 300) * MS)}
        oven = question_of_cook(cook(one(self.ROAST), heats=heats), NOW * MS).places[0]
        assert oven.now_c == pytest.approx(30.0)
        assert oven.change_s(oven.now_c, 180.0) == 900

    def test_an_oven_nobody_set_is_as_hot_as_what_cooks_in_it_needs(self):
        bake = step("D", "Bake", minutes(30), uses=(Use(place="oven"),), heat_c=200.0)
        assert question_of_cook(cook(one(bake), {"D/Bake": running(60)}), NOW * MS).places[0].now_c == 200.0
        assert question_of_cook(cook(one(bake)), NOW * MS).places[0].now_c is None

    def test_closed_hours_are_civil_and_moved_on_to_the_kitchen_clock(self):
        # The wall clock is 10 min ahead of the kitchen clock: closed from 19:00 civil is 18:50 on the kitchen clock.
        asked = one(self.ROAST, closed=(Closed(start_min=19 * 60, end_min=20 * 60),))
        made = question_of_cook(cook(asked, offset_ms=600_000), NOW * MS)
        assert made.closed[0] == Stretch(start=EAT + 1200, end=EAT + 4800)
