"""Every key, and the tap that does the same, sends the command that the view carries."""

from dataclasses import replace

import pytest
from fixtures import HANDS, NOW, OFFER, SUPPER, troubled
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QApplication

from timerboard.board.entry import Asked
from timerboard.board.keys import digit_at, stroke_of
from timerboard.board.look import THEMES
from timerboard.core.alarm_values import Rank
from timerboard.core.answers import Refusal
from timerboard.core.commands import (
    CloseCook,
    DropDish,
    HearAlarm,
    Hush,
    MoveEating,
    NotYet,
    PassOverCue,
    PutOff,
    SetQuickTimer,
    TakeReading,
    Undo,
)
from timerboard.core.view_values import Notice

SHIFT = Qt.KeyboardModifier.ShiftModifier


def press_digit(qtbot, window, digit, modifier=Qt.KeyboardModifier.NoModifier):
    qtbot.keyClick(window, Qt.Key(int(Qt.Key.Key_0) + digit), modifier)


@pytest.mark.parametrize("item", HANDS, ids=lambda item: item.line)
def test_a_digit_answers_the_job_with_that_digit(qtbot, window, sender, item):
    press_digit(qtbot, window, item.digit)
    assert sender.sent == [item.answer]


def test_a_digit_without_a_job_sends_nothing(qtbot, window, sender):
    press_digit(qtbot, window, 7)
    assert sender.sent == []


def test_a_digit_of_the_keypad_answers_too(qtbot, window, sender):
    press_digit(qtbot, window, 1, Qt.KeyboardModifier.KeypadModifier)
    assert sender.sent == [HANDS[0].answer]


def test_shift_and_a_digit_is_not_yet(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_At, SHIFT)  # Shift+2 where no scan code is told
    assert sender.sent == [NotYet("Plum tart/bake")]


def test_not_yet_for_a_job_that_cannot_wait_says_so_and_sends_nothing(qtbot, window, sender):
    press_digit(qtbot, window, 1, SHIFT)
    assert sender.sent == []
    assert "cannot wait" in window.notices.notices[0].text


@pytest.mark.parametrize(
    ("platform", "code", "digit"),
    [("linux", 10, 1), ("linux", 18, 9), ("linux", 87, 1), ("win32", 2, 1), ("win32", 10, 9), ("darwin", 18, 1),
     ("darwin", 23, 5), ("darwin", 22, 6), ("linux", 24, 0)],
)  # fmt: skip
def test_digits_are_places_on_the_keyboard(platform, code, digit):
    # codes from linux/input-event-codes.h (KEY_1 = 2, plus 8 under X11), PC/AT scan code set 1, and Carbon Events.h
    assert digit_at(code, platform) == digit


def key_event(key, text, code, modifiers=Qt.KeyboardModifier.NoModifier):
    return QKeyEvent(QEvent.Type.KeyPress, int(key), modifiers, code, 0, 0, text)


@pytest.mark.parametrize(
    ("key", "text", "modifiers", "shift"),
    [(Qt.Key.Key_Ampersand, "&", Qt.KeyboardModifier.NoModifier, False), (Qt.Key.Key_1, "1", SHIFT, True)],
)
def test_the_first_key_of_a_french_row_is_1_with_and_without_shift(qapp, key, text, modifiers, shift):
    stroke = stroke_of(key_event(key, text, 10, modifiers), "linux")
    assert (stroke.digit, stroke.shift) == (1, shift)


def test_a_letter_on_a_cyrillic_keyboard_is_the_latin_one_on_that_key(qapp):
    assert stroke_of(key_event(0x41A, "к", 27), "linux").letter == "r"  # KEY_R = 19, plus 8


def test_z_on_a_german_keyboard_is_the_key_that_says_z(qapp):
    assert stroke_of(key_event(Qt.Key.Key_Z, "z", 29), "linux").letter == "z"  # where a US keyboard has Y


def test_undo_is_z_or_control_z(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_Z)
    qtbot.keyClick(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert sender.sent == [Undo(), Undo()]


def test_other_keys_with_control_are_left_to_the_system(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
    assert sender.sent == []


def test_p_and_a_digit_puts_off_that_job(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_P)
    press_digit(qtbot, window, 2)
    assert sender.sent == [PutOff("job Check the plum tart: just set?")]
    assert window.drawer.isHidden()


def test_o_and_a_digit_passes_over_that_cue(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_O)
    press_digit(qtbot, window, 1)
    assert sender.sent == [PassOverCue("Duck legs/roast", "baste")]


def test_o_offers_only_what_can_be_passed_over(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_O)
    press_digit(qtbot, window, 3)
    assert sender.sent == []
    assert [button.text() for button in window.drawer.buttons] == ["Baste the duck"]


def test_escape_leaves_a_question_without_answering(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_P)
    qtbot.keyClick(window, Qt.Key.Key_Escape)
    assert window.drawer.isHidden()
    press_digit(qtbot, window, 1)
    assert sender.sent == [HANDS[0].answer]


def test_e_asks_before_it_ends_the_meal(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_E)
    assert sender.sent == []
    assert "Z takes it back" in window.drawer.line
    press_digit(qtbot, window, 1)
    assert sender.sent == [CloseCook()]


def test_h_hears_the_most_pressing_job_that_calls_and_then_pauses_sounds(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_H)
    assert sender.sent == [HearAlarm("job Baste the duck")]
    window.show_view(replace(SUPPER, hands=tuple(replace(item, muted=True) for item in HANDS)))
    qtbot.keyClick(window, Qt.Key.Key_H)
    assert sender.sent[1:] == [Hush()]


def test_d_and_a_digit_drops_that_dish(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_D)
    press_digit(qtbot, window, 4)
    assert sender.sent == [DropDish("Red cabbage")]


def test_t_writes_a_quick_timer(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_T)
    qtbot.keyClicks(window.entry.line, "eggs 6:30")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [SetQuickTimer("eggs", 390)]
    assert window.entry.isHidden()


def test_r_writes_the_reading_of_the_one_step_that_wants_one(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_R)
    qtbot.keyClicks(window.entry.line, "71,5")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [TakeReading("Duck legs/roast", 71.5)]


def test_a_job_that_wants_a_reading_asks_for_it_and_keeps_what_kind_it_is(qtbot, window, sender):
    oil = replace(HANDS[0], answer=TakeReading("Fritters/fry", 0.0, "oil"), wants_reading="Fritters/fry")
    window.show_view(replace(SUPPER, hands=(oil,)))
    press_digit(qtbot, window, 1)
    assert sender.sent == []
    qtbot.keyClicks(window.entry.line, "178")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [TakeReading("Fritters/fry", 178.0, "oil")]


def test_r_asks_which_when_several_steps_want_one(qtbot, window, sender):
    oil = replace(HANDS[0], answer=TakeReading("Fritters/fry", 0.0, "oil"), wants_reading="Fritters/fry")
    window.show_view(replace(SUPPER, hands=(oil,)))
    qtbot.keyClick(window, Qt.Key.Key_R)
    assert [button.text() for button in window.drawer.buttons] == ["Baste the duck", "Duck legs"]
    press_digit(qtbot, window, 2)
    qtbot.keyClicks(window.entry.line, "71")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [TakeReading("Duck legs/roast", 71.0)]


def test_m_moves_eating_by_minutes(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_M)
    qtbot.keyClicks(window.entry.line, "+10")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [MoveEating(SUPPER.axis.eat + 600_000)]


def test_m_moves_eating_to_a_time_of_day(qtbot, make_window, sender):
    window = make_window(when=lambda text: NOW if text == "18:12" else 0)
    qtbot.keyClick(window, Qt.Key.Key_M)
    qtbot.keyClicks(window.entry.line, "18:12")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == [MoveEating(NOW)]


def test_a_doubtful_time_to_eat_is_asked_about(qtbot, make_window, sender):
    class Twice:
        said = "2:30 comes twice that night."
        choices = (("the first", NOW), ("the second", NOW + 3_600_000))

    window = make_window(when=lambda text: Twice())
    qtbot.keyClick(window, Qt.Key.Key_M)
    qtbot.keyClicks(window.entry.line, "2:30")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
    assert sender.sent == []
    press_digit(qtbot, window, 2)
    assert sender.sent == [MoveEating(NOW + 3_600_000)]


def test_y_and_n_answer_the_first_message(qtbot, window, sender):
    window.show_view(replace(SUPPER, notices=(OFFER,)))
    qtbot.keyClick(window, Qt.Key.Key_Y)
    qtbot.keyClick(window, Qt.Key.Key_N)
    assert sender.sent == [OFFER.take, OFFER.leave]


def test_a_refusal_is_shown_and_yes_sends_what_it_asks(qtbot, window, sender):
    from conftest import Refusal

    sender.refusal = Refusal("71 °C is below the pull at 78 °C.", Undo())
    press_digit(qtbot, window, 2)
    assert window.notices.notices[0].text == "71 °C is below the pull at 78 °C."
    sender.refusal = None
    qtbot.keyClick(window, Qt.Key.Key_Y)
    assert sender.sent[-1] == Undo()
    assert window.notices.notices == ()


def test_l_goes_round_the_themes(qtbot, window):
    seen = []
    for _ in THEMES:
        qtbot.keyClick(window, Qt.Key.Key_L)
        seen.append(window.palette_.name)
    assert seen == ["light", "contrast", "dark"]


def test_the_keys_drawer_does_what_its_keys_do(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_Question, SHIFT)
    undo = next(button for button in window.drawer.buttons if button.key == "Z")
    qtbot.mouseClick(undo, Qt.MouseButton.LeftButton)
    assert sender.sent == [Undo()]


# the same by tap


def test_a_tap_on_a_card_answers(qtbot, window, sender):
    qtbot.mouseClick(window.hands.cards[1], Qt.MouseButton.LeftButton)
    assert sender.sent == [HANDS[1].answer]


def test_the_second_tap_of_a_double_tap_does_nothing(qtbot, window, sender):
    card = window.hands.cards[0]
    qtbot.mouseClick(card, Qt.MouseButton.LeftButton)
    QApplication.sendEvent(card, _double_click())
    qtbot.mouseRelease(card, Qt.MouseButton.LeftButton, pos=QPoint(20, 20))
    assert sender.sent == [HANDS[0].answer]


def _double_click():
    left = Qt.MouseButton.LeftButton
    at = QPointF(20, 20)
    return QMouseEvent(QEvent.Type.MouseButtonDblClick, at, at, left, left, Qt.KeyboardModifier.NoModifier)


def test_sliding_off_a_card_before_letting_go_does_nothing(qtbot, window, sender):
    card = window.hands.cards[0]
    qtbot.mousePress(card, Qt.MouseButton.LeftButton, pos=card.rect().center())
    outside = card.rect().bottomLeft() * 3
    qtbot.mouseMove(card, outside)
    qtbot.mouseRelease(card, Qt.MouseButton.LeftButton, pos=outside)
    assert sender.sent == []


def test_a_tap_on_not_yet_gives_more_time(qtbot, make_window, sender):
    window = make_window(1920, 1080)
    assert window.hands.later[1].isVisible()
    qtbot.mouseClick(window.hands.later[1], Qt.MouseButton.LeftButton)
    assert sender.sent == [NotYet("Plum tart/bake")]


def test_the_button_beside_a_card_offers_all_else(qtbot, make_window, sender):
    window = make_window(1920, 1080)
    qtbot.mouseClick(window.hands.mores[0], Qt.MouseButton.LeftButton)
    assert [button.text() for button in window.drawer.buttons] == ["Done", "Put off", "Pass over", "Heard"]
    qtbot.mouseClick(window.drawer.buttons[1], Qt.MouseButton.LeftButton)
    assert sender.sent == [PutOff("job Baste the duck")]


def test_a_tap_on_a_strip_opens_its_drawer_with_all_its_acts(qtbot, window, sender):
    qtbot.mouseClick(window.bay.widgets["Red cabbage"], Qt.MouseButton.LeftButton)
    assert window.drawer.title == "Braised red cabbage with apples"
    assert [button.text() for button in window.drawer.buttons] == ["End the simmer now", "Drop the dish"]
    press_digit(qtbot, window, 2)
    assert sender.sent == [DropDish("Red cabbage")]


def test_enter_on_a_focused_strip_opens_its_drawer(qtbot, window):
    qtbot.keyClick(window.bay.widgets["Beans"], Qt.Key.Key_Return)
    assert window.drawer.title == "Runner beans"


def test_a_digit_works_while_a_strip_has_the_focus(qtbot, window, sender):
    qtbot.keyClick(window.bay.widgets["Beans"], Qt.Key.Key_1)
    assert sender.sent == [HANDS[0].answer]


def test_every_letter_of_the_foot_is_a_button_somewhere(qtbot, make_window):
    window = make_window(1024, 600)
    shown = {button.key for button in window.foot.buttons if button.isVisible()}
    qtbot.keyClick(window, Qt.Key.Key_Question)
    shown |= {button.key for button in window.drawer.buttons}
    assert shown == set("RTZH?POMDALFWKVS+-EB")


def test_a_number_that_stayed_is_replaced_by_the_next_one(qtbot, window):
    window.entry.open(Asked.READING, "the trout")
    qtbot.keyClicks(window.entry.line, "430")
    qtbot.keyClick(window.entry.line, Qt.Key.Key_Escape)
    window.entry.open(Asked.READING, "the trout")
    assert window.entry.line.text() == "430"
    qtbot.keyClicks(window.entry.line, "43")
    assert window.entry.line.text() == "43"


@pytest.mark.parametrize("tap", [False, True])
def test_yes_to_a_question_sends_its_answer_and_not_that_of_the_message_behind_it(qtbot, window, sender, tap):
    window.show_view(replace(SUPPER, notices=(OFFER,)))
    sender.refusal = Refusal("71 °C, after 17 °C before: is it right?", TakeReading("Trout/bake", 71.0))
    press_digit(qtbot, window, 1)
    sender.refusal = None
    line = window.notices.first()
    if tap:
        qtbot.mouseClick(line.take, Qt.MouseButton.LeftButton)
    else:
        qtbot.keyClick(window, Qt.Key.Key_Y)
    assert sender.sent == [HANDS[0].answer, TakeReading("Trout/bake", 71.0)]


def test_no_to_a_question_leaves_the_message_behind_it(qtbot, window, sender):
    window.show_view(replace(SUPPER, notices=(OFFER,)))
    sender.refusal = Refusal("71 °C, after 17 °C before: is it right?", TakeReading("Trout/bake", 71.0))
    press_digit(qtbot, window, 1)
    sender.refusal = None
    qtbot.keyClick(window, Qt.Key.Key_N)
    assert sender.sent == [HANDS[0].answer]
    assert [notice.key for notice in window.notices.notices] == [OFFER.key]


def test_a_question_about_the_last_act_takes_y_though_nobody_has_seen_that_sound_is_lost(qtbot, window, sender):
    lost = Notice("sound", "Sound lost: no sound device", Rank.DANGER, leave=HearAlarm("sound"), leave_word="Seen")
    window.show_view(replace(SUPPER, notices=(lost, OFFER)))
    sender.refusal = Refusal("17 °C is under the rule for poultry. End it now?", TakeReading("Trout/bake", 71.0))
    press_digit(qtbot, window, 1)
    sender.refusal = None
    qtbot.keyClick(window, Qt.Key.Key_Y)
    assert sender.sent == [HANDS[0].answer, TakeReading("Trout/bake", 71.0)]
    qtbot.keyClick(window, Qt.Key.Key_N)
    assert sender.sent[2:] == [HearAlarm("sound")]


def moved_up():
    """The first job was answered, and each of the others has the digit of the one before it."""
    return replace(SUPPER, hands=tuple(replace(item, digit=item.digit - 1) for item in HANDS[1:]))


@pytest.mark.parametrize("tap", [False, True])
def test_a_finger_that_touches_twice_does_not_answer_the_job_that_moved_up(qtbot, window, sender, tap):
    for _ in range(2):
        if tap:
            card = next(card for card in window.hands.cards if card.isVisible())
            qtbot.mouseClick(card, Qt.MouseButton.LeftButton)
        else:
            press_digit(qtbot, window, 1)
        window.show_view(moved_up())
    assert sender.sent == [HANDS[0].answer]


def test_a_digit_that_an_open_sheet_took_twice_answers_no_job_behind_it(qtbot, window, sender):
    qtbot.keyClick(window, Qt.Key.Key_P)
    press_digit(qtbot, window, 1)
    put_off = list(sender.sent)
    assert window.drawer.isHidden()
    press_digit(qtbot, window, 1)
    assert sender.sent == put_off


def test_not_yet_twice_does_not_put_off_the_job_that_moved_up(qtbot, window, sender):
    press_digit(qtbot, window, 1)
    window.show_view(moved_up())
    qtbot.keyClick(window, Qt.Key.Key_1, Qt.KeyboardModifier.ShiftModifier)
    assert sender.sent == [HANDS[0].answer]


def test_a_touch_of_another_digit_answers_at_once(qtbot, window, sender):
    press_digit(qtbot, window, 1)
    window.show_view(moved_up())
    press_digit(qtbot, window, 2)
    assert sender.sent == [HANDS[0].answer, HANDS[2].answer]
    press_digit(qtbot, window, 1)
    assert sender.sent[2:] == [HANDS[1].answer]


@pytest.mark.parametrize(("key", "said"), [("R", "Nothing that runs wants"), ("P", "nothing to put off")])
def test_digits_after_a_key_that_finds_nothing_start_and_end_no_job(qtbot, window, sender, key, said):
    """R and 43 typed blindly, by a cook with a probe in the other hand and nothing in the heat."""
    jobs = tuple(replace(item, wants_reading="", put_off=None) for item in HANDS)
    bare = tuple(replace(strip, acts=()) for strip in SUPPER.strips)
    window.show_view(replace(SUPPER, hands=jobs, strips=bare))
    qtbot.keyClick(window, Qt.Key(ord(key)))
    press_digit(qtbot, window, 1)
    press_digit(qtbot, window, 2)
    assert sender.sent == []
    assert said in window.drawer.title
    qtbot.keyClick(window, Qt.Key.Key_Escape)
    press_digit(qtbot, window, 1)
    assert sender.sent == [jobs[0].answer]


def later(seconds: int):
    return replace(SUPPER, axis=replace(SUPPER.axis, now=SUPPER.axis.now + seconds * 1000))


def test_what_asks_nothing_goes_by_itself_once_it_could_be_read(window):
    window.tell("There is nothing to put off.")
    window.show_view(later(9))
    assert [notice.text for notice in window.notices.notices] == ["There is nothing to put off."]
    window.show_view(later(10))
    assert window.notices.notices == ()


def test_that_an_act_was_not_done_stays_a_minute(window, sender):
    sender.refusal = Refusal("That moment is past already.")
    window.send(Undo())
    window.show_view(later(59))
    assert window.notices.notices[0].text == "That moment is past already."
    window.show_view(later(60))
    assert window.notices.notices == ()


def test_a_refusal_that_asks_stays_until_it_is_answered(window, sender):
    sender.refusal = Refusal("'Salt the pork' has not ended. End it now?", Undo())
    window.send(Undo())
    window.show_view(later(600))
    assert window.asks()


def test_closing_asks_first(make_window):
    window = make_window(closed=lambda: False)
    assert not window.close()


def test_danger_beats_the_border_and_calm_ends_it(window):
    window.show_view(troubled())
    assert window.ticker.running
    window.show_view(SUPPER)
    assert not window.ticker.running
