"""The table of a step's life, and where the clock brings a running step."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, minutes, pork, small_menu, step
from timerboard.core.commands import DoCue, EndStep, ReviseDuration, StartStep
from timerboard.core.cook import StepState
from timerboard.core.engine import (
    LIFT,
    TRANSITIONS,
    What,
    after,
    ends_of,
    likely_end,
    more_time_s,
    phase,
    range_of,
    transitions_markdown,
)
from timerboard.core.events import CueDone, CuePassedOver
from timerboard.core.menu import Dish
from timerboard.core.values import Span


def one_step(span: Span) -> Kitchen:
    return Kitchen(small_menu(Dish(name="Tart", steps=(step("Tart", "Bake", span),))), plan=False)


def test_a_life_goes_from_waiting_to_ended_through_every_state():
    state = StepState.WAITING
    told = (What.PREDECESSORS_ENDED, What.STARTED, What.LOW_END_PASSED, What.HIGH_END_PASSED, What.ENDED)
    for what in told:
        state = TRANSITIONS[state, what]
    assert state is StepState.ENDED


@pytest.mark.parametrize(
    ("state", "what"),
    [
        (StepState.WAITING, What.STARTED),
        (StepState.WAITING, What.ENDED),
        (StepState.READY, What.ENDED),
        (StepState.RUNNING, What.STARTED),
        (StepState.READY, What.MORE_TIME),
        (StepState.ENDED, What.ENDED),
        (StepState.ENDED, What.DROPPED),
        (StepState.DROPPED, What.STARTED),
    ],
)
def test_what_the_table_does_not_know_cannot_happen(state, what):
    assert after(state, what) is None


def test_nothing_leaves_a_dropped_step():
    assert all(state is not StepState.DROPPED for state, _ in TRANSITIONS)


def test_only_reopening_leaves_an_ended_step():
    assert [what for state, what in TRANSITIONS if state is StepState.ENDED] == [What.REOPENED]


def test_the_drawn_table_has_every_move_once():
    rows = transitions_markdown().splitlines()[2:]
    assert len(rows) == len(set(rows)) == len(TRANSITIONS)
    assert f"| ready | {What.STARTED} | running |" in rows


@pytest.mark.parametrize(
    ("minute", "expected"),
    [(0, "running"), (24.9, "running"), (25, "in its range"), (30, "in its range"), (30.1, "over")],
)
def test_the_clock_moves_a_running_step_through_its_range(minute, expected):
    kitchen = one_step(minutes(25, 30))
    kitchen.must(StartStep("Tart/Bake"))
    assert phase(kitchen.cook, "Tart/Bake", kitchen.now + round(minute * MIN)) == expected


def test_an_exact_step_is_in_its_range_at_its_end_and_over_after_it():
    kitchen = one_step(minutes(10))
    kitchen.must(StartStep("Tart/Bake"))
    end = kitchen.now + 10 * MIN
    assert phase(kitchen.cook, "Tart/Bake", end) is StepState.IN_RANGE
    assert phase(kitchen.cook, "Tart/Bake", end + 1) is StepState.OVER


def test_only_a_running_step_has_a_range():
    kitchen = one_step(minutes(25, 30))
    assert range_of(kitchen.cook, "Tart/Bake") is None
    kitchen.must(StartStep("Tart/Bake"))
    started = kitchen.now
    assert range_of(kitchen.cook, "Tart/Bake") == (started + 25 * MIN, started + 30 * MIN)
    kitchen.must(EndStep("Tart/Bake"))
    assert range_of(kitchen.cook, "Tart/Bake") is None
    assert range_of(kitchen.cook, "Tart/Fly") is None


def test_a_revised_length_moves_the_range():
    kitchen = one_step(minutes(25, 30))
    kitchen.must(StartStep("Tart/Bake"))
    kitchen.wait(31)
    assert kitchen.phase("Tart/Bake") is StepState.OVER
    kitchen.must(ReviseDuration("Tart/Bake", minutes(40, 50)))
    assert kitchen.phase("Tart/Bake") is StepState.RUNNING


def test_lifted_batches_are_facts_that_move_the_range():
    kitchen = Kitchen(small_menu(fritters()), plan=False)
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.wait(7)  # the first load took 7 min instead of 4-5
    kitchen.must(DoCue("Fritters/Fry", LIFT))
    # three loads are left, each after 1-2 min of recovery and for 4-5 min
    assert range_of(kitchen.cook, "Fritters/Fry") == (kitchen.now + 15 * MIN, kitchen.now + 21 * MIN)


def test_a_batch_lifted_too_often_still_leaves_one_to_end():
    kitchen = Kitchen(small_menu(fritters()), plan=False)
    kitchen.must(StartStep("Fritters/Fry"))
    for _ in range(6):
        kitchen.take(CueDone(**kitchen.stamp(), step="Fritters/Fry", cue=LIFT))
    assert range_of(kitchen.cook, "Fritters/Fry") == (kitchen.now + 5 * MIN, kitchen.now + 7 * MIN)


def test_a_batch_that_was_passed_over_is_not_fried_any_more():
    kitchen = Kitchen(small_menu(fritters()), plan=False)
    kitchen.must(StartStep("Fritters/Fry"))
    kitchen.take(CueDone(**kitchen.stamp(), step="Fritters/Fry", cue=LIFT))
    kitchen.take(CuePassedOver(**kitchen.stamp(), step="Fritters/Fry", cue=LIFT))
    # two of the four are left
    assert range_of(kitchen.cook, "Fritters/Fry") == (kitchen.now + 10 * MIN, kitchen.now + 14 * MIN)


def test_a_revised_length_moves_the_likely_end():
    kitchen = one_step(minutes(25, 30))
    kitchen.must(StartStep("Tart/Bake"))
    started = kitchen.now
    kitchen.must(ReviseDuration("Tart/Bake", minutes(40, 50, 42)))
    assert likely_end(kitchen.cook.menu.steps["Tart/Bake"], kitchen.cook.lives["Tart/Bake"]) == started + 42 * MIN


def test_the_likely_end_lies_in_the_range():
    kitchen = Kitchen(small_menu(pork()), plan=False)
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    roast, life = kitchen.cook.menu.steps["Pork/Roast"], kitchen.cook.lives["Pork/Roast"]
    low, high = ends_of(roast, life)
    assert likely_end(roast, life) == kitchen.now + 80 * MIN
    assert low < likely_end(roast, life) < high


@pytest.mark.parametrize(
    ("minute", "hazard", "seconds"),
    [
        (60, False, 600),  # a third of the 30 min that are left
        (75, False, 300),
        (89, False, 30),  # a third of a minute is less than the least
        (90, False, 30),
        (95, False, 300),  # past the high end: a tenth of 90 min, at most 5 min
        (95, True, 30),
    ],
)
def test_not_yet_gives_a_third_of_what_is_left(minute, hazard, seconds):
    span = minutes(60, 90)
    assert more_time_s(span, 60 * MIN, 90 * MIN, minute * MIN, hazard=hazard) == seconds


def test_not_yet_of_an_exact_step_is_a_tenth_of_it():
    assert more_time_s(minutes(10), 10 * MIN, 10 * MIN, 10 * MIN) == 60
    assert more_time_s(minutes(2), 2 * MIN, 2 * MIN, 2 * MIN) == 30
