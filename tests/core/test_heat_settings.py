"""The 'set the oven' jobs of a plan."""

from tests.tiny_kitchens import EAT, OVEN, plan, problem, task
from timerboard.core.heat_settings import heat_settings
from timerboard.core.plan import Stretch


def hot(name, heat, within=5.0, **more):
    return task(name, 300, uses=(("oven", 1),), heat_c=heat, within_c=within, **more)


def settings_of(*tasks, oven=OVEN, not_before=None, **at):
    asked = problem(*tasks, places=(oven,), not_before=not_before)
    return [(s.heat_c, s.at, s.ready, s.for_step) for s in heat_settings(asked, plan(asked, **at).placed)]


def test_a_cold_oven_is_lit_its_whole_preheat_before_the_first_step():
    assert settings_of(hot("tart", 180), tart=(5000, 5300)) == [(180.0, 3800, 5000, "tart")]


def test_steps_that_one_temperature_suits_share_a_setting_at_what_the_most_exact_asks_for():
    # 160 ± 20 and 172 ± 5 meet from 167 to 177: 172.
    found = settings_of(hot("pie", 160, 20), hot("tart", 172), pie=(5000, 5300), tart=(5200, 5500))
    assert found == [(172.0, 3800, 5000, "pie")]


def test_another_temperature_is_set_in_time_and_not_before_the_step_before_is_out():
    # 180 to 220 is 40 degrees at 6 s: 240 s before the bread; when the tart is out later than that, at that moment.
    found = settings_of(hot("tart", 180), hot("bread", 220), tart=(5000, 5300), bread=(6000, 6300))
    assert found[1] == (220.0, 5760, 6000, "bread")
    found = settings_of(hot("tart", 180), hot("bread", 220), tart=(5000, 5300), bread=(5500, 5800))
    assert found[1] == (220.0, 5300, 5500, "bread")


def test_what_stays_inside_suits_the_new_temperature_too():
    # 160 ± 5, then 175 ± 15 joins at 165 at most; when 190 ± 5 comes, only the second is still inside: 190 suits both.
    tasks = (hot("pie", 160), task("stew", 3000, uses=(("oven", 1),), heat_c=175, within_c=15), hot("buns", 190))
    found = settings_of(*tasks, pie=(5000, 5300), stew=(5000, 8000), buns=(7000, 7300))
    assert [heat for heat, *_ in found] == [160.0, 190.0]


def test_an_oven_that_is_hot_enough_already_is_not_set():
    oven = OVEN.model_copy(update={"now_c": 178.0})
    assert settings_of(hot("tart", 180), oven=oven, tart=(5000, 5300)) == []


def test_nothing_is_set_for_what_is_inside_already_nor_in_the_past():
    oven = OVEN.model_copy(update={"now_c": 180.0})
    running = hot("tart", 180, started=4900)
    found = settings_of(running, hot("bread", 220), oven=oven, not_before=5150, tart=(4900, 5200), bread=(5440, 5740))
    assert found == [(220.0, 5200, 5440, "bread")]
    late = settings_of(hot("tart", 180), not_before=4000, tart=(5000, 5300))
    assert late == [(180.0, 4000, 5000, "tart")]


def test_a_place_that_holds_no_temperature_is_never_set():
    asked = problem(task("fry", 300, uses=(("hob", 1),), heat_c=175), places=(OVEN,))
    assert heat_settings(asked, plan(asked, fry=(EAT - 300, EAT)).placed) == ()


def test_a_place_is_set_before_the_kitchen_closes_when_its_time_falls_in_closed_hours():
    # For 5000 it would be lit at 3800; from 3000 to 4500 nobody is there, so it is lit at 3000.
    asked = problem(hot("tart", 180), places=(OVEN,), closed=(Stretch(start=3000, end=4500),))
    (setting,) = heat_settings(asked, plan(asked, tart=(5000, 5300)).placed)
    assert (setting.at, setting.ready) == (3000, 5000)
