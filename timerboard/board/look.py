"""What the board looks like: three frozen palettes, and which of them the system asks for.

Colour is kept for what wants attention; a grey board with one yellow card is read from across a kitchen. The attention
colours derive from the palette of Okabe and Ito, which stays apart for the common kinds of colour blindness; each is
paired with the ink that gives at least 7:1 on it (WCAG 2.2, SC 1.4.6). Shapes keep 3:1 against what they lie on
(SC 1.4.11). State is told by shape and word first: every fill here has a mark, a word or an outline with it.
"""

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from timerboard.core.alarm_values import Rank


@dataclass(frozen=True, slots=True)
class Fill:
    """A surface, the ink that is read on it, and the edge that parts it from the board."""

    ground: str
    ink: str
    edge: str


@dataclass(frozen=True, slots=True)
class Palette:
    """Every colour of the board, as "#rrggbb"."""

    name: str
    ground: str  # behind everything
    bar: str  # head, hands line and foot
    strip: str
    ink: str  # what is read first
    quiet: str  # what is read second: still 7:1
    rule: str  # grid lines: decoration, no state hangs on them
    edge: str  # outlines that carry meaning
    done: str  # ended, or the part of a running step that is past
    left: Fill  # what is left of a running step
    now: str
    eat: str
    focus: str
    button: Fill
    soon: Fill
    due: Fill
    danger: Fill
    calm: Fill  # a job that can wait, or one that was heard

    def of_rank(self, rank: Rank | None) -> Fill:
        """The surface for something of that rank."""
        fills = {Rank.DANGER: self.danger, Rank.DUE: self.due, Rank.SOON: self.soon}
        return self.calm if rank is None else fills.get(rank, self.calm)


DARK = Palette(
    name="dark",
    ground="#141619",
    bar="#1b1e22",
    strip="#23272c",
    ink="#f5f3ee",
    quiet="#c6c9cc",
    rule="#3a4047",
    edge="#8b939b",
    done="#3b4148",
    left=Fill("#b3b9bf", "#0d0f11", "#b3b9bf"),
    now="#f5f3ee",
    eat="#7cc6f2",
    focus="#7cc6f2",
    button=Fill("#2d3238", "#f5f3ee", "#8b939b"),
    soon=Fill("#23272c", "#f5f3ee", "#f0e442"),
    due=Fill("#f0e442", "#0d0f11", "#f0e442"),
    danger=Fill("#ff7a33", "#0d0f11", "#ff7a33"),
    calm=Fill("#2d3238", "#f5f3ee", "#8b939b"),
)

LIGHT = Palette(
    name="light",
    ground="#e6e3dc",
    bar="#f4f2ec",
    strip="#ffffff",
    ink="#14171a",
    quiet="#3c4248",
    rule="#d0cdc5",
    edge="#6b7178",
    done="#d9dbdd",
    left=Fill("#3f464d", "#ffffff", "#3f464d"),
    now="#14171a",
    eat="#074a7a",
    focus="#074a7a",
    button=Fill("#ffffff", "#14171a", "#6b7178"),
    soon=Fill("#ffffff", "#14171a", "#14171a"),
    due=Fill("#ffd91f", "#14171a", "#14171a"),
    danger=Fill("#962b00", "#ffffff", "#962b00"),
    calm=Fill("#e9e7e1", "#14171a", "#6b7178"),
)

CONTRAST = Palette(
    name="contrast",
    ground="#000000",
    bar="#000000",
    strip="#000000",
    ink="#ffffff",
    quiet="#ffffff",
    rule="#5a5a5a",
    edge="#ffffff",
    done="#4d4d4d",
    left=Fill("#ffffff", "#000000", "#ffffff"),
    now="#ffffff",
    eat="#7fd4ff",
    focus="#00ffff",
    button=Fill("#000000", "#ffffff", "#ffffff"),
    soon=Fill("#000000", "#ffffff", "#ffff00"),
    due=Fill("#ffff00", "#000000", "#ffff00"),
    danger=Fill("#ff8c5a", "#000000", "#ffffff"),
    calm=Fill("#000000", "#ffffff", "#ffffff"),
)

THEMES: tuple[Palette, ...] = (DARK, LIGHT, CONTRAST)
"""In the order in which the L key goes round them."""


def luminance(colour: str) -> float:
    """Relative luminance of "#rrggbb", 0 (black) to 1 (white). Source: WCAG 2.2, 'relative luminance'."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21. Source: WCAG 2.2, 'contrast ratio'."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def palette_named(name: str) -> Palette:
    """The palette of that name; raises ValueError with the names there are."""
    for palette in THEMES:
        if palette.name == name:
            return palette
    raise ValueError(f"There is no theme '{name}': use {', '.join(p.name for p in THEMES)}.")


def system_palette() -> Palette:
    """What the system's settings ask for: high contrast first, then light or dark; dark when it does not say."""
    hints = QGuiApplication.styleHints()
    access = getattr(hints, "accessibility", None)
    preference = getattr(access(), "contrastPreference", None) if access else None
    if preference is not None and preference().name == "HighContrast":
        return CONTRAST
    return LIGHT if hints.colorScheme() == Qt.ColorScheme.Light else DARK


def next_palette(palette: Palette) -> Palette:
    """The one after it, round and round."""
    return THEMES[(THEMES.index(palette) + 1) % len(THEMES)]
