"""What opens the same door within two minutes stands together; nothing passes a danger."""

from timerboard.core.alarm_values import Rank
from timerboard.core.commands import Look
from timerboard.core.view_hands import _Row, one_opening
from timerboard.core.view_jobs import Job

OVEN = frozenset({"oven"})


def row(key, at_s, *, doors=OVEN, rank=Rank.DUE):
    return _Row(Job(key, at_s * 1000, rank, key, "", Look(), "done", doors), True)


def order(*rows):
    return [(r.job.key, r.same_door) for r in one_opening(rows)]


def test_neighbours_of_one_door_come_one_after_the_other():
    hob = row("stir", 10, doors=frozenset())
    assert order(row("baste", 0), hob, row("turn", 120)) == [("baste", False), ("turn", True), ("stir", False)]


def test_more_than_two_minutes_apart_are_two_openings():
    assert order(row("baste", 0), row("turn", 121)) == [("baste", False), ("turn", False)]


def test_other_doors_stay_apart():
    smoker = row("turn", 0, doors=frozenset({"smoker"}))
    assert order(row("baste", 0), smoker) == [("baste", False), ("turn", False)]


def test_nothing_passes_a_danger():
    oil = row("oil", 0, doors=frozenset(), rank=Rank.DANGER)
    assert order(row("baste", 0), oil, row("turn", 0)) == [("baste", False), ("oil", False), ("turn", False)]
