"""A missing library or display is said in words before Qt can abort."""

import subprocess
import sys
from pathlib import Path

import pytest

from timerboard.shell.startup_check import (
    GUI,
    WAYLAND,
    XCB,
    import_words,
    missing_libraries,
    missing_words,
    no_display,
    qt_trouble,
)

X11, NOTHING, OFF = {"DISPLAY": ":0"}, {}, {"QT_QPA_PLATFORM": "offscreen"}


@pytest.mark.parametrize(
    ("environ", "system", "none"),
    [
        (NOTHING, "linux", True),
        ({"DISPLAY": ""}, "linux", True),
        (X11, "linux", False),
        ({"WAYLAND_DISPLAY": "wayland-0"}, "linux", False),
        (OFF, "linux", False),
        ({"QT_QPA_PLATFORM": "vnc:size=800x600"}, "linux", False),
        (NOTHING, "win32", False),
        (NOTHING, "darwin", False),
    ],
)
def test_whether_there_is_a_display(environ, system, none):
    assert no_display(environ, system) is none


def test_what_is_not_there_is_named_with_its_package():
    missing = missing_libraries(
        X11, loads=lambda name: name not in ("libxcb-cursor.so.0", "libEGL.so.1"), system="linux"
    )
    said = missing_words(missing)
    assert said == (
        "The board needs libraries that this system does not have: libEGL.so.1, libxcb-cursor.so.0. "
        "On Debian or Ubuntu: sudo apt install libegl1 libxcb-cursor0"
    )


def test_only_what_this_display_needs_is_looked_for():
    asked: list[str] = []

    def note(name: str) -> bool:
        asked.append(name)
        return True

    assert missing_libraries({"WAYLAND_DISPLAY": "w"}, note, "linux") == ()
    assert set(asked) == {*GUI, *WAYLAND}
    asked.clear()
    missing_libraries({"WAYLAND_DISPLAY": "w", "QT_QPA_PLATFORM": "xcb"}, note, "linux")
    assert set(asked) == {*GUI, *XCB}
    asked.clear()
    missing_libraries(X11, note, "darwin")
    assert asked == []


def test_the_loaders_own_words_are_understood():
    said = import_words("libEGL.so.1: cannot open shared object file: No such file or directory")
    assert "libegl1" in said
    assert "a library" in said
    assert "cannot be loaded" in import_words("No module named 'PySide6'")


def test_a_system_without_a_library_gets_the_line_and_no_abort(tmp_path):
    """A real process whose loader does not find libxcb-cursor: a broken file of that name comes first on its path."""
    (tmp_path / "libxcb-cursor.so.0").write_bytes(b"")
    code = "from timerboard.shell.startup_check import qt_trouble; print(qt_trouble({'DISPLAY': ':9'}))"
    run = subprocess.run(
        [sys.executable, "-c", code],
        env={"LD_LIBRARY_PATH": str(tmp_path)},
        cwd=Path(__file__).resolve().parents[2],
        capture_output=True,
        text=True,
        check=True,
    )
    assert "libxcb-cursor0" in run.stdout


def test_here_qt_loads():
    assert qt_trouble(OFF) == ""
