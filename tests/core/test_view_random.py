"""Whatever people do, the board has a view, and every string on it reads."""

import re
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.core.test_view_board import texts
from tests.kitchen import MIN, Kitchen
from timerboard.core import commands as co
from timerboard.core.alarm_values import Rank
from timerboard.core.outlook import outlook
from timerboard.core.values import Span
from timerboard.core.view import Extras, view

STEPS = ("Pork/Salt", "Pork/Roast", "Pork/Rest", "Gravy/Cook the roux", "Gravy/Simmer", "Fritters/Fry")
steps = st.sampled_from(STEPS)
NO_PLURAL = re.compile(r"\b1 (calls|dishes|days|batches)\b|\b([02-9]|\d\d+) (call|dish|day)\b")

COMMANDS = st.one_of(
    st.builds(co.StartStep, steps),
    st.builds(co.StartStep, steps),
    st.builds(co.EndStep, steps),
    st.builds(co.EndStep, steps),
    st.builds(co.NotYet, steps),
    st.builds(co.ReopenStep, steps),
    st.builds(co.DoCue, steps, st.sampled_from(("Baste", "Lift the batch"))),
    st.builds(co.PassOverCue, steps, st.just("Baste")),
    st.builds(co.TakeReading, steps, st.floats(1, 99), confirmed=st.booleans()),
    st.builds(co.DropDish, st.sampled_from(("Pork", "Gravy", "Fritters"))),
    st.builds(co.ReviseDuration, steps, st.integers(60, 9000).map(Span.of)),
    st.builds(co.SetQuickTimer, st.sampled_from(("eggs", "tea")), st.integers(1, 4000)),
    st.builds(co.ClearQuickTimer, st.sampled_from(("eggs", "tea"))),
    st.builds(co.Hush),
    st.builds(co.Undo),
    st.builds(co.CloseCook),
)
ACTS = st.lists(st.tuples(COMMANDS, st.sampled_from((0, 0.2, 1, 4, 11, 37, 180))), max_size=25)


def readable(board):
    for text in texts(board):
        assert "!" not in text
        assert "  " not in text
        assert "None" not in text
        assert not text.startswith((" ", "·", ","))
        assert not text.endswith((" ", "·", ","))
        assert not NO_PLURAL.search(text), text


@settings(max_examples=60, deadline=None)
@given(acts=ACTS, plan=st.booleans())
def test_the_view_never_raises_and_always_reads(acts, plan):
    kitchen = Kitchen(plan=plan, check=False)
    order = ()
    for command, length in acts:
        kitchen.send(command)
        kitchen.wait(length)
        board = view(kitchen.cook, kitchen.now, Extras(order=order))
        order = tuple(s.key for s in board.strips)
        readable(board)
        calling = [alarm for alarm in kitchen.alarms() if alarm.rank is not Rank.NOTE]
        shown = [item for item in board.hands if item.key in {alarm.id for alarm in calling}]
        assert [item.digit for item in board.hands] == list(range(1, len(board.hands) + 1))
        assert len(board.hands) <= 5
        assert len(shown) == min(5, len(calling))
        assert board.waiting == (f"and {len(calling) - 5} more" if len(calling) > 5 else "")


@settings(max_examples=40, deadline=None)
@given(acts=ACTS)
def test_ribbons_never_overlap_and_ends_are_in_order(acts):
    kitchen = Kitchen(check=False)
    for command, length in acts:
        kitchen.send(command)
        kitchen.wait(length)
    for strip in view(kitchen.cook, kitchen.now).strips:
        ends = [(part.start, part.end) for part in strip.ribbon]
        assert all(start < end for start, end in ends)
        assert all(one[1] <= two[0] for one, two in pairwise(ends))
    for seen in outlook(kitchen.cook, kitchen.now).steps.values():
        assert seen.start <= seen.end_low <= seen.end_likely <= seen.end_high


@settings(max_examples=40, deadline=None)
@given(acts=ACTS, later=st.integers(1, 90))
def test_predicted_starts_only_slip_while_nobody_acts(acts, later):
    kitchen = Kitchen(check=False)
    for command, length in acts:
        kitchen.send(command)
        kitchen.wait(length)
    before = outlook(kitchen.cook, kitchen.now)
    after = outlook(kitchen.cook, kitchen.now + later * MIN)
    for step, seen in after.steps.items():
        assert seen.start >= before.steps[step].start
    assert after.all_ready or after.margin_ms <= before.margin_ms
