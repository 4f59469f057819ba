"""Notifications on a message bus of our own: shown, taken away when answered, shown again in the place they had."""

import itertools
import socket
from dataclasses import replace
from time import perf_counter

import pytest

from tests.shell.private_bus import FakeService, needs_bus, private_bus
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import HearAlarm
from timerboard.core.view_values import HandsItem
from timerboard.shell.notify import Notifier, best_channel
from timerboard.shell.notify_bus import CLOSE_S, SERVICE, BusChannel

pytestmark = needs_bus
HOT = HandsItem("danger|Fritters/Fry", 1, Rank.DANGER, "Take the fritters out", "hob", HearAlarm("x"), "done")
AT_ONCE_S = 1.0  # a call from the window: generous to a busy machine, far from the 25 s that the thread may wait


@pytest.fixture
def bus(tmp_path, monkeypatch):
    with private_bus(tmp_path) as address:
        monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", address)
        yield address


def desktop(address, first=41, *, capable=("body",), silent=()):
    numbers = itertools.count(first)
    answers = {
        "GetCapabilities": lambda: ("as", (list(capable),)),
        "Notify": lambda _app, replaces, *_: ("u", (replaces or next(numbers),)),
        "CloseNotification": lambda _number: ("", ()),
    }
    return FakeService(address, SERVICE, {name: how for name, how in answers.items() if name not in silent})


def notified(service):
    """(replaces, title, words, urgency, stays for ms) of the next notification."""
    member, body = service.next()
    while member == "GetCapabilities":
        member, body = service.next()
    assert member == "Notify"
    _app, replaces, _icon, title, words, _actions, hints, stays = body
    return replaces, title, words, hints["urgency"], stays


def test_raised_shown_answered_taken_away_and_the_same_again_in_its_place(bus, qapp):
    service = desktop(bus)
    notifier = Notifier(best_channel(qapp))
    notifier.show([HOT])
    assert notified(service) == (0, "Take the fritters out", "hob", ("y", 2), 0)
    notifier.show([HOT])
    notifier.show([])
    assert service.next() == ("CloseNotification", (41,))
    notifier.show([HOT])
    assert notified(service)[0] == 41
    notifier.show([replace(HOT, muted=True)])
    assert service.next() == ("CloseNotification", (41,))
    notifier.close()
    assert service.asked.empty()
    service.close()


def test_what_becomes_a_danger_replaces_what_it_was(bus, qapp):
    service = desktop(bus)
    notifier = Notifier(best_channel(qapp))
    notifier.show([replace(HOT, rank=Rank.DUE)])
    assert notified(service)[3:] == (("y", 1), 10_000)
    notifier.show([HOT])
    assert notified(service) == (41, "Take the fritters out", "hob", ("y", 2), 0)
    notifier.close()
    service.close()


def test_a_board_that_closes_leaves_no_danger_behind(bus):
    service = desktop(bus)
    channel = BusChannel()
    channel.show("a", "Baste", "oven", danger=False)
    channel.show("b", "Take out", "hob", danger=True)
    assert [notified(service)[1] for _ in range(2)] == ["Baste", "Take out"]
    channel.close()
    assert sorted(service.next() for _ in range(2)) == [("CloseNotification", (41,)), ("CloseNotification", (42,))]
    service.close()


def test_a_number_of_a_service_that_has_gone_means_nothing_to_the_next(bus):
    """It would replace, or close, what belongs to another program."""
    service = desktop(bus)
    channel = BusChannel()
    channel.show("a", "Take out", "hob", danger=True)
    notified(service)
    service.close()
    service = desktop(bus, first=7)
    channel.take_away("a")
    channel.show("b", "Baste", "oven", danger=False)
    assert notified(service)[:2] == (0, "Baste")
    channel.show("a", "Take out", "hob", danger=True)
    assert notified(service)[:2] == (0, "Take out")
    channel.close()
    service.close()


def test_words_are_words_where_the_desktop_reads_mark_up(bus):
    service = desktop(bus, capable=("body", "body-markup"))
    channel = BusChannel()
    channel.show("a", "Macaroni & cheese", "look at <it> & stir", danger=False)
    assert notified(service)[1:3] == ("Macaroni & cheese", "look at &lt;it&gt; &amp; stir")
    channel.close()
    service.close()


def test_a_desktop_that_never_answers_holds_no_window_up(bus):
    service = desktop(bus, silent=("Notify",))
    channel = BusChannel()
    channel.show("a", "Take out", "hob", danger=True)
    notified(service)
    began = perf_counter()
    for n in range(1000):
        channel.show(f"b{n % 5}", "Baste", "oven", danger=False)
        channel.take_away(f"b{n % 5}")
    assert perf_counter() - began < AT_ONCE_S
    assert len(channel._wishes) == 5
    channel.close()
    assert perf_counter() - began < CLOSE_S + 2 * AT_ONCE_S
    service.close()


class NotedFallback:
    def __init__(self):
        self.shown = []

    def show(self, key, title, words, danger):
        self.shown.append((key, title, words, danger))


def test_a_bus_that_takes_the_call_and_says_nothing_holds_no_window_up(tmp_path, monkeypatch):
    with socket.socket(socket.AF_UNIX) as deaf:
        deaf.bind(str(tmp_path / "deaf"))
        deaf.listen()
        monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={tmp_path}/deaf")
        began = perf_counter()
        channel = BusChannel()
        channel.show("a", "Take out", "hob", danger=True)
        assert perf_counter() - began < AT_ONCE_S
        channel.close()
        assert perf_counter() - began < CLOSE_S + 2 * AT_ONCE_S


def test_a_bus_that_cannot_be_reached_leaves_it_to_a_program(monkeypatch, qtbot):
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", "tcp:host=nowhere,port=1")
    otherwise = NotedFallback()
    channel = BusChannel(otherwise)
    channel.show("a", "Take out", "hob", danger=True)
    qtbot.waitUntil(lambda: otherwise.shown == [("a", "Take out", "hob", True)], timeout=20_000)
    channel.close()


def test_a_bus_that_is_started_again_is_found_again(tmp_path, monkeypatch):
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={tmp_path}/bus")
    channel = BusChannel()
    for title in ("Baste", "Turn"):
        with private_bus(tmp_path) as address:
            service = desktop(address)
            channel.show("a", title, "oven", danger=False)
            assert notified(service)[:2] == (0, title)
            service.close()
    channel.close()
