"""An adopted forecast of a pull is a fact: strips, calls and the plan follow from it, and replay gives the same."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.kitchen import MIN, Kitchen, at, minutes, plain_plan, small_menu, step
from timerboard.core.alarm_values import Kind
from timerboard.core.alarms import calls
from timerboard.core.commands import AdoptPlan, EndStep, ReopenStep, StartStep, TakeReading, Undo
from timerboard.core.engine import range_of
from timerboard.core.events import PullForeseen
from timerboard.core.fold import fold
from timerboard.core.heat_values import CurvePoint, PullForecast
from timerboard.core.menu import Dish, Use
from timerboard.core.outlook import outlook
from timerboard.core.question import question_of_cook
from timerboard.core.reading_sense import beyond
from timerboard.core.upgrades import read_event
from timerboard.core.view import view

ROAST = step("Ham", "Roast", minutes(60, 90), uses=(Use(place="oven"),), heat_c=160.0, pull_at_c=70.0)
REST = step("Ham", "Rest", minutes(20), after=["Roast"])
HAM = Dish(name="Ham", steps=(ROAST, REST))


def roasting() -> Kitchen:
    """Twenty minutes in, the core read once, at 30 C."""
    kitchen = Kitchen(small_menu(HAM), eat_in=200)
    kitchen.must(StartStep(ROAST.id))
    kitchen.wait(20)
    kitchen.must(TakeReading(ROAST.id, 30.0))
    return kitchen


def foretold(kitchen: Kitchen, at_min: float, play_min: float = 4, readings: int = 1) -> PullForecast:
    """A forecast that many minutes from now."""
    when = kitchen.now + round(at_min * MIN)
    play = round(play_min * MIN)
    return PullForecast(
        step=ROAST.id, pull_c=70.0, readings=readings, at=when, early=when - play, late=when + play, peak_c=73.0
    )


def adopt(kitchen: Kitchen, forecast: PullForecast) -> None:
    """As a desk does when the answer comes."""
    kitchen.take(PullForeseen(**at(kitchen.now, len(kitchen.events) + 1).fields(), forecast=forecast))


def test_outlook_range_strip_and_question_take_the_fit_for_the_menu():
    kitchen = roasting()
    found = foretold(kitchen, 100)
    adopt(kitchen, found)
    seen = outlook(kitchen.cook, kitchen.now)
    assert (seen.steps[ROAST.id].end_low, seen.steps[ROAST.id].end_likely) == (found.early, found.at)
    assert seen.steps[REST.id].start == found.at
    assert range_of(kitchen.cook, ROAST.id) == (found.early, found.late)
    (task, _) = question_of_cook(kitchen.cook, kitchen.now).tasks
    assert (task.least_s, task.most_s) == (120 * 60, 120 * 60)
    assert (task.span.low, task.span.high) == (116 * 60, 124 * 60)
    assert view(kitchen.cook, kitchen.now).strips[0].matter.endswith("± 4")


def test_each_reading_moves_the_end_of_the_meal():
    kitchen = roasting()
    adopt(kitchen, foretold(kitchen, 100))
    before = outlook(kitchen.cook, kitchen.now).margin_ms
    kitchen.wait(10)
    kitchen.must(TakeReading(ROAST.id, 36.0))
    adopt(kitchen, foretold(kitchen, 120, readings=2))
    assert outlook(kitchen.cook, kitchen.now).margin_ms == before - 30 * MIN


def test_the_pull_calls_at_the_forecast_and_not_when_the_menu_says():
    kitchen = roasting()
    adopt(kitchen, foretold(kitchen, 30))
    kitchen.wait(29)
    assert Kind.PULL not in {a.kind for a in kitchen.alarms()}
    kitchen.wait(1)
    assert Kind.PULL in {a.kind for a in kitchen.alarms()}  # 50 min in; the menu's low end is at 60


def test_past_the_menus_longest_time_nothing_is_called_over_while_the_fit_says_later():
    kitchen = roasting()
    adopt(kitchen, foretold(kitchen, 200))
    kitchen.wait(75)  # 95 min in, the menu's high end is at 90
    assert Kind.OVER not in {a.kind for a in kitchen.alarms()}
    kitchen.wait(130)
    assert Kind.OVER in {a.kind for a in kitchen.alarms()}


@settings(max_examples=40, deadline=None)
@given(left=st.floats(1, 300), play=st.floats(0, 60))
def test_a_reading_is_asked_for_within_the_limits(left, play):
    kitchen = roasting()
    kitchen.check = False
    read = kitchen.now
    adopt(kitchen, foretold(kitchen, left, min(play, left)))
    kitchen.wait(left + 61)
    asked = [a for a in kitchen.alarms() if a.kind in (Kind.READ, Kind.PULL, Kind.OVER)]
    assert asked  # it never falls silent
    first = first_call(roasted_with(left, min(play, left)))
    assert first >= min(read + 4 * MIN, read + round(left * MIN))
    assert first <= max(read + 4 * MIN, min(read + round(left / 2 * MIN), read + round((left - 5) * MIN))) + 2


def roasted_with(left: float, play: float) -> Kitchen:
    kitchen = roasting()
    kitchen.check = False
    adopt(kitchen, foretold(kitchen, left, play))
    return kitchen


def first_call(kitchen: Kitchen) -> int:
    """The moment of the first call for a reading or the pull."""
    kinds = (Kind.READ, Kind.PULL)
    return min(call.since for call in calls(kitchen.cook, kitchen.now) if call.kind in kinds)


def test_a_forecast_of_other_readings_has_no_effect_and_says_why():
    kitchen = roasting()
    adopt(kitchen, foretold(kitchen, 100, readings=2))
    assert kitchen.cook.lives[ROAST.id].fit is None
    assert kitchen.cook.record[-1].effect == "the readings had changed since"


def test_a_newer_reading_puts_the_forecast_aside_and_undo_brings_it_back():
    kitchen = roasting()
    found = foretold(kitchen, 100)
    adopt(kitchen, found)
    kitchen.must(TakeReading(ROAST.id, 34.0, confirmed=True))
    assert kitchen.cook.lives[ROAST.id].fit is None
    kitchen.must(Undo())
    assert kitchen.cook.lives[ROAST.id].fit == found


def test_undo_takes_back_the_reading_and_not_its_forecast():
    kitchen = roasting()
    adopt(kitchen, foretold(kitchen, 100))
    kitchen.must(Undo())
    assert kitchen.cook.lives[ROAST.id].readings == ()
    assert kitchen.cook.lives[ROAST.id].fit is None


def test_a_step_that_ended_or_goes_on_is_told_the_same_by_its_record():
    kitchen = roasting()
    adopt(kitchen, foretold(kitchen, 100))
    kitchen.must(EndStep(ROAST.id, confirmed=True), ReopenStep(ROAST.id), AdoptPlan(plain_plan(small_menu(HAM), 0)))
    told = [read_event(event.model_dump(mode="json")) for event in kitchen.events]
    assert fold(told) == kitchen.cook


def curved(kitchen: Kitchen) -> PullForecast:
    """The core expected at 40 C in 20 minutes, 36 to 45, and at 70 C in 100."""
    points = ((0, 28.0, 30.0, 32.0), (20, 36.0, 40.0, 45.0), (100, 60.0, 70.0, 80.0))
    curve = tuple(
        CurvePoint(at=kitchen.now + m * MIN, low_c=low, likely_c=likely, high_c=high) for m, low, likely, high in points
    )
    return foretold(kitchen, 100, 20).model_copy(update={"curve": curve})


def test_a_pull_far_above_what_the_readings_foretell_is_asked_about_as_a_slip():
    kitchen = roasting()
    adopt(kitchen, curved(kitchen))
    kitchen.wait(20)
    refusal = kitchen.refused(TakeReading(ROAST.id, 71.0))
    assert refusal.said == "71 °C, but about 40 °C was expected by now: is it right? And end it?"
    kitchen.must(refusal.ask)
    assert kitchen.cook.lives[ROAST.id].readings[-1].celsius == 71.0


def test_a_pull_that_the_readings_foretell_is_only_confirmed():
    kitchen = roasting()
    adopt(kitchen, curved(kitchen))
    kitchen.wait(90)
    assert "expected by now" not in kitchen.refused(TakeReading(ROAST.id, 71.0)).said


@pytest.mark.parametrize(
    ("celsius", "minutes_on", "asks"), [(51.0, 20, False), (53.0, 20, True), (90.0, 101, False), (44.0, 10, True)]
)
def test_how_far_above_the_curve_a_core_may_be(celsius, minutes_on, asks):
    """Three standard deviations of curve (3.9 C at 20 minutes) and probe (1 C) together, and five degrees at least."""
    kitchen = roasting()
    assert bool(beyond(curved(kitchen), celsius, kitchen.now + minutes_on * MIN, "C")) is asks
    assert beyond(None, celsius, kitchen.now, "C") == ""
