"""The window asks the desktop to point at it, once for each new call, also while an older one waits."""

from dataclasses import replace

import pytest
from fixtures import SUPPER
from PySide6.QtWidgets import QApplication

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import HearAlarm
from timerboard.core.view_values import HandsItem, Notice


def call(key, rank=Rank.DUE):
    return HandsItem(key, 1, rank, f"Baste {key}", "oven", HearAlarm(key), "done")


@pytest.fixture
def alerts(monkeypatch, make_window):
    window = make_window()
    asked = []
    monkeypatch.setattr(QApplication, "alert", staticmethod(lambda widget, ms: asked.append((widget is window, ms))))
    window.show_view(replace(SUPPER, hands=()))

    def show(*hands, notices=()):
        asked.clear()
        window.show_view(replace(SUPPER, hands=hands, notices=notices))
        return asked.copy()

    return show


UNTIL_SOMEBODY_COMES = [(True, 0)]


def test_a_new_call_asks_until_somebody_comes_and_an_old_one_does_not_ask_again(alerts):
    assert alerts(call("duck")) == UNTIL_SOMEBODY_COMES
    assert alerts(replace(call("duck"), detail="oven · 0:41 ago")) == []


def test_another_call_of_the_same_rank_asks_although_the_first_still_waits(alerts):
    alerts(call("duck"))
    assert alerts(call("duck"), call("goose")) == UNTIL_SOMEBODY_COMES


def test_a_call_that_becomes_a_danger_asks_again(alerts):
    alerts(call("duck"))
    assert alerts(call("duck", Rank.DANGER)) == UNTIL_SOMEBODY_COMES


def test_what_was_put_off_asks_when_it_comes_back(alerts):
    alerts(call("duck"))
    assert alerts(replace(call("duck"), muted=True)) == []
    assert alerts(call("duck")) == UNTIL_SOMEBODY_COMES


def test_heads_ups_and_offers_ask_for_nothing_and_a_lost_sound_does(alerts):
    assert alerts(call("duck", Rank.SOON), notices=(Notice("plan", "A new plan", Rank.NOTE),)) == []
    lost = Notice("lost sound", "Sound lost: no sound device", Rank.DANGER)
    assert alerts(call("duck", Rank.SOON), notices=(lost,)) == UNTIL_SOMEBODY_COMES
