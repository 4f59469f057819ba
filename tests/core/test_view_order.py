"""The order of strips moves only what rings or was answered."""

from hypothesis import given
from hypothesis import strategies as st

from timerboard.core.view_order import reorder

KEYS = st.lists(st.sampled_from("abcdefgh"), unique=True).map(tuple)


def test_nothing_moves_when_nothing_rings():
    assert reorder("abcd", "dcba") == ("a", "b", "c", "d")


def test_what_rings_rises_to_its_rank():
    assert reorder("abcd", "dabc", moved={"d"}) == ("d", "a", "b", "c")


def test_what_was_answered_goes_down_to_its_rank():
    assert reorder("abcd", "bcda", moved={"a"}) == ("b", "c", "d", "a")


def test_new_strips_come_in_at_their_rank_and_gone_ones_leave():
    assert reorder("abc", "axc") == ("a", "x", "c")


@given(previous=KEYS, ranked=KEYS, moved=st.sets(st.sampled_from("abcdefgh")))
def test_every_strip_is_shown_once_and_only_the_moved_change_neighbours(previous, ranked, moved):
    order = reorder(previous, ranked, moved)
    assert sorted(order) == sorted(ranked)
    kept = [key for key in previous if key in ranked and key not in moved]
    assert [key for key in order if key in kept] == kept


@given(ranked=KEYS, moved=st.sets(st.sampled_from("abcdefgh")))
def test_without_a_previous_order_the_rank_is_the_order(ranked, moved):
    assert reorder((), ranked, moved) == ranked


@given(previous=KEYS, ranked=KEYS, moved=st.sets(st.sampled_from("abcdefgh")))
def test_asking_twice_moves_nothing_more(previous, ranked, moved):
    once = reorder(previous, ranked, moved)
    assert reorder(once, ranked, ()) == once
