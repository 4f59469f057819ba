"""A whole menu by a cook who answers everything late: the board says so all along, and loses nothing."""

import re

import pytest

from tests.kitchen import MIN
from tests.stories.evening import GLANCE_S, Evening
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import EndStep, HearAlarm, StartStep
from timerboard.core.cook import StepState
from timerboard.core.engine import phase

LATE_MIN = 3


@pytest.fixture(scope="module", params=[("one-burner-weeknight", 70), ("solstice-supper", 260)], ids=lambda p: p[0])
def late(request) -> Evening:
    sample, eat_in = request.param
    evening = Evening(sample, eat_in=eat_in, answers_after=LATE_MIN)
    evening.cook_to_the_end()
    return evening


def ago_s(detail: str) -> int | None:
    """Seconds from '3:05 ago' at the end of a detail; None where there is none."""
    found = re.search(r"(?:(\d+):)?(\d+):(\d\d) ago", detail)
    return None if found is None else int(found[1] or 0) * 3600 + int(found[2]) * 60 + int(found[3])


def minutes_late(margin: str) -> int:
    found = re.match(r"(?:(\d+) h ?)?(?:(\d+) min)? ?late: ", margin)
    return 0 if found is None else int(found[1] or 0) * 60 + int(found[2] or 0)


def test_everything_was_cooked_and_eaten_and_the_board_is_empty(late):
    cook, now, view = late.desk.cook, late.desk.now(), late.desk.view()
    assert {phase(cook, step, now) for step in cook.menu.steps} == {StepState.ENDED}
    assert view.head.margin == "everything is ready"
    assert view.hands == ()
    served = [item.line for _, item in late.answered if item.answer_word == "served"]
    assert served, "nobody was called to the table"


def test_every_call_is_answered_at_its_age_and_says_it(late):
    """What is answered three minutes after it was seen says at least that it has waited so long."""
    ages = [ago_s(item.detail) for _, item in late.answered if item.rank >= Rank.DUE]
    told = [age for age in ages if age is not None]
    assert len(told) > len(ages) * 3 // 4
    assert sorted(told)[len(told) // 4] >= LATE_MIN * 60 - GLANCE_S


def test_a_strip_that_waits_counts_up_second_by_second(late):
    """Between two glances, the strip of an overdue start or end shows just that much more."""
    grown = 0
    for (at, before), (then, after) in zip(late.shown, late.shown[1:], strict=False):
        old = {strip.key: strip for strip in before.strips}
        for strip in after.strips:
            was = old.get(strip.key)
            if was and was.countdown.startswith("+") and strip.countdown.startswith("+") and was.line == strip.line:
                assert abs(seconds(strip.countdown) - seconds(was.countdown) - (then - at) / 1000) <= 1
                grown += 1
    assert grown > 100


def seconds(countdown: str) -> int:
    parts = [int(part) for part in countdown.lstrip("+").split(":")]
    return sum(part * 60**place for place, part in enumerate(reversed(parts)))


def test_the_head_says_late_before_the_meal_is_and_never_less_than_it_turned_out(late):
    """Every answer being late, lateness only grows: what the head said last is what it came to."""
    cook = late.desk.cook
    said = [(at, minutes_late(view.head.margin)) for at, view in late.shown]
    first = next(at for at, minutes in said if minutes)
    assert first < cook.eat_at - 10 * MIN, "nobody was told while something could still be done"
    worst = max(minutes for _, minutes in said)
    ready = max(
        (life.ended or 0) - cook.eat_at - cook.menu.course_of(dish).eat_s * 1000
        for dish in cook.menu.dishes
        for life in [cook.lives[step] for step in dish.last_steps]
    )
    assert worst >= ready // MIN - 1


def test_the_board_offers_to_move_the_meal_while_guests_can_still_be_told(late):
    offers = [(at, n.text) for at, view in late.shown for n in view.notices if n.key.startswith(("later", "offer"))]
    assert any("any more; the soonest is" in text for _, text in offers)
    assert min(at for at, _ in offers) < late.desk.cook.eat_at - 10 * MIN


def test_no_call_leaves_the_hands_line_unanswered(late):
    """What was seen calling and is gone was answered, or its step was, or it went one step further."""
    answered = {item.key: at for at, item in late.answered}
    ends = {(at, item.answer.step) for at, item in late.answered if isinstance(item.answer, EndStep | StartStep)}
    for (at, before), (then, after) in zip(late.shown, late.shown[1:], strict=False):
        here = {item.key for item in after.hands}
        hidden = "more" in after.waiting
        for item in before.hands:
            if item.rank < Rank.DUE or item.key in here or hidden:
                continue
            step = getattr(item.answer, "step", None)
            by_hand = at <= answered.get(item.key, -1) <= then
            by_step = any(at <= when <= then and ended == step for when, ended in ends)
            further = any(getattr(other.answer, "step", None) == step for other in after.hands if step)
            in_it = isinstance(item.answer, HearAlarm) or any(at <= when <= then for when, _ in ends)
            assert by_hand or by_step or further or in_it, item


def test_five_at_most_are_shown_and_the_rest_are_counted(late):
    for _, view in late.shown:
        calling = [item for item in view.hands if item.rank > Rank.NOTE]
        assert [item.digit for item in view.hands] == list(range(1, len(view.hands) + 1))
        assert len(view.hands) <= 5
        assert not re.match(r"and \d+ more", view.waiting) or len(calling) == 5


def test_what_waits_gets_louder(late):
    """A call that nobody answers for three minutes is heard at once, again and again, each time louder."""
    levels = [level for rank, _, level in late.sound.played if rank is Rank.DUE]
    assert min(levels) == pytest.approx(0.4)
    assert max(levels) > 0.8
