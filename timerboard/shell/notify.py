"""Calls as desktop notifications: a third channel beside the board and its sound.

Nothing tells whether one was seen, so sending one never counts as an answer. Where there is no service for them,
nothing happens. Only danger stays until it is taken away ("Critical notifications should not automatically expire",
freedesktop Desktop Notifications).
"""

import os
import shutil
from collections.abc import Iterable
from pathlib import PurePath
from typing import Protocol

from PySide6.QtCore import QObject, QProcess
from PySide6.QtWidgets import QSystemTrayIcon

from timerboard.core.alarm_values import Rank
from timerboard.core.view_values import HandsItem

SERVICE, OBJECT = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
SHOWN_MS = 10_000
MOST_AT_ONCE = 3


class Channel(Protocol):
    """Shows one notification and returns at once. Never raises."""

    def show(self, title: str, words: str, danger: bool) -> None:
        """Show it; `danger` stays until it is taken away, where the desktop can do that."""


class TrayChannel:
    """Through an icon in the tray, on desktops that have one."""

    def __init__(self, parent: QObject) -> None:
        self._icon = QSystemTrayIcon(parent)
        self._icon.show()

    def show(self, title: str, words: str, danger: bool) -> None:
        """Show it."""
        icons = QSystemTrayIcon.MessageIcon
        self._icon.showMessage(title, words, icons.Critical if danger else icons.Information, SHOWN_MS)


class ProgramChannel:
    """Through a small program of the system, started and not waited for.

    Not through QtDBus: PySide6 cannot write the unsigned id and the byte of urgency that the service asks for.
    """

    def __init__(self, program: str) -> None:
        self._program = program

    def show(self, title: str, words: str, danger: bool) -> None:
        """Show it."""
        process = QProcess()
        process.setProgram(self._program)
        process.setArguments(self._words(title, words, danger))
        process.setStandardOutputFile(QProcess.nullDevice())
        process.setStandardErrorFile(QProcess.nullDevice())
        process.startDetached()

    def _words(self, title: str, words: str, danger: bool) -> list[str]:
        """`notify-send`, or `busctl` with the signature of the service's `Notify`."""
        if PurePath(self._program).name == "notify-send":
            return ["-a", "timerboard", "-u", "critical" if danger else "normal", "--", title, words]
        call = ["--user", "--timeout=2", "call", "--", SERVICE, OBJECT, SERVICE, "Notify", "susssasa{sv}i"]
        urgency = ["1", "urgency", "y", "2" if danger else "1"]
        return [*call, "timerboard", "0", "", title, words, "0", *urgency, "0" if danger else str(SHOWN_MS)]


class Notifier:
    """Shows what newly calls, once each. `channel` None: there is no such service here, or nobody wants it."""

    def __init__(self, channel: Channel | None) -> None:
        self._channel = channel
        self._known: frozenset[tuple[str, Rank]] = frozenset()

    def show(self, items: Iterable[HandsItem]) -> None:
        """Compare with what called before; a few are shown, more are counted."""
        calling = {(item.key, item.rank): item for item in items if item.rank >= Rank.DUE and not item.muted}
        new = [item for mark, item in calling.items() if mark not in self._known]
        self._known = frozenset(calling)
        if self._channel is None:
            return
        for item in new[:MOST_AT_ONCE]:
            self._channel.show(item.line, item.detail, item.rank is Rank.DANGER)
        if len(new) > MOST_AT_ONCE:
            self._channel.show(f"And {len(new) - MOST_AT_ONCE} more", "Look at the board", danger=False)


def best_channel(parent: QObject) -> Channel | None:
    """What this desktop has, or None."""
    if QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages():
        return TrayChannel(parent)
    program = shutil.which("notify-send") or shutil.which("busctl")
    return ProgramChannel(program) if program and os.environ.get("DBUS_SESSION_BUS_ADDRESS") else None
