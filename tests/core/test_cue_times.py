"""When the cues of a running step fall due from now on: the ticks of a ribbon."""

import pytest

from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.commands import DoCue, PassOverCue, StartStep
from timerboard.core.cue_times import MOST_TICKS, cues_to_come
from timerboard.core.due import cues_due
from timerboard.core.menu import Cue, Dish


def roasting(*cues: Cue, length: float = 100) -> Kitchen:
    kitchen = Kitchen(
        small_menu(Dish(name="Ham", steps=(step("Ham", "Roast", minutes(length), cues=cues),))), plan=False
    )
    kitchen.must(StartStep("Ham/Roast"))
    return kitchen


def ticks(kitchen: Kitchen) -> list[float]:
    """Minutes from the start of the step."""
    roast, life = kitchen.cook.menu.steps["Ham/Roast"], kitchen.cook.lives["Ham/Roast"]
    found = cues_to_come(kitchen.cook, roast, cues_due(kitchen.cook, roast, life))
    return [(at - life.started) / MIN for at in found]


def test_every_falling_due_is_there_but_none_in_the_last_tenth():
    assert ticks(roasting(Cue(do="Baste", every_s=1800))) == [30, 60, 90]
    assert ticks(roasting(Cue(do="Baste", every_s=1801))) == pytest.approx([30 + 1 / 60, 60 + 2 / 60])


def test_it_goes_on_from_when_it_was_really_done():
    kitchen = roasting(Cue(do="Baste", every_s=1800))
    kitchen.wait(37)
    kitchen.must(DoCue("Ham/Roast", "Baste"))
    assert ticks(kitchen) == [67]


@pytest.mark.parametrize(("answered", "left"), [(0, [10, 20, 30]), (1, [20, 30]), (2, [30])])
def test_what_comes_so_many_times_comes_only_as_often_as_is_left(answered, left):
    kitchen = roasting(Cue(do="Baste", every_s=600, times=3))
    for n in range(answered):
        kitchen.wait(10)
        kitchen.must((DoCue if n else PassOverCue)("Ham/Roast", "Baste"))
    assert ticks(kitchen) == left


def test_a_cue_of_one_moment_is_one_tick_and_none_once_it_was_done():
    kitchen = roasting(Cue(do="Turn", at_fraction=0.5))
    assert ticks(kitchen) == [50]
    kitchen.wait(50)
    kitchen.must(DoCue("Ham/Roast", "Turn"))
    assert ticks(kitchen) == []


def test_no_ribbon_has_more_ticks_than_can_be_told_apart():
    assert len(ticks(roasting(Cue(do="Stir", every_s=60), length=1000))) == MOST_TICKS == 60
