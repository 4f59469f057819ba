"""Speech waits for the burst, never doubles, and is off by one key."""

import shutil

import pytest

from timerboard.shell.speech import MOST_WAITING, EspeakSpeaker, QueuedVoice


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
