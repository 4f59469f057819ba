"""What has no place to go to is no call: it waits until the place is free, and calls from then on."""

import pytest

from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.alarm_values import Alarm, Kind, Rank
from timerboard.core.commands import EndStep, ReopenStep, StartStep
from timerboard.core.menu import Dish, Place, Use, Work
from timerboard.core.view import view


def one_ring(room: int = 1) -> Kitchen:
    """Lentils that simmer on the ring until 5 min before the meal, and rice that is planned to start long before."""
    on = (Use(place="hob"),)
    lentils = Dish(name="Lentils", steps=(step("Lentils", "Simmer", minutes(40), uses=on),))
    rice = Dish(name="Rice", steps=(step("Rice", "Steam", minutes(30), uses=on, work=Work(start_s=60)),))
    kitchen = Kitchen(small_menu(lentils, rice, places=(Place(name="hob", room=room),)), eat_in=60)
    kitchen.wait(15)
    kitchen.must(StartStep("Lentils/Simmer"))
    kitchen.wait(20)
    return kitchen


def start(kitchen: Kitchen) -> Alarm:
    (alarm,) = [a for a in kitchen.alarms() if a.kind is Kind.START and a.step == "Rice/Steam"]
    return alarm


@pytest.mark.parametrize(("room", "rank", "said"), [(1, Rank.SOON, "hob is full"), (2, Rank.DUE, "")])
def test_a_start_on_a_full_ring_does_not_call_but_says_why(room, rank, said):
    kitchen = one_ring(room)
    assert (start(kitchen).rank, start(kitchen).detail) == (rank, said)
    item = next(item for item in view(kitchen.cook, kitchen.now).hands if item.answer == StartStep("Rice/Steam"))
    assert item.rank is rank
    assert said in item.detail


def test_it_calls_at_once_when_the_ring_is_free_and_is_as_old_as_that():
    kitchen = one_ring()
    kitchen.must(EndStep("Lentils/Simmer"))
    assert (start(kitchen).rank, start(kitchen).since) == (Rank.DUE, kitchen.now)
    kitchen.wait(3)
    assert kitchen.now - start(kitchen).since == 3 * MIN


def test_it_waits_again_when_what_was_there_goes_on():
    kitchen = one_ring()
    before = start(kitchen)
    kitchen.must(EndStep("Lentils/Simmer"), ReopenStep("Lentils/Simmer"))
    assert start(kitchen) == before


def test_a_ring_that_was_free_all_along_leaves_the_planned_moment():
    kitchen = one_ring(room=2)
    kitchen.must(EndStep("Lentils/Simmer"))
    assert start(kitchen).since == kitchen.cook.plan.of("Rice/Steam").start * 1000
