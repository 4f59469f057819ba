"""The very events that assistive technology gets from the window while a pan of hot oil goes from due to danger."""

import pytest
from PySide6.QtGui import QAccessible

from tests.kitchen import Kitchen, fritters, small_menu
from timerboard.board.window import BoardWindow
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import EndStep, HearAlarm, StartStep
from timerboard.core.view import view
from timerboard.core.view_values import Extras

SECOND = 1000
POLITE, ASSERTIVE = QAccessible.AnnouncementPoliteness.Polite, QAccessible.AnnouncementPoliteness.Assertive


@pytest.fixture
def heard(qtbot, monkeypatch):
    """(politeness, words) of each announcement since the one before was asked for."""
    window = BoardWindow(lambda _command: None, theme="dark")
    qtbot.addWidget(window)
    told = []

    def noted(event):
        if event.type() == QAccessible.Event.Announcement:
            told.append((event.politeness(), event.message(), event.object() is window))

    monkeypatch.setattr(QAccessible, "updateAccessibility", staticmethod(noted))

    def show(kitchen):
        told.clear()
        window.show_view(view(kitchen.cook, kitchen.now, Extras()))
        assert all(from_window for _, _, from_window in told)
        return [(politeness, words) for politeness, words, _ in told]

    return show


def rank(kitchen):
    return max((alarm.rank for alarm in kitchen.alarms()), default=None)


def frying(heard):
    kitchen = Kitchen(small_menu(fritters()))
    kitchen.must(StartStep("Fritters/Fry"))
    heard(kitchen)
    return kitchen


def on_until(kitchen, wanted):
    while rank(kitchen) is not wanted:
        kitchen.now += SECOND


def test_a_due_call_waits_for_the_end_of_the_sentence_and_a_danger_breaks_in(heard):
    kitchen = frying(heard)
    on_until(kitchen, Rank.DUE)
    due = heard(kitchen)
    assert {politeness for politeness, _ in due} == {POLITE}
    assert "fritters" in due[0][1].casefold()
    on_until(kitchen, Rank.DANGER)
    danger = heard(kitchen)
    assert danger[0][0] is ASSERTIVE
    assert "hot oil" in danger[0][1].casefold()
    assert ASSERTIVE not in [politeness for politeness, _ in danger[1:]]


def test_a_danger_that_stands_is_announced_once_and_again_when_it_was_heard_too_long_ago(heard):
    kitchen = frying(heard)
    on_until(kitchen, Rank.DANGER)
    assert heard(kitchen)[0][0] is ASSERTIVE
    for _ in range(20):
        kitchen.now += SECOND
        assert heard(kitchen) == []
    (danger,) = [alarm for alarm in kitchen.alarms() if alarm.rank is Rank.DANGER]
    kitchen.must(HearAlarm(danger.id))
    assert ASSERTIVE not in [politeness for politeness, _ in heard(kitchen)]
    said = []
    for _ in range(10 * 60):
        kitchen.now += SECOND
        said += heard(kitchen)
    assert [politeness for politeness, _ in said].count(ASSERTIVE) == 1


def test_what_was_done_about_it_is_said_and_nothing_of_it_calls_any_more(heard):
    kitchen = frying(heard)
    on_until(kitchen, Rank.DANGER)
    heard(kitchen)
    kitchen.must(EndStep("Fritters/Fry"))
    said = heard(kitchen)
    assert ASSERTIVE not in [politeness for politeness, _ in said]
    assert any("fritters" in words.casefold() for _, words in said)
