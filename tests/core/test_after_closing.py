"""In a cook that was ended: what can still be answered, and what the way back is said to be."""

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.alarm_values import Answered, Kind
from timerboard.core.commands import CloseCook, EndStep, PutAway, PutOff, StartStep, Undo
from timerboard.core.menu import Dish, Use
from timerboard.core.view import view


def closed() -> Kitchen:
    """The beans were eaten, and the meal was ended."""
    beans = Dish(name="Beans", steps=(step("Beans", "Boil", minutes(10), uses=(Use(place="hob"),)),))
    kitchen = Kitchen(small_menu(beans), eat_in=20, plan=False)
    kitchen.must(StartStep("Beans/Boil"))
    kitchen.wait(15)
    kitchen.must(EndStep("Beans/Boil"))
    kitchen.wait(5)
    kitchen.must(CloseCook())
    return kitchen


def test_the_call_to_put_away_can_be_put_off_in_a_closed_cook():
    kitchen = closed()
    kitchen.wait(90)
    (call,) = (alarm for alarm in kitchen.alarms() if alarm.kind is Kind.AWAY)
    kitchen.must(PutOff(call.id, 300))
    assert [alarm.answered for alarm in kitchen.alarms() if alarm.kind is Kind.AWAY] == [Answered.PUT_OFF]


def test_undo_is_offered_to_go_on_only_while_it_would():
    kitchen = closed()

    def said() -> str:
        (words,) = (note.text for note in view(kitchen.cook, kitchen.now).notices if note.key == "ended")
        return words.partition(". ")[2]

    assert said() == "Its record is kept; Z goes on with it"
    kitchen.must(PutAway(("Beans",)))
    assert said() == "Its record is kept"
    kitchen.must(Undo())
    assert said() == "Its record is kept; Z goes on with it"
