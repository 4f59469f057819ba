"""A baste and a turn at the same oven within two minutes: one burst, one sentence, two answers."""

from tests.kitchen import MIN, Kitchen, minutes, small_menu, step
from timerboard.core.alarms import alarms
from timerboard.core.commands import DoCue, EndStep, HearAlarm, SetQuickTimer, StartStep
from timerboard.core.menu import Cue, Dish, Use
from timerboard.core.one_call import coming
from timerboard.core.sounding import sounding
from timerboard.core.spoken import number, spoken
from timerboard.core.view import view

SECOND = 1000


def roasting(apart_s: int, place: str = "oven") -> Kitchen:
    """The duck wants basting after 10 min, the roots turning so many seconds later."""
    duck = step("Duck", "Roast", minutes(60), uses=(Use(place="oven"),), cues=(Cue(do="Baste", every_s=600, times=1),))
    turn = Cue(do="Turn", every_s=600 + apart_s, times=1)
    roots = step("Roots", "Roast", minutes(60), uses=(Use(place=place),), cues=(turn,))
    kitchen = Kitchen(small_menu(Dish(name="Duck", steps=(duck,)), Dish(name="Roots", steps=(roots,))), plan=False)
    kitchen.must(StartStep("Duck/Roast"), StartStep("Roots/Roast"))
    kitchen.wait(10)
    return kitchen


def bursts(kitchen: Kitchen, seconds: int, answer_at: int | None = None) -> list[tuple[int, list[str]]]:
    """When bursts begin in the next seconds and for which jobs, as a player that keeps `covers` plays them."""
    played, found, start = frozenset(), [], kitchen.now
    for second in range(seconds + 1):
        kitchen.now = start + second * SECOND
        if second == answer_at:
            kitchen.must(DoCue("Duck/Roast", "Baste"))
        due = sounding(kitchen.alarms(), kitchen.cook, kitchen.now)
        if due.alarm is not None and due.key not in played:
            played = due.covers | {due.key}
            found.append((second, [a.cue for a in (due.alarm, *due.others)]))
    return found


def test_two_jobs_at_one_door_within_two_minutes_sound_as_one():
    assert bursts(roasting(30), 125) == [
        (0, ["Baste"]),
        (20, ["Baste"]),
        (60, ["Baste", "Turn"]),
        (120, ["Baste", "Turn"]),
    ]


def test_more_than_two_minutes_apart_the_second_calls_for_itself():
    assert (150, ["Turn"]) in bursts(roasting(150), 160)


def test_at_different_doors_both_call():
    assert (30, ["Turn"]) in bursts(roasting(30, "hob"), 35)


def test_when_the_first_is_answered_the_second_calls_by_itself_and_is_not_lost():
    heads_up = (10, ["Turn"])
    assert bursts(roasting(30), 60, answer_at=10) == [(0, ["Baste"]), heads_up, (30, ["Turn"]), (50, ["Turn"])]


def test_answering_one_of_two_makes_no_burst_for_the_other_that_has_just_sounded():
    assert bursts(roasting(0), 61, answer_at=5) == [(0, ["Baste", "Turn"]), (20, ["Turn"]), (60, ["Turn"])]


def test_a_call_elsewhere_is_heard_at_once_beside_it():
    kitchen = roasting(0)
    kitchen.must(SetQuickTimer("eggs", 5))
    assert (5, ["eggs"]) in bursts(kitchen, 6)


def test_each_of_the_two_has_its_own_answer_beside_the_other():
    kitchen = roasting(0)
    first, second, *_ = view(kitchen.cook, kitchen.now).hands
    assert (first.answer, second.answer) == (DoCue("Duck/Roast", "Baste"), DoCue("Roots/Roast", "Turn"))
    assert "same door" in second.detail


def test_what_comes_at_the_same_door_is_known_beforehand():
    kitchen = roasting(90)
    lead = kitchen.alarms()[0]
    assert [a.cue for a in coming(kitchen.cook, lead, kitchen.now)] == ["Turn"]
    assert coming(roasting(150).cook, lead, kitchen.now) == ()


def test_put_together_alarms_are_never_fewer_than_apart():
    kitchen = roasting(0)
    kitchen.must(HearAlarm(kitchen.alarms()[0].id))
    due = sounding(kitchen.alarms(), kitchen.cook, kitchen.now)
    assert due.alarm.cue == "Turn"
    assert due.others == ()


def test_danger_is_never_put_together_with_anything():
    oil = step("Oil", "Fry", minutes(5), uses=(Use(place="oven"),), hazard="hot oil")
    more = step("Fat", "Fry", minutes(5), uses=(Use(place="oven"),), hazard="hot oil")
    kitchen = Kitchen(small_menu(Dish(name="Oil", steps=(oil,)), Dish(name="Fat", steps=(more,))), plan=False)
    kitchen.must(StartStep("Oil/Fry"), StartStep("Fat/Fry"))
    kitchen.now += 6 * MIN
    due = sounding(alarms(kitchen.cook, kitchen.now), kitchen.cook, kitchen.now)
    assert due.others == ()
    kitchen.must(EndStep("Oil/Fry"))
    assert sounding(kitchen.alarms(), kitchen.cook, kitchen.now).alarm.dish == "Fat"


def test_one_sentence_says_both_and_where():
    first, second = roasting(0).alarms()
    assert spoken(first, (second,)) == "Baste the duck and turn the roots, oven."
    assert spoken(first, more=4) == "Baste the duck, oven. And four more."


def test_numbers_are_said_as_words_up_to_twelve():
    assert [number(n) for n in (1, 4, 12, 13)] == ["one", "four", "twelve", "13"]
