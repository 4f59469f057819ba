"""Calls as desktop notifications: a third channel beside the board and its sound.

Nothing tells whether one was seen, so sending one never counts as an answer; but what has been answered is taken away
again, where the desktop can do that. Where there is no service for them, nothing happens.
"""

import os
import shutil
import sys
from collections.abc import Iterable
from pathlib import PurePath
from typing import Protocol

from PySide6.QtCore import QObject, QProcess
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QSystemTrayIcon

from timerboard.core.alarm_values import Rank
from timerboard.core.view_values import HandsItem

from .notify_bus import NOTIFY, OBJECT, SERVICE, SHOWN_MS, BusChannel

MOST_AT_ONCE = 3
MORE = "more"  # the key of the one that counts the rest; an alarm's has strokes in it
ICON_PX = 64


class Channel(Protocol):
    """Shows notifications and takes them away again; each call returns at once and never raises."""

    def show(self, key: str, title: str, words: str, danger: bool) -> None:
        """Show it in place of the one of that key; `danger` stays until it is taken away, where that can be done."""

    def take_away(self, key: str) -> None:
        """It has been answered."""

    def close(self) -> None:
        """Take away what is left."""


class TrayChannel:
    """Through an icon in the tray, on systems that hang notifications on one. They go by themselves."""

    def __init__(self, parent: QObject) -> None:
        self._icon = QSystemTrayIcon(tray_icon(), parent)
        self._icon.setToolTip("timerboard")
        self._icon.show()

    def show(self, key: str, title: str, words: str, danger: bool) -> None:
        """Show it."""
        icons = QSystemTrayIcon.MessageIcon
        self._icon.showMessage(title, words, icons.Critical if danger else icons.Information, SHOWN_MS)

    def take_away(self, key: str) -> None:
        """It goes by itself."""

    def close(self) -> None:
        """No icon of a board that is gone."""
        self._icon.hide()


def tray_icon() -> QIcon:
    """Three strips and the line of now, as on the board."""
    drawn = QPixmap(ICON_PX, ICON_PX)
    drawn.fill(QColor("#16181d"))
    painter = QPainter(drawn)
    for row, (start, length) in enumerate(((8, 40), (16, 32), (8, 24))):
        painter.fillRect(start, 10 + row * 16, length, 11, QColor("#e8e6df"))
    painter.fillRect(34, 4, 4, ICON_PX - 8, QColor("#ffb000"))
    painter.end()
    return QIcon(drawn)


class ProgramChannel:
    """Through a small program of the system, started and not waited for: where `BusChannel` cannot reach the bus.

    It never hears the number that the notification was given, so nothing can be taken away again, and none is sent
    that would stay until somebody does: a danger as urgent as the others.
    """

    def __init__(self, program: str) -> None:
        self._program = program

    def show(self, key: str, title: str, words: str, danger: bool) -> None:
        """Show it."""
        process = QProcess()
        process.setProgram(self._program)
        process.setArguments(self._words(title, words))
        process.setStandardOutputFile(QProcess.nullDevice())
        process.setStandardErrorFile(QProcess.nullDevice())
        process.startDetached()

    def take_away(self, key: str) -> None:
        """It goes by itself."""

    def close(self) -> None:
        """They go by themselves."""

    def _words(self, title: str, words: str) -> list[str]:
        """`notify-send`, or `busctl` with the signature of the service's `Notify`."""
        if PurePath(self._program).name == "notify-send":
            return ["-a", "timerboard", "-u", "normal", "-t", str(SHOWN_MS), "--", title, words]
        call = ["--user", "--timeout=2", "call", "--", SERVICE, OBJECT, SERVICE, "Notify", NOTIFY]
        return [*call, "timerboard", "0", "", title, words, "0", "1", "urgency", "y", "1", str(SHOWN_MS)]


class Notifier:
    """Shows what newly calls, once each, until it is answered. `channel` None: no such service, or nobody wants it."""

    def __init__(self, channel: Channel | None) -> None:
        self._channel = channel
        self._known: dict[str, Rank] = {}

    def show(self, items: Iterable[HandsItem]) -> None:
        """Compare with what called before; a few are shown, more are counted, what calls no more is taken away."""
        calling = {item.key: item for item in items if item.rank >= Rank.DUE and not item.muted}
        new = [item for key, item in calling.items() if self._known.get(key) != item.rank]
        gone = [key for key in self._known if key not in calling]
        self._known = {key: item.rank for key, item in calling.items()}
        if self._channel is None:
            return
        for key in gone if calling or not gone else [*gone, MORE]:
            self._channel.take_away(key)
        for item in new[:MOST_AT_ONCE]:
            self._channel.show(item.key, item.line, item.detail, item.rank is Rank.DANGER)
        if len(new) > MOST_AT_ONCE:
            self._channel.show(MORE, f"And {len(new) - MOST_AT_ONCE} more", "Look at the board", danger=False)

    def close(self) -> None:
        """Take away what still stands there: nobody can answer it any more."""
        if self._channel is not None:
            self._channel.close()


def best_channel(parent: QObject) -> Channel | None:
    """What this desktop has, or None."""
    if os.environ.get("DBUS_SESSION_BUS_ADDRESS") and not sys.platform.startswith(("win", "darwin")):
        program = shutil.which("notify-send") or shutil.which("busctl")
        return BusChannel(ProgramChannel(program) if program else None)
    if QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages():
        return TrayChannel(parent)
    return None
