"""The machine's clocks, and the only file that reads one.

The kitchen clock must keep counting while the machine sleeps and must not move when the wall clock is set:

- Linux: CLOCK_BOOTTIME, "identical to CLOCK_MONOTONIC, except that it also includes any time that the system is
  suspended" (clock_gettime(2)).
- macOS: Darwin's CLOCK_MONOTONIC, which advances while asleep; Python's own monotonic clock there does not.
  Written from its documentation; not run on a Mac.
- Windows: QueryInterruptTime, which counts sleep and hibernation in units of 100 ns and does not move when the clock
  is set (realtimeapiset.h). Written from its documentation; not run on Windows.
"""

import ctypes
import subprocess
import sys
import time
import warnings
from pathlib import Path

import tzlocal

BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


def _kitchen_ms() -> int:
    if sys.platform == "win32":
        ticks = ctypes.c_ulonglong()
        ctypes.WinDLL("api-ms-win-core-realtime-l1-1-1.dll").QueryInterruptTime(ctypes.byref(ticks))
        return ticks.value // 10_000
    which = time.CLOCK_BOOTTIME if sys.platform == "linux" else time.CLOCK_MONOTONIC
    return time.clock_gettime_ns(which) // 1_000_000


def _wall_ms() -> int:
    return time.time_ns() // 1_000_000


def _boot_from_clocks() -> str:
    """The minute of the boot by wall and kitchen clock: a last resort, as it moves when the clock is set."""
    return f"booted in minute {(_wall_ms() - _kitchen_ms()) // 60_000}"


def _boot() -> str:
    if sys.platform == "linux" and BOOT_ID.exists():
        return BOOT_ID.read_text().strip()
    if sys.platform == "darwin":
        asked = subprocess.run(["/usr/sbin/sysctl", "-n", "kern.bootsessionuuid"], capture_output=True, text=True)  # noqa: PLW1510 - an empty answer is dealt with below
        return asked.stdout.strip() or _boot_from_clocks()
    return _boot_from_clocks()


def _zone() -> str:
    """IANA name of the local zone; UTC where the system's own settings contradict each other."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            return tzlocal.get_localzone_name() or "UTC"
        except (LookupError, ValueError, OSError):
            return "UTC"


class SystemClock:
    """Keeps the desk's `Clock` port with the machine's own clocks."""

    def __init__(self) -> None:
        self._boot = _boot()

    @property
    def boot(self) -> str:
        """This boot of the machine: equal before and after a restart of the program, another after a reboot."""
        return self._boot

    def kitchen_ms(self) -> int:
        """Whole milliseconds since the machine was switched on, sleep included."""
        return _kitchen_ms()

    def wall_ms(self) -> int:
        """Unix time in whole milliseconds, as the wall clock shows it now."""
        return _wall_ms()

    def zone(self) -> str:
        """IANA name of the machine's time zone, "UTC" when it has none."""
        return _zone()
