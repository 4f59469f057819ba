"""The real program raises a real alarm: its sound is measured; the device goes and comes back."""

import sys

import numpy as np
import pytest

from tests.shell.sound_bench import RATE
from tests.stories.real_board import kitchen_ms, real_board
from tests.waiting import until
from timerboard.core.alarm_values import Rank
from timerboard.core.sounding import FIRST_LEVEL
from timerboard.shell.burst import LEAD_S, PEAK, RHYTHM, burst, motifs
from timerboard.shell.simpleaudio_player import available

PLAYERS = ["miniaudio", *(["simpleaudio"] if available() else [])]
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="the caught device is ALSA's")

NOTES = motifs(("Eggs",))["Eggs"]
LEVEL = FIRST_LEVEL[Rank.DUE]
NOTICED_WITHIN_MS = 5_000


def samples_of(rank: Rank, level: float) -> np.ndarray:
    """A burst as it was synthesised, without its silence."""
    return np.frombuffer(burst(rank, NOTES, level), "<i2").astype(float)[round(LEAD_S * RATE) :]


def found(heard: np.ndarray, wanted: np.ndarray) -> int | None:
    """Where `wanted` was heard whole and unchanged (correlation above 0.999), else None."""
    loud = np.flatnonzero(np.abs(heard) > 50)
    begins = loud[np.flatnonzero(np.diff(loud, prepend=-RATE) > 0.04 * RATE)]  # after a gap
    first = int(np.flatnonzero(np.abs(wanted) > 50)[0])
    for begin in begins:
        there = heard[max(0, begin - first) :][: wanted.size]
        if there.size == wanted.size and np.corrcoef(there, wanted)[0, 1] > 0.999:
            return int(begin) - first
    return None


def spectrum(pulse: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Hertz and amplitude, finely enough for a pulse of a fifth of a second."""
    padded = np.fft.rfft(pulse * np.hanning(pulse.size), 1 << 17)
    return np.fft.rfftfreq(1 << 17, 1 / RATE), np.abs(padded)


def strongest_near(pulse: np.ndarray, hertz: float) -> tuple[float, float]:
    """Where within 3 % of `hertz` the spectrum peaks, and how strong it is there."""
    axis, strength = spectrum(pulse)
    near = np.flatnonzero(np.abs(axis - hertz) < 0.03 * hertz)
    best = near[int(np.argmax(strength[near]))]
    return float(axis[best]), float(strength[best])


def measure(heard: np.ndarray, begin: int) -> None:
    """A due call: four pulses in time and in tune, with harmonics, at its level, after silence, unclipped."""
    wanted = samples_of(Rank.DUE, LEVEL)
    silence = heard[begin - round((LEAD_S - 0.005) * RATE) : begin]
    assert np.abs(silence).max() <= 1
    at = begin
    for pulse in RHYTHM[Rank.DUE]:
        length = round(pulse.length_s * RATE)
        sounding = heard[at : at + length]
        note = NOTES[pulse.note]
        assert 150 <= note <= 1000
        tuned, fundamental = strongest_near(sounding, note)
        assert tuned == pytest.approx(note, rel=0.01)
        partials = [strongest_near(sounding, note * n)[1] for n in range(1, 8) if 300 <= note * n <= 4000]
        within = [20 * np.log10(part / fundamental) for part in partials]
        assert sum(abs(decibel) <= 15 for decibel in within) >= 4
        gap = heard[at + length : at + length + round(pulse.gap_s * RATE)]
        assert gap.size == 0 or np.abs(gap).max() <= 1
        at += length + round(pulse.gap_s * RATE)
    whole = heard[begin : begin + wanted.size]
    assert np.abs(whole).max() == pytest.approx(LEVEL * PEAK * 32767, rel=0.01)
    assert np.abs(heard).max() < 32_000
    assert found(heard, samples_of(Rank.DANGER, FIRST_LEVEL[Rank.DANGER])) is None
    for other in (Rank.DANGER, Rank.SOON):
        first, theirs = heard[begin : begin + RATE // 2], samples_of(other, LEVEL)[: RATE // 2]
        assert abs(np.corrcoef(first, theirs)[0, 1]) < 0.5


@pytest.mark.parametrize("player", PLAYERS)
def test_a_call_is_heard_as_it_was_meant_and_a_lost_device_is_danger_until_it_is_back(player, tmp_path):
    with real_board(tmp_path, "--sound", player) as board:
        until(lambda: board.lines("sounded"), 60, "the first call")
        wanted = samples_of(Rank.DUE, LEVEL)
        begin = until(lambda: found(board.heard(), wanted), 30, "the burst of the first call")
        measure(board.heard(), begin)
        until(lambda: "Start: boil the eggs, hob." in board.said(), 30, "the sentence behind the burst")
        (due,), painted = board.lines("due"), board.lines("painted")
        assert due["since"] <= due["at"] <= painted[0]["at"]
        assert due["at"] <= board.lines("sounded")[0]["at"]

        gone = kitchen_ms()
        board.pull_the_plug()
        lost = until(lambda: board.shown() if board.shown()[2] else None, 40, "the lost sound")
        assert lost[0] - gone <= NOTICED_WITHIN_MS
        assert [text.startswith("Sound lost: ") for text in lost[3]] == [True]
        assert board.process.poll() is None
        board.plug_in()
        until(lambda: board.shown()[1:] == ("sound ok · voice on", False, []), 40, "the sound again")
        if player == PLAYERS[0]:
            bursts = len(board.lines("sounded"))
            until(lambda: len(board.lines("sounded")) > bursts, 75, "the next burst of the same call")
            louder = next(n for n in (1, 2, 3) if len(board.lines("sounds")) == n + 1)
            level = round(LEVEL + louder * 0.15, 2)
            until(lambda: found(board.heard(), samples_of(Rank.DUE, level)), 30, "the next burst, louder")
        assert board.end() == ""
