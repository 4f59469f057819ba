"""What a strip says of a pull and of food that stands."""

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.commands import EndStep, StartStep
from timerboard.core.heat_values import PullForecast
from timerboard.core.menu import Dish, Use
from timerboard.core.values import MS
from timerboard.core.view import Extras, view

ROAST = step("Ham", "Roast", minutes(60, 90), uses=(Use(place="hob"),), heat_c=160.0, pull_at_c=70.0)
MIN = 60 * MS


def running() -> Kitchen:
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,))), eat_in=200, plan=False)
    kitchen.must(StartStep(ROAST.id))
    kitchen.wait(20)
    return kitchen


def matter(kitchen: Kitchen, **pulls: PullForecast) -> str:
    extras = Extras(pulls={ROAST.id: pulls["ham"]} if pulls else {})
    return view(kitchen.cook, kitchen.now, extras).strips[0].matter


def test_a_fitted_forecast_takes_the_place_of_the_line():
    kitchen = running()
    now = kitchen.now
    found = PullForecast(
        step=ROAST.id, pull_c=70.0, readings=2, at=now + 30 * MIN, early=now + 26 * MIN, late=now + 34 * MIN
    )
    assert matter(kitchen, ham=found).endswith("± 4")
    assert matter(kitchen, ham=found) != matter(kitchen)


def test_an_hour_before_its_limit_the_clock_is_said():
    kitchen = running()
    kitchen.must(EndStep(ROAST.id, confirmed=True))
    assert "limit" not in matter(kitchen)
    kitchen.wait(61)
    assert "out of the heat 1 h 1 min, limit" in matter(kitchen)
