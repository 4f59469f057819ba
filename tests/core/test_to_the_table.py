"""When eating nears, dishes are called in one by one, so that none is left in the fridge; late ones too."""

import pytest

from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.alarm_values import Alarm, Kind
from timerboard.core.commands import (
    AddDish,
    DoCue,
    DropDish,
    EndStep,
    HearAlarm,
    MoveEating,
    PutOff,
    ReopenStep,
    StartStep,
    Undo,
)
from timerboard.core.faults import Unreadable
from timerboard.core.food_clocks import PUT_AWAY
from timerboard.core.late_dish import adopted, late_dish
from timerboard.core.menu import Course, Dish, Heat, Link, Menu, Place, Use, Work
from timerboard.core.view import view
from timerboard.core.view_values import Extras

PLACES = (
    Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250)),
    Place(name="warming drawer", room=4),
    Place(name="fridge", room=4),
    Place(name="counter"),
)


def dish(name: str, place: str, hold_min: int = 30, **more: object) -> Dish:
    one = step(name, "Put by", minutes(5), uses=(Use(place=place),), work=Work(throughout=True))
    return Dish(name=name, hold_s=hold_min * 60, steps=(one,), **more)


def table(*dishes: Dish, eat_in: float = 30, **more: object) -> Kitchen:
    """A kitchen in which all of these are ready from the start."""
    kitchen = Kitchen(small_menu(*dishes, places=PLACES, **more), eat_in=eat_in)
    for one in dishes:
        kitchen.must(StartStep(f"{one.name}/Put by"), EndStep(f"{one.name}/Put by"))
    return kitchen


def called(kitchen: Kitchen) -> list[Alarm]:
    return [alarm for alarm in kitchen.alarms() if alarm.kind is Kind.SERVE]


ROLLS = dish("Rolls", "warming drawer", 20)
SALAD = dish("Salad", "counter", 120, keep="covered, in the fridge")
SOUFFLE = dish("Souffle", "oven", 1)


def test_dishes_are_called_in_one_by_one_what_can_wait_first():
    kitchen = table(ROLLS, SALAD, SOUFFLE)
    kitchen.wait(27 - 0.01)
    assert called(kitchen) == []
    kitchen.wait(0.01)  # two minutes before, and half a minute for each of two more dishes
    said = []
    while calls := called(kitchen):
        (call,) = calls
        said.append((call.sentence, call.where, call.detail))
        kitchen.must(HearAlarm(call.id))
        kitchen.wait(0.2)
    assert said == [
        ("Bring in the salad", "", "covered, in the fridge · 2 dishes after it"),
        ("Bring in the rolls", "warming drawer", "1 dish after it"),
        ("Bring in the souffle", "oven", ""),
    ]


def test_the_next_dish_is_due_from_when_the_one_before_it_came():
    kitchen = table(ROLLS, SALAD)
    kitchen.wait(29)
    kitchen.must(HearAlarm(called(kitchen)[0].id))
    assert called(kitchen)[0].since == kitchen.now


def test_a_course_of_one_dish_is_served_by_its_name():
    kitchen = table(dish("Soup", "counter", course="starter"), courses=(Course(name="starter"),))
    kitchen.wait(28)
    assert [(a.sentence, a.where, a.detail) for a in called(kitchen)] == [("Serve the starter", "counter", "soup")]


def test_nothing_is_called_in_while_a_dish_is_late_until_one_has_stood_too_long():
    pie = dish("Pie", "oven", 30)
    kitchen = Kitchen(small_menu(ROLLS, pie, places=PLACES), eat_in=30)
    kitchen.wait(24)
    kitchen.must(StartStep("Rolls/Put by"), EndStep("Rolls/Put by"))  # may stand until 14 min after the meal
    kitchen.wait(19.9)
    assert called(kitchen) == []
    kitchen.wait(0.1)
    assert [a.sentence for a in called(kitchen)] == ["Bring in the rolls"]
    kitchen.wait(1)
    kitchen.must(StartStep("Pie/Put by"), EndStep("Pie/Put by"))
    assert [a.sentence for a in called(kitchen)] == ["Bring in the rolls"]  # the call that stands is not swapped
    kitchen.must(HearAlarm(called(kitchen)[0].id))
    assert [a.sentence for a in called(kitchen)] == ["Bring in the pie"]


def test_over_a_buffet_each_dish_comes_as_it_is_ready():
    buffet = Course(name="buffet", until_s=5400)
    rolls, salad = (one.model_copy(update={"course": "buffet"}) for one in (ROLLS, SALAD))
    kitchen = Kitchen(small_menu(rolls, salad, places=PLACES, courses=(buffet,)), eat_in=10)
    kitchen.wait(12)
    kitchen.must(StartStep("Rolls/Put by"), EndStep("Rolls/Put by"))
    assert [a.dish for a in called(kitchen)] == ["Rolls"]


def test_a_dish_that_was_added_late_is_called_in_although_all_others_are_on_the_table():
    kitchen = table(ROLLS, SALAD)
    kitchen.wait(29)
    for _ in range(2):
        kitchen.must(HearAlarm(called(kitchen)[0].id))
    assert called(kitchen) == []
    kitchen.must(AddDish(late_dish("garlic bread, 8 min, oven 200 C", kitchen.cook.menu)))
    assert called(kitchen) == []
    kitchen.must(StartStep("Garlic bread/Bake"))
    kitchen.wait(8)
    kitchen.must(EndStep("Garlic bread/Bake"))
    assert [(a.sentence, a.where) for a in called(kitchen)] == [("Bring in the garlic bread", "oven")]


def test_a_late_dish_takes_no_call_away():
    kitchen = table(ROLLS, SALAD)
    kitchen.wait(29)
    kitchen.must(AddDish(late_dish("garlic bread, 8 min, oven 200 C", kitchen.cook.menu)))
    assert [(a.dish, a.detail) for a in called(kitchen)] == [("Salad", "covered, in the fridge · 2 dishes after it")]


def test_a_dish_that_is_on_the_table_is_not_called_again_when_the_meal_moves():
    kitchen = table(ROLLS, SALAD)
    kitchen.wait(29)
    kitchen.must(HearAlarm(called(kitchen)[0].id), MoveEating(kitchen.now + 30 * MIN))
    assert called(kitchen) == []
    kitchen.wait(29)
    assert [a.dish for a in called(kitchen)] == ["Rolls"]


def test_undo_takes_a_dish_off_the_table_again_and_a_dropped_dish_is_not_called():
    kitchen = table(ROLLS, SALAD)
    kitchen.wait(29)
    kitchen.must(HearAlarm(called(kitchen)[0].id), Undo())
    assert [a.dish for a in called(kitchen)] == ["Salad"]
    kitchen.must(DropDish("Salad"))
    assert [a.dish for a in called(kitchen)] == ["Rolls"]


def test_a_call_can_be_put_off_and_comes_back():
    kitchen = table(ROLLS)
    kitchen.wait(28)
    kitchen.must(PutOff(called(kitchen)[0].id, 60))
    kitchen.wait(1)
    assert called(kitchen)[0].returns_at is None


def test_the_board_shows_where_it_stands_and_its_digit_answers():
    kitchen = table(ROLLS, SALAD)
    kitchen.wait(29)
    kitchen.must(HearAlarm(called(kitchen)[0].id))
    item = view(kitchen.cook, kitchen.now, Extras()).hands[0]
    assert item.line == "Bring in the rolls"
    assert item.detail.startswith("warming drawer · ")
    assert (item.answer, item.answer_word) == (HearAlarm(called(kitchen)[0].id), "served")
    shown = view(kitchen.cook, kitchen.now, Extras())
    assert {strip.name: strip.line for strip in shown.strips} == {"Salad": "On the table", "Rolls": "Ready"}
    assert "salad brought in" in shown.foot.last


MENU = Menu(title="Supper", serves=4, places=PLACES, dishes=(ROLLS,))


def test_a_line_tells_of_a_dish():
    made = late_dish("garlic bread, 8-10 min, oven at 200, until golden, hold 5 min, rest 2-4 min", MENU)
    bake, rest = made.steps
    assert (made.name, made.hold_s) == ("Garlic bread", 300)
    assert (bake.do, bake.heat_c, bake.until, bake.span.high) == ("Bake", 200.0, "golden", 600)
    assert (bake.uses, bake.work.attended_start) == ((Use(place="oven"),), True)
    assert (rest.do, rest.elastic, rest.links) == ("Rest", True, (Link(step="Garlic bread/Bake"),))
    assert late_dish("ice, 20 min, in the fridge", MENU).steps[0].do == "Chill"
    assert late_dish("dressing, 4 min", MENU).steps[0].work.throughout
    assert late_dish("buns, 6 min, 180 C", MENU).steps[0].uses == (Use(place="oven"),)
    assert late_dish("buns, 6 min, oven x2", MENU).steps[0].uses == (Use(place="oven", parts=2),)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (" , 5 min", "a dish needs a name"),
        ("rolls, 5 min", "there is a dish called rolls already"),
        ("buns", "how long do the buns take"),
        ("buns, 5 min, ovne 200 C", "there is no place 'ovne' here; did you mean oven?"),
        ("buns, 5 min, oven 400 C", "the oven goes from 60 °C to 250 °C"),
        ("buns, 5 min, 6 min", "there are two of the time"),
        ("buns, 5 mi", "'mi' is not a unit of time"),
        ("buns, 5 min, oven x3", "the oven has room for 2"),
    ],
)
def test_what_a_line_lacks_is_said(line, said):
    with pytest.raises(Unreadable) as refused:
        late_dish(line, MENU)
    assert str(refused.value).startswith(said)


def test_a_dish_of_another_menu_is_taken_over_without_what_ties_it_to_that_one():
    pie = dish("Pie", "OVEN", course="pudding")
    tied = pie.steps[0].model_copy(update={"links": (Link(step="Crust/Rest"),), "person": 2})
    made = adopted(pie.model_copy(update={"steps": (tied,)}), MENU)
    assert (made.course, made.steps[0].links, made.steps[0].person) == (None, (), None)
    assert made.steps[0].uses == (Use(place="oven"),)
    with pytest.raises(Unreadable, match="there is no place 'smoker' here"):
        adopted(dish("Ribs", "smoker"), MENU)


def test_what_must_not_be_served_is_not_called_in_and_stays_uncalled_once_it_was_put_away():
    """A stew off the hob whose meal is two hours late: 'do not serve' and 'bring in' were said on one screen."""
    hob = Use(place="hob")
    stew = Dish(name="Bean stew", hold_s=36_000, steps=(step("Bean stew", "Simmer", minutes(5), uses=(hob,)),))
    kitchen = Kitchen(small_menu(stew, dish("Cake", "counter", 120), places=(*PLACES, Place(name="hob"))), eat_in=30)
    for one in ("Bean stew/Simmer", "Cake/Put by"):
        kitchen.must(StartStep(one), EndStep(one))
    kitchen.wait(119)
    assert [call.dish for call in called(kitchen)] == ["Bean stew"]
    kitchen.wait(1)
    assert "Do not serve the bean stew" in kitchen.calls()
    assert [call.dish for call in called(kitchen)] == ["Cake"]
    kitchen.must(DoCue("Bean stew/Simmer", PUT_AWAY))
    kitchen.wait(1)
    assert [call.dish for call in called(kitchen)] == ["Cake"]
    kitchen.must(Undo())
    assert "Do not serve the bean stew" in kitchen.calls()


def test_what_is_put_away_cold_before_its_time_is_called_in_all_the_same():
    kitchen = table(SALAD, eat_in=60)
    kitchen.must(DoCue("Salad/Put by", PUT_AWAY))
    kitchen.wait(59)
    assert [call.dish for call in called(kitchen)] == ["Salad"]


def test_what_was_put_away_and_heated_again_is_called_in():
    hob = Use(place="hob")
    stew = Dish(name="Bean stew", hold_s=36_000, steps=(step("Bean stew", "Simmer", minutes(5), uses=(hob,)),))
    kitchen = Kitchen(small_menu(stew, places=(*PLACES, Place(name="hob"))), eat_in=10)
    kitchen.must(StartStep("Bean stew/Simmer"), EndStep("Bean stew/Simmer", confirmed=True))
    kitchen.wait(15)
    kitchen.must(DoCue("Bean stew/Simmer", PUT_AWAY))
    assert called(kitchen) == []
    kitchen.wait(5)
    kitchen.must(ReopenStep("Bean stew/Simmer"))
    kitchen.wait(5)
    kitchen.must(EndStep("Bean stew/Simmer", confirmed=True))
    assert [call.dish for call in called(kitchen)] == ["Bean stew"]
