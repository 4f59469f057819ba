"""A menu without a quick plan: a window says that it is planned, the answer comes later, all can be called off."""

import argparse
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from tests.fakes import HandClock
from timerboard import boards
from timerboard.core.plan import NoPlan, Plan, Problem, Status
from timerboard.planner.greedy import first_plan
from timerboard.terminal import meal

CLOCK = HandClock()
ONE_PAN_EACH = """\
menu: Two pans at once
serves: 2
kitchen:
  hands: 1
  places:
    hob: {room: 2}
dishes:
  - dish: Fish
    hold: 0 min
    steps:
      - {do: Fry, on: hob, lasts: 10 min, work: all}
  - dish: Steak
    hold: 0 min
    steps:
      - {do: Fry, on: hob, lasts: 10 min, work: all}
"""


class LaterPlanner:
    """Keeps the question; a test answers it."""

    def __init__(self) -> None:
        self.asked, self.cancelled = [], 0

    def ask(self, problem, hint, **heard) -> None:
        self.asked.append(problem)
        self.heard = heard

    def cancel(self) -> None:
        self.cancelled += 1


class Evening:
    """A menu that cannot be cooked, on its way to a board; `found` is a plan of an easier one."""

    def __init__(self, qtbot, folder: Path) -> None:
        menu = folder / "pans.yaml"
        menu.write_text(ONE_PAN_EACH, encoding="utf-8")
        self.at_table = meal(menu, "19:00", CLOCK)
        self.problem = boards.opening_plan(self.at_table, CLOCK)
        assert isinstance(self.problem, Problem)
        goals = tuple(g.model_copy(update={"ready_from": None}) for g in self.problem.goals)
        self.found = first_plan(self.problem.model_copy(update={"goals": goals}))
        self.planner, self.heard = LaterPlanner(), []
        wanted = boards.Unplanned(self.at_table, self.problem, lambda plan: plan)
        self.planning = boards.Planning(wanted, self.heard.append, planner=self.planner)
        self.dialog = self.planning.dialog
        qtbot.addWidget(self.dialog)


@pytest.fixture
def evening(qtbot, tmp_path):
    return Evening(qtbot, tmp_path)


def test_the_window_is_there_before_any_answer_and_says_what_goes_on(evening):
    assert evening.dialog.isVisible()
    assert evening.dialog.heading.text() == "Planning Two pans at once"
    assert evening.planner.asked == [evening.problem]
    assert not evening.dialog.take.isVisible()
    assert evening.heard == []


def test_the_answer_is_taken_and_the_window_goes(evening):
    evening.planner.heard["on_answer"](evening.found)
    assert evening.heard == [evening.found]
    assert not evening.dialog.isVisible()


def test_what_was_found_so_far_can_be_cooked_with(evening, qtbot):
    evening.planner.heard["on_progress"](evening.found.model_copy(update={"late_s": 900}))
    assert evening.dialog.said.text() == "There is a plan to eat at 19:15, 15 min late. A better one is looked for."
    qtbot.mouseClick(evening.dialog.take, Qt.MouseButton.LeftButton)
    assert [plan.late_s for plan in evening.heard] == [900]
    assert evening.planner.cancelled == 1
    assert not evening.dialog.isVisible()


@pytest.mark.parametrize("way", ["button", "escape", "close"])
def test_it_can_be_called_off_in_every_way_that_a_window_is_left(evening, qtbot, way):
    if way == "button":
        qtbot.mouseClick(evening.dialog.stop, Qt.MouseButton.LeftButton)
    elif way == "escape":
        qtbot.keyClick(evening.dialog, Qt.Key.Key_Escape)
    else:
        evening.dialog.close()
    assert evening.heard == [None]
    assert evening.planner.cancelled == 1
    assert evening.planning.why_not is None


def test_reasons_stay_until_they_are_read_and_stand_in_the_terminal_too(evening, qtbot, capsys):
    no = NoPlan(status=Status.IMPOSSIBLE, reasons=("1 pair of hands is too few.",))
    evening.planner.heard["on_answer"](no)
    assert evening.dialog.heading.text() == "Two pans at once: this cannot be cooked as it stands."
    assert "1 pair of hands is too few." in evening.dialog.said.text()
    assert "1 pair of hands is too few." in capsys.readouterr().err
    assert evening.heard == []
    qtbot.mouseClick(evening.dialog.stop, Qt.MouseButton.LeftButton)
    assert evening.heard == [None]
    assert evening.planning.why_not == no


def test_a_planner_that_fails_says_nothing_of_the_menu(evening):
    evening.planner.heard["on_trouble"]("the planner stopped twice over this question")
    assert evening.dialog.heading.text() == "Two pans at once: no plan yet."
    assert "The planner stopped twice over this question." in evening.dialog.said.text()


def test_a_planner_that_fails_later_leaves_the_plan_that_was_found(evening):
    evening.planner.heard["on_progress"](evening.found)
    evening.planner.heard["on_trouble"]("the planner stopped twice over this question")
    assert evening.heard == [evening.found]
    assert evening.planning.why_not is None


def test_a_large_meal_that_is_late_is_left_to_the_planner(tmp_path, monkeypatch):
    menu = tmp_path / "pans.yaml"
    menu.write_text(ONE_PAN_EACH.replace("hold: 0 min", "hold: 30 min"), encoding="utf-8")
    late = meal(menu, "14:05", CLOCK)  # the clock shows 14:00, the work is twenty minutes
    assert isinstance(boards.opening_plan(late, CLOCK), Plan)
    monkeypatch.setattr(boards, "QUICK_STEPS", 1)
    asked = boards.opening_plan(late, CLOCK)
    assert isinstance(asked, Problem)
    assert asked.late_ok


def test_board_on_gives_what_is_still_to_be_planned_and_begins_no_cook(tmp_path):
    menu = tmp_path / "pans.yaml"
    menu.write_text(ONE_PAN_EACH, encoding="utf-8")
    asked = argparse.Namespace(menu=menu, eat_at="19:00", fresh=True, theme="system", sound="silent", trace=None)
    opened = boards.board_on(asked, CLOCK)
    assert isinstance(opened, boards.Unplanned)
    assert opened.problem.late_ok
