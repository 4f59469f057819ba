"""Keys and buttons for sound, voice and who answers; what is lost is shown once; painted is told once it is."""

from dataclasses import replace

import pytest
from fixtures import SUPPER, troubled
from PySide6.QtCore import QPoint, Qt

from timerboard.board.foot import FootLine
from timerboard.board.ticker import HALF_PERIOD_MS
from timerboard.core.alarm_values import Rank
from timerboard.core.commands import AnswerAs, HearAlarm, HeardTest, Louder, PlaySound, SwitchVoice
from timerboard.core.view_values import Notice

TEST = Notice(
    "hear-test",
    "A call was just played. Did you hear it?",
    Rank.NOTE,
    HeardTest(True),
    "yes",
    HeardTest(False),
    "no",
    PlaySound(),
    "play again",
)


@pytest.mark.parametrize(
    ("key", "command"),
    [
        ("v", SwitchVoice()),
        ("s", PlaySound()),
        ("+", Louder(1)),
        ("=", Louder(1)),
        ("-", Louder(-1)),
    ],
)
def test_one_key_does_it(qtbot, window, sender, key, command):
    qtbot.keyClicks(window, key)
    assert sender.sent == [command]


class TestHearTest:
    @pytest.mark.parametrize(("key", "command"), [("y", HeardTest(True)), ("n", HeardTest(False))])
    def test_yes_and_no_are_keys(self, qtbot, window, sender, key, command):
        window.show_view(replace(SUPPER, notices=(TEST,)))
        qtbot.keyClicks(window, key)
        assert sender.sent == [command]

    def test_play_again_is_a_button_beside_them_and_the_question_stands(self, qtbot, window, sender):
        window.show_view(replace(SUPPER, notices=(TEST,)))
        line = window.notices.lines[0]
        boxes = [line.take.geometry(), line.leave.geometry(), line.again.geometry()]
        assert boxes[0].right() < boxes[1].left()
        assert boxes[1].right() < boxes[2].left()
        assert line.rect().contains(boxes[2])
        assert line.again.height() >= window.foot.sizes.target
        qtbot.mouseClick(line.again, Qt.MouseButton.LeftButton)
        assert sender.sent == [PlaySound()]
        assert line.isVisible()


class TestWhoAnswers:
    def test_the_first_name_is_written(self, qtbot, window, sender):
        qtbot.keyClicks(window, "w")
        qtbot.keyClicks(window.entry.line, "Ana")
        qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
        assert sender.sent == [AnswerAs("Ana")]

    def test_or_tapped_as_a_letter(self, qtbot, window, sender):
        qtbot.keyClicks(window, "w")
        window.entry.tap("B")
        qtbot.keyClick(window.entry.line, Qt.Key.Key_Return)
        assert sender.sent == [AnswerAs("B")]

    def test_later_a_digit_is_enough(self, qtbot, window, sender):
        window.show_view(replace(SUPPER, names=("Ana", "Ben")))
        for keys in ("w2", "w3"):
            qtbot.keyClicks(window, keys)
        assert sender.sent == [AnswerAs("Ben"), AnswerAs("")]


def test_sound_lost_is_one_line_with_its_own_answer(window):
    lost = Notice(
        "lost sound", "Sound lost: no sound device", Rank.DANGER, leave=HearAlarm("lost sound"), leave_word="Seen"
    )
    foot = replace(SUPPER.foot, sound="no sound device", sound_ok=False)
    window.show_view(replace(SUPPER, foot=foot, notices=(lost,)))
    assert [n.text for n in window.notices.notices if n.rank is Rank.DANGER] == ["Sound lost: no sound device"]


def test_the_border_goes_on_and_off_at_two_flashes_a_second_at_most_and_stops_with_the_danger(qtbot, window):
    assert 1000 / (2 * HALF_PERIOD_MS) <= 2
    window.show_view(troubled())
    seen = set()
    qtbot.waitUntil(lambda: seen.add(window.grab().toImage().pixelColor(QPoint(1, 1)).name()) or len(seen) == 2)
    window.show_view(SUPPER)
    assert not window.ticker.running
    assert window.grab().toImage().pixelColor(QPoint(1, 1)).name() == window.palette_.ground.lower()


def test_painted_is_told_after_the_words_were_painted_and_not_when_they_were_given(qtbot, make_window, monkeypatch):
    happened = []
    paint = FootLine.paintEvent

    def watched(foot, event):
        paint(foot, event)
        happened.append(foot.foot.last)

    monkeypatch.setattr(FootLine, "paintEvent", watched)
    window = make_window(painted=lambda: happened.append("painted"))
    happened.clear()
    window.show_view(replace(SUPPER, foot=replace(SUPPER.foot, last="last: eggs set")))
    assert happened == []
    qtbot.waitUntil(lambda: "painted" in happened, timeout=20_000)
    assert happened[:2] == ["last: eggs set", "painted"]
