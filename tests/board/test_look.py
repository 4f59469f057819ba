"""Contrast of every pair that is painted: WCAG 2.2, SC 1.4.6 (7:1 for text) and SC 1.4.11 (3:1 for shapes)."""

import pytest

from timerboard.board.look import THEMES, contrast, next_palette, palette_named
from timerboard.core.alarm_values import Rank

FILLS = ("left", "button", "soon", "due", "danger", "calm")


def test_the_formula_gives_the_published_ratios():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)  # WCAG 2.2, 'contrast ratio': 1 to 21
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # the well-known grey just below 4.5
    assert contrast("#f0e442", "#1e1e1e") == pytest.approx(12.6, abs=0.1)  # Okabe and Ito's yellow, computed by hand


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@pytest.mark.parametrize("words", ["ink", "quiet"])
@pytest.mark.parametrize("ground", ["ground", "bar", "strip"])
def test_words_are_read_on_every_ground(theme, words, ground):
    assert contrast(getattr(theme, words), getattr(theme, ground)) >= 7


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@pytest.mark.parametrize("fill", FILLS)
def test_ink_is_read_on_its_fill_and_on_the_tab_that_swaps_them(theme, fill):
    surface = getattr(theme, fill)
    assert contrast(surface.ink, surface.ground) >= 7


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_labels_on_ribbons_are_read(theme):
    assert contrast(theme.ink, theme.done) >= 7
    assert contrast(theme.eat, theme.ground) >= 7  # the word 'eat' in its flag
    assert contrast(theme.ground, theme.now) >= 7  # the word 'now' on its flag


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@pytest.mark.parametrize("ground", ["ground", "bar", "strip"])
def test_shapes_stand_out_from_what_they_lie_on(theme, ground):
    under = getattr(theme, ground)
    shapes = {name: getattr(theme, name).edge for name in FILLS} | {
        name: getattr(theme, name) for name in ("edge", "now", "eat", "focus")
    }
    assert {name: contrast(colour, under) for name, colour in shapes.items() if contrast(colour, under) < 3} == {}


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_what_is_left_stands_out_from_what_is_past(theme):
    assert contrast(theme.left.ground, theme.done) >= 3
    assert contrast(theme.edge, theme.done) >= 3


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_the_flashing_border_is_no_saturated_red(theme):
    # WCAG 2.2, 'general flash and red flash thresholds': R / (R + G + B) >= 0.8 is a saturated red (linear values)
    r, g, b = (int(theme.danger.ground[i : i + 2], 16) / 255 for i in (1, 3, 5))
    r, g, b = (((c + 0.055) / 1.055) ** 2.4 if c > 0.04045 else c / 12.92 for c in (r, g, b))
    dark_red = r / (r + g + b) >= 0.8
    flashes_per_second = 1  # two beats of 500 ms; fewer than the three a second that WCAG allows
    assert not dark_red or flashes_per_second <= 2


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_ranks_look_different(theme):
    looks = [theme.of_rank(rank) for rank in (Rank.DANGER, Rank.DUE, Rank.SOON, None)]
    assert len({(look.ground, look.edge) for look in looks}) == 4
    assert theme.of_rank(Rank.NOTE) == theme.of_rank(None)


def test_the_themes_go_round():
    seen = [THEMES[0]]
    for _ in THEMES:
        seen.append(next_palette(seen[-1]))
    assert seen[-1] == seen[0]
    assert len(set(seen)) == len(THEMES)


def test_an_unknown_theme_is_refused_with_the_names_there_are():
    with pytest.raises(ValueError, match="dark, light, contrast"):
        palette_named("beige")
