"""The real program in a real window: a reading typed at the keyboard is fitted in the planner's process and shown."""

from tests.stories.seen import kept, moment_now, shown
from tests.stories.test_real_window import boards, wait_for  # noqa: F401  the fixture is asked for by its name

MENU = """\
menu: Four pots
serves: 4
kitchen:
  places: {hob: {room: 6}}
dishes:
  - dish: Pork
    hold: 6 h
    ingredients: ["1.8 kg pork shoulder"]
    steps:
      - {do: Roast, on: hob, heat: 160 C, takes: 100-118 min, pull_at: 80 C, work: 1 min}
"""


def test_a_typed_reading_becomes_a_forecast_on_the_strip(boards):  # noqa: F811
    (boards.folder / "pots.yaml").write_text(MENU, encoding="utf-8")
    boards.up()
    wait_for("the cook", lambda: boards.count("PlanAdopted"))
    boards.press("StepStarted", "1")
    boards.press("ReadingTaken", "r", "9", "Return")
    wait_for("the forecast", lambda: boards.count("PullForeseen"))
    boards.look()  # the window shows, pixel by pixel, what the journal says
    events = kept(boards.journal)
    (strip,) = shown(events, moment_now(events)).strips
    assert strip.matter.startswith("reach 80 °C")
    assert "±" in strip.matter
