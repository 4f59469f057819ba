"""The planner as a process: real lines to a real process, which dies and comes back."""

import os
import signal
import sys

import pytest

from timerboard.core.plan import Goal, HandsChange, NoPlan, Plan, Problem, Status, Task
from timerboard.core.values import Span
from timerboard.shell.planner_process import AGAIN, MOST_DEATHS, RESTS, PlannerProcess

EAT = 1_797_877_800
DAY = 86_400


def supper(steps=3, hold_s=1800, hands=1):
    tasks = tuple(
        Task(
            id=f"Dish {n}/Stir",
            dish=f"Dish {n}",
            do="Stir",
            least_s=600,
            most_s=600,
            likely_s=600,
            span=Span.of(600),
            throughout=True,
        )
        for n in range(steps)
    )
    goals = tuple(Goal(dish=t.dish, last=(t.id,), ready_from=EAT - hold_s, ready_by=EAT, hold_s=hold_s) for t in tasks)
    return Problem(tasks=tasks, places=(), goals=goals, hands=(HandsChange(at=EAT - DAY, pairs=hands),), eat_at=EAT)


class Ears:
    """Keeps what a planner says."""

    def __init__(self):
        self.progress, self.answers, self.forecasts, self.troubles, self.restarts = [], [], [], [], []

    def ask(self, planner, problem, hint=None, **more):
        planner.ask(
            problem,
            hint,
            on_progress=self.progress.append,
            on_answer=self.answers.append,
            on_forecast=self.forecasts.append,
            on_trouble=self.troubles.append,
            **more,
        )


@pytest.fixture
def ears():
    return Ears()


@pytest.fixture(scope="module")
def planner(qapp):
    """One process for all that leave it alive: starting one takes a second."""
    process = PlannerProcess()
    yield process
    process.close()


def test_a_question_gets_progress_an_answer_and_a_forecast(qtbot, planner, ears):
    ears.ask(planner, supper())
    qtbot.waitUntil(lambda: bool(ears.forecasts), timeout=20_000)
    assert isinstance(ears.answers[0], Plan)
    assert ears.answers[0].status is Status.OPTIMAL
    assert ears.progress
    assert not ears.troubles


def test_a_question_without_a_plan_gets_reasons(qtbot, planner, ears):
    ears.ask(planner, supper(hold_s=0))
    qtbot.waitUntil(lambda: bool(ears.answers), timeout=20_000)
    assert isinstance(ears.answers[0], NoPlan)
    assert "pair of hands" in ears.answers[0].reasons[0]


def test_nothing_of_a_cancelled_question_is_heard(qtbot, planner, ears):
    ears.ask(planner, supper())
    planner.cancel()
    second = Ears()
    second.ask(planner, supper(2))
    qtbot.waitUntil(lambda: bool(second.forecasts), timeout=20_000)
    assert not ears.answers
    assert not ears.progress


def test_a_new_question_drops_the_one_that_is_open(qtbot, planner, ears):
    ears.ask(planner, supper())
    second = Ears()
    second.ask(planner, supper(2))
    qtbot.waitUntil(lambda: bool(second.answers), timeout=20_000)
    assert not ears.answers


def test_a_plan_at_hand_is_forecast_beside_an_open_question(qtbot, planner, ears):
    ears.ask(planner, supper())
    qtbot.waitUntil(lambda: bool(ears.forecasts), timeout=20_000)
    again = []
    planner.foresee(supper(), ears.answers[0], again.append)
    qtbot.waitUntil(lambda: bool(again), timeout=20_000)
    assert again[0].on_time == pytest.approx(1.0)


def test_a_killed_planner_is_started_again_and_the_question_answered(qtbot, ears):
    planner = PlannerProcess(ears.restarts.append)
    qtbot.waitUntil(lambda: planner.ready, timeout=20_000)
    dead = planner.process_id()
    ears.ask(planner, supper())
    os.kill(dead, signal.SIGTERM)
    qtbot.waitUntil(lambda: bool(ears.restarts), timeout=20_000)
    qtbot.waitUntil(lambda: bool(ears.answers), timeout=20_000)
    assert planner.process_id() != dead
    assert "started again" in ears.restarts[0]
    assert not ears.troubles
    planner.close()


def test_a_planner_that_cannot_start_is_told_to_who_asks(qtbot, ears):
    planner = PlannerProcess(program=("/nowhere/python",))
    ears.ask(planner, supper())
    qtbot.waitUntil(lambda: bool(ears.troubles), timeout=20_000)
    assert "stopped" in ears.troubles[0]
    planner.close()


def test_a_planner_that_dies_of_every_question_gives_it_back(qtbot, ears):
    planner = PlannerProcess(ears.restarts.append, program=(sys.executable, "-c", "input(); raise SystemExit(3)"))
    ears.ask(planner, supper())
    qtbot.waitUntil(lambda: bool(ears.troubles), timeout=20_000)
    assert ears.troubles == ["the planner stopped twice over this question"]
    planner.close()


def test_a_planner_that_dies_unasked_again_and_again_rests_until_it_is_asked(qtbot, ears):
    planner = PlannerProcess(ears.restarts.append, program=(sys.executable, "-c", "raise SystemExit(3)"))
    qtbot.waitUntil(lambda: len(ears.restarts) == MOST_DEATHS + 1, timeout=20_000)
    assert ears.restarts == [AGAIN] * MOST_DEATHS + [RESTS]
    assert planner.process_id() == 0
    ears.ask(planner, supper())
    assert planner.process_id() != 0
    planner.close()
