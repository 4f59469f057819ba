"""Loudness, voice, who answers, and the hear-test: wishes of a board that no cook's record keeps."""

import pytest

from tests.desk.desk_kitchen import DeskKitchen
from tests.fakes import RecordingMemory, RecordingSound, RecordingVoice
from tests.kitchen import minutes, small_menu, step
from timerboard.core.alarm_values import Kind, Rank
from timerboard.core.alarms import alarms
from timerboard.core.commands import (
    AnswerAs,
    ClearQuickTimer,
    HearAlarm,
    HeardTest,
    Hush,
    Louder,
    PlaySound,
    SetQuickTimer,
    StartStep,
    SwitchVoice,
)
from timerboard.core.menu import Cue, Dish, Use
from timerboard.core.view_values import Extras
from timerboard.desk.listening import HEAR_TEST, SOUND_LOST, Listening
from timerboard.desk.notices import Notices
from timerboard.desk.sounder import Sounder

SALT = "Pork/Salt"


def listening(**kept):
    memory, sound, voice = RecordingMemory(**kept), RecordingSound(), RecordingVoice()
    sounder = Sounder(sound, voice)
    return Listening(sounder, memory, Notices()), sounder, memory


def notice(kitchen: DeskKitchen, key: str):
    return next((n for n in kitchen.desk.view().notices if n.key == key), None)


class TestLoudness:
    def test_the_ceiling_goes_in_tens_and_is_remembered(self):
        ears, sounder, memory = listening()
        ears.wish(Louder(-1))
        ears.wish(Louder(-1))
        assert (sounder.ceiling, memory.kept["loudest"]) == (0.8, 80)
        assert Listening(sounder, memory, Notices()).told(Extras()).sound_state == "sound ok, 80 % · voice on"

    def test_it_never_goes_to_nought_nor_above_all(self):
        ears, sounder, _ = listening()
        ears.wish(Louder(-20))
        assert sounder.ceiling == 0.2
        ears.wish(Louder(+50))
        assert sounder.ceiling == 1.0

    @pytest.mark.parametrize("kept", [None, "loud", float("nan"), float("inf"), [], -3, 1000])
    def test_a_spoilt_memory_gives_a_loudness_that_can_be_heard(self, kept):
        _, sounder, _ = listening(loudest=kept)
        assert 0.2 <= sounder.ceiling <= 1.0

    def test_calls_grow_to_the_ceiling_and_no_further(self):
        kitchen = DeskKitchen()
        kitchen.must(Louder(-5), SetQuickTimer("eggs", 10))
        kitchen.sound.played.clear()
        kitchen.run(4)
        levels = [level for rank, _, level in kitchen.sound.played if rank is Rank.DUE]
        assert max(levels) == 0.5
        assert levels[0] < 0.5


class TestVoice:
    def test_it_is_switched_off_and_stays_off_next_time(self):
        ears, _sounder, memory = listening()
        ears.wish(SwitchVoice())
        assert "voice off" in ears.told(Extras()).sound_state
        again = RecordingVoice()
        Listening(Sounder(RecordingSound(), again), memory, Notices())
        assert not again.on

    def test_where_there_is_none_nothing_is_said_of_it(self):
        ears, sounder, _ = listening()
        sounder.voice.able = sounder.voice.on = False
        assert ears.told(Extras()).sound_state == "sound ok"
        assert ears.wish(SwitchVoice()) == "this system has no voice"


class TestWhoAnswers:
    def test_the_name_is_in_the_record_on_the_strip_and_in_the_foot(self):
        kitchen = DeskKitchen()
        kitchen.must(AnswerAs("  Ana "), StartStep(SALT))
        shown = kitchen.desk.view()
        assert "Ana" in next(s.answered for s in shown.strips if s.key == "dish:Pork")
        assert shown.foot.last.startswith("Ana answers · last: ")
        assert [e.who for e in kitchen.journal.read() if e.kind == "StepStarted"] == ["Ana"]
        kitchen.run(1.1)
        assert next(s.answered for s in kitchen.desk.view().strips if s.key == "dish:Pork") == ""

    def test_nobody_in_particular_is_as_good(self):
        kitchen = DeskKitchen()
        kitchen.must(AnswerAs("Ana"), AnswerAs(""), StartStep(SALT))
        assert [e.who for e in kitchen.journal.read() if e.kind == "StepStarted"] == [None]
        assert "Ana" in kitchen.desk.view().names

    def test_what_begins_by_itself_is_nobodys(self):
        kitchen = DeskKitchen()
        kitchen.must(AnswerAs("Ana"))
        kitchen.run(1)
        assert {e.who for e in kitchen.journal.read() if e.kind == "StepStarted"} <= {None}

    def test_names_are_remembered_and_kept_short(self):
        ears, _, memory = listening(names=["Ben", 3])
        ears.wish(AnswerAs("A" * 99))
        assert memory.kept["names"] == ["A" * 24, "Ben"]


class TestHearTest:
    def test_a_call_is_played_and_asked_about_and_a_yes_ends_it(self):
        kitchen = DeskKitchen()
        kitchen.must(PlaySound())
        assert kitchen.sound.played[-1] == (Rank.DUE, "", 1.0)
        hushes = kitchen.sound.hushes
        kitchen.desk.look()
        assert kitchen.sound.hushes == hushes
        asked = notice(kitchen, HEAR_TEST)
        assert (asked.take, asked.leave, asked.again) == (HeardTest(True), HeardTest(False), PlaySound())
        kitchen.must(asked.take)
        assert notice(kitchen, HEAR_TEST) is None

    def test_a_no_stays_until_it_is_heard(self):
        kitchen = DeskKitchen()
        kitchen.must(PlaySound(), HeardTest(False))
        assert notice(kitchen, HEAR_TEST).rank is Rank.DUE
        kitchen.must(PlaySound(), HeardTest(True))
        assert notice(kitchen, HEAR_TEST) is None

    def test_no_event_and_no_alarm_comes_of_it(self):
        kitchen = DeskKitchen()
        kept = kitchen.journal.read()
        kitchen.must(PlaySound(), HeardTest(False), Louder(1), SwitchVoice(), AnswerAs("Ana"))
        assert kitchen.journal.read() == kept


class TestSoundLost:
    def test_it_is_a_danger_until_seen_and_stays_on_the_board_until_it_is_back(self):
        kitchen = DeskKitchen()
        kitchen.sound.lost = "no sound device"
        shown = kitchen.desk.view()
        lost = shown.notices[0]
        assert (lost.key, lost.rank, shown.danger) == (SOUND_LOST, Rank.DANGER, True)
        kitchen.must(lost.leave)
        shown = kitchen.desk.view()
        assert (shown.notices[0].rank, shown.notices[0].leave, shown.danger) == (Rank.DANGER, None, False)
        kitchen.sound.lost = ""
        assert kitchen.desk.view().notices == ()
        kitchen.sound.lost = "no sound device"
        assert kitchen.desk.view().danger


class TestSounding:
    def test_when_danger_is_answered_the_call_below_it_is_heard_at_once(self):
        kitchen = DeskKitchen()
        hushes = kitchen.sound.hushes
        kitchen.must(SetQuickTimer("eggs", 10), SetQuickTimer("rice", 12))
        kitchen.run(0.25)
        kitchen.must(ClearQuickTimer("rice"))
        # the burst for the rice still plays and would keep a lower one out: it is ended first
        assert kitchen.sound.hushes == hushes + 1
        assert kitchen.voice.said[0] == "Time is up: eggs."

    def test_one_door_is_said_in_one_sentence(self):
        oven = (Use(place="oven"),)
        duck = step("Duck", "Roast", minutes(60), uses=oven, cues=(Cue(do="Baste", every_s=600, times=1),))
        roots = step("Roots", "Roast", minutes(60), uses=oven, cues=(Cue(do="Turn", every_s=690, times=1),))
        kitchen = DeskKitchen(small_menu(Dish(name="Duck", steps=(duck,)), Dish(name="Roots", steps=(roots,))))
        kitchen.must(StartStep("Duck/Roast"), StartStep("Roots/Roast"))
        kitchen.run(9.9)
        kitchen.voice.said.clear()
        kitchen.run(1)
        assert "Baste the duck and turn the roots, oven." in kitchen.voice.said

    def test_a_flood_is_said_as_one_call_and_so_many_more(self):
        kitchen = DeskKitchen()
        kitchen.must(*(SetQuickTimer(f"timer {n}", 20 + n) for n in range(7)))
        kitchen.run(0.6)
        assert "Time is up: timer 0. And six more." in kitchen.voice.said
        assert kitchen.desk.view().waiting == "and 2 more"

    def test_nothing_mutes_a_new_call_and_the_pause_is_shown(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 10))
        kitchen.run(0.25)
        kitchen.must(SetQuickTimer("rice", 20), Hush(600))
        assert kitchen.desk.view().hushed == "sound paused 2:00 left"
        kitchen.sound.played.clear()
        kitchen.run(0.5)
        assert kitchen.sound.played != []
        timers = [a for a in alarms(kitchen.desk.cook, kitchen.desk.now()) if a.kind is Kind.TIMER]
        assert len(timers) == 2

    def test_silencing_is_never_ending(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 10))
        kitchen.run(0.25)
        timer = next(a for a in alarms(kitchen.desk.cook, kitchen.desk.now()) if a.kind is Kind.TIMER)
        kitchen.must(HearAlarm(timer.id))
        assert timer.id in {a.id for a in alarms(kitchen.desk.cook, kitchen.desk.now())}
