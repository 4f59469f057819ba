"""The planner's door: answers agree with an independent exact method, keep to their time, and never break a rule."""

from time import perf_counter

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from tests.bench.menus import menu_value
from tests.planner.every_plan import lost_in
from tests.planner.half_cooked import half_cooked
from tests.planner.minute_kitchens import EAT, OVEN, M, at, kitchen, minutes, oven, planned, step
from timerboard.core.check_places import agree
from timerboard.core.check_plan import broken_rules
from timerboard.core.plan import NoPlan, PlaceRoom, Plan, Status, Stretch
from timerboard.core.question import question
from timerboard.planner.answer import answer

SLOTS = 45


def earliest_meal(problem):
    """Minutes from minute 0 to the earliest meal: a time-indexed integer program solved by HiGHS, no code shared.

    x[i, t] = 1 when step i starts in minute t (Pritsker, Watters and Wolfe 1969, Management Science 16: 93-108).
    """
    tasks = problem.tasks
    lengths = [t.least_s // M for t in tasks]
    n = len(tasks)
    rows, lows, highs = [], [], []

    def add(terms, low, high):
        row = np.zeros(n * SLOTS + 1)
        for index, factor in terms:
            row[index] += factor
        rows.append(row)
        lows.append(low)
        highs.append(high)

    def starts(i):
        return [(i * SLOTS + t, t) for t in range(SLOTS)]

    def running(i, t):
        return [(i * SLOTS + s, 1) for s in range(max(0, t - lengths[i] + 1), t + 1)]

    for i, task in enumerate(tasks):
        add([(i * SLOTS + t, 1) for t in range(SLOTS)], 1, 1)
        add([(n * SLOTS, 1), *((k, -t) for k, t in starts(i))], lengths[i], np.inf)
        for link in task.after:
            j = next(k for k, other in enumerate(tasks) if other.id == link.task)
            least = lengths[j] + link.wait_s // M
            most = np.inf if link.within_s is None else lengths[j] + link.within_s // M
            add([*starts(i), *((k, -t) for k, t in starts(j))], least, most)
        if task.heat_c is not None:
            add([(k, 1) for k, t in starts(i) if t < 20], 0, 0)  # the oven is cold at minute 0
        for hours in problem.closed:
            if task.throughout:
                for t in range((hours.start - EAT) // M, (hours.end - EAT) // M):
                    add(running(i, t), 0, 0)
    for t in range(SLOTS):
        add([x for i, task in enumerate(tasks) if task.throughout for x in running(i, t)], 0, problem.hands[0].pairs)
        for place in problem.places:
            taken = [(i, p) for i, task in enumerate(tasks) for name, p in task.uses if name == place.name]
            add([(k, p) for i, p in taken for k, _ in running(i, t)], 0, place.room)
    for i, a in enumerate(tasks):
        for j, b in enumerate(tasks):
            if i != j and not agree(a, b):
                change = OVEN.change_s(a.heat_c, b.heat_c) // M
                for t in range(SLOTS):  # b may not start while a runs nor while the oven changes
                    last = range(max(0, t - lengths[i] - change + 1), t + 1)
                    add([(j * SLOTS + t, 1), *((i * SLOTS + s, 1) for s in last)], 0, 1)
    cost = np.zeros(n * SLOTS + 1)
    cost[-1] = 1
    whole = np.ones(n * SLOTS + 1)
    limits = LinearConstraint(csr_array(np.array(rows)), lows, highs)
    bounds = Bounds(np.zeros(n * SLOTS + 1), np.append(np.ones(n * SLOTS), 10 * SLOTS))
    found = milp(cost, constraints=limits, integrality=whole, bounds=bounds)
    return round(found.fun) if found.status == 0 else None


@st.composite
def small_kitchens(draw):
    """Four or five steps in two or three dishes, on two rings and an oven, for one or two pairs of hands."""
    tasks = []
    for n in range(draw(st.integers(2, 3))):
        before = None
        for k in range(draw(st.integers(1, 2))):
            name, takes = f"Dish {n}/Step {k}", draw(st.integers(1, 6))
            kind = draw(st.sampled_from(["hands", "hands", "hob", "oven", "free"]))
            more = {"work": "all"} if kind == "hands" else {"uses": (("hob", draw(st.integers(1, 2))),)}
            if kind == "oven":
                more = oven(draw(st.sampled_from([160, 220])))
            if kind == "free":
                more = {}
            within = draw(st.sampled_from([None, None, 3]))
            link = [] if before is None else [(before, draw(st.integers(0, 2)), within)]
            tasks.append(step(name, takes, after=link, **more))
            before = name
    shut = draw(st.booleans())
    return kitchen(
        *tasks,
        hold=600,
        pairs=draw(st.integers(1, 2)),
        places=(OVEN, PlaceRoom(name="hob", room=2)),
        closed=(Stretch(start=at(4), end=at(6)),) if shut else (),
        not_before=EAT,
        soonest=True,
    )


@settings(max_examples=30, deadline=None)
@given(small_kitchens())
def test_the_soonest_meal_is_the_one_an_integer_program_finds(problem):
    earliest = earliest_meal(problem)
    if earliest is None:  # a heat that cannot be changed within the limit between two steps
        assert isinstance(answer(problem), NoPlan)
    else:
        assert planned(problem).eat_at == at(earliest)


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 2))
def test_whatever_is_answered_in_a_short_time_keeps_every_rule(seed, hands):
    problem = question(menu_value(seed, 4, hands), EAT, "UTC")
    found = answer(problem, limit_s=0.3)
    assert isinstance(found, NoPlan) or not broken_rules(problem, found)


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 2), st.floats(0.05, 0.9), st.integers(1, 1_500))
def test_there_is_always_a_new_plan_while_cooking_and_it_keeps_every_rule(seed, hands, share, longer_s):
    problem = question(menu_value(seed, 4, hands), EAT, "UTC")
    plan = answer(problem, limit_s=0.3)
    if isinstance(plan, Plan):
        now = half_cooked(problem, plan, share, longer_s)
        again = answer(now, limit_s=2.0, hint=plan)
        assert isinstance(again, Plan)
        assert not broken_rules(now, again)


def test_a_plan_is_told_before_the_solver_starts_and_the_answer_is_no_worse():
    problem, told = question(menu_value(3, 6, 1), EAT, "UTC"), []
    best = answer(problem, progress=told.append)
    assert told
    assert best.starts_at >= told[0].starts_at - 300  # the first start counts to five minutes


def test_a_time_limit_gives_the_best_plan_so_far_and_says_that_it_may_not_be_the_best():
    problem, began = question(menu_value(1, 12, 1), EAT, "UTC"), perf_counter()
    found = answer(problem, limit_s=0.2)
    assert isinstance(found, Plan)
    assert found.status is Status.FEASIBLE
    assert perf_counter() - began < 5


def test_a_plan_that_is_not_proven_says_which_aim_is_open_and_what_none_can_be_under():
    problem = question(menu_value(1, 7, 1), EAT, "UTC")
    found, best = answer(problem, limit_s=0.0), planned(problem, limit_s=60)
    assert (found.status, best.standing) == (Status.FEASIBLE, None)
    left = found.standing
    assert left.aim == "holds"  # nothing may be late before cooking, so that is the first aim
    assert left.proven == ()
    assert 0 <= left.bound <= lost_in(problem, best) <= lost_in(problem, found) <= left.cost


def test_aims_before_the_open_one_are_told_as_proven():
    # Two jobs of 20 and 30 keep all day, so holds lose nothing; as late as can be they take 50 of the last hour. 70 %
    # of it are 40 in the axis's ticks of ten minutes: 10 min, 17 hundredths of an hour too much; the best has none.
    tasks = (step("A/Stir", 20, work="all"), step("B/Stir", 30, work="all"))
    left = answer(kitchen(*tasks, hold=600), limit_s=0.0).standing
    assert (left.aim, left.cost, left.bound, left.proven) == ("hands", 17, 0, ("holds",))


def test_the_bound_of_a_late_meal_is_no_later_than_the_meal_can_be():
    # Ten dishes of 11 to 20 min of work for two pairs, 155 in all: no meal before 78 min, by counting alone.
    tasks = [step(f"Dish {n}/Stir", 11 + n, work="all") for n in range(10)]
    problem = kitchen(*tasks, hold=600, pairs=2, not_before=EAT, soonest=True)
    found = answer(problem, limit_s=0.01)
    is_open = found.standing is not None and found.standing.aim == "on time"
    assert is_open or found.status is Status.OPTIMAL or "on time" in found.standing.proven
    bound = found.eat_at - EAT - (found.standing.gap if is_open else 0)
    assert 78 * M <= bound <= planned(problem).eat_at - EAT


def test_no_plan_in_the_time_given_is_not_said_to_be_impossible(monkeypatch):
    # A plan exists (it is found below); with no greedy plan and no time, none is found, and nothing is proven.
    problem = question(menu_value(0, 12, 1), EAT, "UTC")
    assert isinstance(answer(problem, limit_s=5), Plan)
    monkeypatch.setattr("timerboard.planner.answer.first_plan", lambda _: None)
    found = answer(problem, limit_s=0.001)
    assert isinstance(found, NoPlan)
    assert found.status is Status.UNKNOWN
    assert found.reasons == ("None was found in 1 s; there may be one all the same.",)
    assert isinstance(answer(problem, limit_s=20), Plan)


def test_a_search_that_is_stopped_gives_what_it_has():
    problem, began = question(menu_value(1, 12, 1), EAT, "UTC"), perf_counter()
    found = answer(problem, limit_s=60, stop=lambda: True)
    assert isinstance(found, Plan)
    assert perf_counter() - began < 10


def test_a_dish_that_loses_little_waits_rather_than_one_that_loses_much():
    # Two jobs of 10 by one pair: one dish waits 10. With holds of 20 and 60 the free quarters are 5 and 15: the one
    # that keeps for 60 loses nothing by waiting 10, the other would lose a quarter of its hold.
    tasks = (step("Fries/Fry", 10, work="all"), step("Stew/Season", 10, work="all"))
    plan = planned(kitchen(*tasks, holds={"Fries": 20, "Stew": 60}))
    assert minutes(plan, "Fries/Fry") == (-10, 0)
    assert minutes(plan, "Stew/Season") == (-20, -10)


def test_an_oven_is_changed_as_seldom_as_can_be():
    # Two at 160 and one at 220, one rack: both of 160 together is one change, 220 between them would be two.
    places = (OVEN.model_copy(update={"room": 1}),)
    tasks = [step(f"{n}/Bake", 20, **oven(heat)) for n, heat in (("A", 160), ("B", 220), ("C", 160))]
    plan = planned(kitchen(*tasks, hold=240, places=places))
    assert len(plan.settings) == 2


def test_a_new_plan_moves_what_has_not_begun_as_little_as_it_can():
    # The plan at hand: A -30..-10, B -10..0 by one pair. A began 2 late and ends at -8, so B must slip to -8: its
    # meal is 2 late. C needs no hands, had -25..-15 and keeps well (240): nothing pushes it.
    tasks = (step("A/Stir", 20, work="all"), step("B/Fry", 10, work="all"), step("C/Soak", 10))
    before = planned(kitchen(*tasks, holds={"B": 0, "C": 240}))
    moved = {"A/Stir": (-30, -10), "B/Fry": (-10, 0), "C/Soak": (-25, -15)}
    placed = tuple(p.model_copy(update={"start": at(moved[p.id][0]), "end": at(moved[p.id][1])}) for p in before.placed)
    at_hand = before.model_copy(update={"placed": placed})
    begun = tasks[0].model_copy(update={"started": at(-28)})
    now = kitchen(begun, *tasks[1:], holds={"C": 240}, not_before=at(-27), late_ok=True)
    plan = planned(now, hint=at_hand)
    assert plan.late_s == 2 * M
    assert minutes(plan, "B/Fry") == (-8, 2)
    assert minutes(plan, "C/Soak") == (-25, -15)
