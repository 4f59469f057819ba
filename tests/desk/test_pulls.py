"""Forecasts are asked for after each reading, and an answer to older readings is not shown."""

from tests.kitchen import Kitchen, minutes, small_menu, step
from timerboard.core.commands import EndStep, StartStep, TakeReading
from timerboard.core.heat_values import PullForecast
from timerboard.core.menu import Dish, Use
from timerboard.desk.pulls import Pulls

ROAST = step("Ham", "Roast", minutes(60, 90), uses=(Use(place="hob"),), heat_c=160.0, pull_at_c=70.0)


class Asked:
    """A predictor by hand."""

    def __init__(self):
        self.open = []

    def predict(self, question, on_pull):
        self.open.append((question, on_pull))

    def answer(self):
        question, hear = self.open.pop(0)
        count = len(question.readings)
        hear(PullForecast(step=question.step, pull_c=70.0, readings=count, at=question.now, early=None, late=None))


def roasting():
    kitchen = Kitchen(small_menu(Dish(name="Ham", steps=(ROAST,))), plan=False)
    kitchen.must(StartStep(ROAST.id))
    told = []
    asked = Asked()
    return kitchen, asked, told, Pulls(asked, told.append)


def read(kitchen, pulls, celsius):
    kitchen.wait(10)
    kitchen.must(TakeReading(ROAST.id, celsius))
    pulls.look(kitchen.cook, kitchen.now)


def test_nothing_is_asked_before_a_reading():
    kitchen, asked, _, pulls = roasting()
    pulls.look(kitchen.cook, kitchen.now)
    assert asked.open == []


def test_each_reading_is_asked_about_once_and_the_answer_adopted():
    kitchen, asked, told, pulls = roasting()
    read(kitchen, pulls, 20.0)
    pulls.look(kitchen.cook, kitchen.now)
    assert len(asked.open) == 1
    asked.answer()
    assert [found.readings for found in told] == [1]
    assert pulls.forecasts[ROAST.id].readings == 1


def test_an_answer_to_older_readings_is_neither_shown_nor_adopted():
    kitchen, asked, told, pulls = roasting()
    read(kitchen, pulls, 20.0)
    read(kitchen, pulls, 30.0)
    asked.answer()
    assert (pulls.forecasts, told) == ({}, [])
    asked.answer()
    assert pulls.forecasts[ROAST.id].readings == 2


def test_an_answer_that_never_came_is_asked_for_again():
    kitchen, asked, _, pulls = roasting()
    read(kitchen, pulls, 20.0)
    kitchen.wait(9)
    pulls.look(kitchen.cook, kitchen.now)
    assert len(asked.open) == 1
    kitchen.wait(1)
    pulls.look(kitchen.cook, kitchen.now)
    assert len(asked.open) == 2


def test_one_that_has_come_stands_until_the_next_reading():
    kitchen, asked, _, pulls = roasting()
    read(kitchen, pulls, 20.0)
    asked.answer()
    kitchen.wait(30)
    pulls.look(kitchen.cook, kitchen.now)
    assert asked.open == []


def test_a_step_that_has_ended_is_forgotten():
    kitchen, asked, _, pulls = roasting()
    read(kitchen, pulls, 20.0)
    kitchen.must(EndStep(ROAST.id, confirmed=True))
    pulls.look(kitchen.cook, kitchen.now)
    asked.answer()
    assert pulls.forecasts == {}
