"""The wall clock is set, the laptop sleeps: no countdown moves, nothing due is lost, and the board says so."""

from copy import deepcopy

import pytest

from tests.desk.desk_kitchen import DeskKitchen
from tests.kitchen import MIN, minutes, small_menu, step
from tests.stories.evening import Evening
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import EndStep, SetQuickTimer, StartStep
from timerboard.core.menu import Dish, Link, Work

HOUR_S = 3600
DAY_S = 24 * HOUR_S


@pytest.fixture(scope="module")
def cooked() -> Evening:
    """The supper at 17:20, an hour before it is eaten: pots and oven are on, and an egg timer runs."""
    evening = Evening("solstice-supper", eat_in=260)
    evening.cook_for(200)
    evening.must(SetQuickTimer("eggs", 390))
    while evening.view().hands[0].rank >= Rank.DUE:
        evening.glance(evening.view())
    evening.shown.clear()
    return evening


@pytest.fixture
def evening(cooked) -> Evening:
    return deepcopy(cooked)


def counted(evening: Evening) -> dict[str, tuple[str, str, str]]:
    return {name: (strip.line, strip.countdown, strip.counts) for name, strip in evening.strips().items()}


def notes(evening: Evening) -> list[str]:
    return [notice.text for notice in evening.desk.view().notices]


def seconds(countdown: str) -> int:
    whole = sum(int(part) * 60**place for place, part in enumerate(reversed(countdown.lstrip("+").split(":"))))
    return -whole if countdown.startswith("+") else whole


@pytest.mark.parametrize(
    ("by_s", "clock", "eat", "said"),
    [
        (-HOUR_S, "16:20", "Eat at 17:20 · in 1 h", "1 h back"),
        (DAY_S, "17:20", "Eat at 18:20 · in 1 h", "24 h forward"),
    ],
    ids=["back an hour", "forward a day"],
)
class TestTheWallClockIsSet:
    def test_every_countdown_stays_as_it_was(self, evening, by_s, clock, eat, said):
        before, hands = counted(evening), evening.desk.view().hands
        evening.clock.step_wall(by_s)
        evening.desk.look()
        assert counted(evening) == before
        assert evening.desk.view().hands == hands

    def test_the_head_reads_the_new_clock_and_the_same_time_is_left(self, evening, by_s, clock, eat, said):
        left = evening.desk.view().head.eat.split(" · ")[1]
        evening.clock.step_wall(by_s)
        evening.desk.look()
        head = evening.desk.view().head
        assert head.clock[:4] == clock[:4]
        assert head.eat.split(" · ")[0] == eat.split(" · ")[0]
        assert head.eat.split(" · ")[1] == left

    def test_it_is_said_and_guests_who_come_by_the_clock_can_be_kept(self, evening, by_s, clock, eat, said):
        evening.clock.step_wall(by_s)
        evening.desk.look()
        assert any(f"The wall clock moved {said}: no countdown changed" in text for text in notes(evening))
        offered = [n for n in evening.desk.view().notices if n.key == "clock"]
        if by_s > 0:
            assert offered == [], "by the clock as it was the meal would be long past"
            return
        assert offered[0].text == (
            "By the clock as it is set now you eat at 17:20. If the guests come at 18:20, move the meal"
        )
        evening.must(offered[0].take)
        assert evening.desk.view().head.eat.startswith("Eat at 18:20 · in 2 h")
        assert [n for n in evening.desk.view().notices if n.key == "clock"] == []

    def test_set_right_again_nothing_is_offered_any_more(self, evening, by_s, clock, eat, said):
        for by in (by_s, -by_s):
            evening.clock.step_wall(by)
            evening.desk.look()
        assert [n for n in evening.desk.view().notices if n.key == "clock"] == []
        assert evening.desk.view().head.eat.startswith("Eat at 18:20")

    def test_what_was_to_ring_rings_after_as_long_as_before(self, evening, by_s, clock, eat, said):
        left = seconds(evening.strips()["Eggs"].countdown)
        evening.clock.step_wall(by_s)
        evening.desk.look()
        evening.run((left - 2) / 60)
        assert "Time is up: eggs" not in [item.line for item in evening.desk.view().hands if item.rank >= Rank.DUE]
        evening.run(4 / 60)
        assert "Time is up: eggs" in [item.line for item in evening.desk.view().hands if item.rank >= Rank.DUE]

    def test_a_restart_after_it_shows_the_same_board(self, evening, by_s, clock, eat, said):
        evening.clock.step_wall(by_s)
        evening.desk.look()
        before, head = counted(evening), evening.desk.view().head
        evening.restart()
        assert counted(evening) == before
        assert (evening.desk.view().head.clock, evening.desk.view().head.eat) == (head.clock, head.eat)


PLAIN = ("Eggs", "Root mash", "Mint sauce")
GOES_ON = {("to its start", "late to start"), ("to its end", "over its time")}
"""What a countdown counts before and after, when it is still the same moment that it counts to."""


class TestTheLaptopSleepsForFortyMinutes:
    ASLEEP_S = 40 * 60

    @pytest.fixture
    def woken(self, evening) -> Evening:
        self.before = evening.strips()
        self.played = len(evening.sound.played)
        evening.clock.suspend(self.ASLEEP_S)
        evening.wake.ring()
        return evening

    def test_what_ran_and_runs_still_has_forty_minutes_less(self, woken):
        same = [
            (self.before[name], strip)
            for name, strip in woken.strips().items()
            if name in PLAIN and (self.before[name].counts, strip.counts) in GOES_ON
        ]
        assert len(same) == len(PLAIN)
        for was, strip in same:
            assert seconds(was.countdown) - seconds(strip.countdown) == self.ASLEEP_S

    def test_the_eggs_are_over_by_as_much_as_they_are(self, woken):
        left = seconds(self.before["Eggs"].countdown)
        assert seconds(woken.strips()["Eggs"].countdown) == left - self.ASLEEP_S
        assert woken.strips()["Eggs"].juts

    def test_the_board_says_how_long_it_was_away_and_what_came_due(self, woken):
        (said,) = [text for text in notes(woken) if "away" in text]
        assert said.startswith("The board was away 40 min: ")
        calling = [item for item in woken.desk.view().hands if item.rank >= Rank.DUE]
        count = int(said.split(": ")[1].split()[0])
        assert count >= len(calling) >= 3

    def test_every_call_is_as_old_as_its_cause_not_as_the_waking(self, woken):
        calling = [item for item in woken.desk.view().hands if item.rank >= Rank.DUE]
        assert all("ago" in item.detail for item in calling)
        assert not any(item.detail.endswith("now") for item in calling)

    def test_it_rings_at_once(self, woken):
        fresh = woken.sound.played[self.played :]
        assert fresh
        assert fresh[0][0] >= Rank.DUE

    def test_the_head_tells_the_time_it_is_and_that_the_meal_is_late(self, woken):
        head = woken.desk.view().head
        assert head.clock == "18:00" or head.clock.startswith("18:0")
        assert head.late
        assert "min late: " in head.margin

    def test_then_the_evening_goes_on_to_its_end(self, woken):
        woken.cook_to_the_end()
        assert woken.desk.view().head.margin == "everything is ready"
        assert woken.desk.view().hands == ()


def test_what_began_by_itself_while_it_slept_began_when_it_could():
    """Dough that proves for 20 min, 10 min after it was kneaded: the sleep does not make its time shorter or longer."""
    knead = step("Bread", "Knead", minutes(8), work=Work(throughout=True))
    prove = step("Bread", "Prove", minutes(60), after=[Link(step="Bread/Knead", wait_s=600)])
    kitchen = DeskKitchen(small_menu(Dish(name="Bread", steps=(knead, prove))), eat_in=120)
    kitchen.must(StartStep("Bread/Knead"), EndStep("Bread/Knead"))
    kitchen.clock.suspend(40 * 60)
    kitchen.wake.ring()
    (strip,) = kitchen.desk.view().strips
    assert (strip.line, strip.countdown, strip.counts) == ("Prove", "30:00", "to its end")


def test_a_nap_of_half_a_minute_is_not_worth_a_word():
    evening = Evening("one-burner-weeknight", eat_in=90)
    evening.cook_for(10)
    evening.clock.suspend(30)
    evening.wake.ring()
    assert notes(evening) == []
    assert evening.desk.now() - evening.shown[0][0] >= 10 * MIN
