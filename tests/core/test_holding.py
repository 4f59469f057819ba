"""Holding and coming up: what a drawer says, of what goes on and was read, with each rule at its limit."""

import pytest

from tests.kitchen import MIN, PLACES, Kitchen, minutes, small_menu, step
from timerboard.core.commands import EndStep, StartStep, TakeReading
from timerboard.core.cook import Reading
from timerboard.core.holding import cold_holding, come_up, holding_lines, hot_holding
from timerboard.core.menu import Dish, Place, Use

HOUR = 60 * MIN
HOB, FRIDGE = (Use(place="hob"),), (Use(place="fridge"),)


def core(*pairs: tuple[float, float]) -> list[Reading]:
    return [Reading(round(hours * HOUR), celsius) for hours, celsius in pairs]


@pytest.mark.parametrize(
    ("holding", "celsius", "met"),
    [
        (hot_holding, 57.3, True),
        (hot_holding, 57.1, False),  # 135 °F are 57.2 °C
        (cold_holding, 5.0, True),
        (cold_holding, 5.1, False),
    ],
)
def test_the_worst_reading_decides(holding, celsius, met):
    better = 70.0 if holding is hot_holding else 2.0
    assert holding(core((0, better), (1, celsius), (2, better)), 0).met is met


def test_what_was_read_before_it_was_held_and_the_oil_say_nothing_of_holding():
    assert hot_holding([*core((0, 20.0)), Reading(2 * HOUR, 20.0, "oil")], HOUR).met is None
    assert hot_holding(core((1, 20.0)), HOUR).met is False
    said = hot_holding(core((1, 20.0)), HOUR).said
    assert "at or above 57.2 °C" in said
    assert "20 °C was read" in said
    assert "at or below 5 °C" in cold_holding(core((1, 20.0)), HOUR).said


@pytest.mark.parametrize(
    ("readings", "now_h", "met", "words"),
    [
        ((), 6, None, "It has been 6 h so far at most."),
        ((), 6.01, False, "It has been 6 h."),
        (((6, 54.5),), 8, True, "The readings meet it."),
        (((6.1, 54.5),), 8, False, "It has been 6 h 6 min."),
        (((1, 10.0), (6.5, 54.5)), 8, True, "The readings meet it."),  # it left 10 °C an hour after the start
        (((1, 10.1), (6.5, 54.5)), 8, False, "It has been 6 h 30 min."),
        (((2, 54.5), (3, 9.0)), 8, True, "The readings meet it."),  # cold again after it was hot: another matter
    ],
)
def test_coming_up_is_counted_from_the_last_cold_reading_to_the_first_hot_one(readings, now_h, met, words):
    found = come_up(core(*readings), 0, round(now_h * HOUR))
    assert (found.met, words in found.said) == (met, True), found.said


def started(name: str, do: str, uses: tuple[Use, ...], pull: float | None = None) -> tuple[Kitchen, Dish]:
    only = step(name, do, minutes(600), uses=uses, pull_at_c=pull)
    dish = Dish(name=name, steps=(only,))
    kitchen = Kitchen(small_menu(dish, places=(*PLACES, Place(name="fridge"))), eat_in=900, plan=False)
    kitchen.must(StartStep(only.id))
    return kitchen, dish


def lines(kitchen: Kitchen, dish: Dish) -> list[str]:
    return holding_lines(kitchen.cook, dish, kitchen.now)


def test_a_joint_that_comes_up_slowly_is_spoken_of_after_half_the_limit():
    kitchen, dish = started("Beef", "Roast", HOB, 54.0)
    kitchen.now += 3 * HOUR - 1
    assert lines(kitchen, dish) == []
    kitchen.now += 1
    assert [line.rpartition("). ")[2] for line in lines(kitchen, dish)] == ["It has been 3 h so far at most."]


def test_bread_with_a_thermometer_in_it_is_no_meat_that_comes_up():
    kitchen, dish = started("Rye bread", "Bake", HOB, 96.0)
    kitchen.now += 4 * HOUR
    assert lines(kitchen, dish) == []


@pytest.mark.parametrize(
    ("do", "uses", "words"),
    [
        ("Keep warm", HOB, "at or above"),
        ("Hold in the fridge", FRIDGE, "at or below"),
        ("Chill", FRIDGE, "at or below"),
    ],
)
def test_what_is_kept_is_spoken_of_once_it_was_read(do, uses, words):
    kitchen, dish = started("Bean stew", do, uses)
    assert lines(kitchen, dish) == []
    kitchen.wait(1)
    kitchen.must(TakeReading(f"Bean stew/{do}", 30.0, confirmed=True))
    (line,) = lines(kitchen, dish)
    assert words in line


def test_what_cooks_is_not_held_and_what_has_ended_is_not_spoken_of():
    kitchen, dish = started("Bean stew", "Simmer", HOB)
    kitchen.must(TakeReading("Bean stew/Simmer", 30.0, confirmed=True))
    assert lines(kitchen, dish) == []
    kept, warm = started("Bean stew", "Keep warm", HOB)
    kept.must(TakeReading("Bean stew/Keep warm", 30.0, confirmed=True), EndStep("Bean stew/Keep warm"))
    assert lines(kept, warm) == []
