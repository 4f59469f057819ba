"""The forecast: what simulated cooks say, and whether it comes true."""

from itertools import pairwise
from random import Random

import numpy as np
import pytest

from tests.bench.menus import menu_value
from tests.planner.simulated_cook import late_cooks
from tests.tiny_kitchens import EAT, goal, plan, problem, task, work
from timerboard.core.plan import After, PlaceRoom
from timerboard.core.question import question
from timerboard.core.values import Span
from timerboard.planner.draws import drawn, shape
from timerboard.planner.forecast import forecast
from timerboard.planner.greedy import first_plan

SUPPER = 1_797_877_800  # Mon 21 Dec 2026 18:30 UTC


def unsure(name, low, likely, high, **more):
    return task(name, likely, span=Span(low=low, likely=likely, high=high), **more)


def spoken(asked, **at):
    return forecast(asked, plan(asked, **at))


class TestDraws:
    SPAN = Span(low=1000, likely=1600, high=2000)

    def test_their_mean_is_that_of_the_pert_distribution(self):
        # (low + 4 likely + high) / 6 = (1000 + 6400 + 2000) / 6 = 1566.7
        lengths = drawn(self.SPAN, np.random.default_rng(1), 20_000)
        assert np.mean(lengths) == pytest.approx(9400 / 6, abs=5)
        assert lengths.min() >= 1000
        assert lengths.max() <= 2000

    def test_their_shape_has_its_mode_at_likely(self):
        # The mode of a beta is (a - 1) / (a + b - 2): with 3.4 and 2.6 that is 2.4 / 4 = 0.6 of the way.
        assert shape(self.SPAN) == (3.4, 2.6)

    def test_a_step_that_runs_already_takes_at_least_as_long_as_it_has(self):
        lengths = drawn(self.SPAN, np.random.default_rng(1), 2_000, gone_s=1800)
        assert lengths.min() >= 1799
        assert lengths.max() <= 2000
        assert np.all(drawn(self.SPAN, np.random.default_rng(1), 10, gone_s=2100) == 2100)

    def test_a_certain_step_takes_what_it_takes(self):
        assert np.all(drawn(Span.of(300), np.random.default_rng(1), 5) == 300)


def test_certain_steps_are_certainly_on_time():
    said = spoken(problem(task("boil", 300)), boil=(EAT - 300, EAT))
    assert (said.on_time, said.late_likely_s, said.late_bad_s, said.blame) == (1.0, 0, 0, ())


def test_a_step_that_needs_longer_than_planned_makes_the_meal_late_and_is_blamed():
    # Planned at 1600, in truth 3000: 1400 s late whenever it is cooked.
    roast = task("roast", 1600, span=Span.of(3000))
    asked = problem(roast, task("salad", 100))
    said = spoken(asked, roast=(EAT - 1600, EAT), salad=(EAT - 100, EAT))
    assert (said.on_time, said.late_likely_s, said.late_bad_s) == (0.0, 1400, 1400)
    assert said.blame == (("roast", 1.0),)
    assert said.dish_slack_s == (("dish of roast", -1400), ("dish of salad", 0))


def test_late_by_less_than_a_minute_is_on_time():
    for over, on_time in ((59, 1.0), (60, 0.0)):
        asked = problem(task("boil", 300, span=Span.of(300 + over)))
        assert spoken(asked, boil=(EAT - 300, EAT)).on_time == on_time


def test_an_elastic_step_gives_way_before_the_meal_does():
    # 400 s over plan; the rest of 300-800 was planned at 700 and gives all 400, but not 500.
    for over, late in ((400, 0), (500, 100)):
        roast = task("roast", 1000, span=Span.of(1000 + over))
        asked = problem(roast, task("rest", 300, 800, after=(After(task="roast"),)))
        assert spoken(asked, roast=(EAT - 1700, EAT - 700), rest=(EAT - 700, EAT)).late_likely_s == late


def test_an_elastic_step_that_follows_on_begins_with_the_end_before_it_and_ends_within_its_longest():
    # Out 500 early, the rest begins then and may take 800: it ends 200 before the meal.
    roast = task("roast", 1000, span=Span.of(500))
    asked = problem(roast, task("rest", 300, 800, after=(After(task="roast"),)))
    said = spoken(asked, roast=(EAT - 1500, EAT - 500), rest=(EAT - 500, EAT))
    assert said.dish_slack_s == (("dish of rest", 200),)


def test_work_is_not_begun_before_its_planned_moment():
    chop = task("chop", 300, span=Span.of(100))
    asked = problem(chop, work("fry", 200, after=(After(task="chop"),)))
    said = spoken(asked, chop=(EAT - 500, EAT - 200), fry=(EAT - 200, EAT))
    assert said.dish_slack_s == (("dish of fry", 0),)


def test_what_holds_a_place_or_hands_too_long_makes_others_late():
    rack = PlaceRoom(name="rack", room=1)
    tart = task("tart", 300, span=Span.of(500), uses=(("rack", 1),))
    asked = problem(tart, task("bread", 300, uses=(("rack", 1),)), places=(rack,))
    said = spoken(asked, tart=(EAT - 600, EAT - 300), bread=(EAT - 300, EAT))
    assert (said.late_likely_s, said.blame) == (200, (("tart", 1.0),))
    slow = work("chop", 300, span=Span.of(500))
    said = spoken(problem(slow, work("fry", 300)), chop=(EAT - 600, EAT - 300), fry=(EAT - 300, EAT))
    assert (said.late_likely_s, said.blame) == (200, (("chop", 1.0),))


def test_the_blame_goes_to_the_longest_delay_on_the_chain_that_held_up_the_meal():
    first = task("soak", 100, span=Span.of(300))
    second = task("boil", 100, span=Span.of(400), after=(After(task="soak"),))
    idle = task("chill", 100, span=Span.of(250))
    asked = problem(first, second, idle, goals=(goal("boil"), goal("chill")))
    said = spoken(asked, soak=(EAT - 200, EAT - 100), boil=(EAT - 100, EAT), chill=(EAT - 100, EAT))
    assert said.blame == (("boil", 1.0),)


def test_what_runs_already_is_not_drawn_anew():
    # Begun 1500 ago, planned at 1600 of at most 2000: it ends between now and 500 s from now.
    roast = unsure("roast", 1000, 1600, 2000, started=EAT - 1600)
    asked = problem(roast, not_before=EAT - 100, late_ok=True)
    said = spoken(asked, roast=(EAT - 1600, EAT))
    assert 0 <= said.late_likely_s <= 400
    assert said.late_bad_s <= 400


def test_the_same_seed_says_the_same_and_more_uncertainty_is_never_safer():
    def asked(high):
        return problem(unsure("roast", 1000, 1600, high))

    at = {"roast": (EAT - 1800, EAT - 200)}
    assert spoken(asked(2000), **at) == spoken(asked(2000), **at)
    shares = [spoken(asked(high), **at).on_time for high in (1700, 2000, 2600, 3600)]
    assert all(a >= b for a, b in pairwise(shares))
    assert shares[0] == 1.0
    assert shares[-1] < 0.6


def test_a_plan_of_nothing_is_on_time():
    assert spoken(problem()).on_time == 1.0


SUPPERS = ((0, 1), (2, 2), (5, 1), (8, 2), (9, 2))
COOKS = 120


def test_what_is_said_to_happen_does_within_five_points():
    """Against cooks simulated by events, one at a time, that share no code with the forecast: 600 over five suppers.

    `tests/bench/bench_forecast.py` does the same for more suppers and more cooks.
    """
    said, done = [], []
    for seed, hands in SUPPERS:
        asked = question(menu_value(seed, 6, hands), SUPPER, "UTC")
        made = first_plan(asked)
        late = late_cooks(asked, made, Random(seed), COOKS)
        said.append(forecast(asked, made).on_time)
        done.append(sum(s < 60 for s in late) / COOKS)
    assert np.mean(said) == pytest.approx(np.mean(done), abs=0.05)
    assert max(abs(a - b) for a, b in zip(said, done, strict=True)) < 0.12  # 2.7 standard errors of 120 cooks
    assert min(said) < 0.9
