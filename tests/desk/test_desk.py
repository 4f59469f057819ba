"""The one door: kept before shown, refusals pass through, trouble is said, nothing is lost."""

import pytest

from tests.desk.desk_kitchen import DeskKitchen
from tests.fakes import OPENING, HandClock, MemoryJournal
from tests.kitchen import MIN
from timerboard.core.alarm_values import Kind, Rank
from timerboard.core.alarms import alarms
from timerboard.core.commands import (
    CloseCook,
    EndStep,
    HearAlarm,
    MoveEating,
    PutOff,
    SetQuickTimer,
    StartStep,
    Undo,
)
from timerboard.core.decide import Refusal
from timerboard.core.events import BoardReturned, ClockStepped
from timerboard.core.fold import fold
from timerboard.desk.desk import Desk
from timerboard.desk.keeping import NOT_SAVED
from timerboard.desk.ports import JournalTrouble

HOUR, DAY = 3600, 86_400
SALT = "Pork/Salt"


def counts(kitchen: DeskKitchen) -> dict[str, str]:
    """Every strip's countdown."""
    return {strip.key: strip.countdown for strip in kitchen.desk.view().strips}


def test_a_cook_begins_with_its_opening_and_its_plan():
    kitchen = DeskKitchen()
    assert kitchen.kinds()[:2] == ["CookOpened", "PlanAdopted"]
    assert kitchen.desk.now() == OPENING
    assert kitchen.desk.cook == fold(kitchen.journal.read())


def test_an_act_is_kept_before_anyone_is_told():
    kitchen = DeskKitchen()
    kept_when_told: list[int] = []
    kitchen.desk.listen(lambda: kept_when_told.append(len(kitchen.journal.read())))
    before = len(kitchen.journal.read())
    kitchen.must(StartStep(SALT))
    assert kept_when_told[0] == before + 1
    assert kitchen.kinds()[-1] == "StepStarted"


def test_the_words_of_the_act_come_back():
    kitchen = DeskKitchen()
    said = kitchen.desk.send(SetQuickTimer("eggs", 390))
    assert isinstance(said, str)
    assert "eggs" in said


def test_a_refusal_passes_through_and_changes_nothing():
    kitchen = DeskKitchen()
    before, kept = kitchen.desk.cook, kitchen.journal.read()
    answer = kitchen.desk.send(EndStep("no such step"))
    assert isinstance(answer, Refusal)
    assert kitchen.desk.cook is before
    assert kitchen.journal.read() == kept


def test_the_desks_cook_is_always_what_the_journal_folds_to():
    kitchen = DeskKitchen()
    kitchen.must(StartStep(SALT))
    kitchen.run(12)
    kitchen.must(EndStep(SALT), SetQuickTimer("eggs", 30))
    kitchen.run(3)
    kitchen.must(Undo())
    assert kitchen.desk.cook == fold(kitchen.journal.read())


class TestJournalTrouble:
    def test_a_full_disk_is_said_and_the_cook_goes_on(self):
        kitchen = DeskKitchen()
        kitchen.run(2)
        kitchen.journal.fail_at(1)
        kitchen.must(StartStep(SALT))
        foot = kitchen.desk.view().foot
        assert not foot.saved_ok
        assert foot.saved == "not saved since 14:02: the disk is full"
        assert "leave the board open" in kitchen.notice(NOT_SAVED)
        assert "StepStarted" not in kitchen.kinds()
        assert kitchen.desk.cook.lives[SALT].started == OPENING + 2 * MIN

    def test_it_sounds_until_somebody_has_seen_it(self):
        kitchen = DeskKitchen()
        kitchen.journal.fail_at(1)
        kitchen.sound.played.clear()
        kitchen.must(SetQuickTimer("eggs", 9_000))
        assert [rank for rank, _, _ in kitchen.sound.played] == [Rank.DUE]
        kitchen.must(HearAlarm(NOT_SAVED))
        kitchen.sound.played.clear()
        kitchen.run(2)
        assert kitchen.sound.played == []
        assert not kitchen.desk.view().foot.saved_ok

    def test_every_act_is_kept_once_the_disk_takes_them_again(self):
        kitchen = DeskKitchen()
        kitchen.journal.fail_at(1)
        kitchen.must(StartStep(SALT), SetQuickTimer("eggs", 9_000))
        kitchen.run(1)
        kitchen.journal.mend()
        kitchen.desk.look()
        assert fold(kitchen.journal.read()) == kitchen.desk.cook
        foot = kitchen.desk.view().foot
        assert foot.saved_ok
        assert foot.saved == "saved 14:01"
        assert kitchen.notice(NOT_SAVED) == ""

    def test_the_next_act_tries_again_too(self):
        kitchen = DeskKitchen()
        kitchen.journal.fail_at(1)
        kitchen.must(StartStep(SALT))
        kitchen.journal.mend()
        kitchen.must(SetQuickTimer("eggs", 9_000))
        assert fold(kitchen.journal.read()) == kitchen.desk.cook

    def test_an_act_that_was_kept_although_it_was_said_to_fail_is_not_kept_twice(self):
        kitchen = DeskKitchen()
        append = kitchen.journal.append

        def kept_then_failed(events):
            append(events)
            kitchen.journal.append = append
            raise JournalTrouble("the disk does not take it")

        kitchen.journal.append = kept_then_failed
        kitchen.must(StartStep(SALT), SetQuickTimer("eggs", 9_000))
        assert fold(kitchen.journal.read()) == kitchen.desk.cook
        assert kitchen.desk.view().foot.saved_ok

    @pytest.mark.parametrize("nth", range(1, 7))
    def test_whichever_append_fails_nothing_is_lost(self, nth):
        kitchen = DeskKitchen()
        kitchen.journal.fail_at(nth)
        kitchen.must(StartStep(SALT))
        kitchen.run(11)
        kitchen.must(EndStep(SALT), SetQuickTimer("eggs", 60), SetQuickTimer("rice", 60))
        kitchen.run(2)
        kitchen.journal.mend()
        kitchen.desk.look()
        assert fold(kitchen.journal.read()) == kitchen.desk.cook


class TestClocks:
    @pytest.mark.parametrize("by", [-HOUR, DAY], ids=["an hour back", "a day on"])
    def test_a_set_clock_moves_no_countdown_and_is_said(self, by):
        kitchen = DeskKitchen()
        kitchen.must(StartStep(SALT))
        kitchen.run(2)
        before = counts(kitchen)
        kitchen.clock.step_wall(by)
        kitchen.desk.look()
        assert counts(kitchen) == before
        stepped = kitchen.journal.read()[-1]
        assert isinstance(stepped, ClockStepped)
        assert (stepped.by_ms, stepped.offset_ms) == (by * 1000, by * 1000)
        assert "no countdown changed" in " ".join(n.text for n in kitchen.desk.view().notices).lower()
        kitchen.run(1)
        assert kitchen.kinds().count("ClockStepped") == 1

    def test_the_head_shows_the_clock_as_it_is_set(self):
        kitchen = DeskKitchen()
        kitchen.clock.step_wall(-HOUR)
        kitchen.desk.look()
        assert kitchen.desk.view().head.clock == "13:00"

    def test_after_a_clock_was_put_back_the_meal_can_be_moved_with_it(self):
        kitchen = DeskKitchen()
        kitchen.clock.step_wall(-HOUR)
        kitchen.desk.look()
        offer = next(n for n in kitchen.desk.view().notices if n.key.startswith("clock"))
        assert offer.take == MoveEating(OPENING + 300 * MIN)
        assert "18:00" in offer.take_word
        kitchen.must(offer.take)
        assert "Eat at 18:00" in kitchen.desk.view().head.eat
        assert kitchen.notice("clock") == ""

    def test_or_left_where_it_is(self):
        kitchen = DeskKitchen()
        kitchen.clock.step_wall(-HOUR)
        kitchen.desk.look()
        offer = next(n for n in kitchen.desk.view().notices if n.key.startswith("clock"))
        kitchen.must(offer.leave)
        assert kitchen.notice("clock") == ""
        assert kitchen.desk.cook.eat_at == OPENING + 240 * MIN

    def test_forty_minutes_asleep_the_kitchen_ran_on_and_what_came_due_calls(self):
        kitchen = DeskKitchen()
        kitchen.must(StartStep(SALT), SetQuickTimer("eggs", 390))
        kitchen.run(1)
        kitchen.sound.played.clear()
        kitchen.clock.suspend(40 * 60)
        kitchen.desk.look()
        back = next(event for event in kitchen.journal.read() if isinstance(event, BoardReturned))
        assert back.away_ms == 40 * MIN
        assert "away 40 min" in kitchen.notice("note|")
        calling = {alarm.kind for alarm in alarms(kitchen.desk.cook, kitchen.desk.now())}
        assert {Kind.TIMER, Kind.OVER} <= calling
        assert kitchen.sound.played != []

    def test_the_first_act_after_a_sleep_notes_the_absence_before_itself(self):
        kitchen = DeskKitchen()
        kitchen.clock.suspend(600)
        kitchen.must(SetQuickTimer("eggs", 390))
        assert kitchen.kinds()[-2:] == ["BoardReturned", "QuickTimerSet"]

    def test_a_board_that_looks_every_quarter_minute_was_never_away(self):
        kitchen = DeskKitchen()
        kitchen.run(10)
        assert "BoardReturned" not in kitchen.kinds()

    def test_where_nobody_promised_to_look_no_absence_is_noted(self):
        kitchen = DeskKitchen()
        kitchen.wake = None
        kitchen.restart()
        before = kitchen.kinds().count("BoardReturned")
        kitchen.clock.advance(3000)
        kitchen.desk.look()
        assert kitchen.kinds().count("BoardReturned") == before


class TestResuming:
    def test_the_same_countdowns_to_the_second(self):
        kitchen = DeskKitchen()
        kitchen.must(StartStep(SALT), SetQuickTimer("eggs", 390))
        kitchen.run(2)
        before = counts(kitchen)
        kitchen.restart()
        assert counts(kitchen) == before

    def test_what_came_due_meanwhile_is_told(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 60))
        kitchen.run(0.5)
        kitchen.clock.advance(180)
        kitchen.restart()
        said = kitchen.notice("note|")
        assert "away 3 min" in said
        assert "eggs" in said

    def test_every_silence_lapses_and_what_is_due_sounds_at_once(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 15))
        kitchen.run(1)
        timer = next(a for a in alarms(kitchen.desk.cook, kitchen.desk.now()) if a.kind is Kind.TIMER)
        kitchen.must(PutOff(timer.id, 300))
        kitchen.sound.played.clear()
        kitchen.restart()
        assert [rank for rank, _, _ in kitchen.sound.played] == [Rank.DUE]

    def test_after_a_reboot_the_wall_clock_fills_the_gap_and_that_is_said(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 600))
        kitchen.run(1)
        kitchen.clock.reboot(240)
        kitchen.restart()
        assert counts(kitchen)["timer:eggs"] == "5:00"
        assert "wall clock" in kitchen.notice("note|")

    def test_a_clock_that_went_back_over_a_reboot_is_said_loudly(self):
        kitchen = DeskKitchen()
        kitchen.run(10)
        kitchen.clock.reboot(-HOUR)
        kitchen.restart()
        assert "look at every pot" in kitchen.notice("unsure")

    def test_damage_is_told(self):
        kitchen = DeskKitchen()
        kitchen.journal.lost = "The saved cook was damaged"
        kitchen.restart()
        assert kitchen.notice("damage") == "The saved cook was damaged"

    def test_a_cook_without_its_beginning_is_refused_in_words(self):
        desk = Desk(HandClock(), MemoryJournal(), "board")
        with pytest.raises(JournalTrouble, match="beginning of this cook is missing"):
            desk.resume()


class TestWakingAndSounding:
    def test_the_next_wake_up_is_the_next_change(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 10))
        assert kitchen.wake.delay_ms == 10_000

    def test_a_late_wake_up_finds_everything_that_fell_due(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 10), SetQuickTimer("rice", 20))
        kitchen.traced.clear()
        kitchen.clock.advance(45)
        kitchen.wake.ring()
        assert len([said for what, said in kitchen.traced if what == "due"]) == 2

    def test_looking_twice_does_no_harm(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 10))
        kitchen.clock.advance(11)
        kitchen.desk.look()
        kept, played = kitchen.journal.read(), list(kitchen.sound.played)
        kitchen.desk.look()
        assert kitchen.journal.read() == kept
        assert kitchen.sound.played == played

    def test_a_due_alarm_sounds_again_and_louder_and_is_said_once(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 30))
        kitchen.run(0.5)
        assert len([said for said in kitchen.voice.said if "eggs" in said.lower()]) == 1
        kitchen.sound.played.clear()
        kitchen.voice.said.clear()
        kitchen.run(1.1)
        levels = [level for _, _, level in kitchen.sound.played]
        assert levels == sorted(levels)
        assert len(levels) == 2
        assert kitchen.voice.said == []

    def test_every_due_alarm_is_traced_once_and_every_burst(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 30))
        kitchen.traced.clear()
        kitchen.run(1.6)
        assert len([said for what, said in kitchen.traced if what == "due" and "eggs" in said]) == 1
        assert len([said for what, said in kitchen.traced if what == "sounds" and "eggs" in said]) == 3

    def test_the_sound_falls_silent_with_its_answer(self):
        kitchen = DeskKitchen()
        kitchen.must(SetQuickTimer("eggs", 10))
        kitchen.run(0.25)
        hushes = kitchen.sound.hushes
        timer = next(a for a in alarms(kitchen.desk.cook, kitchen.desk.now()) if a.kind is Kind.TIMER)
        kitchen.must(HearAlarm(timer.id))
        assert kitchen.sound.hushes == hushes + 1

    def test_a_lost_sound_shows_in_the_foot(self):
        kitchen = DeskKitchen()
        kitchen.sound.lost = "sound lost: no device"
        assert not kitchen.desk.view().foot.sound_ok
        assert kitchen.desk.view().foot.sound == "sound lost: no device"

    def test_every_rank_can_be_heard_for_a_test_without_an_alarm(self):
        kitchen = DeskKitchen()
        kept = kitchen.journal.read()
        kitchen.sound.played.clear()
        for rank in (Rank.SOON, Rank.DUE, Rank.DANGER):
            kitchen.desk.hear(rank)
        assert [rank for rank, _, _ in kitchen.sound.played] == [Rank.SOON, Rank.DUE, Rank.DANGER]
        assert kitchen.journal.read() == kept

    def test_closing_the_desk_lets_go_of_everything_but_keeps_the_cook(self):
        kitchen = DeskKitchen()
        kitchen.desk.close()
        assert kitchen.journal.closed
        assert kitchen.wake.delay_ms is None
        assert "CookClosed" not in kitchen.kinds()

    def test_a_closed_cook_can_be_opened_again_by_undo(self):
        kitchen = DeskKitchen()
        kitchen.must(CloseCook())
        assert kitchen.desk.cook.closed is not None
        kitchen.must(Undo())
        assert kitchen.desk.cook.closed is None
