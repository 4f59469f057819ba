"""WORKAROUND for PySide6 6.12 on Python 3.11: keep None alive.

Measured with 6.12.0 on CPython 3.11.7: every Qt method without a result gives None back without taking a reference to
it, so that about 7,000 calls later None is freed and the interpreter aborts ("none_dealloc"). 6.11.3 does not do this,
and from CPython 3.12 on None is immortal (PEP 683). A board runs for days, so None is given more references than any
board can lose. Remove this when 6.12 is no longer allowed together with 3.11.
"""

import ctypes
import platform
import sys

MANY = 1 << 60


def keep_none_alive() -> None:
    """Do it once, where it is needed; asking again does no harm."""
    if sys.version_info < (3, 12) and platform.python_implementation() == "CPython":
        ctypes.c_ssize_t.from_address(id(None)).value = MANY
