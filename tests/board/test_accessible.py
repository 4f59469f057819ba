"""What the ear hears and where the keyboard goes."""

from dataclasses import replace

import pytest
from fixtures import HANDS, OFFER, STRIPS, SUPPER, troubled
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible

from timerboard.board.accessible import Announcer
from timerboard.board.plate import Plate
from timerboard.core.alarm_values import Rank


@pytest.mark.parametrize("strip", STRIPS, ids=lambda strip: strip.name)
def test_a_strips_name_says_its_whole_state(window, strip):
    assert window.bay.widgets[strip.key].accessibleName() == strip.said


@pytest.mark.parametrize("item", HANDS, ids=lambda item: item.line)
def test_a_cards_name_says_the_whole_job(window, item):
    assert window.hands.cards[item.digit - 1].accessibleName() == item.said


def test_a_strip_and_a_card_are_buttons_to_the_system(window):
    for widget in (window.bay.widgets["Beans"], window.hands.cards[0]):
        assert QAccessible.queryAccessibleInterface(widget).role() == QAccessible.Role.Button


def test_the_parts_of_the_board_are_what_they_are_to_the_system_and_have_names(window):
    roles = QAccessible.Role
    named = {
        window: roles.Window,
        window.head: roles.StaticText,
        window.bay.axis_bar: roles.StaticText,
        window.hands: roles.Border,  # a frame: AT-SPI calls it a panel
        window.notices: roles.Border,
        window.bay.ground: roles.Border,
        window.foot: roles.Border,
    }
    for part, role in named.items():
        assert QAccessible.queryAccessibleInterface(part).role() == role, part
        assert QAccessible.queryAccessibleInterface(part).text(QAccessible.Text.Name), part


def test_a_screen_reader_goes_through_the_parts_from_the_top_to_the_bottom(window):
    board = QAccessible.queryAccessibleInterface(window)
    shown = [board.child(n).object() for n in range(board.childCount())]
    shown = [part for part in shown if part.isVisible()]
    assert shown == [window.head, window.hands, window.notices, window.bay.axis_bar, window.bay, window.foot]


def test_the_buttons_of_a_job_follow_it(window):
    line = QAccessible.queryAccessibleInterface(window.hands)
    plates = [line.child(n).object() for n in range(line.childCount())]
    assert plates[:3] == [window.hands.cards[0], window.hands.later[0], window.hands.mores[0]]


def test_nothing_to_do_is_said_where_jobs_would_be(window):
    window.show_view(replace(SUPPER, hands=(), waiting=""))
    assert window.hands.accessibleName() == "Nothing for hands now"


def test_everything_that_can_be_tapped_has_a_name_and_can_be_reached_by_tab(qtbot, window):
    window.show_view(troubled())
    plates = [plate for plate in window.findChildren(Plate) if plate.isVisible()]
    assert len(plates) > 15
    assert [plate for plate in plates if not plate.accessibleName()] == []
    assert [plate for plate in plates if plate.focusPolicy() != Qt.FocusPolicy.StrongFocus] == []


def test_tab_goes_from_the_most_pressing_job_to_the_strips_in_their_order(window):
    order, widget = [], window.hands.cards[0]
    for _ in range(200):
        order.append(widget)
        widget = widget.nextInFocusChain()
    cards = [order.index(card) for card in window.hands.cards[:3]]
    strips = [order.index(window.bay.widgets[strip.key]) for strip in STRIPS]
    assert cards == sorted(cards)
    assert strips == sorted(strips)
    assert max(cards) < min(strips)
    assert max(strips) < order.index(window.foot.buttons[0])


def test_a_message_comes_between_jobs_and_strips(window):
    window.show_view(replace(SUPPER, notices=(OFFER,)))
    order, widget = [], window.hands.cards[0]
    for _ in range(200):
        order.append(widget)
        widget = widget.nextInFocusChain()
    taken, left = (order.index(button) for button in (window.notices.lines[0].take, window.notices.lines[0].leave))
    assert order.index(window.hands.cards[2]) < taken < left < order.index(window.bay.widgets[STRIPS[0].key])


def test_the_countdown_does_not_rename_the_strip_that_has_the_focus(qtbot, window):
    # a screen reader would read the name aloud every second
    widget = window.bay.widgets["Duck legs"]
    widget.focusInEvent(_focus_in())
    widget.hasFocus = lambda: True
    ticked = replace(STRIPS[0], countdown="20:59", said="Duck legs, 20:59")
    window.show_view(replace(SUPPER, strips=(ticked, *STRIPS[1:])))
    assert widget.accessibleName() == STRIPS[0].said
    changed = replace(ticked, mark="over", said="Duck legs, over")
    window.show_view(replace(SUPPER, strips=(changed, *STRIPS[1:])))
    assert widget.accessibleName() == "Duck legs, over"


def _focus_in():
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QFocusEvent

    return QFocusEvent(QEvent.Type.FocusIn, Qt.FocusReason.TabFocusReason)


def announced(*views):
    said = []
    announcer = Announcer(lambda words, assertive: said.append((words, assertive)))
    for view in views:
        announcer.show_view(view)
    return said


def test_a_new_job_is_announced_once():
    said = announced(SUPPER, SUPPER)
    assert said == [(item.said, False) for item in HANDS]


def test_what_was_just_done_is_said_after_danger_and_before_anything_else():
    done = replace(troubled(), foot=replace(troubled().foot, last="last: 18:09 beans started"))
    said = announced(SUPPER, done, done)[len(HANDS) :]
    assert said[0][1] is True
    assert said[1] == ("last: 18:09 beans started", False)
    assert [words for words, _ in said].count("last: 18:09 beans started") == 1


def test_danger_breaks_in_and_comes_first():
    said = announced(troubled())
    assert said[0][1] is True
    assert "fritter oil" in said[0][0]
    assert [assertive for _, assertive in said[1:]] == [False] * (len(said) - 1)


def test_a_counting_detail_is_not_announced_again():
    later = replace(SUPPER, hands=(replace(HANDS[0], detail="oven · 0:41 ago", said="0:41 ago"), *HANDS[1:]))
    assert len(announced(SUPPER, later)) == len(HANDS)


def test_a_job_that_rises_in_rank_is_announced_again():
    risen = replace(HANDS[0], rank=Rank.DANGER)
    assert announced(SUPPER, replace(SUPPER, hands=(risen, *HANDS[1:])))[-1] == (HANDS[0].said, True)


def test_a_heard_job_is_not_announced_but_a_message_is():
    quiet = replace(SUPPER, hands=tuple(replace(item, muted=True) for item in HANDS), notices=(OFFER,))
    assert announced(quiet) == [(OFFER.text, False)]
