"""Bursts are measured, not believed."""

from itertools import combinations

import numpy as np
import pytest

from timerboard.core.alarm_values import Rank
from timerboard.shell.burst import LEAD_S, PARTIALS, PEAK, RATE, RHYTHM, SCALE_HZ, burst, length_s, motif, motifs

RANKS = (Rank.DANGER, Rank.DUE, Rank.SOON)
NOTES = motif("Cardamom rice")


def wave(rank, level=1.0, notes=NOTES):
    return np.frombuffer(burst(rank, notes, level), dtype="<i2").astype(float)


def envelope(samples):
    frame = RATE // 100
    whole = samples[: samples.size // frame * frame].reshape(-1, frame)
    return np.sqrt((whole**2).mean(axis=1))


@pytest.mark.parametrize("rank", RANKS)
def test_a_burst_begins_with_300_ms_of_silence(rank):
    samples = wave(rank)
    assert not samples[: round(LEAD_S * RATE)].any()
    assert np.abs(samples[round(LEAD_S * RATE) : round((LEAD_S + 0.1) * RATE)]).max() > 3000


@pytest.mark.parametrize("rank", RANKS)
def test_a_burst_does_not_clip_and_reaches_its_level(rank):
    assert 28_000 < np.abs(wave(rank)).max() < 32_767
    assert np.abs(wave(rank, 0.5)).max() == pytest.approx(np.abs(wave(rank)).max() / 2, rel=0.01)


@pytest.mark.parametrize("rank", RANKS)
def test_a_burst_ends_within_three_seconds_and_is_never_a_continuous_tone(rank):
    pcm = burst(rank, NOTES, 1.0)
    assert length_s(pcm) < 3.0
    loud = envelope(wave(rank))[round(LEAD_S * 100) :]
    assert loud.min() < 0.02 * loud.max()


def test_fundamental_is_between_150_and_1000_hz_with_four_harmonics_from_300_to_4000_hz_within_15_db():
    # IEC 60601-1-8 Table 4 as restated by secondary sources: 150-1000 Hz, >= 4 components in 300-4000 Hz, +-15 dB
    for hertz in (*SCALE_HZ, SCALE_HZ[-1] * 2):
        assert 150 <= hertz <= 1000
        tone = wave(Rank.SOON, notes=(hertz,) * 4)[round(LEAD_S * RATE) :][: round(0.42 * RATE)]
        spectrum = np.abs(np.fft.rfft(tone * np.hanning(tone.size), RATE))
        strength = [spectrum[round(hertz * k) - 3 : round(hertz * k) + 4].max() for k in range(1, len(PARTIALS) + 1)]
        assert int(np.argmax(spectrum)) == pytest.approx(hertz, abs=2)
        near = [
            k for k, s in enumerate(strength, 1) if 300 <= hertz * k <= 4000 and 20 * np.log10(s / strength[0]) > -15
        ]
        assert len(near) >= 4


def test_the_first_half_second_differs_between_ranks():
    shapes = {}
    for rank in RANKS:
        loud = envelope(wave(rank))[round(LEAD_S * 100) : round((LEAD_S + 0.5) * 100)]
        shapes[rank] = loud > 0.2 * loud.max()
    for one in RANKS:
        for other in RANKS:
            if one < other:
                assert np.mean(shapes[one] != shapes[other]) > 0.15


def test_attack_and_decay_are_shaped_so_that_nothing_clicks():
    samples = wave(Rank.DUE)
    assert np.abs(np.diff(samples)).max() < 9000  # a square start would jump by a whole peak, over 28,000


def test_dishes_of_one_menu_call_with_different_motifs_and_the_same_dish_always_with_its_own():
    dishes = tuple(f"dish {n}" for n in range(12))
    given = motifs(dishes)
    assert len(set(given.values())) == 12
    assert motif("Gravy") == motif("gravy")
    assert burst(Rank.DUE, given["dish 1"]) != burst(Rank.DUE, given["dish 2"])


TWELVE = (
    "Lamb",
    "Cabbage",
    "Custards",
    "Potatoes",
    "Puddings",
    "Mash",
    "Mint",
    "Gravy",
    "Beans",
    "Duck",
    "Fritters",
    "Rice",
)
LEAST_APART = 0.5
"""Of spectra in steps of 50 ms, each burst scaled to 1: two bursts without a common sound are 1.41 apart."""


def heard_as(rank, notes, seconds=None):
    """What an ear goes by: how strong each frequency is in each twentieth of a second, the loudness taken out."""
    samples = np.frombuffer(burst(rank, notes, 0.8), "<i2").astype(float)[round(LEAD_S * RATE) :]
    samples = samples[: round(seconds * RATE)] if seconds else samples
    step = RATE // 20
    parts = samples[: samples.size // step * step].reshape(-1, step) * np.hanning(step)
    strength = np.abs(np.fft.rfft(parts))[:, : 4400 // 20]
    return strength / np.linalg.norm(strength)


@pytest.mark.parametrize("rank", list(RHYTHM))
@pytest.mark.parametrize("dishes", [TWELVE, tuple(f"Dish {n}" for n in range(20))], ids=["twelve", "twenty"])
def test_no_two_dishes_of_a_cook_call_nearly_alike_in_any_rank(rank, dishes):
    heard = [heard_as(rank, notes) for notes in motifs(dishes).values()]
    assert min(float(np.linalg.norm(one - other)) for one, other in combinations(heard, 2)) > LEAST_APART


def test_no_two_dishes_begin_a_due_call_alike():
    heard = [heard_as(Rank.DUE, notes, 0.5) for notes in motifs(TWELVE).values()]
    assert min(float(np.linalg.norm(one - other)) for one, other in combinations(heard, 2)) > LEAST_APART


@pytest.mark.parametrize("rank", list(RHYTHM))
def test_every_dish_is_as_loud_as_the_next_one(rank):
    bursts = [np.frombuffer(burst(rank, notes, 0.7), "<i2").astype(float) for notes in motifs(TWELVE).values()]
    loud = [float(np.sqrt(np.mean(samples**2))) for samples in bursts]
    assert 20 * np.log10(max(loud) / min(loud)) < 1
    assert {round(float(np.abs(samples).max()) / 32767, 3) for samples in bursts} == {round(0.7 * PEAK, 3)}
