"""Cooling is of one piece of a dish: what another part of it reads or does says nothing of it."""

import pytest

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.commands import EndStep, PutAway, StartStep, TakeReading
from timerboard.core.food_clocks import PUT_AWAY, ClockKind, food_clocks
from timerboard.core.menu import Dish, Use

HOB = (Use(place="hob"),)


def stock_that_cools() -> Kitchen:
    """A ramen whose stock has left the hob and is read at 40 °C; its pork is raw, and its eggs are yet to be boiled."""
    stock = step("Ramen", "Boil the stock", minutes(10), uses=HOB)
    pork = step("Ramen", "Slice the pork", minutes(10))
    eggs = step("Ramen", "Boil the eggs", minutes(10), uses=HOB)
    bowl = step("Ramen", "Fill the bowls", minutes(5), after=[one.do for one in (stock, pork, eggs)])
    kitchen = Kitchen(small_menu(Dish(name="Ramen", steps=(stock, pork, eggs, bowl))), eat_in=600, plan=False)
    kitchen.must(StartStep(stock.id))
    kitchen.wait(10)
    kitchen.must(EndStep(stock.id, confirmed=True))
    kitchen.wait(10)
    kitchen.must(TakeReading(stock.id, 40.0), StartStep(pork.id))
    return kitchen


def cooling(kitchen: Kitchen) -> list[str]:
    return [clock.step for clock in food_clocks(kitchen.cook, kitchen.now) if clock.kind is ClockKind.COOL_FIRST]


@pytest.mark.parametrize("act", [TakeReading("Ramen/Slice the pork", 4.0), StartStep("Ramen/Boil the eggs")])
def test_another_part_that_is_read_raw_or_is_in_the_heat_ends_no_cooling(act):
    kitchen = stock_that_cools()
    kitchen.wait(1)
    kitchen.must(act)
    assert cooling(kitchen) == ["Ramen/Boil the stock"]


def test_what_ends_the_cooling_is_a_cold_reading_of_it():
    kitchen = stock_that_cools()
    kitchen.wait(1)
    kitchen.must(TakeReading("Ramen/Boil the stock", 4.0, confirmed=True))
    assert cooling(kitchen) == []


def test_what_cools_is_put_away_on_the_step_that_left_the_heat():
    kitchen = stock_that_cools()
    kitchen.must(PutAway(("Ramen",)))
    assert kitchen.cook.lives["Ramen/Boil the stock"].cues[PUT_AWAY].last == kitchen.now
    assert cooling(kitchen) == []
