"""A screen to test on: the one that is there, else a virtual one of our own, else none at all (Qt's offscreen)."""

import contextlib
import os
import select
import shutil
import subprocess
import sys

import pytest

STARTS_WITHIN_S = 20

_server: "subprocess.Popen[bytes] | None" = None


def pytest_configure(config: pytest.Config) -> None:
    """Before any window is made. Workers of a parallel run inherit the display of the first process."""
    global _server
    seen = any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
    if seen or not sys.platform.startswith("linux"):
        return
    _server, display = _virtual_screen()
    if display:
        os.environ["DISPLAY"] = display
    else:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"


def pytest_unconfigure(config: pytest.Config) -> None:
    """Take our own screen down again."""
    global _server  # noqa: PLW0603
    if _server is not None:
        _server.terminate()
        with contextlib.suppress(subprocess.TimeoutExpired):
            _server.wait(10)
        if _server.poll() is None:
            _server.kill()
            _server.wait()
        os.environ.pop("DISPLAY", None)
        _server = None


def _virtual_screen() -> "tuple[subprocess.Popen[bytes] | None, str]":
    """Start Xvfb on a display number that it finds free itself; `setpriv` ends it with us however we end."""
    program = shutil.which("Xvfb")
    if program is None:
        return None, ""
    reads, writes = os.pipe()
    tied = [setpriv, "--pdeathsig", "TERM"] if (setpriv := shutil.which("setpriv")) else []
    command = [
        *tied,
        program,
        "-displayfd",
        str(writes),
        "-screen",
        "0",
        "3840x2160x24",
        "-dpi",
        "96",
        "-nolisten",
        "tcp",
    ]
    quiet = subprocess.DEVNULL
    server = subprocess.Popen(command, pass_fds=(writes,), stdout=quiet, stderr=quiet)
    os.close(writes)
    number = _read_line(reads)
    os.close(reads)
    if number.isdigit():
        return server, f":{number}"
    server.kill()
    server.wait()
    return None, ""


def _read_line(reads: int) -> str:
    """What the server writes once it listens; empty when it does not within the time."""
    told = b""
    while not told.endswith(b"\n"):
        if not select.select([reads], [], [], STARTS_WITHIN_S)[0]:
            return ""
        piece = os.read(reads, 16)
        if not piece:
            return ""
        told += piece
    return told.decode().strip()
