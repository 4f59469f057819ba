"""A window that paints the harbour supper and remembers what it sent."""

import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

sys.path.insert(0, str(Path(__file__).parent))

from fixtures import SUPPER

from timerboard.board.window import BoardWindow
from timerboard.core.commands import Command


@dataclass
class Refusal:
    """A refusal as the desk gives it."""

    said: str
    ask: Command | None = None


@dataclass
class Sender:
    """Stands for the desk: keeps commands, refuses when told to."""

    sent: list[Command] = field(default_factory=list)
    refusal: Refusal | None = None

    def __call__(self, command: Command) -> Refusal | None:
        self.sent.append(command)
        return self.refusal


@pytest.fixture
def sender() -> Sender:
    return Sender()


@pytest.fixture
def make_window(qtbot: QtBot, sender: Sender) -> Callable[..., BoardWindow]:
    def make(width: int = 1366, height: int = 768, **others: object) -> BoardWindow:
        window = BoardWindow(sender, **({"theme": "dark"} | others))  # type: ignore[arg-type]
        qtbot.addWidget(window)
        window.resize(width, height)
        window.show_view(SUPPER)
        with qtbot.waitExposed(window):
            window.show()
        return window

    return make


@pytest.fixture
def window(make_window: Callable[..., BoardWindow]) -> BoardWindow:
    return make_window()
