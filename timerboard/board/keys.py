"""Which digit or letter a key is, by where it lies on the keyboard when the layout's own letter does not tell.

On many layouts Shift+1 is '!', and on some the row gives digits only with Shift. The board asks for places, not signs:
the scan code says which key it was. Only when there is none (synthetic events) does the sign have to do.
Codes: X11 and Wayland use the kernel's input-event code plus 8; Windows the PC/AT set 1 scan code; macOS its virtual
key codes of the ANSI layout.
"""

import sys
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

PLUS_MINUS = {"+": "+", "=": "+", "-": "-", "−": "-"}  # '=' is the plus key without Shift on many layouts
SHIFTED = dict(zip("!@#$%^&*(", range(1, 10), strict=True))  # the row of a US keyboard

X11_DIGITS = {9 + n: n for n in range(1, 10)} | dict(
    zip((87, 88, 89, 83, 84, 85, 79, 80, 81), range(1, 10), strict=True)
)
WINDOWS_DIGITS = {1 + n: n for n in range(1, 10)} | dict(
    zip((0x4F, 0x50, 0x51, 0x4B, 0x4C, 0x4D, 0x47, 0x48, 0x49), range(1, 10), strict=True)
)
MAC_DIGITS = dict(zip((18, 19, 20, 21, 23, 22, 26, 28, 25), range(1, 10), strict=True)) | dict(
    zip((83, 84, 85, 86, 87, 88, 89, 91, 92), range(1, 10), strict=True)
)
X11_LETTERS = dict(enumerate("qwertyuiop", 24)) | dict(enumerate("asdfghjkl", 38)) | dict(enumerate("zxcvbnm", 52))
WINDOWS_LETTERS = {code - 8: letter for code, letter in X11_LETTERS.items()}


@dataclass(frozen=True, slots=True)
class Stroke:
    """What the board needs to know of a key: a digit 1 to 9 or 0 for none, a small letter or "", and Shift."""

    digit: int
    letter: str
    shift: bool


def digit_at(code: int, platform: str) -> int:
    """The digit on the key with that code, on the row or the keypad; 0 for any other key."""
    if platform == "darwin":
        return MAC_DIGITS.get(code, 0)
    return (WINDOWS_DIGITS if platform == "win32" else X11_DIGITS).get(code, 0)


def letter_at(code: int, platform: str) -> str:
    """The letter of a Latin keyboard on the key with that code; for layouts that have no Latin letters."""
    return "" if platform == "darwin" else (WINDOWS_LETTERS if platform == "win32" else X11_LETTERS).get(code, "")


def stroke_of(event: QKeyEvent, platform: str = sys.platform) -> Stroke:
    """Read a key event."""
    shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    code = event.nativeVirtualKey() if platform == "darwin" else event.nativeScanCode()
    digit = digit_at(code, platform) if code else 0
    text, key = event.text(), int(event.key())
    if not digit and not code:
        digit = key - int(Qt.Key.Key_0) if int(Qt.Key.Key_1) <= key <= int(Qt.Key.Key_9) else 0
        digit = digit or SHIFTED.get(text, 0) or (SHIFTED.get(chr(key), 0) if key < 0x80 else 0)
    return Stroke(digit, "" if digit else _letter(key, text, code, platform), shift)


def _letter(key: int, text: str, code: int, platform: str) -> str:
    if text == "?" or key == int(Qt.Key.Key_Question):
        return "?"
    if text in PLUS_MINUS or key in (int(Qt.Key.Key_Plus), int(Qt.Key.Key_Minus)):
        return PLUS_MINUS.get(text, "+" if key == int(Qt.Key.Key_Plus) else "-")
    if int(Qt.Key.Key_A) <= key <= int(Qt.Key.Key_Z):
        return chr(key).lower()
    foreign = bool(text) and text.isalpha() and ord(text[0]) > 0x24F  # beyond the Latin blocks
    return letter_at(code, platform) if foreign else ""
