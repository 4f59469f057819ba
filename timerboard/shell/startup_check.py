"""Before any window: is there a display, and does this system have what Qt loads? Qt itself would abort without a word.

The libraries are those that PySide6 6.12 names as needed (`readelf -d` of libqxcb.so, libqwayland.so and libQt6Gui.so)
and does not bring along; the packages are those of Debian 12 and Ubuntu 24.04 that hold them.
"""

import ctypes
import sys
from collections.abc import Callable, Iterable, Mapping
from importlib import import_module

GUI = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libfontconfig.so.1": "libfontconfig1",
    "libfreetype.so.6": "libfreetype6",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libX11.so.6": "libx11-6",
}
"""What every window needs."""

XCB = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-sync.so.1": "libxcb-sync1",
    "libxcb-util.so.1": "libxcb-util1",
    "libxcb-xfixes.so.0": "libxcb-xfixes0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libX11-xcb.so.1": "libx11-xcb1",
}
"""What an X11 window needs besides."""

WAYLAND = {"libwayland-client.so.0": "libwayland-client0", "libwayland-cursor.so.0": "libwayland-cursor0"}

DRAWN_NOWHERE = ("offscreen", "minimal", "vnc", "linuxfb", "eglfs")
"""Platforms of Qt that need no display server."""


def no_display(environ: Mapping[str, str], system: str = sys.platform) -> bool:
    """True on a Linux without an X11 or Wayland display, and without a platform of Qt that does without one."""
    if system != "linux" or _platform(environ) in DRAWN_NOWHERE:
        return False
    return not (environ.get("DISPLAY") or environ.get("WAYLAND_DISPLAY"))


def missing_libraries(
    environ: Mapping[str, str],
    loads: Callable[[str], bool] | None = None,
    system: str = sys.platform,
) -> tuple[str, ...]:
    """Which of the libraries that Qt will load here are not there; always empty but on Linux."""
    if system != "linux":
        return ()
    loads = loads or _loads
    return tuple(name for name in _needed(environ) if not loads(name))


def qt_trouble(environ: Mapping[str, str]) -> str:
    """Why no window can be opened, with the line that mends it on Debian and Ubuntu; "" when one can.

    What is missing is looked for first: importing Qt without it fails, and opening a window without it aborts.
    """
    missing = missing_libraries(environ)
    if missing:
        return missing_words(missing)
    try:
        import_module("PySide6.QtWidgets")
    except ImportError as fault:
        return import_words(str(fault))
    return ""


def missing_words(missing: Iterable[str]) -> str:
    """The libraries and their packages in one line."""
    known = GUI | XCB | WAYLAND
    names = list(missing)
    packages = " ".join(known[name] for name in names)
    what = "a library" if len(names) == 1 else "libraries"
    return f"The board needs {what} that this system does not have: {', '.join(names)}. {mending(packages)}"


def import_words(said: str) -> str:
    """A failed import of Qt: the loader names the first library it misses."""
    library = next((word.rstrip(":") for word in said.split() if ".so" in word), "")
    package = (GUI | XCB | WAYLAND).get(library, "")
    if package:
        return missing_words([library])
    return f"Qt cannot be loaded: {said}. {mending(' '.join(sorted({*GUI.values(), *XCB.values()})))}"


def mending(packages: str) -> str:
    """What to type on Debian and Ubuntu."""
    return f"On Debian or Ubuntu: sudo apt install {packages}"


def _needed(environ: Mapping[str, str]) -> tuple[str, ...]:
    platform = _platform(environ)
    if platform in DRAWN_NOWHERE:
        return tuple(GUI)
    wayland = platform.startswith("wayland") or (not platform and not environ.get("DISPLAY"))
    return (*GUI, *(WAYLAND if wayland else XCB))


def _platform(environ: Mapping[str, str]) -> str:
    """The platform asked for, without its options."""
    return environ.get("QT_QPA_PLATFORM", "").split(";")[0].split(":")[0]


def _loads(name: str) -> bool:
    try:
        ctypes.CDLL(name)
    except OSError:
        return False
    return True
