"""Hot oil: read between batches, and words for what the reading means."""

import pytest

from tests.kitchen import Kitchen, fritters, minutes, small_menu, step
from timerboard.core.alarm_values import Kind, Rank
from timerboard.core.commands import DoCue, StartStep, TakeReading
from timerboard.core.engine import LIFT
from timerboard.core.hot_oil import BEFORE, IF_IT_BURNS, asks_for_oil, is_hot_oil, oil_says
from timerboard.core.menu import Dish, Use

FRY = "Fritters/Fry"


def frying() -> Kitchen:
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep(FRY))
    kitchen.wait(4)
    return kitchen


def oil_asked(kitchen):
    return [a for a in kitchen.alarms() if asks_for_oil(a)]


def test_the_first_batch_is_not_asked_about():
    assert oil_asked(frying()) == []


def test_each_lifted_batch_asks_for_a_reading_until_there_is_one():
    kitchen = frying()
    kitchen.must(DoCue(FRY, LIFT))
    (call,) = oil_asked(kitchen)
    assert (call.kind, call.rank, call.detail) == (Kind.READ, Rank.SOON, "175 °C?")
    kitchen.must(TakeReading(FRY, 172.0, "oil"))
    assert oil_asked(kitchen) == []
    kitchen.wait(6)
    kitchen.must(DoCue(FRY, LIFT))
    assert len(oil_asked(kitchen)) == 1


def test_oil_that_only_heats_is_asked_about_after_ten_minutes():
    heat = step("Oil", "Heat", minutes(20), uses=(Use(place="hob"),), hazard="hot oil", heat_c=175.0)
    kitchen = Kitchen(small_menu(Dish(name="Oil", steps=(heat,))))
    kitchen.must(StartStep("Oil/Heat"))
    kitchen.wait(9)
    assert oil_asked(kitchen) == []
    kitchen.wait(1)
    assert len(oil_asked(kitchen)) == 1
    assert is_hot_oil(heat)


@pytest.mark.parametrize(
    ("celsius", "ready", "words"),
    [
        (169.9, False, "wait for the next batch"),
        (170, True, "may go in"),
        (183, True, "may go in"),
        (183.1, False, "heat down"),
        (199.9, False, "heat down"),
        (200, False, "off the heat"),
    ],
)
def test_what_a_reading_means(celsius, ready, words):
    found = oil_says(fritters().steps[0], celsius)
    assert (found.ready, words in found.said) == (ready, True)


@pytest.mark.parametrize("celsius", [199.9, 200.0])
def test_the_words_of_a_reading_and_the_alarm_agree_about_oil_that_is_too_hot(celsius):
    kitchen = frying()
    kitchen.must(TakeReading(FRY, celsius, "oil"))
    calls = [a.sentence for a in kitchen.alarms() if a.rank is Rank.DANGER]
    assert bool(calls) == ("off the heat" in oil_says(fritters().steps[0], celsius).said)


def test_fire_words_forbid_water_and_call_for_help():
    said = " ".join(IF_IT_BURNS)
    assert "Never water" in said
    assert "lid" in said
    assert "fire service" in said
    assert "dried" in " ".join(BEFORE)
