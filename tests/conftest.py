"""A screen to test on: the one that is there, else a virtual one of our own, else none at all (Qt's offscreen)."""

import os
import subprocess
import sys

import pytest

from tests.virtual_screen import end, virtual_screen

_server: "subprocess.Popen[bytes] | None" = None


def pytest_configure(config: pytest.Config) -> None:
    """Before any window is made. Workers of a parallel run inherit the display of the first process."""
    global _server
    seen = any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
    if seen or not sys.platform.startswith("linux"):
        return
    _server, display = virtual_screen()
    if display:
        os.environ["DISPLAY"] = display
    else:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"


def pytest_unconfigure(config: pytest.Config) -> None:
    """Take our own screen down again."""
    global _server  # noqa: PLW0603
    if _server is not None:
        end(_server)
        os.environ.pop("DISPLAY", None)
        _server = None
