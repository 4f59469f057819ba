"""One class of promises, run against every player, on a real ALSA device whose samples are caught and measured."""

import os
import signal

import numpy as np
import pytest

from tests.shell.sound_bench import RATE, play
from timerboard.core.alarm_values import Rank
from timerboard.shell.burst import LEAD_S, burst, motif
from timerboard.shell.players import SilentPlayer
from timerboard.shell.simpleaudio_player import available

PLAYERS = ["miniaudio", *(["simpleaudio"] if available() else [])]
pytestmark = pytest.mark.skipif(os.name == "nt" or os.uname().sysname != "Linux", reason="the caught device is ALSA's")


def burst_of(rank):
    return np.frombuffer(burst(rank, motif("Gravy"), 0.9), "<i2").astype(float)


def found_at(samples, wanted):
    """Where `wanted` begins in `samples` (without its lead silence), and how alike they are there, 0..1."""
    wanted = wanted[round(LEAD_S * RATE) :]
    start = int(np.flatnonzero(np.abs(samples) > 200)[0]) - int(np.flatnonzero(np.abs(wanted) > 200)[0])
    there = samples[start : start + wanted.size]
    size = min(there.size, wanted.size)
    return start, float(np.corrcoef(there[:size], wanted[:size])[0, 1])


@pytest.mark.parametrize("player", PLAYERS)
class TestPromises:
    @pytest.mark.parametrize("rank", [Rank.DANGER, Rank.DUE, Rank.SOON])
    def test_what_was_synthesised_is_what_comes_out(self, player, rank, tmp_path):
        run = play(player, f"sound.play(Rank.{rank.name}, 'Gravy', 0.9); spin(3.2); sound.close()", tmp_path)
        assert run.code == 0, run.out
        start, alike = found_at(run.samples, burst_of(rank))
        assert alike > 0.999
        assert start >= round((LEAD_S - 0.01) * RATE)
        assert np.abs(run.samples).max() < 32_767

    def test_danger_cuts_in_on_due_and_soon_does_not(self, player, tmp_path):
        script = "sound.play(Rank.DUE,'Gravy',0.9); spin(0.9); sound.play(Rank.DANGER,'Gravy',0.9); spin(0.5);"
        script += "sound.play(Rank.SOON,'Gravy',0.9); spin(2.6); sound.close()"
        run = play(player, script, tmp_path)
        danger = burst_of(Rank.DANGER)[round(LEAD_S * RATE) :]
        match = np.correlate(run.samples, danger[: RATE // 2], "valid").max()
        assert match / (danger[: RATE // 2] ** 2).sum() > 0.95

    def test_hush_silences_at_once_and_the_next_burst_is_heard(self, player, tmp_path):
        script = "sound.play(Rank.DUE,'Gravy',0.9); spin(0.7); sound.hush(); spin(1.2); print('busy', player.busy());"
        script += "sound.play(Rank.SOON,'Gravy',0.9); spin(1.8); sound.close()"
        run = play(player, script, tmp_path)
        assert "busy False" in run.out
        soon = burst_of(Rank.SOON)[round(LEAD_S * RATE) :]
        assert np.correlate(run.samples, soon, "valid").max() / (soon**2).sum() > 0.95

    def test_no_device_is_said_in_words_within_five_seconds_and_raises_nothing(self, player, tmp_path):
        script = "sound.play(Rank.DUE,'Gravy',0.9); spin(1.0); print('said:', sound.trouble()); sound.close()"
        run = play(player, script, tmp_path, device=False)
        assert run.code == 0, run.out
        assert "said: no sound device" in run.out

    def test_closing_twice_and_playing_on_after_does_no_harm(self, player, tmp_path):
        run = play(player, "sound.close(); sound.hush(); sound.close(); print('fine')", tmp_path)
        assert (run.code, run.out.strip().splitlines()[-1]) == (0, "fine")


def test_silence_keeps_the_promises_and_says_why():
    player = SilentPlayer("no player of sound is installed")
    player.play(b"\0\0")
    player.tend(0)
    player.stop()
    player.close()
    player.close()
    assert not player.busy()
    assert player.trouble() == "no player of sound is installed"


def test_a_driver_that_plays_into_nothing_is_noticed_within_five_seconds(tmp_path):
    script = "for _ in range(9):\n    spin(0.5); said = sound.trouble()\nprint('said:', said); sound.close()"
    run = play("miniaudio", "\n" + script, tmp_path, paced=False)
    assert "said: the sound driver plays into nothing" in run.out


@pytest.mark.skipif(not available(), reason="the extra `simpleaudio` is not installed, or Python is too new for it")
def test_the_board_outlives_a_sound_helper_that_is_killed_and_hears_the_next_burst(tmp_path):
    kill = f"import os; os.kill(player._process.processId(), {int(signal.SIGKILL)}); spin(0.3)"
    script = f"spin(0.3); {kill}; sound.trouble(); sound.play(Rank.DUE,'Gravy',0.9); spin(3.0); sound.close()"
    run = play("simpleaudio", script, tmp_path)
    assert run.code == 0, run.out
    assert found_at(run.samples, burst_of(Rank.DUE))[1] > 0.999
