"""A pull forecast comes back from the planner's process while the board goes on."""

from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_values import CoreReading, HeatQuestion, PullForecast
from timerboard.shell.planner_process import PlannerProcess

READINGS = ((60, 22.0), (90, 36.0), (120, 49.0))


def question(step: str, count: int = 3) -> HeatQuestion:
    readings = tuple(CoreReading(at=m * 60_000, celsius=c) for m, c in READINGS[:count])
    return HeatQuestion(step=step, started=0, now=readings[-1].at, readings=readings, pull_c=80.0, oven_c=160.0)


def test_two_joints_are_answered_and_an_older_question_about_one_is_dropped(qtbot):
    planner = PlannerProcess()
    found: list[PullForecast] = []
    try:
        planner.predict(question("Pork/Roast", 2), found.append)
        planner.predict(question("Pork/Roast"), found.append)
        planner.predict(question("Beef/Roast"), found.append)
        qtbot.waitUntil(lambda: len(found) == 2, timeout=20_000)
    finally:
        planner.close()
    assert [(f.step, f.readings) for f in found] == [("Pork/Roast", 3), ("Beef/Roast", 3)]
    assert found[0] == forecast_pull(question("Pork/Roast"))
