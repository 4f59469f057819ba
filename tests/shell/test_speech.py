"""Speech waits for the burst, never doubles, and is off by one key."""

import os
import shutil
import subprocess
import sys
from time import perf_counter

import pytest

from timerboard.shell.speech import (
    LONGEST_SENTENCE,
    LONGEST_START,
    MOST_WAITING,
    EspeakSpeaker,
    QueuedVoice,
    SystemSpeaker,
    best_speaker,
)
from timerboard.shell.speech_helper import _Lines


class SpeakerByHand:
    def __init__(self):
        self.said, self.speaking = [], False

    def start(self, sentence):
        assert not self.speaking, "two sentences at once"
        self.said.append(sentence)
        self.speaking = True

    def busy(self):
        return self.speaking

    def stop(self):
        self.speaking = False

    def close(self):
        self.stop()


@pytest.fixture
def speaker():
    return SpeakerByHand()


def voice_with(speaker, burst):
    return QueuedVoice(speaker, lambda: burst[0])


def test_a_sentence_waits_for_the_burst_and_for_the_sentence_before_it(speaker):
    burst = [True]
    voice = voice_with(speaker, burst)
    voice.say("Baste the duck, oven")
    voice.say("Lift batch 2 of 4, hob")
    assert speaker.said == []
    burst[0] = False
    voice.tend()
    voice.tend()
    assert speaker.said == ["Baste the duck, oven"]
    speaker.speaking = False
    voice.tend()
    assert speaker.said == ["Baste the duck, oven", "Lift batch 2 of 4, hob"]


def test_what_waits_already_is_not_queued_twice_and_old_sentences_give_way(speaker):
    voice = voice_with(speaker, [True])
    for _ in range(3):
        voice.say("Baste the duck")
    for n in range(MOST_WAITING):
        voice.say(f"Stir pot {n}")
    assert len(voice._queue) == MOST_WAITING
    assert "Baste the duck" not in voice._queue


def test_one_key_ends_the_sentence_and_the_queue_and_switches_back(speaker):
    burst = [False]
    voice = voice_with(speaker, burst)
    voice.say("one")
    voice.say("two")
    assert voice.switch() is False
    assert not speaker.speaking
    voice.say("three")
    voice.tend()
    assert speaker.said == ["one"]
    assert voice.switch() is True
    voice.say("four")
    assert speaker.said == ["one", "four"]


def test_without_a_voice_nothing_happens_and_nothing_fails():
    voice = QueuedVoice(None, lambda: False)
    voice.say("Baste the duck")
    assert voice.switch() is False
    voice.close()


@pytest.mark.skipif(shutil.which("espeak-ng") is None, reason="espeak-ng is not installed")
def test_espeak_speaks_what_it_is_given_and_takes_no_word_for_an_option(qtbot, tmp_path):
    wrapper = tmp_path / "espeak-to-file"
    wrapper.write_text(f'#!/bin/sh\nexec espeak-ng "$@" -w {tmp_path}/said.wav\n')
    wrapper.chmod(0o755)
    speaker = EspeakSpeaker(str(wrapper))
    speaker.start("--version of the soup, stir it")
    qtbot.waitUntil(lambda: not speaker.busy(), timeout=20_000)
    sound = (tmp_path / "said.wav").read_bytes()
    assert sound[:4] == b"RIFF"
    assert len(sound) > 20_000


def helper(folder, body):
    path = folder / "helper"
    path.write_text(f"#!/bin/sh\n{body}\n")
    path.chmod(0o755)
    return [str(path)]


def looks_until_free(speaker, most):
    return next(look for look in range(most + 2) if not speaker.busy())


def test_the_systems_voice_is_told_a_sentence_in_a_line_and_says_when_it_is_through(qtbot, tmp_path, speaker):
    told = tmp_path / "told"
    voice = SystemSpeaker(
        speaker, helper(tmp_path, f'echo ready; while read w; do echo "$w" >> {told}; echo said; done')
    )
    qtbot.waitUntil(lambda: not voice.busy(), timeout=20_000)
    voice.start("Baste the duck,\noven")
    assert voice.busy()
    qtbot.waitUntil(lambda: not voice.busy(), timeout=20_000)
    assert told.read_text() == "Baste the duck, oven\n"
    voice.close()
    assert speaker.said == []


def test_a_voice_that_never_starts_holds_no_window_up_and_another_speaks(qtbot, tmp_path, speaker):
    began = perf_counter()
    voice = SystemSpeaker(speaker, helper(tmp_path, "exec /bin/sleep 60"))
    assert looks_until_free(voice, LONGEST_START) == LONGEST_START
    voice.start("Baste the duck")
    assert perf_counter() - began < 5
    assert speaker.said == ["Baste the duck"]
    voice.close()


def test_a_voice_that_hangs_in_a_sentence_gives_way_to_another(qtbot, tmp_path, speaker):
    voice = SystemSpeaker(speaker, helper(tmp_path, "echo ready; exec /bin/sleep 60"))
    qtbot.waitUntil(lambda: voice._ready, timeout=20_000)
    voice.start("Baste the duck")
    assert looks_until_free(voice, LONGEST_SENTENCE) == LONGEST_SENTENCE
    voice.start("Turn the roast")
    assert speaker.said == ["Turn the roast"]
    voice.close()


@pytest.mark.parametrize("body", ["exit 3", "kill -SEGV $$"])
def test_a_helper_without_a_voice_or_one_that_dies_leaves_it_to_the_other(qtbot, tmp_path, speaker, body):
    voice = SystemSpeaker(speaker, helper(tmp_path, body))
    qtbot.waitUntil(lambda: not voice._helps(), timeout=20_000)
    voice.start("Baste the duck")
    assert speaker.said == ["Baste the duck"]
    assert voice.busy()
    voice.stop()
    assert not voice.busy()


ENGINE = """
import sys, types
from enum import Enum
from PySide6.QtCore import QObject, Signal
class Speech(QObject):
    State = Enum("State", "Ready Speaking Error")
    stateChanged = Signal(object)
    @staticmethod
    def availableEngines(): return sys.argv[1].split()
    def __init__(self, name): super().__init__(); self.name = name; assert name != "mock"
    def state(self): return self.State.Error if self.name == "broken" else self.State.Ready
    def stop(self): self.stateChanged.emit(self.State.Ready)
    def say(self, words):
        self.stateChanged.emit(self.State.Speaking)
        print("heard:" + words.replace(" ", "_"), flush=True)
        self.stateChanged.emit(self.State.Ready)
module = types.ModuleType("PySide6.QtTextToSpeech")
module.QTextToSpeech = Speech
sys.modules[module.__name__] = module
from timerboard.shell.speech_helper import main
sys.exit(main(sys.stdin))
"""


def test_the_helper_speaks_with_the_first_engine_that_works_and_is_no_mock(qtbot, monkeypatch, speaker):
    voice = SystemSpeaker(speaker, [sys.executable, "-c", ENGINE, "mock broken flite"])
    heard = []
    voice._process.readyReadStandardOutput.disconnect()
    voice._process.readyReadStandardOutput.connect(
        lambda: heard.append(bytes(voice._process.readAll().data()).decode())
    )
    voice.start("Baste the duck")
    qtbot.waitUntil(lambda: "".join(heard).split() == ["ready", "heard:Baste_the_duck", "said"], timeout=20_000)
    voice._process.closeWriteChannel()
    qtbot.waitUntil(lambda: not voice._helps(), timeout=20_000)
    assert voice._process.exitCode() == 0


def test_the_helper_reads_utf8_whatever_the_system_takes_and_what_is_none_ends_nothing():
    told = subprocess.run(
        [sys.executable, "-c", ENGINE, "flite"],
        input="Sauté".encode() + b"\nRo\xffast\n",
        env={**os.environ, "PYTHONIOENCODING": "ascii:backslashreplace", "PYTHONUTF8": "0"},
        capture_output=True,
        timeout=20,
        check=True,
    )
    assert told.stdout.split() == [b"ready", rb"heard:Saut\xe9", b"said", rb"heard:Ro\ufffdast", b"said"]


def test_a_helper_whose_input_fails_ends(qtbot):
    def fails():
        yield "Baste the duck\n"
        raise OSError("gone")

    lines, came, ended = _Lines(), [], []
    lines.came.connect(came.append)
    lines.ended.connect(lambda: ended.append(True))
    with pytest.raises(OSError, match="gone"):
        lines.read(fails())
    assert (came, ended) == (["Baste the duck"], [True])


@pytest.mark.parametrize("engines", ["mock", "broken mock"])
def test_a_helper_with_no_engine_but_the_mock_says_so_and_ends(qtbot, speaker, engines):
    """'broken' is what speech-dispatcher's engine is where its library is missing: seen with PySide6-Addons 6.11.3."""
    voice = SystemSpeaker(speaker, [sys.executable, "-c", ENGINE, engines])
    qtbot.waitUntil(lambda: not voice._helps(), timeout=20_000)
    assert voice._process.exitCode() == 3
    assert not voice._ready


def test_the_systems_voices_are_taken_where_they_are_installed(monkeypatch, qapp):
    for there, kind in ((object(), SystemSpeaker), (None, EspeakSpeaker)):
        monkeypatch.setattr("timerboard.shell.speech.importlib.util.find_spec", lambda _name, there=there: there)
        monkeypatch.setattr("timerboard.shell.speech.shutil.which", lambda _name: "/bin/true")
        best = best_speaker()
        assert type(best) is kind
        best.close()
