"""A screen to test on: the one that is there, else a virtual one of our own, else none at all (Qt's offscreen).

And a home of our own: what the program keeps in the user's folders goes into one that is gone afterwards.
"""

import os
import subprocess
import sys
import tempfile

import pytest
from hypothesis import settings

from tests.virtual_screen import end, virtual_screen

_server: "subprocess.Popen[bytes] | None" = None
_home = tempfile.TemporaryDirectory(prefix="timerboard-tests-")
HOMES = ("DATA", "CONFIG", "STATE", "CACHE")


# a landing must not hang on luck: there the same examples are tried each time, everywhere else new ones
settings.register_profile("landing", derandomize=True, deadline=None)
settings.register_profile("searching", deadline=None)
settings.load_profile("landing" if os.environ.get("CI") else "searching")


def pytest_configure(config: pytest.Config) -> None:
    """Before any window is made. Workers of a parallel run inherit the display of the first process."""
    global _server
    os.environ.update({f"XDG_{name}_HOME": os.path.join(_home.name, name.lower()) for name in HOMES})  # noqa: PTH118
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
    _home.cleanup()
    if _server is not None:
        end(_server)
        os.environ.pop("DISPLAY", None)
        _server = None
