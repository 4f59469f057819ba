"""Has this machine a lid? Shutting it puts most of them to sleep, whatever was asked of the screen; so it is said.

Linux: the kernel's own list of lids, else UPower's `LidIsPresent`. Windows: `LidPresent`, the third byte of
SYSTEM_POWER_CAPABILITIES (winnt.h), from its documentation and not run there. macOS: every portable Mac's power
manager shows `AppleClamshellState`; from memory and not run there. Where nothing is known, nothing is said.
"""

import ctypes
import shutil
import subprocess
import sys
from pathlib import Path

WARNING = "Keep the lid open: a shut lid puts the board to sleep, and then nothing can call"
LIDS = Path("/proc/acpi/button/lid")
UPOWER = ("org.freedesktop.UPower", "/org/freedesktop/UPower", "org.freedesktop.UPower", "LidIsPresent")
WAIT_S = 2.0
CAPABILITIES_BYTES = 256  # more than the structure has
LID_PRESENT = 2


def lid_warning(lids: Path = LIDS) -> str:
    """What to say of the lid; "" where there is none or nobody knows."""
    return WARNING if _has_lid(lids) else ""


def _has_lid(lids: Path) -> bool:
    if sys.platform == "win32":
        found = ctypes.create_string_buffer(CAPABILITIES_BYTES)
        return bool(ctypes.WinDLL("powrprof").GetPwrCapabilities(found)) and found.raw[LID_PRESENT] != 0
    if sys.platform == "darwin":
        return _clamshell()
    return any(lids.glob("*/state")) or _upower()


def _clamshell() -> bool:
    asked = ["/usr/sbin/ioreg", "-r", "-k", "AppleClamshellState", "-d", "1"]
    return "AppleClamshellState" in _said(asked)


def _upower() -> bool:
    """Asked through systemd's `busctl`, a process of its own: a bus that hangs costs a second and nothing else."""
    program = shutil.which("busctl")
    return program is not None and "true" in _said([program, "--timeout=1", "get-property", *UPOWER])


def _said(asked: list[str]) -> str:
    try:
        return subprocess.run(asked, capture_output=True, text=True, timeout=WAIT_S, check=False).stdout
    except (OSError, subprocess.TimeoutExpired):
        return ""
