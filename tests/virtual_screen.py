"""A virtual screen of our own: Xvfb on a display number that it finds free itself."""

import os
import select
import shutil
import subprocess

STARTS_WITHIN_S = 20


def virtual_screen(size: str = "3840x2160x24") -> "tuple[subprocess.Popen[bytes] | None, str]":
    """Start one; gives its process and the name of its display. `setpriv` ends it with us however we end."""
    program = shutil.which("Xvfb")
    if program is None:
        return None, ""
    reads, writes = os.pipe()
    tied = [setpriv, "--pdeathsig", "TERM"] if (setpriv := shutil.which("setpriv")) else []
    # without -noreset the server starts anew when its last client leaves, and turns away whoever comes just then
    screen = ["-screen", "0", size, "-dpi", "96", "-nolisten", "tcp", "-noreset"]
    quiet = subprocess.DEVNULL
    server = subprocess.Popen(
        [*tied, program, "-displayfd", str(writes), *screen], pass_fds=(writes,), stdout=quiet, stderr=quiet
    )
    os.close(writes)
    number = _read_line(reads)
    os.close(reads)
    if number.isdigit():
        return server, f":{number}"
    end(server)
    return None, ""


def end(server: "subprocess.Popen[bytes]") -> None:
    """Take it down again."""
    server.terminate()
    try:
        server.wait(10)
    except subprocess.TimeoutExpired:
        server.kill()
        server.wait()


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
