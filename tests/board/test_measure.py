"""Sizes at the eye and under the finger.

Sources: ISO 9241-3 prefers 20 to 22 minutes of arc and sets 16 as the least; heights below are 2 d tan(t / 2), worked
out apart from the code (1 arcmin = 1/60 degree): 22' at 3 m = 19.2 mm, 20' at 1 m = 5.8 mm.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.board.measure import cap_mm, px_per_mm, row_heights, sizes

CAP = 0.72
GLASS = [  # width, height, dots per inch of the window's own pixels: laptops, desk screens, a large one
    (1366, 768, 100),
    (1920, 1080, 92),
    (2560, 1440, 109),
    (3840, 2160, 163),
]


@pytest.mark.parametrize(
    ("arcmin", "distance", "mm"),
    [(16, 1, 4.7), (20, 1, 5.8), (22, 1, 6.4), (22, 2, 12.8), (16, 3, 14.0), (22, 3, 19.2), (22, 4, 25.6)],
)
def test_heights_are_those_of_the_angles(arcmin, distance, mm):
    assert cap_mm(arcmin, distance) == pytest.approx(mm, abs=0.05)


@pytest.mark.parametrize(("width", "height", "dpi"), GLASS)
def test_secondary_text_has_20_arcmin_at_1_m(width, height, dpi):
    per_mm = px_per_mm(dpi)
    assert sizes(width, height, per_mm, CAP).text * CAP / per_mm >= 5.8


@pytest.mark.parametrize(("width", "height", "dpi"), GLASS[1:])
def test_countdowns_have_22_arcmin_at_3_m_where_there_is_room(width, height, dpi):
    per_mm = px_per_mm(dpi)
    size = sizes(width, height, per_mm, CAP)
    assert size.count * CAP / per_mm >= 19.2
    assert size.row_full >= size.count * CAP


@pytest.mark.parametrize(("width", "height", "dpi"), [(1024, 600, 96), *GLASS])
def test_targets_are_15_mm_with_3_mm_between(width, height, dpi):
    per_mm = px_per_mm(dpi)
    size = sizes(width, height, per_mm, CAP)
    assert size.target / per_mm >= 15
    assert size.gap / per_mm >= 3
    assert min(size.row_least, size.hands - size.pad, size.foot - size.pad) >= size.target


@pytest.mark.parametrize(("dpi", "ratio"), [(12.0, 1.0), (0.0, 1.0), (1000.0, 1.0), (float("inf"), 1.0)])
def test_a_screen_that_cannot_be_believed_is_taken_for_a_usual_one(dpi, ratio):
    assert px_per_mm(dpi, ratio) == pytest.approx(96 / 25.4)


def test_scaling_is_told_from_nonsense():
    # 96 dots per inch shown at 200 %: Qt then tells 48, and one of its pixels is two of the screen's
    assert px_per_mm(48.0, 2.0) == pytest.approx(48 / 25.4)


@given(st.integers(480, 7680), st.integers(300, 4320), st.floats(50, 400), st.integers(0, 40), st.integers(0, 5))
@settings(max_examples=150, deadline=None)
def test_any_window_has_sizes_that_fit_each_other(width, height, dpi, rows, wanting):
    size = sizes(width, height, px_per_mm(dpi), CAP)
    heights = row_heights(max(0, height - size.head - size.hands - size.foot), rows, min(rows, wanting), size)
    assert len(heights) == rows
    assert size.name_width + size.count_width < width * 0.6
    assert all(high >= size.row_least for high in heights)
    assert sorted(heights, reverse=True) == list(heights)  # what needs hands stands above and is largest


def test_rows_grow_before_any_is_dropped():
    size = sizes(1920, 1080, px_per_mm(92), CAP)
    assert row_heights(2000, 3, 0, size) == (int(size.row_full * 1.6),) * 3
    snug = 8 * (size.row_full + size.gap)
    assert set(row_heights(snug, 8, 0, size)) == {size.row_full}
    mixed = row_heights(8 * (size.row_least + size.gap) + 2 * (size.row_full - size.row_least), 8, 0, size)
    assert mixed == (size.row_full,) * 2 + (size.row_least,) * 6
