"""How large things are: from angles at the eye and millimetres on the glass to pixels of the window's own screen.

Sources: 20 to 22 minutes of arc are preferred and 16 the least for text (ISO 9241-3, and -303 after it); the height
meant is that of a capital letter. Height of an angle t at distance d: 2 d tan(t / 2). Targets for wet or hurried
fingers: 15 mm with 3 mm between (above the 9.5 mm of ANSI/HFES 100-2007, because hands here are wet).
"""

from dataclasses import dataclass
from math import radians, tan
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtGui import QScreen

FAR_ARCMIN, FAR_M = 22.0, 3.0  # countdown digits, from across the kitchen
NEAR_ARCMIN, NEAR_M = 20.0, 1.0  # everything else, at the worktop
TARGET_MM, GAP_MM = 15.0, 3.0
LIKELY_DPI = (50.0, 400.0)  # outside this a screen is wrong about its own size
USUAL_DPI = 96.0
CAP_OF_EM = 0.72  # capital height over font size, in a usual sans
COUNT_EMS = 2.95  # width of "00:00" over font size


def cap_mm(arcmin: float, distance_m: float) -> float:
    """Height in mm that fills `arcmin` minutes of arc at `distance_m` metres."""
    return 2000 * distance_m * tan(radians(arcmin / 60) / 2)


def px_per_mm(dots_per_inch: float, pixel_ratio: float = 1.0) -> float:
    """Pixels of the window (before scaling by `pixel_ratio`) in a millimetre of glass.

    A screen that claims fewer than 50 or more than 400 dots per inch is taken for a usual one: television sets say
    they are 160 mm wide, and virtual machines anything at all.
    """
    real = dots_per_inch * pixel_ratio
    if not LIKELY_DPI[0] <= real <= LIKELY_DPI[1]:
        real = USUAL_DPI * max(1.0, pixel_ratio)
    return real / max(pixel_ratio, 0.1) / 25.4


def screen_px_per_mm(screen: "QScreen | None") -> float:
    """The same, asked of a screen; a usual one when there is none."""
    if screen is None:
        return USUAL_DPI / 25.4
    return px_per_mm(screen.physicalDotsPerInch(), screen.devicePixelRatio())


@dataclass(frozen=True, slots=True)
class Sizes:
    """Every length of the board in pixels. Font sizes are of the em."""

    text: int  # second readings: lines, details, labels
    count: int  # countdown digits, full strips
    clock: int
    target: int  # the least side of anything that is tapped
    gap: int  # the least distance between two of those
    pad: int
    head: int
    hands: int  # one row of the hands line
    axis: int
    foot: int
    jut: int  # how far a strip that needs hands stands out
    name_width: int
    count_width: int
    row_full: int  # a strip's body, with far digits
    row_least: int  # a strip's body when many must fit

    @property
    def line(self) -> int:
        """Thickness that grows with the text: 1 on a usual screen, 2 where everything is twice as large."""
        return max(1, self.text // 24)


def sizes(width: int, height: int, per_mm: float, cap_of_em: float = CAP_OF_EM) -> Sizes:
    """Lengths for a window of that many pixels on glass of `per_mm` pixels in a millimetre.

    Text has its angle at the eye first and grows with the window after that; only a window too small for it makes it
    smaller, and then strips scroll rather than shrink.
    """
    near = cap_mm(NEAR_ARCMIN, NEAR_M) * per_mm / cap_of_em
    far = cap_mm(FAR_ARCMIN, FAR_M) * per_mm / cap_of_em
    text = max(9, int(min(max(near + 1, height / 38), width / 36, height / 23)))
    pad = max(4, text // 3)
    target = int(min(TARGET_MM * per_mm + 1, height / 7))
    jut = max(12, int(text * 0.85))
    count_width = int(min(max(far, text * 3.3) * COUNT_EMS + pad, width * 0.21))
    count = int(min(max(far + 1, text * 3.3), (count_width - pad) / COUNT_EMS))
    row_least = max(target, int(text * 2.5))
    return Sizes(
        text=text,
        count=count,
        clock=int(text * 2.3),
        target=target,
        gap=int(GAP_MM * per_mm + 1),
        pad=pad,
        head=int(text * 2.65) + pad,
        hands=max(target, int(text * 2.75)) + pad,
        axis=int(text * 1.35),
        foot=max(target, int(text * 2.2)) + pad,
        jut=jut,
        name_width=int(width * 0.29),
        count_width=count_width,
        row_full=max(row_least, int(count * cap_of_em * 1.2)),
        row_least=row_least,
    )


def row_heights(room: int, rows: int, wanting: int, size: Sizes) -> tuple[int, ...]:
    """Body heights of `rows` strips in `room` pixels, gaps between them not counted in.

    All full, and larger still, when there is room; else full from the top while the rest keep their least height; and
    when even that is too much, the `wanting` strips that need hands stay full and the bay scrolls.
    """
    if rows == 0:
        return ()
    body = (room - size.gap * rows) // rows
    if body >= size.row_full:
        return (min(body, int(size.row_full * 1.6)),) * rows
    spare = room - rows * (size.row_least + size.gap)
    step = max(1, size.row_full - size.row_least)
    full = spare // step if spare >= 0 else max(1, wanting)
    full = min(rows, full)
    return (size.row_full,) * full + (size.row_least,) * (rows - full)
