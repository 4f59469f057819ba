"""The record of a cook: planned and real times, readings, rules and whether they are met, cooling, leftovers."""

import re

import pytest

from tests.kitchen import PLACES, Kitchen, minutes, small_menu, step
from timerboard.core.commands import EndStep, PutAway, ReviseDuration, StartStep, TakeReading
from timerboard.core.cook import Reading
from timerboard.core.cook_record import cook_record, planned_and_real
from timerboard.core.food_kind import FoodKind
from timerboard.core.menu import Dish, Use, Work
from timerboard.core.safety import verdicts
from timerboard.core.safety_rules import COOKING, LIMITS, Whose
from timerboard.core.values import Span

ROAST = step("Ham", "Roast", minutes(60, 90), uses=(Use(place="hob"),), pull_at_c=70.0, work=Work(start_s=60))


def evening() -> Kitchen:
    """Planned for 12:20 to 13:40, begun five minutes late, pulled at 71 °C, put away in time."""
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,)), places=PLACES), eat_in=100)
    kitchen.wait(25)
    kitchen.must(StartStep(ROAST.id))
    kitchen.wait(70)
    kitchen.must(TakeReading(ROAST.id, 71.0, confirmed=True))
    kitchen.wait(30)
    kitchen.must(TakeReading(ROAST.id, 50.0))
    kitchen.wait(40)
    kitchen.must(TakeReading(ROAST.id, 20.0), PutAway(("Ham",)))
    return kitchen


def test_each_step_has_its_planned_and_its_real_times():
    kitchen = evening()
    (line,) = planned_and_real(kitchen.cook)
    found = re.fullmatch(r"Ham: roast planned (\d\d):(\d\d)-\d\d:\d\d, was (\d\d):(\d\d)-\d\d:\d\d", line)
    assert found is not None
    hours, mins, was_hours, was_mins = map(int, found.groups())
    assert (was_hours - hours) * 60 + was_mins - mins == 5


def test_a_new_plan_or_length_while_cooking_does_not_rewrite_what_was_planned():
    kitchen = evening()
    before = planned_and_real(kitchen.cook)
    again = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,))), eat_in=100)
    again.must(StartStep(ROAST.id), ReviseDuration(ROAST.id, Span(low=60, likely=60, high=60)))
    assert "not ended" in planned_and_real(again.cook)[0]
    assert planned_and_real(kitchen.cook) == before


def test_readings_rules_cooling_and_leftovers_stand_in_it():
    kitchen = evening()
    told = "\n".join(cook_record(kitchen.cook, kitchen.now))
    assert re.search(r"Ham: \d\d:\d\d 71 °C, \d\d:\d\d 50 °C, \d\d:\d\d 20 °C", told)
    assert "The rule asks for 62.8 °C and a rest of 3 min (USDA FSIS" in told
    assert "FDA Food Code 2022, 3-401.11(B)(2)" in told
    assert "57 °C to 21 °C within 2 h (FDA Food Code 2022, 3-501.14(A)(1)): read after 40 min · met" in told
    assert "ham put away" in told
    assert "Follow your local code and licensed practice" in told


def test_a_cook_that_only_began_has_a_short_record():
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,))), plan=False)
    told = cook_record(kitchen.cook, kitchen.now)
    assert told[-1] == "What was done:"
    kitchen.must(StartStep(ROAST.id), EndStep(ROAST.id, confirmed=True))
    assert "  Ham: roast not planned, was" in "\n".join(cook_record(kitchen.cook, kitchen.now))


@pytest.mark.parametrize("kind", list(FoodKind))
@pytest.mark.parametrize("whose", [frozenset(Whose), frozenset({Whose.UK})])
def test_no_verdict_says_that_food_is_safe_and_each_names_rule_section_and_whom_to_follow(kind, whose):
    for celsius in (20.0, 63.0, 70.0, 90.0):
        readings = tuple(Reading(at=n * 60_000, celsius=celsius) for n in range(1, 8))
        for verdict in verdicts(kind, readings, 500_000, "C", whose):
            assert "safe" not in verdict.said.lower()
            assert f"({verdict.rule.whose}, {verdict.rule.section})" in verdict.said
            assert verdict.said.endswith("Follow your local code and licensed practice where they are stricter.")
            assert ("The readings meet it" in verdict.said) is verdict.met


def test_what_a_board_may_show_of_a_rule_does_not_call_anything_safe():
    assert [r.section for r in COOKING if "safe" in r.section.lower()] == []
    shown = [limit for name, limit in LIMITS.items() if not name.startswith("thaw")]  # titles of lists, not verdicts
    assert [limit.section for limit in shown if "safe" in limit.section.lower().replace("food safety", "")] == []
    assert "safe" not in "\n".join(cook_record(evening().cook, evening().now)).lower()
