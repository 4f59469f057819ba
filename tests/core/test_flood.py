"""When too many calls come at once, and when that is over."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.alarm_values import Alarm, Answered, Kind, Rank
from timerboard.core.flood import BEGINS_AT, ENDS_BELOW, MOST_WAITING, WINDOW_MS, Flood

MIN = 60_000


def call(n: int, since: int = 0, rank: Rank = Rank.DUE, answered: Answered = Answered.NOT) -> Alarm:
    return Alarm(f"cue|x|{n}", Kind.CUE, rank, since, "", None, None, "Stir", "", "", answered=answered)


def test_five_waiting_are_no_flood_and_six_are():
    five = [call(n) for n in range(5)]
    assert not Flood().look(five, 0).on
    assert Flood().look([*five, call(5)], 0).on


def test_what_was_answered_does_not_wait():
    calls = [call(n, answered=Answered.PUT_OFF if n < 3 else Answered.NOT) for n in range(8)]
    assert not Flood().look(calls, 0).on


def test_ten_in_ten_minutes_are_a_flood_even_when_each_is_answered_at_once():
    flood = Flood()
    for n in range(10):
        flood = flood.look([call(n, n * MIN - n)], n * MIN)
        assert flood.on == (n == 9)
    assert flood.words == "10 calls in 10 min"


def test_a_flood_ends_below_five_in_ten_minutes_and_not_before():
    flood = Flood()
    for n in range(10):
        flood = flood.look([call(n, n * MIN)], n * MIN)
    ended = next(at for at in range(9 * MIN, 30 * MIN, 1000) if not (flood := flood.look([], at)).on)
    # the calls of minutes 6 to 9 are four, once the one of minute 5 is ten minutes old
    assert ended == 15 * MIN


def test_a_heads_up_and_a_note_ask_for_nothing_and_do_not_count():
    assert not Flood().look([call(n, rank=Rank.SOON) for n in range(12)], 0).on


def test_after_an_hour_away_old_calls_wait_but_did_not_come_in_the_last_ten_minutes():
    flood = Flood().look([call(n, 0) for n in range(4)], 60 * MIN)
    assert (flood.on, flood.came, flood.waiting) == (False, (), 4)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 4 * MIN), st.booleans()), max_size=40))
def test_a_flood_is_on_above_both_limits_and_off_below_both(history):
    flood, now, standing = Flood(), 0, {}
    for n, later, answered in history:
        now += later
        standing[n] = call(n * 1000 + len(standing), now) if n not in standing else standing.pop(n)
        if answered and n in standing:
            standing[n] = replace(standing[n], answered=Answered.HEARD)
        flood = flood.look(standing.values(), now)
        assert all(at > now - WINDOW_MS for at in flood.came)
        if flood.waiting > MOST_WAITING or len(flood.came) >= BEGINS_AT:
            assert flood.on
        elif len(flood.came) < ENDS_BELOW:
            assert not flood.on
