"""From events to a cook: what each does, what no longer applies, and taking back."""

import pytest

from tests.kitchen import MIN, Kitchen, fritters, gravy, minutes, pork, small_menu, step
from timerboard.core.commands import DropDish, EndStep, StartStep
from timerboard.core.cook import PlaceHeat, StepState
from timerboard.core.events import (
    AlarmHeard,
    AlarmPutOff,
    BoardReturned,
    ClockStepped,
    CookClosed,
    CueDone,
    CuePassedOver,
    DishAdded,
    DishDropped,
    DurationRevised,
    EatTimeMoved,
    EventUndone,
    GivenMoreTime,
    Hushed,
    QuickTimerCleared,
    QuickTimerSet,
    ReadingTaken,
    StepEnded,
    StepReopened,
    StepStarted,
)
from timerboard.core.fold import fold, fold_or_none
from timerboard.core.menu import Dish, Link


def roasting() -> Kitchen:
    """Pork in the oven, gravy waiting for its drippings."""
    kitchen = Kitchen(small_menu(pork(), gravy()))
    kitchen.must(EndStep("Pork/Salt"), StartStep("Pork/Roast"))
    return kitchen


def tell(kitchen: Kitchen, kind: type, **fields: object) -> str:
    """Take an event as it is; why it had no effect, or ''."""
    kitchen.take(kind(**kitchen.stamp(), **fields))
    return kitchen.cook.record[-1].effect


def test_a_record_without_an_opening_is_no_cook():
    stray = CookClosed(**Kitchen().stamp())
    assert fold_or_none([]) is None
    assert fold_or_none([stray]) is None
    with pytest.raises(ValueError, match="opening"):
        fold([stray])


def test_first_steps_are_ready_when_the_cook_opens_and_the_others_wait():
    cook = Kitchen(small_menu(pork(), gravy())).cook
    states = {name: life.state for name, life in cook.lives.items()}
    assert states["Pork/Salt"] is StepState.READY
    assert set(states.values()) == {StepState.READY, StepState.WAITING}
    assert cook.lives["Pork/Salt"].ready_since == cook.opened


def test_a_second_opening_has_no_effect():
    kitchen = Kitchen()
    kitchen.take(kitchen.events[0].model_copy(update={"seq": 3}))
    assert kitchen.cook.record[-1].effect == "the cook was open already"


def test_ending_makes_ready_what_waited_for_it_alone():
    kitchen = roasting()
    kitchen.wait(60)
    assert tell(kitchen, StepEnded, step="Pork/Roast") == ""
    assert kitchen.cook.lives["Gravy/Cook the roux"].ready_since == kitchen.now
    assert kitchen.cook.lives["Gravy/Simmer"].state is StepState.WAITING


def test_a_step_after_two_is_ready_when_the_second_has_ended():
    both = step("Plate", "Plate", minutes(2), after=["A/Cook", "B/Cook"])
    menu = small_menu(
        Dish(name="A", steps=(step("A", "Cook", minutes(5)),)),
        Dish(name="B", steps=(step("B", "Cook", minutes(5)),)),
        Dish(name="Plate", steps=(both,)),
    )
    kitchen = Kitchen(menu)
    kitchen.must(EndStep("A/Cook"))
    assert kitchen.phase("Plate/Plate") is StepState.WAITING
    kitchen.wait(3)
    kitchen.must(EndStep("B/Cook"))
    assert kitchen.cook.lives["Plate/Plate"].ready_since == kitchen.now


@pytest.mark.parametrize(
    ("kind", "fields", "why"),
    [
        (StepStarted, {"step": "Pork/Rest"}, "a step before it had not ended"),
        (StepStarted, {"step": "Pork/Roast"}, "it was running"),
        (StepStarted, {"step": "Pork/Fly"}, "there is no such step"),
        (StepEnded, {"step": "Pork/Salt"}, "it had ended already"),
        (StepEnded, {"step": "Pork/Rest"}, "a step before it had not ended"),
        (StepReopened, {"step": "Pork/Salt"}, "Pork/Roast had begun"),
        (StepReopened, {"step": "Pork/Roast"}, "it was running"),
        (GivenMoreTime, {"step": "Pork/Rest", "until": 1 << 50}, "a step before it had not ended"),
        (CueDone, {"step": "Pork/Roast", "cue": "Sing"}, "it has no such cue"),
        (CueDone, {"step": "Pork/Salt", "cue": "Baste"}, "it had ended already"),
        (CueDone, {"step": "@oven", "cue": "oven at 999 C"}, "the plan has no such setting"),
        (CuePassedOver, {"step": "Pork/Rest", "cue": "Baste"}, "a step before it had not ended"),
        (ReadingTaken, {"step": "Pork/Rest", "celsius": 50.0}, "a step before it had not ended"),
        (DurationRevised, {"step": "Pork/Salt", "span": minutes(5)}, "it had ended already"),
        (DishDropped, {"dish": "Trifle"}, "there is no such dish"),
        (DishAdded, {"dish": pork()}, "there is a dish of that name already"),
        (QuickTimerCleared, {"timer": "eggs"}, "no such countdown was set"),
        (AlarmPutOff, {"alarm": "danger|Pork/Roast|over|0", "until": 1 << 50}, "danger is never put off"),
        (EventUndone, {"undone": 99}, "there is nothing of that number to take back"),
        (EventUndone, {"undone": 1}, "that cannot be taken back"),
    ],
)
def test_what_does_not_apply_is_kept_says_why_and_changes_nothing(kind, fields, why):
    kitchen = roasting()
    before = kitchen.cook
    assert tell(kitchen, kind, **fields) == why
    assert kitchen.cook.lives == before.lives
    assert kitchen.cook.menu == before.menu
    assert len(kitchen.cook.record) == len(before.record) + 1


def test_reopening_takes_back_what_began_by_itself_and_says_so():
    kitchen = roasting()
    kitchen.wait(60)
    kitchen.must(EndStep("Pork/Roast"))
    started = kitchen.cook.lives["Pork/Roast"].started
    kitchen.wait(1)
    assert tell(kitchen, StepReopened, step="Pork/Roast") == ""
    lives = kitchen.cook.lives
    assert lives["Pork/Roast"].state is StepState.RUNNING
    assert lives["Pork/Roast"].started == started
    assert lives["Pork/Rest"].state is lives["Gravy/Cook the roux"].state is StepState.WAITING
    rest = next(n for n in kitchen.cook.record if n.event.kind == "StepStarted" and n.event.by_itself)
    assert rest.effect == "taken back: Pork/Roast goes on"


def test_food_going_in_tells_how_hot_a_place_is():
    kitchen = roasting()
    assert kitchen.cook.heats["oven"] == PlaceHeat(160.0, kitchen.now, kitchen.now)


def test_a_setting_is_noted_and_a_check_says_that_it_was_set():
    kitchen = Kitchen(small_menu(pork()))
    setting = "oven at 160 C for Pork/Roast"
    tell(kitchen, CueDone, step="@oven", cue=setting)
    set_at = kitchen.now
    assert kitchen.cook.heats["oven"] == PlaceHeat(160.0, set_at)
    kitchen.wait(20)
    tell(kitchen, CueDone, step="@oven?", cue=setting)
    assert kitchen.cook.heats["oven"] == PlaceHeat(160.0, set_at, kitchen.now)
    assert kitchen.cook.settings_done == {setting: set_at, setting + "?": kitchen.now}


def test_seeing_that_a_place_is_hot_answers_its_setting_too():
    kitchen = Kitchen(small_menu(pork()))
    setting = "oven at 160 C for Pork/Roast"
    tell(kitchen, CueDone, step="@oven?", cue=setting)
    assert kitchen.cook.settings_done == {setting: kitchen.now, setting + "?": kitchen.now}
    assert kitchen.cook.heats["oven"] == PlaceHeat(160.0, kitchen.now, kitchen.now)


def test_dropping_a_dish_frees_its_claims_and_what_it_made_is_bought():
    kitchen = roasting()
    kitchen.must(DropDish("Pork"))
    lives = kitchen.cook.lives
    assert lives["Pork/Salt"].state is StepState.ENDED  # a fact stays one
    assert lives["Pork/Roast"].state is lives["Pork/Rest"].state is StepState.DROPPED
    assert lives["Gravy/Cook the roux"].ready_since == kitchen.now
    assert tell(kitchen, StepReopened, step="Pork/Salt") == "its dish was dropped"
    assert tell(kitchen, DishDropped, dish="Pork") == "it was dropped already"


def test_an_added_dish_can_be_cooked_and_follows_what_is_there():
    kitchen = roasting()
    sauce = Dish(name="Sauce", steps=(step("Sauce", "Reduce", minutes(5), after=["Pork/Roast"]),))
    tell(kitchen, DishAdded, dish=sauce)
    assert kitchen.phase("Sauce/Reduce") is StepState.WAITING
    kitchen.must(EndStep("Pork/Roast"))
    assert kitchen.phase("Sauce/Reduce") is StepState.RUNNING
    clash = Dish(name="Other", steps=(step("Sauce", "Reduce", minutes(5)),))
    assert tell(kitchen, DishAdded, dish=clash) == "there is a step Sauce/Reduce already"


def test_a_link_to_a_step_that_is_not_there_is_bought():
    late = Dish(name="Pie", steps=(step("Pie", "Bake", minutes(5), after=[Link(step="Pastry/Roll")]),))
    kitchen = Kitchen()
    tell(kitchen, DishAdded, dish=late)
    assert kitchen.phase("Pie/Bake") is StepState.READY


def test_silences_have_a_longest_time_and_a_restart_ends_them():
    kitchen = Kitchen()
    tell(kitchen, Hushed, until=1 << 50)
    assert kitchen.cook.hushed_until == kitchen.now + 2 * MIN
    tell(kitchen, AlarmPutOff, alarm="cue|x", until=1 << 50)
    assert kitchen.cook.put_off == {"cue|x": kitchen.now + 5 * MIN}
    tell(kitchen, AlarmHeard, alarm="cue|x")
    assert kitchen.cook.put_off == {}
    tell(kitchen, AlarmHeard, alarm="note||x|0")
    tell(kitchen, BoardReturned, away_ms=200_000)
    assert kitchen.cook.heard == {"note||x|0": kitchen.now}  # nothing is left to do about a note
    assert kitchen.cook.hushed_until is None
    assert [note.said for note in kitchen.cook.notes.values()] == ["The board was away for 3 min 20 s."]


def test_a_stepped_clock_moves_no_countdown_and_is_told():
    kitchen = roasting()
    lives = kitchen.cook.lives
    tell(kitchen, ClockStepped, by_ms=-3_600_000, offset_ms=-3_600_000)
    assert kitchen.cook.lives == lives
    assert kitchen.cook.offset_ms == -3_600_000
    said = [note.said for note in kitchen.cook.notes.values()]
    assert said == ["The wall clock went back by 1 h. No countdown moved."]


def test_a_quick_timer_of_the_same_name_is_set_anew():
    kitchen = Kitchen()
    tell(kitchen, QuickTimerSet, timer="eggs", ends=kitchen.now + MIN)
    tell(kitchen, QuickTimerSet, timer="eggs", ends=kitchen.now + 2 * MIN)
    assert kitchen.cook.timers["eggs"].ends == kitchen.now + 2 * MIN
    assert tell(kitchen, QuickTimerCleared, timer="eggs") == ""


def test_undoing_is_leaving_out():
    kitchen = roasting()
    before = kitchen.cook
    tell(kitchen, EatTimeMoved, eat_at=before.eat_at + MIN)
    moved = kitchen.events[-1].seq
    assert tell(kitchen, EventUndone, undone=moved) == ""
    assert kitchen.cook.eat_at == before.eat_at
    assert [n.undone for n in kitchen.cook.record[-2:]] == [True, False]
    assert tell(kitchen, EventUndone, undone=moved) == "it was taken back already"


def test_an_undoing_is_not_undone():
    kitchen = roasting()
    tell(kitchen, EventUndone, undone=kitchen.events[-1].seq)
    assert tell(kitchen, EventUndone, undone=kitchen.events[-1].seq).startswith("there is nothing")


def test_what_followed_from_an_undone_event_loses_its_effect_and_says_why():
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"), EndStep("Fritters/Fry"))
    tell(kitchen, EventUndone, undone=kitchen.events[-2].seq)
    assert kitchen.phase("Fritters/Fry") is StepState.READY
    assert kitchen.cook.record[-2].effect == "it had not started"
