"""The test kitchen itself: a whole small supper runs to the table with nothing left calling."""

from tests.kitchen import Kitchen, pork, small_menu
from timerboard.core.commands import DoCue, EndStep, StartStep
from timerboard.core.cook import StepState


def test_a_small_supper_runs_to_the_table():
    kitchen = Kitchen(small_menu(pork()), eat_in=240)
    kitchen.wait(117)  # Salt is planned to begin 10 + 80 + 26 min 40 s before the meal
    assert kitchen.calls() == ["Set the oven to 160 °C"]
    kitchen.must(DoCue("@oven", "oven at 160 C for Pork/Roast"))
    kitchen.wait(6.5)
    assert kitchen.calls() == ["Start: salt the pork"]
    kitchen.must(StartStep("Pork/Salt"))
    kitchen.wait(10)
    kitchen.must(EndStep("Pork/Salt"))
    assert kitchen.phase("Pork/Roast") is StepState.READY  # hands are needed to put it in
    kitchen.must(StartStep("Pork/Roast"))
    kitchen.wait(60)
    kitchen.must(EndStep("Pork/Roast"))
    assert kitchen.phase("Pork/Rest") is StepState.RUNNING  # nobody has to start a rest
    kitchen.wait(27)
    kitchen.must(EndStep("Pork/Rest"))
    kitchen.wait(20)
    assert kitchen.calls() == ["Serve the meal"]
