"""Until when a step may begin by the `within`s behind it."""

from tests.board_scenes import EAT_S
from timerboard.core.begin_by import begin_by
from timerboard.core.cook import Cook, StepLife, StepState
from timerboard.core.menu import Dish, Link, Menu, Step, Work
from timerboard.core.values import MS, Span

TEN = Span.of(600)


ENDED = {"drain": StepLife(state=StepState.ENDED, ended=1000 * MS)}
BOTH = {**ENDED, "reduce": StepLife(state=StepState.ENDED, ended=1300 * MS)}


def limit(drain_s, reduce_s, lives):
    """A pan that drains and a sauce that reduces before both are tossed: by when, in seconds."""
    links = (Link(step="D/drain", within_s=drain_s), Link(step="D/reduce", within_s=reduce_s))
    toss = Step(id="D/toss", dish="D", do="toss", span=TEN, work=Work(throughout=True), links=links)
    before = (Step(id=f"D/{n}", dish="D", do=n, span=TEN) for n in ("drain", "reduce"))
    menu = Menu(title="T", serves=1, dishes=(Dish(name="D", steps=(*before, toss)),))
    known = {i: lives.get(i.removeprefix("D/"), StepLife()) for i in menu.steps}
    cook = Cook(menu=menu, menu_hash="", opened=0, eat_at=EAT_S * MS, zone="UTC", offset_ms=0, lives=known)
    at = begin_by(cook, toss)
    return None if at is None else at // MS


def test_one_limit_for_several_counts_from_the_latest_and_only_once_all_have_ended():
    assert limit(120, 120, BOTH) == 1420
    assert limit(120, 120, ENDED) is None


def test_limits_of_their_own_count_each_from_its_own_end():
    assert limit(600, 120, BOTH) == 1420
    assert limit(120, None, BOTH) == 1120


def test_what_was_dropped_is_not_waited_for():
    assert limit(120, 120, {**ENDED, "reduce": StepLife(state=StepState.DROPPED)}) == 1120
