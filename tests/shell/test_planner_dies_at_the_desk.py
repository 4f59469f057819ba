"""The real planner process is killed while a desk has a question open: the board says so and gets its answer."""

import os
import signal

import pytest
from PySide6.QtCore import QCoreApplication

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import pork, small_menu
from timerboard.desk.notices import plain
from timerboard.shell.planner_process import PlannerProcess


@pytest.mark.usefixtures("qapp")
def test_the_board_says_that_the_planner_was_started_again_and_a_better_plan_comes(qtbot):
    kitchen: DeskKitchen | None = None

    def again(said: str) -> None:
        assert kitchen is not None
        kitchen.desk.tell(plain("planner again", said))

    planner = PlannerProcess(again)
    kitchen = DeskKitchen(small_menu(pork()), planner=planner)
    qtbot.waitUntil(lambda: planner.ready, timeout=20_000)
    before, dead = kitchen.desk.cook.plan, planner.process_id()
    kitchen.desk.plan_better()
    kitchen.desk.look()
    os.kill(dead, signal.SIGKILL)
    qtbot.waitUntil(lambda: bool(kitchen.notice("planner again")), timeout=20_000)
    assert kitchen.notice("planner again") == "The planner stopped and was started again"
    qtbot.waitUntil(lambda: kitchen.desk.cook.plan != before, timeout=20_000)
    assert planner.process_id() not in {0, dead}
    planner.close()


def test_a_program_that_ends_while_it_plans_ends_its_planner(qtbot, qapp):
    planner = PlannerProcess()
    qtbot.waitUntil(lambda: planner.process_id() > 0, timeout=20_000)
    number = planner.process_id()
    QCoreApplication.instance().aboutToQuit.emit()
    assert planner.process_id() == 0
    with pytest.raises(ProcessLookupError):
        os.kill(number, 0)
