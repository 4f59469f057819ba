"""Desktop notifications: what newly calls, once; never more than a third channel."""

from dataclasses import replace

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import HearAlarm
from timerboard.core.view_values import HandsItem
from timerboard.shell.notify import MORE, MOST_AT_ONCE, Notifier, ProgramChannel, TrayChannel, best_channel


class NotedChannel:
    def __init__(self):
        self.shown, self.taken, self.closed = [], [], False

    def show(self, key, title, words, danger):
        self.shown.append((title, words, danger))

    def take_away(self, key):
        self.taken.append(key)

    def close(self):
        self.closed = True


def item(key, rank=Rank.DUE):
    return HandsItem(key, 1, rank, f"Baste {key}", "oven", HearAlarm(key), "done")


def test_a_call_is_shown_once_and_again_when_it_becomes_a_danger():
    channel = NotedChannel()
    notifier = Notifier(channel)
    notifier.show([item("duck")])
    notifier.show([item("duck")])
    notifier.show([item("duck", Rank.DANGER)])
    assert channel.shown == [("Baste duck", "oven", False), ("Baste duck", "oven", True)]


def test_what_calls_no_more_or_was_heard_is_taken_away_once():
    channel = NotedChannel()
    notifier = Notifier(channel)
    notifier.show([item("duck"), item("goose", Rank.DANGER), item("tart")])
    notifier.show([replace(item("duck"), muted=True), item("goose", Rank.DANGER), item("tart")])
    notifier.show([item("tart")])
    notifier.show([item("tart")])
    assert channel.taken == ["duck", "goose"]
    notifier.show([])
    assert channel.taken == ["duck", "goose", "tart", MORE]
    notifier.close()
    assert channel.closed


def test_heads_ups_jobs_to_come_and_what_was_heard_are_not_shown():
    channel = NotedChannel()
    Notifier(channel).show([item("a", Rank.SOON), item("b", Rank.NOTE), replace(item("c"), muted=True)])
    assert channel.shown == []


def test_many_at_once_are_a_few_and_a_count():
    channel = NotedChannel()
    Notifier(channel).show([item(str(n)) for n in range(7)])
    assert len(channel.shown) == MOST_AT_ONCE + 1
    assert channel.shown[-1][0] == "And 4 more"


def test_without_a_service_nothing_happens(qapp, monkeypatch):
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS", raising=False)
    monkeypatch.setattr("timerboard.shell.notify.QSystemTrayIcon.isSystemTrayAvailable", lambda: False)
    assert best_channel(qapp) is None
    notifier = Notifier(None)
    notifier.show([item("duck")])
    notifier.close()


def test_an_icon_in_the_tray_can_be_seen_and_goes_with_the_board(qapp, monkeypatch):
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS", raising=False)
    monkeypatch.setattr("timerboard.shell.notify.QSystemTrayIcon.isSystemTrayAvailable", lambda: True)
    monkeypatch.setattr("timerboard.shell.notify.QSystemTrayIcon.supportsMessages", lambda: True)
    channel = best_channel(qapp)
    assert isinstance(channel, TrayChannel)
    drawn = channel._icon.icon().pixmap(64).toImage()
    assert len({drawn.pixelColor(x, y).name() for x in range(64) for y in range(64)}) == 3
    assert channel._icon.isVisible()
    channel.show("a", "Baste the duck", "oven", False)
    channel.close()
    assert not channel._icon.isVisible()


def program(folder, name):
    path = folder / name
    path.write_text(
        f'#!/bin/sh\nfor word in "$@"; do echo "$word"; done > {folder}/new\nmv {folder}/new {folder}/given\n'
    )
    path.chmod(0o755)
    return str(path)


def test_words_that_look_like_options_reach_notify_send_as_words(qtbot, tmp_path):
    ProgramChannel(program(tmp_path, "notify-send")).show("a", "--help", "-u low", True)
    qtbot.waitUntil((tmp_path / "given").exists, timeout=20_000)
    assert (tmp_path / "given").read_text().splitlines() == [
        "-a",
        "timerboard",
        "-u",
        "normal",  # it cannot be taken away again, so it must go by itself
        "-t",
        "10000",
        "--",
        "--help",
        "-u low",
    ]


def test_busctl_is_given_the_signature_of_the_specification(qtbot, tmp_path):
    """Notify(susssasa{sv}i), freedesktop Desktop Notifications 1.3; seen on a real bus to arrive as uint32 and byte."""
    ProgramChannel(program(tmp_path, "busctl")).show("a", "Baste the duck", "oven", False)
    qtbot.waitUntil((tmp_path / "given").exists, timeout=20_000)
    words = (tmp_path / "given").read_text().splitlines()
    after = words[words.index("susssasa{sv}i") + 1 :]
    assert after == ["timerboard", "0", "", "Baste the duck", "oven", "0", "1", "urgency", "y", "1", "10000"]
