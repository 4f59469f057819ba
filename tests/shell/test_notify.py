"""Desktop notifications: what newly calls, once; never more than a third channel."""

from dataclasses import replace

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import HearAlarm
from timerboard.core.view_values import HandsItem
from timerboard.shell.notify import MOST_AT_ONCE, Notifier, ProgramChannel, best_channel


class NotedChannel:
    def __init__(self):
        self.shown = []

    def show(self, title, words, danger):
        self.shown.append((title, words, danger))


def item(key, rank=Rank.DUE):
    return HandsItem(key, 1, rank, f"Baste {key}", "oven", HearAlarm(key), "done")


def test_a_call_is_shown_once_and_again_when_it_becomes_a_danger():
    channel = NotedChannel()
    notifier = Notifier(channel)
    notifier.show([item("duck")])
    notifier.show([item("duck")])
    notifier.show([item("duck", Rank.DANGER)])
    assert channel.shown == [("Baste duck", "oven", False), ("Baste duck", "oven", True)]


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
    Notifier(None).show([item("duck")])


def program(folder, name):
    path = folder / name
    path.write_text(
        f'#!/bin/sh\nfor word in "$@"; do echo "$word"; done > {folder}/new\nmv {folder}/new {folder}/given\n'
    )
    path.chmod(0o755)
    return str(path)


def test_words_that_look_like_options_reach_notify_send_as_words(qtbot, tmp_path):
    ProgramChannel(program(tmp_path, "notify-send")).show("--help", "-u low", True)
    qtbot.waitUntil((tmp_path / "given").exists, timeout=20_000)
    assert (tmp_path / "given").read_text().splitlines() == [
        "-a",
        "timerboard",
        "-u",
        "critical",
        "--",
        "--help",
        "-u low",
    ]


def test_busctl_is_given_the_signature_of_the_specification(qtbot, tmp_path):
    """Notify(susssasa{sv}i), freedesktop Desktop Notifications 1.3; seen on a real bus to arrive as uint32 and byte."""
    ProgramChannel(program(tmp_path, "busctl")).show("Baste the duck", "oven", False)
    qtbot.waitUntil((tmp_path / "given").exists, timeout=20_000)
    words = (tmp_path / "given").read_text().splitlines()
    after = words[words.index("susssasa{sv}i") + 1 :]
    assert after == ["timerboard", "0", "", "Baste the duck", "oven", "0", "1", "urgency", "y", "1", "10000"]
